package sim

import (
	"errors"
	"fmt"
	"slices"

	"dryline/sonar"
)

// checkReceiver refuses settings that a recorder does not have: the bounds are
// those of an exercise file.
func (c Command) checkReceiver(ex *Exercise) error {
	if !slices.ContainsFunc(ex.Sonar.Channels, func(ch sonar.Channel) bool { return ch.Name == c.Text }) {
		return fmt.Errorf("%s: no channel is called %q", c.Do, c.Text)
	}
	switch c.Do {
	case Gain:
		return within(c, -60, 60)
	case TVG:
		return within(c, 0, 60)
	}
	return within(c, 0, 1000)
}

// setReceiver sets how a channel is amplified. Pings that were sent are heard to
// their end first.
func (s *Session) setReceiver(c Command) error {
	if err := s.mayAmplify(); err != nil {
		return err
	}
	s.develop()
	r := &s.Desk.Recorder
	i := slices.Index(r.Channels, c.Text)
	set := r.Receivers[i]
	switch c.Do {
	case Gain:
		set.Gain = c.Value
	case TVG:
		set.TVGSpreading = c.Value
	default:
		set.TVGAbsorption = c.Value
	}
	s.engine.Amplify(i, set)
	s.Desk.SetReceiver(i, set)
	return nil
}

func (s *Session) mayAmplify() error {
	if s.studio.logging {
		return errors.New("a line is logged with one gain: stop the log first")
	}
	return nil
}

// channels are those of the exercise as they are set now.
func (s *Session) channels() []sonar.Channel {
	out := slices.Clone(s.Exercise.Sonar.Channels)
	for i := range out {
		out[i].Receiver = s.Desk.Recorder.Receivers[i]
	}
	return out
}
