package crew

import (
	"fmt"
	"io"
	"sync"
	"time"

	"dryline/sim"
	"dryline/sim/coach"
	"dryline/sim/debrief"
	"dryline/sim/survey"
)

// Crew works one session.
type Crew struct {
	session *sim.Session
	coach   *coach.Coach
	clock   *clock

	mu         sync.Mutex // guards the session and what follows
	orders     []sim.Command
	script     []sim.Command // of a session being resumed
	until      int64         // tick it was left at
	hints      bool
	height     float64
	misses     int // pings in a row without a bottom
	levels     []survey.RecordLevel
	shared     map[string]float64 // never changed once handed over
	sharedAt   int64              // second
	sharedOf   int                // records
	complaint  string
	complaints int
	sinceTiles int64

	out   sync.Mutex // guards what is handed over; held for moments only
	pings []Ping
	tiles map[[2]int]*Tile
	view  *View
}

const (
	// mostAhead bounds the ticks that may be owed: a machine that cannot keep up
	// lets time go rather than run after it.
	mostAhead = 8
	// tileEvery is how often the mosaic is looked through, ticks.
	tileEvery = 5
	// mostPings bounds what waits for the window; it takes them every frame.
	mostPings = 4096
)

// New mans a session. apart gives it a goroutine of its own; without, it works
// inside [Crew.Pass].
func New(s *sim.Session, apart bool) *Crew {
	c := &Crew{session: s, coach: coach.New(s.Exercise), clock: newClock(), hints: s.Exercise.Help.Coach, tiles: map[[2]int]*Tile{}}
	s.Desk.Watch(c.take)
	c.show()
	if apart {
		go c.work()
	}
	return c
}

// Resume mans a session that was left, and first brings it to where it was by
// what was ordered then.
func Resume(s *sim.Session, l *sim.Log, apart bool) *Crew {
	c := New(s, false)
	c.script, c.until = l.Commands, l.Ticks
	c.show()
	if apart {
		go c.work()
	}
	return c
}

// catchUp goes through some of the script and reports whether there is more.
func (c *Crew) catchUp() bool {
	s := c.session
	for len(c.script) > 0 && c.script[0].Tick <= s.Ticks() && !s.Done() {
		o := c.script[0]
		c.script = c.script[1:]
		if err := s.Give(o); err != nil {
			c.complaint, c.script, c.until = "the session cannot be brought back further: "+plain(err, o.Do), nil, 0
			c.complaints++
			return false
		}
	}
	if s.Done() || s.Ticks() >= c.until {
		return false
	}
	to := min(c.until, s.Ticks()+20)
	if len(c.script) > 0 {
		to = min(to, c.script[0].Tick)
	}
	s.Advance(int(to - s.Ticks()))
	s.Desk.Mosaic.Fresh(c.keep)
	return true
}

// Give passes an order on. It is taken at once, between two ticks, so that the
// next view shows it and the next order can build on it, even when time stands
// still.
func (c *Crew) Give(orders ...sim.Command) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.orders = append(c.orders, orders...)
	if !c.behind() {
		c.obey()
		c.show()
	}
}

// SetRate sets how fast time passes, 1 as on the water, and whether it does.
func (c *Crew) SetRate(rate float64, paused bool) { c.clock.set(rate, paused) }

// SetHints turns the coach on or off.
func (c *Crew) SetHints(on bool) {
	c.mu.Lock()
	c.hints = on
	c.mu.Unlock()
}

// Pass lets seconds of the window's time pass. budget is how long it may work
// within the call when it has no goroutine of its own; 0 is for one that has.
func (c *Crew) Pass(seconds float64, budget time.Duration) {
	c.clock.pass(seconds)
	if budget == 0 {
		return
	}
	until := time.Now().Add(budget)
	worked := false
	for c.step() {
		worked = true
		if time.Now().After(until) {
			break
		}
	}
	if worked {
		c.mu.Lock()
		c.show()
		c.mu.Unlock()
	}
}

// work is the crew's own goroutine.
func (c *Crew) work() {
	for c.clock.wait() {
		// A few ticks between views: at high rates the window sees every frame's
		// worth, not every tick.
		for range 4 {
			if !c.step() {
				break
			}
		}
		c.mu.Lock()
		c.show()
		c.mu.Unlock()
	}
}

// step carries out one tick, if time is owed, or some of the way back.
func (c *Crew) step() bool {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.clock.isClosed() {
		return false
	}
	if c.behind() {
		more := c.catchUp()
		c.clock.note(c.behind(), c.session.Done())
		return more
	}
	if c.session.Done() || !c.clock.spend() {
		return false
	}
	c.obey()
	c.session.Advance(1)
	if c.sinceTiles++; c.sinceTiles >= tileEvery {
		c.sinceTiles = 0
		c.session.Desk.Mosaic.Fresh(c.keep)
	}
	return true
}

// behind reports whether a session is still being brought back.
func (c *Crew) behind() bool {
	return !c.session.Done() && (len(c.script) > 0 || c.session.Ticks() < c.until)
}

// obey carries out what was ordered.
func (c *Crew) obey() {
	for _, o := range c.orders {
		if err := c.session.Give(o); err != nil {
			c.complaint = plain(err, o.Do)
			c.complaints++
		}
	}
	c.orders = c.orders[:0]
}

// View is the latest view.
func (c *Crew) View() *View {
	c.out.Lock()
	defer c.out.Unlock()
	return c.view
}

// Report is the debrief of the session as it stands.
func (c *Crew) Report() debrief.Report {
	c.mu.Lock()
	defer c.mu.Unlock()
	return debrief.Make(c.session)
}

// With gives f the session while nothing else touches it, for what is written
// once at the end.
func (c *Crew) With(f func(*sim.Session) error) error {
	c.mu.Lock()
	defer c.mu.Unlock()
	return f(c.session)
}

// Name tells the session's files from others'.
func (c *Crew) Name() string { return fmt.Sprintf("%s-%d", c.session.Exercise.Name, c.session.Seed) }

// WriteLog writes the session log.
func (c *Crew) WriteLog(w io.Writer) error {
	return c.With(func(s *sim.Session) error { return s.WriteLog(w) })
}

// Close sends the crew home; the session can still be read.
func (c *Crew) Close() { c.clock.close() }
