package sim

// Bridge is what the crew plainly sees and needs at the controls, beside the
// instruments: what was ordered, what the rudder, the engine and the winch do,
// and which alarms went. Nothing of where the fish truly is.
type Bridge struct {
	Steering Command // the order the helm carries out; after a turn the line it led to
	Speed    float64 // ordered over ground, m/s

	Way [][2]float64 // what is left of the turn being steered, metres; empty if none is

	Rudder        float64 // as it stands, radians, starboard positive
	RudderOrdered float64 // radians
	Thrust        float64 // share of full ahead, -0.5 to 1

	CableOrdered float64 // metres out
	Tension      float64 // by the meter at the sheave, N
	WorkingLoad  float64 // of the cable, N; 0 for none given
	Touching     bool    // the fish lies on something or drags over it: the cable tells by its jerks
	Stalled      bool    // the winch cannot haul against the cable
	Slipping     bool    // the brake let the cable go a moment ago
	Mark         float64 // on the cable nearest the sheave, metres from the fish
	MarkPast     float64 // how far it has gone out past the sheave, metres; negative inboard

	Logging  string // the line being logged, empty if none is
	Reversed bool   // it is run from B to A
	Lookout  bool   // the desk marks contacts by itself

	RangeScale float64 // set, metres
	Alarms     []Alarm // so far, in order; not to be changed
}

// Alarm is a mishap as the crew notices it.
type Alarm struct {
	Time float64 // seconds
	What Mishap
	Says string
}

// Knocked is what the crew makes of [Grounded] and [Struck]: it cannot tell
// one from the other.
const Knocked Mishap = "knocked"

// Bridge returns what the crew sees now. It is a copy: the session may go on.
func (s *Session) Bridge() Bridge {
	g, spec := s.gear, &s.Exercise.Vessel
	b := Bridge{
		Steering: s.helm.order, Speed: s.helm.speed,
		Rudder:        s.hull.Rudder,
		RudderOrdered: min(max(s.orders.Rudder, -spec.RudderMax), spec.RudderMax),
		Thrust:        min(max(s.orders.Thrust, -0.5), 1),
		CableOrdered:  g.Ordered, Tension: g.Tension, WorkingLoad: s.Exercise.Tow.Cable.WorkingLoad,
		Touching: s.Now() < s.trouble.deafUntil, Stalled: g.Stalled, Slipping: s.Now() < s.trouble.slipTill && s.trouble.slipTill > 0,
		Lookout: s.Desk.Lookout(), RangeScale: s.Desk.Recorder.RangeScale,
	}
	b.Mark, b.MarkPast = g.Mark()
	b.Way = s.helm.way()
	if s.studio.logging {
		b.Logging, b.Reversed = s.studio.line.Line, s.studio.line.Reversed
	}
	for _, h := range s.Truth.Happenings {
		b.Alarms = append(b.Alarms, h.noticed())
	}
	return b
}

// noticed is a mishap less what only the truth knows of it.
func (h Happening) noticed() Alarm {
	if h.What == Grounded || h.What == Struck {
		return Alarm{h.Time, Knocked, "the fish touched something"}
	}
	return Alarm{h.Time, h.What, h.String()}
}
