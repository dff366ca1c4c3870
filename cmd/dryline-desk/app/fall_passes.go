package app

import (
	"math"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/survey"
)

// crossing is where the place of a contact falls in a ping it was not marked in.
type crossing struct {
	ping      uint64
	slant     float64 // metres
	starboard bool
}

// passes are those of one contact among the pings held.
type passes struct {
	x, y float64 // of the contact, for which they were found
	upTo uint64  // ping gone through
	list []crossing
}

const (
	passApart = 100  // pings between two passes: places jump about. Our own choice, as is
	passNear  = 10.0 // how near the ping's plane comes to the contact, metres.
)

// passesOf brings the passes of a contact up to date and returns them.
func (w *waterfall) passesOf(c *survey.Contact) []crossing {
	if w.passed == nil {
		w.passed = map[int]*passes{}
	}
	p := w.passed[c.Number]
	if p == nil || p.x != c.X || p.y != c.Y {
		p = &passes{x: c.X, y: c.Y}
		w.passed[c.Number] = p
	}
	if len(w.history) == 0 {
		return p.list
	}
	first, last := w.history[0].Number, w.history[len(w.history)-1].Number
	from := 1
	if p.upTo > first {
		from = int(min(p.upTo-first, uint64(len(w.history)-1))) + 1
	}
	for i := from; i < len(w.history); i++ {
		at, ok := crosses(&w.history[i-1], &w.history[i], c)
		if n := len(p.list); ok && (n == 0 || at.ping-p.list[n-1].ping >= passApart) {
			p.list = append(p.list, at)
		}
	}
	p.upTo = last
	return p.list
}

// crosses is the crossing of a contact by the plane of a ping on from the one before,
// if it comes near enough to see it.
func crosses(a, b *crew.Ping, c *survey.Contact) (crossing, bool) {
	if b.Height <= 0 || a.Fix.Fault != "" || b.Fix.Fault != "" {
		return crossing{}, false
	}
	before, _ := offset(&a.Fix, c)
	now, across := offset(&b.Fix, c)
	slant := math.Hypot(across, b.Height)
	if (before > 0) == (now > 0) || max(math.Abs(before), math.Abs(now)) > passNear || slant > b.RangeScale {
		return crossing{}, false
	}
	return crossing{b.Number, slant, across > 0}, true
}

// offset is how far ahead of a fix and to its right a contact lies, metres.
func offset(f *survey.Fix, c *survey.Contact) (ahead, right float64) {
	sin, cos := math.Sincos(f.Heading)
	dx, dy := c.X-f.X, c.Y-f.Y
	return dx*sin + dy*cos, dx*cos - dy*sin
}

// sighting is where a contact was marked, if its ping is held.
func (w *waterfall) sighting(c *survey.Contact) (crossing, bool) {
	p, ok := w.pinged(c.Ping)
	if !ok || c.Range == 0 {
		return crossing{}, false
	}
	return crossing{c.Ping, math.Hypot(c.Range, p.Height), c.Side != "port"}, true
}

// pinged is a ping by its number, if its row is held.
func (w *waterfall) pinged(number uint64) (*crew.Ping, bool) {
	if len(w.history) == 0 || number < w.history[0].Number {
		return nil, false
	}
	n := number - w.history[0].Number
	if n >= uint64(len(w.history)) || w.history[n].Number != number {
		return nil, false
	}
	return &w.history[n], true
}

// spotOf is the bin and the age of a pass in the waterfall.
func (w *waterfall) spotOf(s crossing) (bin, age float64, ok bool) {
	p, ok := w.pinged(s.ping)
	if !ok {
		return 0, 0, false
	}
	share := s.slant / p.RangeScale
	if !s.starboard {
		share = -share
	}
	return (1 + share) * panes.RowBins, float64(w.history[len(w.history)-1].Number-s.ping) + 0.5, true
}

// lookAt turns the waterfall to where a contact was marked, or else to where she
// passed it last, if that is held and not in sight.
func (w *waterfall) lookAt(c *survey.Contact) {
	at, ok := w.sighting(c)
	if !ok {
		list := w.passesOf(c)
		if len(list) == 0 {
			return
		}
		at = list[len(list)-1]
	}
	bin, age, ok := w.spotOf(at)
	if !ok || w.pane.Empty() {
		return
	}
	r := w.shown()[0].r
	v := w.part(r)
	if rows := float64(r.Dy()) / v.PerRow; age < v.Newest || age > v.Newest+rows {
		w.looking.scrolled = age - rows/2
	}
	if wide := float64(r.Dx()) / v.PerBin; bin < v.Left || bin > v.Left+wide {
		w.looking.across = bin - panes.RowBins
	}
	w.keepInside(r)
}
