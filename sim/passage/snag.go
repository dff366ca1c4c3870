package passage

import (
	"math"

	"dryline/sim/exercise"
	"dryline/vessel/tow"
)

const (
	catches  = 0.5   // metres off the tow at which a line catches: half the span of the fins, our own choice
	stretch  = 0.2   // of its length that a rope of polypropylene takes before it breaks: common practice, no source
	slackFor = 8.0   // seconds without strain after which the line falls off: our own choice, as is
	strain   = 100.0 // N, that it takes to hold on
	hurts    = 3000  // N that the fish bears at its tow point unharmed: our own choice
	hurtIn   = 30.0  // seconds at twice that until it is ruined
	dragsFor = 120.0 // metres that it is dragged until it is ruined: our own choice
)

// fouling is a line that the tow has caught.
type fouling struct {
	snag  *exercise.Snag
	near  float64 // how near to it the fish has come, metres
	fast  bool    // the line has slid down the cable to the fish
	taut  bool    // it has been
	slack float64 // seconds since
}

// foul catches, holds and lets go of lines from the floor to the surface. A line that
// the cable meets slides down it until the fish comes to it, and holds the fish from
// then on: until it breaks, or has been slack for a while.
func (p *Passage) foul() {
	g, t := p.gear, &p.trouble
	if t.fouled == nil {
		p.catch()
		return
	}
	f := t.fouled
	if !f.fast {
		away := math.Hypot(g.X-f.snag.X, g.Y-f.snag.Y)
		if away <= f.near && away > catches {
			f.near = away
			return
		}
		f.fast = true
		bottom := p.floor.HeightAt(f.snag.X, f.snag.Y) - p.weather.surface
		g.SetHold(&tow.Hold{At: [3]float64{f.snag.X, f.snag.Y, bottom}, Length: max(f.snag.Line, 1), EA: f.snag.Breaks / stretch})
	}
	pull := g.HoldPull()
	if over := pull/hurts - 1; over > 0 {
		p.harm(min(over, 4) / hurtIn * Tick)
	}
	t.aground += Tick // it is held by something, as by the floor
	f.slack += Tick
	if pull > strain {
		f.taut, f.slack = true, 0
	}
	loose := f.slack >= slackFor
	if !f.taut { // it has yet to come taut, with way on
		loose = f.slack >= 60
	}
	switch {
	case pull > f.snag.Breaks:
		p.note(TornFree, f.snag.Name, pull)
		p.harm(0.2)
	case loose:
		p.note(ComeFree, f.snag.Name, g.Tension)
	default:
		return
	}
	g.SetHold(nil)
	t.fouled = nil
	t.passed = append(t.passed, f.snag)
}

// catch looks whether the tow has met a line.
func (p *Passage) catch() {
	g, t := p.gear, &p.trouble
	for i := range p.ex.Snags {
		s := &p.ex.Snags[i]
		if p.lost(s) || math.Hypot(g.X-s.X, g.Y-s.Y) > 2*g.CableOut+10 {
			continue
		}
		if off, _ := g.Nearest(s.X, s.Y); off < catches {
			t.fouled = &fouling{snag: s, near: math.Inf(1)}
			p.note(Snagged, s.Name, g.Tension)
			return
		}
	}
}

// lost reports whether a line is no more: what fouled the tow once is hauled clear.
func (p *Passage) lost(s *exercise.Snag) bool {
	for _, passed := range p.trouble.passed {
		if passed == s {
			return true
		}
	}
	return false
}

// harm damages the fish by a share of what ruins it.
func (p *Passage) harm(share float64) {
	t := &p.trouble
	was := t.damage
	t.damage = min(was+share, 1)
	switch {
	case was < damaged && t.damage >= damaged:
		p.note(Damaged, "", t.damage)
	case was < 1 && t.damage == 1:
		p.note(Ruined, "", t.damage)
	}
}
