package sim

import (
	"sync"
	"sync/atomic"

	"dryline/sim/survey"
	"dryline/sonar"
	"dryline/vessel/nav/geodesy"
)

// queue holds what waits for the desk: pings to be made and lines to be opened
// and closed between them, in order.
type queue struct {
	events []event
	pings  int
	spare  [][2]sonar.Echo
	bench  []*sonar.Workspace
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

	ping     bool
	number   uint64
	pose     sonar.Pose
	fix      survey.Fix
	logged   bool
	lost     bool // the fish was knocked and sent nothing up
	recalled bool // its samples come from a record
	skipped  bool // nobody asked for it: see [Session.Sparse]
	echo     [2]sonar.Echo
}

// batch is how many pings are made at once: enough to keep every core busy,
// few enough to stay in cache.
const batch = 96

func (q *queue) add(e event) { q.events = append(q.events, e) }

func (q *queue) full() bool { return q.pings >= batch }

// queuePings queues the pings that fell due in the tick just stepped.
func (s *Session) queuePings() {
	p, set := s.Passage, &s.sonar
	_, logging := p.Logging()
	for set.nextPing < p.Now() {
		t := set.nextPing
		pose := p.PoseAt(t)
		east, north := p.SurfaceCurrent()
		pose.Wake = s.wake.cuts(pose, east, north)
		s.queue.add(event{
			ping: true, number: set.number, logged: logging, lost: p.Deaf(t) || p.Mute(set.number),
			pose: pose, fix: p.FixAt(t),
		})
		if s.wanted != nil { // asked of the queue's own: a pose handed out by itself would cost an allocation a ping
			e := &s.queue.events[len(s.queue.events)-1]
			e.skipped = !s.wanted(e.number, &e.pose)
		}
		s.queue.pings++
		set.number++
		set.nextPing += set.interval
	}
}

// develop makes the queued pings, on all workers, and hands everything to the
// desk in order.
func (s *Session) develop() {
	q := &s.queue
	if len(q.events) == 0 {
		return
	}
	var jobs []*event
	for i := range q.events {
		e := &q.events[i]
		if !e.ping || e.skipped {
			continue
		}
		if n := len(q.spare); n > 0 {
			e.echo, q.spare = q.spare[n-1], q.spare[:n-1]
		} else {
			e.echo = [2]sonar.Echo{s.newEcho(), s.newEcho()}
		}
		jobs = append(jobs, e)
	}
	s.recall(jobs)
	s.makePings(jobs)
	for i := range q.events {
		s.tell(&q.events[i])
	}
	for _, e := range jobs {
		q.spare = append(q.spare, e.echo)
	}
	clear(q.events)
	q.events, q.pings = q.events[:0], 0
}

func (s *Session) newEcho() sonar.Echo {
	if s.labelled {
		return s.sonar.engine.NewLabelledEcho()
	}
	return s.sonar.engine.NewEcho()
}

// makePings fills the echoes. Every ping draws from its own stream, so it does
// not matter which worker makes it.
func (s *Session) makePings(jobs []*event) {
	workers := max(1, min(s.Workers, len(jobs)))
	for len(s.queue.bench) < workers {
		s.queue.bench = append(s.queue.bench, s.sonar.engine.NewWorkspace())
	}
	var next atomic.Int64
	work := func(ws *sonar.Workspace) {
		for {
			n := int(next.Add(1)) - 1
			if n >= len(jobs) {
				return
			}
			e := jobs[n]
			if e.recalled {
				continue
			}
			for side := range e.echo {
				if e.lost {
					e.echo[side].Clear()
					continue
				}
				s.sonar.engine.Ping(ws, &e.echo[side], sonar.Ground{World: s.world}, e.pose, sonar.Side(side), e.number)
			}
		}
	}
	if workers == 1 {
		work(s.queue.bench[0])
		return
	}
	var group sync.WaitGroup
	for _, ws := range s.queue.bench[:workers] {
		group.Go(func() { work(ws) })
	}
	group.Wait()
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
	case e.ping:
		ping := survey.Ping{
			Number: e.number, Fix: e.fix,
			Port: e.echo[sonar.Port].Samples, Starboard: e.echo[sonar.Starboard].Samples,
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
