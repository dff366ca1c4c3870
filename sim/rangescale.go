package sim

import (
	"errors"
	"fmt"

	"dryline/seabed"
	"dryline/sonar"
)

// Range scales that can be set while an exercise runs, metres: our own choice.
// An exercise's own may lie beyond them and can be set again.
const (
	shortestRange = 10.0
	longestRange  = 300.0
)

// checkRange refuses range scales that cannot be set: a pulse of one tone must
// not smear a tenth of the range, as in an exercise file.
func (c Command) checkRange(ex *Exercise) error {
	own := ex.Sonar.RangeScale
	if err := within(c, min(shortestRange, own), max(longestRange, own)); err != nil {
		return err
	}
	const nominal = 1500.0 // m/s
	for _, ch := range ex.Sonar.Channels {
		if least := 10 * ch.PulseLength * nominal / 2; ch.Bandwidth == 0 && c.Value < least && c.Value < own {
			return fmt.Errorf("range: the pulse of channel %s is too long for %g m (want at least %.3g)", ch.Name, c.Value, least)
		}
	}
	return ex.checkMemory(c.Value)
}

// setRange sets another range scale. Pings that were sent are heard to their
// end first; chance stays what it was, for a ping draws by its number.
func (s *Session) setRange(metres float64) error {
	engine, err := s.engineFor(metres)
	if err != nil {
		return err
	}
	s.develop()
	s.engine, s.interval = engine, engine.Interval(s.Exercise.Desk.SoundSpeed)
	s.studio.spare, s.studio.bench = nil, nil // they fit the old engine
	s.wake.hear(s.Exercise, metres)
	s.Desk.SetRangeScale(metres)
	return nil
}

// engineFor is the sonar at another range scale, if it may be set now.
func (s *Session) engineFor(metres float64) (*sonar.Engine, error) {
	if s.studio.logging {
		return nil, errors.New("a line is logged with one range scale: stop the log first")
	}
	return newEngine(s.Exercise, s.world, metres, s.channels(), s.Seed)
}

// newEngine makes the sonar of an exercise for a range scale and channels as
// they are set.
func newEngine(ex *Exercise, world *seabed.World, rangeScale float64, channels []sonar.Channel, seed uint64) (*sonar.Engine, error) {
	spec := setDown(ex.Sonar, world)
	spec.RangeScale, spec.Channels = rangeScale, channels
	engine, err := sonar.NewEngine(spec, ex.Sea.Water, ex.Desk.SoundSpeed, seed)
	if err != nil {
		return nil, err
	}
	var strengths []float64
	for _, o := range ex.Seabed.Objects {
		strengths = append(strengths, o.Strength)
	}
	engine.Strengthen(strengths)
	return engine, nil
}
