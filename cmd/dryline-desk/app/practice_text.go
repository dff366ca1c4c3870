package app

import (
	"fmt"
	"strconv"
	"strings"

	"dryline/cmd/dryline-desk/look"
	"dryline/scenarios"

	"github.com/hajimehoshi/ebiten/v2"
)

// Draw implements [Screen].
func (p *Practice) Draw(g *Game, dst *ebiten.Image) {
	l := g.Look
	x := float64(l.Px(20))
	look.Write(dst, "Free practice", l.Title, x, float64(l.Px(12)), l.Ink, look.Left)
	look.Write(dst, p.exercise.Title, l.Body, x+look.Wide("Free practice", l.Title)+float64(l.Px(16)), float64(l.Px(20)), l.Soft, look.Left)
	look.Fill(dst, p.text, l.Panel)
	pane := dst.SubImage(p.text).(*ebiten.Image)
	y := float64(p.text.Min.Y + l.Px(12))
	left, wide := float64(p.text.Min.X+l.Px(12)), float64(p.text.Dx()-l.Px(24))
	say := func(s string, alarm bool) {
		c := l.Ink
		if alarm {
			c = l.Alarm
		}
		for _, line := range wrapped(s, l.Body, wide) {
			look.Write(pane, line, l.Body, left, y, c, look.Left)
			y += look.Tall(l.Body) + float64(l.Px(1))
		}
		y += float64(l.Px(8))
	}
	if len(p.faults) == 0 && p.about < 0 {
		say("Change what you like and begin. The mate's plan, the lines and the floor stay as they are; score and debrief work as ever.", false)
		return
	}
	title := func(s string, alarm bool) {
		c := l.Ink
		if alarm {
			c = l.Alarm
		}
		look.Write(pane, s, l.Strong, left, y, c, look.Left)
		y += look.Tall(l.Strong) + float64(l.Px(6))
	}
	if p.about >= 0 {
		f := &p.fields[p.about]
		title(f.Label, false)
		for _, s := range explains(f) {
			say(s, false)
		}
	}
	if len(p.faults) == 0 {
		return
	}
	title("The exercise cannot begin like this", true)
	for i, f := range p.faults {
		if tall := float64(len(wrapped(f, l.Body, wide)))*(look.Tall(l.Body)+float64(l.Px(1))) + look.Tall(l.Body); i > 0 && y+tall > float64(p.text.Max.Y) {
			say(fmt.Sprintf("%d more", len(p.faults)-i), true)
			return
		}
		say(f, true)
	}
}

// explains says what a value is, what it may be and what it was.
func explains(f *scenarios.Field) []string {
	says := []string{f.Doc}
	if f.Number {
		number := func(v float64) string { return strconv.FormatFloat(v, 'g', 6, 64) }
		says = append(says, fmt.Sprintf("From %s to %s %s.", number(f.Min), number(f.Max), f.Unit))
	}
	if len(f.Choices) > 0 {
		var all []string
		for _, c := range f.Choices {
			all = append(all, spoken(c))
		}
		says = append(says, "One of: "+strings.Join(all, ", ")+".")
	}
	return append(says, "In the exercise: "+strings.TrimSpace(spoken(f.Value)+" "+f.Unit)+".")
}

// spoken is a value of an exercise file as people say it.
func spoken(v string) string {
	switch v {
	case "true":
		return "yes"
	case "false":
		return "no"
	}
	words := strings.Split(v, "_")
	for i, word := range words {
		for _, unit := range []string{"mm", "kg", "m"} {
			if n, ok := strings.CutSuffix(word, unit); ok && n != "" && strings.Trim(n, "0123456789") == "" {
				words[i] = n + " " + unit
				break
			}
		}
	}
	return strings.Join(words, " ")
}
