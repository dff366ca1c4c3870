package sim

import (
	"slices"

	"dryline/sim/coach"
	"dryline/sim/passage"
	"dryline/sim/survey"
	"dryline/vessel/nav"
)

// advice is the coach beside the desk. It looks once a second, in step with the
// pings, so that what it says is the same however the ticks are grouped.
type advice struct {
	coach *coach.Coach
	hints []coach.Hint // that stand

	height float64 // of the fish by the bottom track, metres
	misses int     // pings in a row without a bottom
	levels []survey.RecordLevel
}

// look holds what the coach sees of the bridge at a moment; the desk's part it sees
// when the desk has got there.
type look struct {
	time    float64
	reading nav.Reading
	fix     survey.Fix
	bridge  passage.Bridge
}

// heedCoach sets the coach to work.
func (s *Session) heedCoach() {
	if s.advice != nil {
		return
	}
	a := &advice{coach: coach.New(s.Brief)}
	s.advice = a
	s.Desk.Listen(func(p survey.LivePing) {
		a.height = p.Height
		a.levels = p.Levels
		if a.misses++; p.Locked {
			a.misses = 0
		}
	})
}

// Hints are those of the coach that stand, the most severe first; none unless an
// observer asks for advice.
func (s *Session) Hints() []coach.Hint {
	if s.advice == nil {
		return nil
	}
	return slices.Clone(s.advice.hints)
}

// Judgement is how the moment stands to what the exercise wants, by the coach; all
// is fine unless an observer asks for advice. It changes nothing.
func (s *Session) Judgement() coach.Judgement {
	if s.advice == nil {
		return coach.Judgement{}
	}
	return s.advice.coach.Judge(s.coachView(s.look()))
}

// look returns what the bridge shows now.
func (s *Session) look() *look {
	p := s.Passage
	return &look{time: p.Now(), reading: p.Reading(), fix: p.Fix(), bridge: s.Bridge()}
}

// coachView is a look with the desk's part, as the desk is now.
func (s *Session) coachView(l *look) coach.View {
	a := s.advice
	return coach.View{
		Reading: l.reading, Fix: l.fix, Settings: s.Desk.Settings, Recorder: s.Desk.Recorder, Bridge: l.bridge,
		Contacts: s.Desk.Contacts, Lines: s.Desk.Lines, Height: a.height, BottomMisses: a.misses, Levels: a.levels,
	}
}

// lookOut has the coach look at the bridge.
func (s *Session) lookOut() {
	if s.advice != nil {
		s.queue.add(event{look: s.look()})
	}
}

// advise has the coach say what it makes of a look, and tells what came and went.
func (s *Session) advise(l *look) {
	a := s.advice
	before := a.hints
	a.hints = a.coach.Advise(l.time, s.coachView(l))
	stands := func(list []coach.Hint, id string) bool {
		return slices.ContainsFunc(list, func(h coach.Hint) bool { return h.ID == id })
	}
	for _, h := range before {
		if !stands(a.hints, h.ID) {
			s.tellAdvice(coach.Event{Time: l.time, Hint: h, Over: true})
		}
	}
	for _, h := range a.hints {
		if !stands(before, h.ID) {
			s.tellAdvice(coach.Event{Time: l.time, Hint: h})
		}
	}
}
