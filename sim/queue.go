package sim

import (
	"dryline/sim/survey"
	"dryline/sonar"
	"dryline/vessel/nav/geodesy"
)

// queue holds what waits for the desk: pings to be made and lines to be opened
// and closed between them, in order.
type queue struct {
	events []event
	sent   []*sending // those of the events that are to be made
	pings  int
	spare  []*sending
	makers *makers
}

// event is one thing the desk will be told.
type event struct {
	lineOn  string // open the line of that name
	track   geodesy.Track
	lineOff bool // close the open line

	note    bool // enter the fix in the watch log
	heading geodesy.TrueBearing
	crab    float64 // radians

	look *look // for the coach

	ping    *sending
	fix     survey.Fix
	logged  bool
	skipped bool // nobody asked for it: see [Session.Sparse]
}

// batch is how many pings are sent before the desk is told: enough to keep every
// core busy, few enough to stay in cache.
const batch = 96

func (q *queue) add(e event) { q.events = append(q.events, e) }

func (q *queue) full() bool { return q.pings >= batch }

// queuePings queues the pings that fell due in the tick just stepped.
func (s *Session) queuePings() {
	p, set := s.Passage, &s.sonar
	_, logging := p.Logging()
	for set.nextPing < p.Now() {
		t := set.nextPing
		ping := s.spareSending()
		ping.number, ping.pose, ping.lost = set.number, p.PoseAt(t), p.Deaf(t) || p.Mute(set.number)
		east, north := p.SurfaceCurrent()
		ping.pose.Wake = s.wake.cuts(ping.pose, east, north)
		e := event{ping: ping, logged: logging, fix: p.FixAt(t)}
		e.skipped = s.wanted != nil && !s.wanted(ping.number, &ping.pose)
		s.queue.add(e)
		if !e.skipped {
			s.send(ping)
		}
		s.queue.pings++
		if s.Workers > 1 && !e.skipped && set.number%lookEvery == 0 {
			s.ahead.look(s.world, ping.pose, s.Desk.Recorder.RangeScale)
		}
		set.number++
		set.nextPing += set.interval
	}
}

// develop hands everything that is queued to the desk in order, each ping as soon as
// it is made, and makes pings itself while there is none to hand over.
func (s *Session) develop() {
	q := &s.queue
	if len(q.events) == 0 {
		return
	}
	if s.recorded != nil {
		s.recall(q.sent)
		for _, ping := range q.sent {
			s.makers().add(ping)
		}
	}
	for i := range q.events {
		e := &q.events[i]
		if e.ping != nil && !e.skipped {
			q.makers.await(e.ping)
		}
		s.tell(e)
		if e.ping != nil {
			q.spare = append(q.spare, e.ping)
		}
	}
	if q.makers != nil {
		q.makers.rest()
	}
	clear(q.events)
	clear(q.sent)
	q.events, q.sent, q.pings = q.events[:0], q.sent[:0], 0
}

// tell hands one event to the desk, and then to the observers.
func (s *Session) tell(e *event) {
	if s.wanted != nil {
		s.tellSparse(e)
		return
	}
	switch {
	case e.lineOn != "":
		s.closeLine()
		s.Desk.StartLine(e.lineOn, e.track)
		s.tellOpen(e.lineOn, e.track)
	case e.lineOff:
		s.closeLine()
	case e.note:
		s.Desk.Note(e.fix, e.heading, e.crab)
		s.digest.note(e)
	case e.look != nil:
		s.advise(e.look)
	case e.ping != nil:
		ping := survey.Ping{
			Number: e.ping.number, Fix: e.fix,
			Port: e.ping.echo[sonar.Port].Samples, Starboard: e.ping.echo[sonar.Starboard].Samples,
		}
		s.Desk.Take(ping)
		if e.logged {
			s.digest.ping(&ping)
		}
		s.tellPing(e, ping)
	}
}

func (s *Session) closeLine() {
	if line := s.Desk.EndLine(); line != nil {
		s.tellLine(line)
	}
}
