package passage

import "dryline/sim/order"

// Bridge shows what the crew plainly sees and needs at the controls, beside the
// instruments: what was ordered, what the rudder, the engine and the winch do,
// and which alarms went. Nothing of where the fish truly is.
type Bridge struct {
	Steering order.Command // the order the helm carries out; after a turn the line it led to
	Speed    float64       // ordered over ground, m/s

	Way [][2]float64 // what is left of the turn being steered, metres; empty if none is

	Rudder        float64 // as it stands, radians, starboard positive
	RudderOrdered float64 // radians
	Thrust        float64 // share of full ahead, -0.5 to 1

	CableOrdered float64 // metres out
	Tension      float64 // by the meter at the sheave, N
	WorkingLoad  float64 // of the cable, N; 0 for none given
	Touching     bool    // the fish lies on something or drags over it: the cable tells by its jerks
	Stalled      bool    // the winch cannot haul against the cable
	Jammed       bool    // the winch turns neither way
	Fouled       bool    // something holds the tow
	EngineOut    bool    // it gives no thrust
	Alongside    bool    // the fish is within reach of hands
	Mending      bool    // its plugs and leads are being seen to
	Slipping     bool    // the brake let the cable go a moment ago
	Mark         float64 // on the cable nearest the sheave, metres from the fish
	MarkPast     float64 // how far it has gone out past the sheave, metres; negative inboard

	Logging  string // the line being logged, empty if none is
	Reversed bool   // it is run from B to A
	Lookout  bool   // the desk marks contacts by itself

	Helmsman Helmsman // what he said of the last order

	Traffic []Traffic    // other vessels in sight
	Buoys   [][2]float64 // in sight, on the grid, metres

	RangeScale float64 // set, metres
	Alarms     []Alarm // so far, in order; not to be changed
}

// Alarm is a mishap as the crew notices it.
type Alarm struct {
	Time float64 // seconds
	What Kind
	Says string
}

// Knocked is how the crew takes [Grounded] and [Struck]: it cannot tell
// one from the other.
const Knocked Kind = "knocked"

// Bridge returns what the crew sees now, but for what the sonar and the desk show.
// It is a copy: the passage may go on.
func (p *Passage) Bridge() Bridge {
	g, spec := p.gear, &p.ex.Vessel
	b := Bridge{
		Steering: p.helm.order, Speed: p.helm.speed,
		Rudder:        p.hull.Rudder,
		RudderOrdered: min(max(p.orders.Rudder, -spec.RudderMax), spec.RudderMax),
		Thrust:        min(max(p.orders.Thrust, -0.5), 1),
		CableOrdered:  g.Ordered, Tension: g.Tension, WorkingLoad: p.ex.Tow.Cable.WorkingLoad,
		Touching: p.Deaf(p.Now()), Stalled: g.Stalled, Slipping: p.Now() < p.trouble.slipTill && p.trouble.slipTill > 0,
	}
	b.Fouled = p.trouble.fouled != nil && p.trouble.fouled.fast
	b.Jammed, b.EngineOut = g.Jammed, p.engineOut()
	b.Alongside, b.Mending = p.alongsideNow(), p.mending()
	b.Helmsman = p.crew.heardOf(p.Now())
	b.Traffic, b.Buoys = p.traffic(), p.buoys()
	b.Mark, b.MarkPast = g.Mark()
	b.Way = p.helm.way()
	if line, ok := p.Logging(); ok {
		b.Logging, b.Reversed = line.Line, line.Reversed
	}
	for _, m := range p.mishaps {
		if m.What != Damaged && m.What != Ruined { // the record tells of those
			b.Alarms = append(b.Alarms, m.noticed())
		}
	}
	return b
}

// noticed is a mishap less what only the truth knows of it.
func (h Mishap) noticed() Alarm {
	if h.What == Grounded || h.What == Struck {
		return Alarm{h.Time, Knocked, "the fish touched something"}
	}
	if h.What == ComeFree || h.What == TornFree {
		return Alarm{h.Time, h.What, "the tow is free again"}
	}
	if h.What == Snagged { // not which line it was
		return Alarm{h.Time, h.What, "something has fouled the tow"}
	}
	return Alarm{h.Time, h.What, h.String()}
}
