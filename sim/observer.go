package sim

import (
	"dryline/sim/coach"
	"dryline/sim/order"
	"dryline/sim/passage"
	"dryline/sim/survey"
	"dryline/sonar"
	"dryline/vessel/nav"
	"dryline/vessel/nav/geodesy"
)

// Observer is told of what happens in a session. A nil function is not called.
// What is handed over is good until the function returns; whoever keeps it copies it.
// Observers change nothing, and are told in the order they were added.
type Observer struct {
	// Ping is told of every ping, logged or not, once the desk has taken it.
	Ping func(*Ping)
	// Open is told of each line as it is opened, and how it is run.
	Open func(line string, track geodesy.Track)
	// Line is told of each line as it is closed, after the desk has taken all its
	// pings.
	Line func(*survey.LineRecord)
	// Reading is told what the instruments show, every tick, as it is stepped.
	Reading func(*nav.Reading)
	// Order is told of each order that was carried out.
	Order func(order.Command)
	// Mishap is told of each mishap when it begins. It is the truth: see
	// [passage.Mishap] for what the crew notices of one.
	Mishap func(passage.Mishap)
	// Advice is told of a hint of the coach when it comes and when it goes.
	Advice func(coach.Event)

	// Truth is for those who may see it: pings then carry theirs.
	Truth bool
	// Labels, with Truth, has every sample labelled, which takes a little longer. Pings
	// that a record could give back are then made.
	Labels bool
}

// Ping is one ping as it came in.
type Ping struct {
	survey.Ping
	Line string // being logged, empty if none is
	Lost bool   // the fish sent nothing up

	Truth *PingTruth // nil for those who may not see it
}

// PingTruth holds the truth of a ping.
type PingTruth struct {
	Pose sonar.Pose
	Lit  [2][]uint16 // by side, the objects in the main lobe and lit, index plus one

	Labels [2][]sonar.Label // by side and sample; nil unless an observer asked for labels
	Across [2]sonar.Across  // by side, with them
}

// Observe adds an observer. Add it before the first step: it is told nothing of
// what was before.
func (s *Session) Observe(o Observer) {
	s.observers = append(s.observers, o)
	if o.Truth && o.Labels {
		s.labelled = true
		s.queue.spare = nil // they have no room for labels
	}
	if o.Advice != nil {
		s.heedCoach()
	}
}

// shown holds what observers were shown last: made anew for each, it would cost an allocation
// a ping and a tick.
type shown struct {
	ping    Ping
	truth   PingTruth
	reading nav.Reading
}

func (s *Session) tellPing(e *event, taken survey.Ping) {
	if len(s.observers) == 0 {
		return
	}
	seen, truth, echo := &s.shown.ping, &s.shown.truth, &e.ping.echo
	*seen = Ping{Ping: taken, Lost: e.ping.lost}
	if line := s.Desk.OpenLine(); line != nil && e.logged {
		seen.Line = line.Name
	} else if s.wanted != nil && e.logged {
		seen.Line = s.logged
	}
	*truth = PingTruth{Pose: e.ping.pose}
	for side := range echo {
		if e.skipped {
			break // what is there is another's
		}
		truth.Lit[side], truth.Labels[side], truth.Across[side] = echo[side].Lit, echo[side].Labels, echo[side].Across
	}
	for i := range s.observers {
		o := &s.observers[i]
		if o.Ping == nil {
			continue
		}
		seen.Truth = nil
		if o.Truth {
			seen.Truth = truth
		}
		o.Ping(seen)
	}
}

func (s *Session) tellOpen(line string, track geodesy.Track) {
	for i := range s.observers {
		if f := s.observers[i].Open; f != nil {
			f(line, track)
		}
	}
}

func (s *Session) tellReading() {
	if len(s.observers) == 0 {
		return
	}
	r := &s.shown.reading
	*r = s.Passage.Reading()
	for i := range s.observers {
		if f := s.observers[i].Reading; f != nil {
			f(r)
		}
	}
}

func (s *Session) tellLine(l *survey.LineRecord) {
	for i := range s.observers {
		if f := s.observers[i].Line; f != nil {
			f(l)
		}
	}
}

func (s *Session) tellOrder(c order.Command) {
	for i := range s.observers {
		if f := s.observers[i].Order; f != nil {
			f(c)
		}
	}
}

func (s *Session) tellMishap(m passage.Mishap) {
	for i := range s.observers {
		if f := s.observers[i].Mishap; f != nil {
			f(m)
		}
	}
}

func (s *Session) tellAdvice(e coach.Event) {
	for i := range s.observers {
		if f := s.observers[i].Advice; f != nil {
			f(e)
		}
	}
}
