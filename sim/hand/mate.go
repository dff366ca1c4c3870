package hand

import (
	"math"

	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/passage"
	"dryline/vessel/nav"
	"dryline/vessel/tow"
)

// Mate runs the plan of an exercise: line after line with run-in and run-out,
// log on and off, and the cable worked to hold the height of the fish. It sees
// what a mate sees (instruments and the desk) and gives ordinary commands, so
// a session it ran replays without it.
type Mate struct {
	brief    *exercise.Brief
	plan     *exercise.Plan
	lines    []exercise.Line // that the runs of the plan number
	run      int
	stage    stage
	altitude float64 // smoothed altimeter, metres
	nextHaul float64 // time the cable may next be changed, seconds
	started  bool
	towed    struct{ out, floor float64 } // cable and depth of the floor before it was hauled in for a turn, metres
	refused  error                        // the first order that was
}

type stage int

const (
	joining stage = iota // turning for the run-in
	runIn
	onLine
	runOut
)

// NewMate returns a mate for an exercise.
func NewMate(b *exercise.Brief) *Mate { return &Mate{brief: b, plan: &b.Plan, stage: runIn} }

// Refused is the first of the mate's orders that was refused, with the reason;
// nil if all were carried out. A sound mate is never refused.
func (m *Mate) Refused() error { return m.refused }

// Act implements [passage.Hand]: it gives the commands for this tick.
func (m *Mate) Act(d passage.Deck) {
	if !m.started {
		m.started = true
		first := m.plan.Order[0]
		m.give(d, order.Command{Do: order.Speed, Value: m.plan.Speed})
		m.lines = m.brief.All()
		if m.brief.Own { // she lies at the run-in of the lines given
			m.stage = joining
			m.give(d, order.Command{Do: order.Turn, Line: m.lines[first.Line].Name, Reversed: first.Reversed, Pattern: m.plan.Turn})
		} else {
			m.give(d, order.Command{Do: order.SteerLine, Line: m.lines[first.Line].Name, Reversed: first.Reversed})
		}
	}
	if d.Tick() == 0 {
		return
	}
	run := m.plan.Order[m.run]
	line := &m.lines[run.Line]
	track := line.Track(run.Reversed)
	fix := d.Fix()
	fish, _ := track.Offset(fix.X, fix.Y)
	switch m.stage {
	case joining:
		if d.Steering().Do == order.SteerLine {
			m.stage = runIn
			m.payOut(d)
		}
	case runIn:
		if fish >= 0 {
			m.stage = onLine
			m.give(d, order.Command{Do: order.LogOn, Line: line.Name, Reversed: run.Reversed})
		}
	case onLine:
		if fish > track.Length() {
			m.stage = runOut
			m.give(d, order.Command{Do: order.LogOff})
			m.haulIn(d)
		}
	case runOut:
		if fish > track.Length()+m.plan.RunOut && !m.next(d) {
			return // it is over, and the winch is left alone
		}
	}
	m.holdAltitude(d)
}

// next goes on to the next line of the plan, and reports whether there is one; if not it finishes.
func (m *Mate) next(d passage.Deck) bool {
	m.run++
	if m.run == len(m.plan.Order) {
		m.run--
		m.give(d, order.Command{Do: order.Finish})
		return false
	}
	m.stage = joining
	run := m.plan.Order[m.run]
	m.give(d, order.Command{Do: order.Turn, Line: m.lines[run.Line].Name, Reversed: run.Reversed, Pattern: m.plan.Turn})
	return true
}

// haulIn takes in the plan's share of the cable before a turn.
func (m *Mate) haulIn(d passage.Deck) {
	r := d.Reading()
	if m.plan.TurnHaul <= 0 || m.run+1 == len(m.plan.Order) || !r.Valid.Has(nav.CableCounter) {
		return
	}
	m.towed.out, m.towed.floor = r.CableOut, r.FishDepth+r.FishAltitude
	if !r.Valid.Has(nav.FishAltitude | nav.FishDepth) {
		m.towed.floor = 0
	}
	m.give(d, order.Command{Do: order.Cable, Value: reachable(&m.brief.Tow, r.CableOut*(1-m.plan.TurnHaul))})
}

// payOut gives the cable back after a turn: as much as was out, by how the depth of the fish that
// is wanted has changed.
func (m *Mate) payOut(d passage.Deck) {
	if m.towed.out == 0 {
		return
	}
	out, r := m.towed.out, d.Reading()
	if a := m.plan.Altitude; a > 0 && m.towed.floor > a && r.Valid.Has(nav.FishAltitude|nav.FishDepth) {
		out *= max(r.FishDepth+r.FishAltitude-a, 0) / (m.towed.floor - a)
	}
	m.towed.out = 0
	speed, _ := d.Ordered()
	m.nextHaul = d.Now() + tow.SettlesIn(out, speed)
	m.give(d, order.Command{Do: order.Cable, Value: reachable(&m.brief.Tow, out)})
}

// holdAltitude works the cable to keep the fish at its height, and waits for it to settle
// after each change.
func (m *Mate) holdAltitude(d passage.Deck) {
	const needed = nav.FishAltitude | nav.FishDepth | nav.CableCounter
	r := d.Reading()
	speed, ordered := d.Ordered()
	if m.plan.Altitude <= 0 || !r.Valid.Has(needed) {
		return // it leaves the winch alone rather than haul by what may be stale
	}
	if m.altitude == 0 {
		m.altitude = r.FishAltitude
	}
	const smoothing = 3.0 // seconds
	m.altitude += (r.FishAltitude - m.altitude) * passage.Tick / smoothing
	miss := m.altitude - m.plan.Altitude
	if d.Now() < m.nextHaul || math.Abs(miss) < m.plan.AltitudeBand {
		return
	}
	if m.towed.out > 0 && miss > 0 {
		return // it was hauled in for the turn
	}
	m.nextHaul = d.Now() + tow.SettlesIn(r.CableOut, speed)
	out := reachable(&m.brief.Tow, r.CableOut+tow.CableToCorrect(miss, r.CableOut, r.FishDepth))
	if out == ordered {
		return // there is no more cable to pay out, or to haul
	}
	m.give(d, order.Command{Do: order.Cable, Value: out})
}

// reachable is the cable out nearest to what is wanted that the winch can be
// sent to, in the half metres that the winch man reads, metres.
func reachable(gear *tow.Spec, wanted float64) float64 {
	return min(max(math.Round(wanted*2)/2, gear.Winch.Min), gear.Cable.Length)
}

// give passes on a command the mate has made from the exercise itself. One that
// is refused is not carried out; [Mate.Refused] tells of the first.
func (m *Mate) give(d passage.Deck, c order.Command) {
	if err := d.Give(c); err != nil && m.refused == nil {
		m.refused = err
	}
}

// Progress is the share of the plan's lines done.
func (m *Mate) Progress(d passage.Deck) float64 {
	within := 0.0
	if m.stage == onLine {
		run := m.plan.Order[m.run]
		track := m.lines[run.Line].Track(run.Reversed)
		fix := d.Fix()
		along, _ := track.Offset(fix.X, fix.Y)
		within = min(max(along/track.Length(), 0), 1)
	} else if m.stage == runOut {
		within = 1
	}
	return (float64(m.run) + within) / float64(len(m.plan.Order))
}
