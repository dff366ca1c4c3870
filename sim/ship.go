package sim

import (
	"errors"
	"reflect"

	"dryline/sim/exercise"
	"dryline/sim/passage"
	"dryline/sim/remake"
	"dryline/sim/report"
	"dryline/sim/survey"
	"dryline/sim/survey/coverage"
	"dryline/sonar/recorder"
)

// ship is the session as orders take effect on it: the passage, and the sonar and
// the desk besides.
type ship struct {
	*passage.Passage
	s *Session
}

// Develop implements [order.Ship].
func (h ship) Develop() { h.s.develop() }

// AdjustDesk implements [order.Ship].
func (h ship) AdjustDesk(change func(*survey.Settings)) {
	h.Passage.AdjustDesk(change)
	h.s.Desk.Adjust(h.Now(), change)
}

// OpenLine implements [order.Ship].
func (h ship) OpenLine(name string, reversed bool) {
	line, _ := h.s.Exercise.Line(name) // an order to log none is not sound
	h.s.queue.add(event{lineOn: name, track: line.Track(reversed)})
	h.Passage.OpenLine(name, reversed)
}

// CloseLine implements [order.Ship].
func (h ship) CloseLine() {
	h.s.queue.add(event{lineOff: true})
	h.Passage.CloseLine()
}

// Finish implements [order.Ship].
func (h ship) Finish() {
	if _, logging := h.Logging(); logging {
		h.CloseLine()
	}
	h.Passage.Finish()
}

// Contacts implements [order.Ship].
func (h ship) Contacts(rehearse bool, work func(d *survey.Desk, now float64) error) error {
	if rehearse {
		return h.s.Desk.Rehearse(func(d *survey.Desk) error { return work(d, h.Now()) })
	}
	return work(h.s.Desk, h.Now())
}

// RefuseRange implements [order.Ship].
func (h ship) RefuseRange(metres float64) error {
	if _, logging := h.Logging(); logging {
		return errors.New("a line is logged with one range scale: stop the log first")
	}
	if err := checkMemory(h.s.Exercise, metres); err != nil {
		return err
	}
	_, err := h.s.engineAt(metres)
	return err
}

// SetRange implements [order.Ship]. Pings that were sent were heard to their end;
// chance stays what it was, for a ping draws by its number.
func (h ship) SetRange(metres float64) {
	s := h.s
	engine, err := s.engineAt(metres)
	if err != nil {
		return // it was asked before and did not refuse
	}
	s.fit(engine)
	s.wake.hear(s.Exercise, metres)
	s.Desk.SetRangeScale(metres)
}

// RefuseReceiver implements [order.Ship].
func (h ship) RefuseReceiver() error {
	if _, logging := h.Logging(); logging {
		return errors.New("a line is logged with one gain: stop the log first")
	}
	return nil
}

// SetReceiver implements [order.Ship]. Pings that were sent were heard to their
// end.
func (h ship) SetReceiver(channel string, change func(*recorder.Receiver)) {
	r := &h.s.Desk.Recorder
	for i, name := range r.Channels {
		if name == channel {
			set := r.Receivers[i]
			change(&set)
			h.s.sonar.engine.Amplify(i, set)
			h.s.Desk.SetReceiver(i, set)
		}
	}
}

// AddLine implements [order.Ship].
func (h ship) AddLine(l exercise.Line) {
	h.Passage.AddLine(l)
	h.s.Exercise.Added = append(h.s.Exercise.Added, l)
	h.s.Brief.Added = append(h.s.Brief.Added, l)
}

// OwnLines implements [order.Ship].
func (h ship) OwnLines(runIn, runOut float64) {
	h.Passage.OwnLines(runIn, runOut)
	h.s.Exercise.SailAdded(runIn, runOut)
	h.s.Brief.SailAdded(runIn, runOut)
}

// Holidays implements [order.Ship].
func (h ship) Holidays() ([]coverage.Holiday, error) {
	_, holidays, err := report.Covered(h.s.Brief, h.s.Desk)
	return holidays, err
}

// RefuseRework implements [order.Ship].
func (h ship) RefuseRework() error {
	if h.s.kept == nil {
		return errors.New("nothing keeps the record of this session")
	}
	if len(h.s.Desk.Lines) == 0 {
		return errors.New("no line is finished yet")
	}
	return h.s.kept.Err()
}

// Rework implements [order.Ship].
func (h ship) Rework() error {
	d := h.s.Desk
	worked := h.s.prepared
	if worked == nil || len(worked.Lines) != len(d.Lines) || !reflect.DeepEqual(worked.Review, d.Review) {
		var err error
		if worked, err = remake.Lines(d, d.Review.Clone(), h.s.kept); err != nil {
			return err
		}
	}
	d.TakeUp(worked)
	return nil
}

// Prepare hands the session over what [remake.Lines] made of a snapshot of its desk, so that the
// next order to work the survey up by the same review over the same lines need not do it again. What comes
// of the order is the same with it and without.
func (s *Session) Prepare(w *survey.Worked) { s.prepared = w }
