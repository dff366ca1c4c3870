package sim

import (
	"dryline/sim/exercise"
	"dryline/sim/passage"
	"dryline/sonar"
)

// troubles are the events that are on and befall the sonar.
type troubles struct {
	on      []passage.Occurrence
	changed bool // since the sonar was made
}

// hear takes note of an event.
func (t *troubles) hear(h passage.Occurrence, over bool) {
	switch h.Kind {
	case exercise.OtherSounder, exercise.DroppedPings, exercise.DeadChannel, exercise.WeakChannel, exercise.SwappedChannels, exercise.Rubbed:
	default:
		return
	}
	t.changed = true
	if !over {
		t.on = append(t.on, h)
		return
	}
	for i := range t.on {
		if t.on[i].From == h.From && t.on[i].Event == h.Event { // it may have been cut short
			t.on = append(t.on[:i:i], t.on[i+1:]...)
			return
		}
	}
}

// Another vessel's sounder in the middle of our band, out of step with our pings: our own choice.
const (
	sounderInterval = 0.253 // seconds
	sounderPulse    = 0.4e-3
)

// onto adds what is on to what spoils the record anyway.
func (t *troubles) onto(fx sonar.Effects, channels []sonar.Channel) sonar.Effects {
	for _, h := range t.on {
		side := int(h.Side - exercise.PortSide)
		switch h.Kind {
		case exercise.OtherSounder:
			fx.Sounders = append(fx.Sounders[:len(fx.Sounders):len(fx.Sounders)], sonar.Sounder{
				Frequency: channels[0].Frequency, Interval: sounderInterval, PulseLength: sounderPulse, Level: h.Size, Offset: h.From,
			})
		case exercise.DroppedPings: // each is lost by either, apart from the other
			fx.Drops.Share = 1 - (1-fx.Drops.Share)*(1-h.Size)
		case exercise.DeadChannel:
			fx.Faults.Dead[side] = true
		case exercise.WeakChannel:
			fx.Faults.Loss[side] += h.Size
		case exercise.Rubbed:
			fx.Faults.Rubbed[side] = true
		case exercise.SwappedChannels:
			fx.Faults.Swapped = !fx.Faults.Swapped
		}
	}
	return fx
}

// ail changes the sonar when an event that befalls it has begun or is over. Pings sent
// before are made by what it was.
func (s *Session) ail() {
	t := &s.sonar.troubles
	if !t.changed {
		return
	}
	t.changed = false
	s.develop()
	engine, err := s.engineAt(s.Desk.Recorder.RangeScale)
	if err != nil {
		return // it was made like this before, and what ails it cannot fail
	}
	s.sonar.engine = engine
	s.queue.makers = nil // made for the engine that was
}
