package app

import (
	"fmt"
	"image"
	"strings"

	"dryline/cmd/dryline-desk/look"
	"dryline/sim/course"
	"dryline/sim/exercise"
	"dryline/sim/survey"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/text/v2"
)

// cardOf is the card of an exercise.
func (c *Choose) cardOf(g *Game, ex *exercise.Exercise) *card {
	l := g.Look
	k := &card{sketch: c.sketches.of(ex, ex.Seed), level: difficulty(ex.Name), prose: ex.Goals}
	k.facts = append(k.facts, said{timeAndPass(ex), l.Ink})
	if s, ok := g.standing(ex.Name, ex.Hash); ok {
		k.facts = append(k.facts, said{bestSays(s), l.Ink})
	}
	return k
}

// timeAndPass says how long there is and how many points pass.
func timeAndPass(ex *exercise.Exercise) string {
	return fmt.Sprintf("%.0f min; %.0f points pass", ex.Plan.TimeLimit/60, ex.Score.Pass)
}

// bestSays is how the person stands to a step of the course, in a few words.
func bestSays(s course.Standing) string {
	best := ""
	if s.Attempts > 0 {
		best = "best " + survey.Percent(s.Best, 0)
	}
	switch {
	case s.State == course.Passed:
		return "Passed, " + best
	case s.State == course.DueOnce:
		return "To be shown again, " + best
	case s.State == course.Decide:
		return "Instructor decides, " + best
	case best != "":
		return "Not passed yet, " + best
	case s.State == course.Locked:
		return "Later in the course"
	}
	return "Not tried yet"
}

// open lays out the card that is chosen, opened to its briefing. What does not fit is
// lettered smaller; what it trains for a standard is left out first.
func (c *Choose) open(g *Game) {
	l, ex := g.Look, c.chosen()
	for _, try := range []struct {
		chart  float64 // its share of the pane
		face   text.Face
		trains bool
	}{{0.7, l.Body, true}, {0.58, l.Body, true}, {0.46, l.Body, true}, {0.46, l.Body, false}, {0.4, l.Small, false}} {
		in := c.text.Inset(l.Px(14))
		var says image.Rectangle
		c.chart, says = chartOf(in, ex.Seabed.East/max(ex.Seabed.North, 1), try.chart, l)
		beside := c.chart.Union(says)
		if beside.Dx() == in.Dx() { // the chart lies over the lettering
			in.Min.Y, beside = beside.Max.Y+l.Px(8), image.Rectangle{}
		}
		c.opened = newColumn(l, in, beside)
		c.letter(g, c.opened, ex, try.face, try.trains)
		if !c.opened.over() {
			return
		}
	}
}

// drawOpened draws it.
func (c *Choose) drawOpened(g *Game, dst *ebiten.Image) {
	l, ex := g.Look, c.chosen()
	look.Fill(dst, c.text, l.Panel)
	s := c.sketches.of(ex, ex.Seed)
	frame := s.draw(dst, c.chart, l, sketched{names: true})
	s.letter(dst, frame, l)
	c.opened.draw(dst.SubImage(c.text).(*ebiten.Image))
}

// chartOf is where the chart of a ground that is so much broader than tall lies, and what is
// said under it: over the lettering on a tall pane, of which it may have a share, and beside
// it on a broad one.
func chartOf(in image.Rectangle, shape, share float64, l *look.Look) (chart, says image.Rectangle) {
	under := int(3*look.Tall(l.Small)) + l.Px(6)
	tall := int(float64(in.Dy())*share) - under
	if in.Dy() > in.Dx()*13/10 {
		chart = image.Rect(in.Min.X, in.Min.Y, in.Max.X, in.Min.Y+min(int(float64(in.Dx())/shape), tall))
	} else {
		wide := max(min(int(float64(tall)*shape), in.Dx()*45/100), l.Px(150))
		chart = image.Rect(in.Max.X-wide, in.Min.Y, in.Max.X, in.Min.Y+min(tall, int(float64(wide)/shape)))
	}
	return chart, image.Rect(chart.Min.X, chart.Max.Y, chart.Max.X, chart.Max.Y+under)
}

// letter letters what there is to read of an exercise.
func (c *Choose) letter(g *Game, f *column, ex *exercise.Exercise, face text.Face, trains bool) {
	l := g.Look
	f.say(ex.Title, l.Title, l.Ink, 0)
	f.say(ex.Place.Name, face, l.Soft, 0)
	if level := difficulty(ex.Name); level > 0 {
		f.level(level, face)
	}
	f.say(fmt.Sprintf("%.0f minutes at most; %.0f of 100 points pass it.", ex.Plan.TimeLimit/60, ex.Score.Pass), face, l.Ink, 0)
	if s, ok := g.standing(ex.Name, ex.Hash); ok {
		f.say(standingSays(s), face, l.Ink, 0)
	}
	f.skip(8)
	for _, p := range strings.Split(strings.TrimSpace(ex.Briefing), "\n\n") {
		f.say(p, face, l.Ink, 0)
		f.skip(6)
	}
	f.skip(2)
	f.say("What you learn", l.Strong, l.Ink, 0)
	for _, goal := range ex.Goals {
		f.item(goal, face, l.Ink)
	}
	if trains && len(ex.Trains) > 0 {
		f.skip(8)
		f.say("It supports practice towards", l.Strong, l.Ink, 0)
		for _, t := range ex.Trains {
			f.item(t, face, l.Soft)
		}
	}
}
