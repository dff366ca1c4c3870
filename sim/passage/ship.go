package passage

import (
	"errors"
	"slices"

	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/survey"
	"dryline/sim/survey/coverage"
	"dryline/sonar/recorder"
)

// Steer implements [order.Ship].
func (p *Passage) Steer(c order.Command) { p.take(c) }

// SetSpeed implements [order.Ship].
func (p *Passage) SetSpeed(metresPerSecond float64) { p.helm.speed = metresPerSecond }

// SetCable implements [order.Ship].
func (p *Passage) SetCable(metresOut float64) { p.gear.Ordered = metresOut }

// ZeroCounter implements [order.Ship].
func (p *Passage) ZeroCounter(metres float64) { p.inst.ZeroCounter(metres) }

// AdjustDesk implements [order.Ship].
func (p *Passage) AdjustDesk(change func(*survey.Settings)) { change(&p.navigator.Settings) }

// Channels implements [order.Ship].
func (p *Passage) Channels() (names []string) {
	for _, c := range p.brief.Sonar.Channels {
		names = append(names, c.Name)
	}
	return names
}

// RefuseMobilise implements [order.Ship].
func (p *Passage) RefuseMobilise(func(*survey.Settings)) error {
	if p.tick > 0 {
		return errors.New("the watch has begun: at the desk, lines can be worked up again with another")
	}
	return nil
}

// Mobilise implements [order.Ship].
func (p *Passage) Mobilise(change func(*survey.Settings)) {
	p.ex.Mobilise(change)
	change(&p.brief.Desk)
	change(&p.navigator.Settings)
}

// OpenLine implements [order.Ship].
func (p *Passage) OpenLine(name string, reversed bool) {
	p.logging = order.Command{Tick: p.tick, Do: order.LogOn, Line: name, Reversed: reversed}
}

// AddLine implements [order.Ship].
func (p *Passage) AddLine(l exercise.Line) {
	p.ex.Added = append(p.ex.Added, l)
	p.brief.Added = append(p.brief.Added, l)
}

// RefuseOwnLines implements [order.Ship].
func (p *Passage) RefuseOwnLines() error {
	switch {
	case p.tick > 0:
		return errors.New("the watch has begun: lines can be added, and those that were planned stay")
	case p.brief.Own:
		return errors.New("the lines given are set aside already")
	}
	return nil
}

// OwnLines implements [order.Ship]. What was to happen on a line given happens on the one that is run
// in its turn.
func (p *Passage) OwnLines(runIn, runOut float64) {
	before, all := p.ex.Plan.Order, p.ex.All()
	p.ex.SailAdded(runIn, runOut)
	p.brief.SailAdded(runIn, runOut)
	for i := range p.events.waiting {
		e := &p.events.waiting[i].Event
		turn := slices.IndexFunc(before, func(r exercise.Run) bool { return all[r.Line].Name == e.Line })
		if turn < 0 {
			continue
		}
		old := all[before[turn].Line].Track(false).Length()
		now := all[p.ex.Plan.Order[turn%len(p.ex.Plan.Order)].Line]
		e.Line, e.Along = now.Name, e.Along*now.Track(false).Length()/old
	}
}

// CloseLine implements [order.Ship].
func (p *Passage) CloseLine() { p.logging = order.Command{} }

// Finish implements [order.Ship].
func (p *Passage) Finish() {
	p.CloseLine()
	p.End(order.ReasonFinished)
}

// alone is a passage without sonar and without contacts: orders about these are
// refused.
type alone struct{ *Passage }

var errAlone = errors.New("there is neither sonar nor desk on this passage")

func (alone) Develop()                                                     {}
func (alone) RefuseRange(float64) error                                    { return errAlone }
func (alone) SetRange(float64)                                             {}
func (alone) RefuseReceiver() error                                        { return errAlone }
func (alone) SetReceiver(string, func(*recorder.Receiver))                 {}
func (alone) Contacts(bool, func(d *survey.Desk, now float64) error) error { return errAlone }
func (alone) RefuseRework() error                                          { return errAlone }
func (alone) Rework() error                                                { return errAlone }
func (alone) Holidays() ([]coverage.Holiday, error)                        { return nil, errAlone }
