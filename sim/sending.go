package sim

import (
	"sync"
	"sync/atomic"

	"dryline/seabed"
	"dryline/sonar"
)

// sending is a ping that was sent: where from, and what comes back.
type sending struct {
	number   uint64
	pose     sonar.Pose
	lost     bool // the fish was knocked and sent nothing up
	recalled bool // its samples come from a record
	echo     [2]sonar.Echo
	room     bool // for what comes back
	made     atomic.Bool
}

// spareSending is one to fill in.
func (s *Session) spareSending() *sending {
	q := &s.queue
	if n := len(q.spare); n > 0 {
		ping := q.spare[n-1]
		q.spare = q.spare[:n-1]
		ping.recalled = false
		ping.made.Store(false)
		return ping
	}
	return new(sending)
}

// send has a ping made. It may be made at once, on another core, while the passage
// goes on: it hangs on nothing but where it was sent from.
func (s *Session) send(ping *sending) {
	if !ping.room {
		ping.echo, ping.room = [2]sonar.Echo{s.newEcho(), s.newEcho()}, true
	}
	s.queue.sent = append(s.queue.sent, ping)
	if s.recorded == nil { // else it may have been made long ago
		s.makers().add(ping)
	}
}

func (s *Session) newEcho() sonar.Echo {
	if s.labelled {
		return s.sonar.engine.NewLabelledEcho()
	}
	return s.sonar.engine.NewEcho()
}

// makers is who makes pings: the session's own goroutine, when it has nothing else
// to do, and helpers beside it. Every ping draws from its own stream, so it does not
// matter who makes it.
type makers struct {
	engine *sonar.Engine
	world  *seabed.World
	own    *sonar.Workspace
	spaces []*sonar.Workspace // of the helpers

	mu      sync.Mutex
	changed sync.Cond // there is more to make, one is made, or all are
	jobs    []*sending
	next    int  // of jobs, the first that nobody has taken
	resting bool // nobody waits for more
	helping int  // helpers at work
}

// makers are those of the engine as it is.
func (s *Session) makers() *makers {
	q := &s.queue
	if q.makers == nil {
		m := &makers{engine: s.sonar.engine, world: s.world, own: s.sonar.engine.NewWorkspace(), resting: true}
		m.changed.L = &m.mu
		for range s.Workers - 1 {
			m.spaces = append(m.spaces, m.engine.NewWorkspace())
		}
		q.makers = m
	}
	return q.makers
}

// add has a ping made; helpers come for the first.
func (m *makers) add(ping *sending) {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.jobs = append(m.jobs, ping)
	if m.resting {
		m.resting = false
		for _, space := range m.spaces {
			m.helping++
			go m.help(space)
		}
		return
	}
	m.changed.Broadcast()
}

// help makes pings until there are no more to come.
func (m *makers) help(space *sonar.Workspace) {
	m.mu.Lock()
	defer m.mu.Unlock()
	for {
		if m.makeOne(space) {
			continue
		}
		if m.resting {
			m.helping--
			m.changed.Broadcast()
			return
		}
		m.changed.Wait()
	}
}

// makeOne makes the next ping that nobody has taken. It is called with the lock held,
// which it lets go meanwhile.
func (m *makers) makeOne(space *sonar.Workspace) bool {
	if m.next == len(m.jobs) {
		return false
	}
	ping := m.jobs[m.next]
	m.next++
	m.mu.Unlock()
	m.make(space, ping)
	m.mu.Lock()
	ping.made.Store(true)
	m.changed.Broadcast()
	return true
}

func (m *makers) make(space *sonar.Workspace, ping *sending) {
	if ping.recalled {
		return
	}
	for side := range ping.echo {
		if ping.lost {
			ping.echo[side].Clear()
			continue
		}
		m.engine.Ping(space, &ping.echo[side], sonar.Ground{World: m.world}, ping.pose, sonar.Side(side), ping.number)
	}
}

// await makes pings until one is made, by whoever.
func (m *makers) await(ping *sending) {
	if ping.made.Load() {
		return
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	for !ping.made.Load() {
		if !m.makeOne(m.own) {
			m.changed.Wait()
		}
	}
}

// rest lets the helpers go once all that was sent is made, and waits until they have gone.
func (m *makers) rest() {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.resting = true
	m.changed.Broadcast()
	for m.helping > 0 {
		m.changed.Wait()
	}
	clear(m.jobs)
	m.jobs, m.next = m.jobs[:0], 0
}
