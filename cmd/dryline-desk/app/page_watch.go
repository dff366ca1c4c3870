package app

import (
	"fmt"
	"image"
	"image/color"
	"slices"
	"strings"

	"dryline/cmd/dryline-desk/look"
	"dryline/sim/coach"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/text/v2"
)

// remark is a thing said on the page of the watch: a heading, and its text under
// it.
type remark struct {
	head, text string
	ink        color.Color // of the heading
	face       text.Face   // of the text
	soft       bool
	barred     bool // a bar in the heading's colour stands before it
}

// drawWatchPage letters how far the lines are, the coach's hints and what has
// gone wrong, in that order: what finds no room is counted at the foot. The
// coach's first hint, the most severe, is always there.
func drawWatchPage(g *Game, w *Watch, dst *ebiten.Image, r image.Rectangle) {
	l := g.Look
	pane := dst.SubImage(r).(*ebiten.Image)
	fixed := remark{head: "Lines", ink: l.Ink, text: w.linesSay(), face: l.Body}
	gap := l.Px(6)
	y := fixed.draw(pane, r, r.Min.Y, l, r.Dy()) + gap
	if says := w.nextStep(); says != "" {
		y = (&remark{text: says, face: l.Body}).draw(pane, r, y, l, r.Dy()) + gap
	}
	list := w.remarks(g)
	more := int(look.Tall(l.Small)) + l.Px(2)
	for i, m := range list {
		free := r.Max.Y - y
		if left := len(list) - 1 - i; left > 0 {
			free -= gap + more
		}
		if i > 0 && m.tall(l, r.Dx()) > free {
			look.Write(pane, fmt.Sprintf("%d more", len(list)-i), l.Small, float64(r.Min.X), float64(y), l.Soft, look.Left)
			return
		}
		y = m.draw(pane, r, y, l, free) + gap
	}
}

// remarks returns what there is to say, the weightiest first.
func (w *Watch) remarks(g *Game) []remark {
	l, v, hints := g.Look, w.view, w.hints(g)
	var list []remark
	for _, h := range hints {
		m := remark{head: "Note", ink: l.Ink, text: h.Text, face: l.Body, barred: true}
		switch h.Severity {
		case coach.Caution:
			m.head, m.ink = "Caution", l.Caution
		case coach.Alarm:
			m.head, m.ink = "Alarm", l.Alarm
		}
		list = append(list, m)
	}
	if fault := v.Fix.Fault; fault != "" {
		list = slices.Insert(list, min(len(list), 1), remark{head: "Fish position", ink: l.Alarm, text: fault, face: l.Small})
	}
	list = append(list, w.incidents(l, len(hints) > 0)...)
	if len(hints) == 0 {
		says := w.dials.notCalm()
		if says == "" && len(w.view.Bridge.Traffic) > 0 {
			says = "Keep an eye on the traffic."
		}
		if says == "" {
			says = "All well."
		}
		if !w.brief.Help.Coach {
			says = "This exercise is run without a coach."
		} else if !g.Settings.Hints {
			says = "The coach is switched off."
		}
		list = append(list, remark{text: says, face: l.Body, soft: true})
	}
	for i, h := range slices.Backward(v.Bridge.Alarms) {
		m := remark{text: fmt.Sprintf("%s %s.", w.brief.Start.Add(seconds(h.Time)).Format("15:04:05"), h.Says), face: l.Small}
		if i == len(v.Bridge.Alarms)-1 {
			m.head, m.ink = "Mishaps", l.Alarm
		}
		list = append(list, m)
	}
	return list
}

func (m *remark) indent(l *look.Look) int {
	if m.barred {
		return l.Px(10)
	}
	return 0
}

// rowTall is the height of a row of lettering.
func rowTall(l *look.Look, f text.Face) int { return int(look.Tall(f)) + l.Px(1) }

func (m *remark) lines(l *look.Look, wide int) []string {
	return wrapped(m.text, m.face, float64(wide-m.indent(l)))
}

// tall is the height it needs at a width.
func (m *remark) tall(l *look.Look, wide int) int {
	tall := len(m.lines(l, wide)) * rowTall(l, m.face)
	if m.head != "" {
		tall += rowTall(l, l.Strong)
	}
	return tall
}

// draw letters it from y down, no taller than is free, and returns where it ends.
func (m *remark) draw(dst *ebiten.Image, r image.Rectangle, y int, l *look.Look, free int) int {
	top, x := y, r.Min.X+m.indent(l)
	write := func(s string, f text.Face, c color.Color) {
		look.Write(dst, s, f, float64(x), float64(y), c, look.Left)
		y += rowTall(l, f)
	}
	if m.head != "" {
		write(m.head, l.Strong, m.ink)
	}
	ink := l.Ink
	if m.soft {
		ink = l.Soft
	}
	lines := m.lines(l, r.Dx())
	if fit := max((free-(y-top))/rowTall(l, m.face), 1); len(lines) > fit {
		lines = lines[:fit]
		lines[fit-1] = look.Fitted(lines[fit-1]+" ...", m.face, r.Max.X-x)
	}
	for _, line := range lines {
		write(line, m.face, ink)
	}
	if m.barred {
		look.Fill(dst, image.Rect(r.Min.X, top+l.Px(1), r.Min.X+l.Px(4), y-l.Px(1)), m.ink)
	}
	return y
}

// wrapped breaks a paragraph into lines no wider than a width.
func wrapped(s string, f text.Face, wide float64) []string {
	var lines []string
	for _, paragraph := range strings.Split(s, "\n") {
		line := ""
		for _, word := range strings.Fields(paragraph) {
			try := word
			if line != "" {
				try = line + " " + word
			}
			if line != "" && look.Wide(try, f) > wide {
				lines = append(lines, line)
				try = word
			}
			line = try
		}
		lines = append(lines, line)
	}
	return lines
}
