package app

import (
	"fmt"
	"strconv"
	"strings"

	"dryline/cmd/dryline-desk/look"
	"dryline/scenarios"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/text/v2"
)

// Draw implements [Screen].
func (p *Practice) Draw(g *Game, dst *ebiten.Image) {
	l := g.Look
	x := float64(l.Px(20))
	look.Write(dst, "Free practice", l.Title, x, float64(l.Px(12)), l.Ink, look.Left)
	look.Write(dst, p.exercise.Title, l.Body, x+look.Wide("Free practice", l.Title)+float64(l.Px(16)), float64(l.Px(20)), l.Soft, look.Left)
	p.drawAhead(dst, l)
	p.drawSide(dst, l)
	look.Fill(dst, p.text, l.Panel)
	p.drawRose(dst, l)
	p.words(l).draw(dst.SubImage(p.text).(*ebiten.Image))
}

// words lays out what there is to say: what will not do, what the value under the pointer is,
// what the figures come to. What does not fit is left out from the end, and said to be.
func (p *Practice) words(l *look.Look) *column {
	face := text.Face(l.Small)
	if p.text.Dy() > l.Px(190) {
		face = l.Body
	}
	c := newColumn(l, p.text.Inset(l.Px(10)), p.rose)
	room := func(s string, keep float64) bool {
		tall := float64(len(wrapped(s, face, c.width(face)))) * (look.Tall(face) + float64(l.Px(2)))
		return c.y+tall+keep <= float64(c.at.Max.Y+l.Px(2))
	}
	row := look.Tall(face) + float64(l.Px(2))
	if len(p.faults) > 0 {
		c.say("The exercise cannot begin like this", l.Strong, l.Alarm, 0)
		for i, f := range p.faults {
			keep := row // for how many more there are
			if i+1 == len(p.faults) {
				keep = 0
			}
			if !room(f, keep) {
				c.say(fmt.Sprintf("%d more", len(p.faults)-i), face, l.Alarm, 0)
				return c
			}
			c.say(f, face, l.Alarm, 0)
		}
		c.skip(6)
	}
	var says []string
	if p.about >= 0 {
		f := &p.fields[p.about]
		if room(f.Label, 3*row) {
			c.say(f.Label, l.Strong, l.Ink, 0)
			says = explains(f)
		}
	}
	for _, s := range says {
		if !room(s, 0) {
			return c
		}
		c.say(s, face, l.Ink, 0)
	}
	c.skip(6)
	for _, s := range append(p.drawn.says(), "The mate's plan, the lines and the floor stay as they are; score and debrief work as ever.") {
		if room(s, 0) {
			c.say(s, face, l.Ink, 0)
		}
	}
	return c
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
