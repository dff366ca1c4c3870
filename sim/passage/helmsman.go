package passage

import (
	"math/rand/v2"

	"dryline/seabed/chance"
	"dryline/seabed/units"
	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/vessel/nav/geodesy"
)

// How long it takes from an order to its read-back, and to its being carried out,
// seconds: our own choice, so that who listens has time to belay it.
const (
	readsBack = 1.5
	actsFrom  = 6.0
	actsUntil = 8.0
)

// helmsman is the hand at the wheel and the one at the winch, who are spoken to.
type helmsman struct {
	chance  *rand.Rand
	mishear float64 // share of orders misheard

	heard  order.Spoken // taken it for
	waits  bool         // to be carried out
	said   string
	readAt float64 // seconds
	actAt  float64
}

// Helmsman holds what the crew hears of it.
type Helmsman struct {
	Said     string  // the last order
	ReadBack string  // what it was taken for, empty until it is read back
	Due      float64 // when it is carried out, seconds; 0 when it has been, or was belayed
}

func newHelmsman(h exercise.Help, seed uint64) helmsman {
	return helmsman{chance: chance.Stream(seed, "helmsman"), mishear: h.Mishears}
}

// Say implements [order.Ship]. A new order takes the place of one that waits; belay
// drops it.
func (p *Passage) Say(text string) {
	s, err := order.Hear(p.brief, text)
	if err != nil {
		return // an order that makes no sense is not sound
	}
	h, now := &p.crew, p.Now()
	h.said, h.readAt = text, now+readsBack
	if s.Phrase == order.SayBelay {
		h.heard, h.waits = s, false
		return
	}
	wrong, how, lag := h.chance.Float64(), h.chance.Float64(), h.chance.Float64()
	if wrong < h.mishear {
		s = s.Misheard(p.brief, how)
	}
	h.heard, h.waits, h.actAt = s, true, now+actsFrom+(actsUntil-actsFrom)*lag
}

// heed carries out the order that waits when its time has come.
func (p *Passage) heed() {
	h := &p.crew
	if !h.waits || p.Now() < h.actAt {
		return
	}
	h.waits = false
	s, gear := &h.heard, p.gear
	wind := func(to float64) { gear.Ordered = min(max(to, p.ex.Tow.Winch.Min), p.ex.Tow.Cable.Length) }
	switch s.Phrase {
	case order.SaySteer:
		grid := geodesy.TrueBearing(s.Figure * units.Degree).Grid(p.reading.Convergence)
		p.Steer(order.Command{Do: order.SteerHeading, Value: float64(grid)})
	case order.SayPort:
		p.Steer(order.Command{Do: order.Rudder, Value: -s.Figure * units.Degree})
	case order.SayStarboard:
		p.Steer(order.Command{Do: order.Rudder, Value: s.Figure * units.Degree})
	case order.SayMidships:
		p.Steer(order.Command{Do: order.Rudder})
	case order.SaySteady:
		p.Steer(order.Command{Do: order.SteerHeading, Value: p.seen().Heading})
	case order.SayComeUp:
		p.Steer(order.Command{Do: order.SteerLine, Line: s.Line, Reversed: s.Reversed})
	case order.SayMake:
		p.SetSpeed(s.Figure * units.Knot)
	case order.SayStop:
		p.SetSpeed(0)
	case order.SayHaul:
		wind(gear.CableOut - s.Figure)
	case order.SayPayOut:
		wind(gear.CableOut + s.Figure)
	case order.SayAvast:
		wind(gear.CableOut)
	}
}

// heardOf returns what the bridge hears.
func (h *helmsman) heardOf(now float64) Helmsman {
	out := Helmsman{Said: h.said}
	if h.said != "" && now >= h.readAt {
		out.ReadBack = h.heard.String()
	}
	if h.waits {
		out.Due = h.actAt
	}
	return out
}
