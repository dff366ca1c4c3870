package app

import (
	"fmt"
	"image"
	"image/color"
	"strings"

	"dryline/cmd/dryline-desk/look"
	"dryline/sim/coach"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/text/v2"
)

// drawWatchPage letters the coach's hints, what has gone wrong, and how far the
// lines are.
func drawWatchPage(g *Game, w *Watch, dst *ebiten.Image, r image.Rectangle) {
	l, v := g.Look, w.view
	pane := dst.SubImage(r).(*ebiten.Image)
	y := float64(r.Min.Y)
	x, wide := float64(r.Min.X), float64(r.Dx())
	paragraph := func(s string, f text.Face, c color.Color, indent float64) {
		lines := wrapped(s, f, wide-indent)
		if y+float64(len(lines))*(look.Tall(f)+float64(l.Px(1))) > float64(r.Max.Y) {
			y = float64(r.Max.Y) // no room for it, nor for what comes after
			return
		}
		for _, line := range lines {
			look.Write(pane, line, f, x+indent, y, c, look.Left)
			y += look.Tall(f) + float64(l.Px(1))
		}
	}
	if fault := v.Fix.Fault; fault != "" {
		paragraph("Fish position: "+fault, l.Small, l.Alarm, 0)
		y += float64(l.Px(4))
	}
	for _, h := range v.Hints {
		c, word := l.Ink, "Note"
		switch h.Severity {
		case coach.Caution:
			c, word = l.Caution, "Caution"
		case coach.Alarm:
			c, word = l.Alarm, "Alarm"
		}
		top := y
		paragraph(word, l.Strong, c, float64(l.Px(10)))
		paragraph(h.Text, l.Body, l.Ink, float64(l.Px(10)))
		if y >= float64(r.Max.Y) {
			return
		}
		look.Fill(pane, image.Rect(r.Min.X, int(top)+l.Px(1), r.Min.X+l.Px(4), int(y)-l.Px(1)), c)
		y += float64(l.Px(6))
	}
	if len(v.Hints) == 0 {
		says := "All well."
		if !w.exercise.Help.Coach {
			says = "This exercise is run without a coach."
		} else if !g.Settings.Hints {
			says = "The coach is switched off."
		}
		paragraph(says, l.Body, l.Soft, 0)
		y += float64(l.Px(6))
	}
	if len(v.Lines) == 0 && v.Bridge.Logging == "" {
		paragraph("To begin: Enter steers to the line; L starts the log when the fish comes to it. F1 shows all keys.", l.Body, l.Ink, 0)
		y += float64(l.Px(6))
	}
	done := map[string]bool{}
	for _, n := range v.Lines {
		done[n] = true
	}
	paragraph("Lines", l.Strong, l.Ink, 0)
	var list []string
	for _, line := range w.exercise.Lines {
		state := "to do"
		switch {
		case v.Bridge.Logging == line.Name:
			state = "logging"
		case done[line.Name]:
			state = "done"
		}
		list = append(list, line.Name+" "+state)
	}
	paragraph(strings.Join(list, ", ")+".", l.Body, l.Ink, 0)
	left := w.exercise.Plan.TimeLimit - v.Now
	paragraph(fmt.Sprintf("%.0f minutes left.", left/60), l.Body, l.Soft, 0)
	if n := len(v.Bridge.Alarms); n > 0 {
		y += float64(l.Px(6))
		paragraph("Mishaps", l.Strong, l.Alarm, 0)
		for _, h := range v.Bridge.Alarms[max(n-4, 0):] {
			paragraph(fmt.Sprintf("%s %s.", w.exercise.Start.Add(seconds(h.Time)).Format("15:04:05"), h.Says), l.Small, l.Ink, 0)
		}
	}
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
