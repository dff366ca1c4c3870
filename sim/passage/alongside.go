package passage

import (
	"errors"

	"dryline/sim/exercise"
)

// What is done to the fish while it hangs alongside: our own choice.
const (
	alongside = 3.0  // metres of cable beyond the shortest
	rubTakes  = 4.0  // seconds
	mendTakes = 90.0 // seconds
)

// RefuseAlongside implements [order.Ship].
func (p *Passage) RefuseAlongside() error {
	if p.gear.CableOut > p.ex.Tow.Winch.Min+alongside {
		return errors.New("the fish is not alongside: haul it in first")
	}
	return nil
}

// Rub implements [order.Ship]: a hand rubs the transducers of a side, which hears it.
func (p *Passage) Rub(side exercise.Beam) {
	p.Happen(exercise.Event{Kind: exercise.Rubbed, For: rubTakes, Side: side})
}

// Mend implements [order.Ship]: plugs and leads are seen to, and whatever ails the
// channels is over when that is done.
func (p *Passage) Mend() {
	p.mended = p.Now() + mendTakes
	for _, e := range p.events.on {
		if e.Kind.OfChannels() {
			e.To = min(e.To, p.mended)
		}
	}
}

// alongsideNow and mending are what the crew sees of it.
func (p *Passage) alongsideNow() bool { return p.RefuseAlongside() == nil }

func (p *Passage) mending() bool { return p.mended > 0 && p.Now() < p.mended }
