package sim

import (
	"math"

	"dryline/vessel/nav"
	"dryline/vessel/tow"
)

// mate runs the plan of an exercise: line after line with run-in and run-out,
// log on and off, and the cable worked to hold the height of the fish. It sees
// what a mate sees (instruments and the desk) and gives ordinary commands, so
// a session it ran replays without it.
type mate struct {
	plan     *Plan
	run      int
	stage    stage
	altitude float64 // smoothed altimeter, metres
	nextHaul float64 // time the cable may next be changed, seconds
	started  bool
	refused  error // the first order that was
}

type stage int

const (
	joining stage = iota // turning for the run-in
	runIn
	onLine
	runOut
)

func newMate(ex *Exercise) *mate { return &mate{plan: &ex.Plan, stage: runIn} }

// act gives the commands for this tick.
func (m *mate) act(s *Session) {
	ex := s.Exercise
	if !m.started {
		m.started = true
		first := m.plan.Order[0]
		m.give(s, Command{Do: Speed, Value: m.plan.Speed})
		m.give(s, Command{Do: SteerLine, Line: ex.Lines[first.Line].Name, Reversed: first.Reversed})
	}
	if s.tick == 0 {
		return
	}
	run := m.plan.Order[m.run]
	line := &ex.Lines[run.Line]
	track := line.Track(run.Reversed)
	fix := s.Desk.FixAt(s.Now())
	fish, _ := track.Offset(fix.X, fix.Y)
	switch m.stage {
	case joining:
		if s.helm.order.Do == SteerLine {
			m.stage = runIn
		}
	case runIn:
		if fish >= 0 {
			m.stage = onLine
			m.give(s, Command{Do: LogOn, Line: line.Name, Reversed: run.Reversed})
		}
	case onLine:
		if fish > track.Length() {
			m.stage = runOut
			m.give(s, Command{Do: LogOff})
		}
	case runOut:
		if fish > track.Length()+m.plan.RunOut {
			m.next(s)
		}
	}
	m.holdAltitude(s)
}

// next goes on to the next line of the plan, or finishes.
func (m *mate) next(s *Session) {
	m.run++
	if m.run == len(m.plan.Order) {
		m.run--
		m.give(s, Command{Do: Finish})
		return
	}
	m.stage = joining
	run := m.plan.Order[m.run]
	m.give(s, Command{Do: Turn, Line: s.Exercise.Lines[run.Line].Name, Reversed: run.Reversed, Pattern: m.plan.Turn})
}

// holdAltitude works the cable: a metre too high pays out what brings the fish
// down by about a metre at this depth and cable, then waits for it to settle.
func (m *mate) holdAltitude(s *Session) {
	const needed = nav.FishAltitude | nav.FishDepth | nav.CableCounter
	if m.plan.Altitude <= 0 || !s.reading.Valid.Has(needed) {
		return // it leaves the winch alone rather than haul by what may be stale
	}
	if m.altitude == 0 {
		m.altitude = s.reading.FishAltitude
	}
	const smoothing = 3.0 // seconds
	m.altitude += (s.reading.FishAltitude - m.altitude) * Tick / smoothing
	miss := m.altitude - m.plan.Altitude
	if s.Now() < m.nextHaul || math.Abs(miss) < m.plan.AltitudeBand {
		return
	}
	ratio := s.reading.CableOut / max(s.reading.FishDepth, 1)
	change := min(max(0.7*miss*ratio, -6), 6)
	m.nextHaul = s.Now() + 0.8*s.reading.CableOut/max(s.helm.speed, 0.5) + 5
	out := reachable(&s.Exercise.Tow, s.reading.CableOut+change)
	if out == s.gear.Ordered {
		return // there is no more cable to pay out, or to haul
	}
	m.give(s, Command{Do: Cable, Value: out})
}

// reachable is the cable out nearest to what is wanted that the winch can be
// sent to, in the half metres that the winch man reads, metres.
func reachable(gear *tow.Spec, wanted float64) float64 {
	return min(max(math.Round(wanted*2)/2, gear.Winch.Min), gear.Cable.Length)
}

// give passes on a command the mate has made from the exercise itself. One that
// is refused is not carried out; [Session.Refused] tells of the first.
func (m *mate) give(s *Session, c Command) {
	if err := s.Give(c); err != nil && m.refused == nil {
		m.refused = err
	}
}

// progress is the share of the plan's lines done.
func (m *mate) progress(s *Session) float64 {
	within := 0.0
	if m.stage == onLine {
		run := m.plan.Order[m.run]
		track := s.Exercise.Lines[run.Line].Track(run.Reversed)
		fix := s.Desk.FixAt(s.Now())
		along, _ := track.Offset(fix.X, fix.Y)
		within = min(max(along/track.Length(), 0), 1)
	} else if m.stage == runOut {
		within = 1
	}
	return (float64(m.run) + within) / float64(len(m.plan.Order))
}
