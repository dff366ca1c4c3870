package sim

import (
	"math"
	"sync"
	"sync/atomic"

	"dryline/sim/survey"
	"dryline/sonar"
	"dryline/vessel/nav/geodesy"
)

// studio holds what waits for the desk: pings to be made and lines to be
// opened and closed between them, in order.
type studio struct {
	events  []event
	pings   int
	logging bool
	line    Command // the order to log it, while logging
	spare   [][2]sonar.Echo
	bench   []*sonar.Workspace
}

// event is one thing the desk will be told.
type event struct {
	lineOn  string // open the line of that name
	track   geodesy.Track
	lineOff bool // close the open line

	note    bool // enter the fix in the watch log
	heading geodesy.TrueBearing

	ping   bool
	number uint64
	pose   sonar.Pose
	fix    survey.Fix
	logged bool
	lost   bool // the fish was knocked and sent nothing up
	echo   [2]sonar.Echo
}

// batch is how many pings are made at once: enough to keep every core busy,
// few enough to stay in cache.
const batch = 96

// tellDesk queues what the desk will be told, if it is told anything.
func (s *Session) tellDesk(e event) {
	if !s.bare {
		s.studio.events = append(s.studio.events, e)
	}
}

func (s *studio) full() bool { return s.pings >= batch }

// queuePings queues the pings that fell due in the tick just stepped, between
// the poses at its beginning and end.
func (s *Session) queuePings(before, after sonar.Pose) {
	if s.bare {
		return
	}
	start := s.Now() - Tick
	for s.nextPing < s.Now() {
		f := (s.nextPing - start) / Tick
		mix := func(a, b float64) float64 { return a + f*(b-a) }
		turn := math.Remainder(after.Heading-before.Heading, 2*math.Pi)
		pose := s.restless(sonar.Pose{
			X: mix(before.X, after.X), Y: mix(before.Y, after.Y), Z: mix(before.Z, after.Z),
			Heading: before.Heading + f*turn, YawRate: turn / Tick,
			Pitch: mix(before.Pitch, after.Pitch), Roll: mix(before.Roll, after.Roll),
			Surface: after.Surface, Time: s.nextPing, Run: mix(before.Run, after.Run),
		}, s.nextPing)
		pose.Wake = s.wake.cuts(pose, s.weather.CurrentX, s.weather.CurrentY)
		s.tellDesk(event{
			ping: true, number: s.number, logged: s.studio.logging, lost: s.nextPing < s.trouble.deafUntil,
			pose: pose, fix: s.Desk.FixAt(s.nextPing),
		})
		s.studio.pings++
		s.number++
		s.nextPing += s.interval
	}
}

// develop makes the queued pings, on all workers, and hands everything to the
// desk in order.
func (s *Session) develop() {
	st := &s.studio
	if len(st.events) == 0 {
		return
	}
	var jobs []*event
	for i := range st.events {
		e := &st.events[i]
		if !e.ping {
			continue
		}
		if n := len(st.spare); n > 0 {
			e.echo, st.spare = st.spare[n-1], st.spare[:n-1]
		} else {
			e.echo = [2]sonar.Echo{s.engine.NewEcho(), s.engine.NewEcho()}
		}
		jobs = append(jobs, e)
	}
	s.makePings(jobs)
	for i := range st.events {
		s.tell(&st.events[i])
	}
	for _, e := range jobs {
		st.spare = append(st.spare, e.echo)
	}
	clear(st.events)
	st.events, st.pings = st.events[:0], 0
}

// makePings fills the echoes. Every ping draws from its own stream, so it does
// not matter which worker makes it.
func (s *Session) makePings(jobs []*event) {
	workers := max(1, min(s.Workers, len(jobs)))
	for len(s.studio.bench) < workers {
		s.studio.bench = append(s.studio.bench, s.engine.NewWorkspace())
	}
	var next atomic.Int64
	work := func(ws *sonar.Workspace) {
		for {
			n := int(next.Add(1)) - 1
			if n >= len(jobs) {
				return
			}
			e := jobs[n]
			for side := range e.echo {
				if e.lost {
					e.echo[side].Clear()
					continue
				}
				s.engine.Ping(ws, &e.echo[side], sonar.Ground{World: s.world}, e.pose, sonar.Side(side), e.number)
			}
		}
	}
	if workers == 1 {
		work(s.studio.bench[0])
		return
	}
	var group sync.WaitGroup
	for _, ws := range s.studio.bench[:workers] {
		group.Go(func() { work(ws) })
	}
	group.Wait()
}

// tell hands one event to the desk.
func (s *Session) tell(e *event) {
	switch {
	case e.lineOn != "":
		s.closeLine()
		s.Desk.StartLine(e.lineOn, e.track)
	case e.lineOff:
		s.closeLine()
	case e.note:
		s.Desk.Note(e.fix, e.heading)
		s.digest.note(e)
	case e.ping:
		ping := survey.Ping{
			Number: e.number, Fix: e.fix,
			Port: e.echo[sonar.Port].Samples, Starboard: e.echo[sonar.Starboard].Samples,
		}
		s.Desk.Take(ping)
		if e.logged {
			s.digest.ping(&ping)
			s.Truth.record(s, e)
		}
	}
}

func (s *Session) closeLine() {
	line := s.Desk.EndLine()
	if line == nil {
		return
	}
	for _, f := range s.onLine {
		f(line)
	}
}
