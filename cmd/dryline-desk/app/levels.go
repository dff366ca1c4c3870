package app

import (
	"fmt"
	"math"

	"dryline/cmd/dryline-desk/crew"
)

// levels are the grey values between which a channel's picture is spread: they
// follow the record of the floor slowly, so that sand and mud alike show their
// texture, shadows come out dark and strong echoes bright.
type levels struct {
	count     [256]float64 // of the grey values of late, by value
	total     float64
	low, high float64 // grey, 0..1; both 0 before there is a record
	rows      int
}

const (
	levelRows   = 600  // rows that the levels look back over, about: our own choice, as are
	levelEvery  = 16   // how often they are read off,
	levelEase   = 0.15 // what share of the way they go each time,
	levelLow    = 0.02 // the share of the record darker than the lower
	levelHigh   = 1.75 // how far beyond the middle the upper is, in ways to the ninth tenth
	levelNarrow = 0.25 // and how near they come to each other
)

// learn takes a ping's echoes from beyond the bottom into a channel's levels.
func (l *levels) learn(p *crew.Ping, channel int) {
	if !p.Locked || channel >= len(p.Rows) || p.RangeScale <= 0 {
		return
	}
	const keep = 1 - 1.0/levelRows
	for i := range l.count {
		l.count[i] *= keep
	}
	l.total *= keep
	for _, side := range p.Rows[channel] {
		first := min(int(1.05*p.Height/p.RangeScale*float64(len(side)))+1, len(side))
		for _, v := range side[first:] {
			if v > 0 {
				l.count[v]++
				l.total++
			}
		}
	}
	l.rows++
	if l.rows%levelEvery != 1 || l.total == 0 {
		return
	}
	// The upper by the bulk of the record: a wreck or a glaring row is no floor.
	low, middle := l.share(levelLow), l.share(0.5)
	high := middle + levelHigh*(l.share(0.9)-middle)
	if short := levelNarrow - (high - low); short > 0 {
		low, high = low-short/2, high+short/2
	}
	if l.high == 0 {
		l.low, l.high = low, high
	}
	l.low += levelEase * (low - l.low)
	l.high += levelEase * (high - l.high)
}

// share is the grey value that a share of the record is darker than.
func (l *levels) share(of float64) float64 {
	sum := 0.0
	for v, n := range l.count {
		if sum += n; sum >= of*l.total {
			return float64(v) / 255
		}
	}
	return 1
}

// cutOff is the share of the record at full scale from which on the heading says
// so: our own choice.
const cutOff = 0.02

// toneSays letters what the record lost at full scale and how its picture is made
// other than usual.
func (w *Watch) toneSays(g *Game, channel int) string {
	says := ""
	if all := w.view.Levels; channel < len(all) && all[channel].Clipped > cutOff {
		says = fmt.Sprintf(", cut off %.0f %%", 100*all[channel].Clipped)
	}
	if w.asRecorded {
		says += ", as recorded"
	}
	if by := math.Round(100 * w.brightness); by != 0 {
		says += fmt.Sprintf(", brightness %+.0f %%", by)
	}
	if c := g.Settings.Contrast; math.Abs(c-DefaultSettings().Contrast) > 0.01 {
		says += fmt.Sprintf(", contrast %.1f", c)
	}
	return says
}

// tone makes the sonar pictures darker or brighter by a step, or gives them less
// or more contrast.
func (w *Watch) tone(g *Game, by float64, contrast bool) {
	if contrast {
		g.Change(func(s *Settings) { s.Contrast = min(max(s.Contrast+0.1*by, 0.4), 3) })
		return
	}
	w.brightness = min(max(w.brightness+0.03*by, -0.45), 0.45)
}
