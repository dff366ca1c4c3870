package crew

import (
	"fmt"
	"sync"
	"time"

	"dryline/sim"
	"dryline/sim/assess"
	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/product"
	"dryline/sim/record"
	"dryline/sim/survey"
)

// Crew works one session and owns it: nobody else has it.
type Crew struct {
	session *sim.Session
	witness *sim.Witness
	page    *product.Page
	clock   *clock
	records *order.LogWriter // of what is written down; used only by whoever gives orders

	mu         sync.Mutex // guards the session and what follows
	book       Book
	orders     []order.Command // given and not yet carried out
	assessed   *assess.Session // nil unless it is flown as an assessment
	wrote      int64           // tick that its log has reached
	awaiting   bool            // the first of them is being written down
	script     []order.Command // of a session being resumed or flown again
	until      int64           // tick it is brought to
	cutShort   bool            // it could not be brought so far
	earlier    *Crew           // whose session is flown again by its record, until it is there
	looking    bool            // on by the script: nobody gives orders
	next       uint64          // number of the next ping
	cost       time.Duration   // of a tick, of late
	height     float64         // of the fish at the last ping, metres
	levels     []survey.RecordLevel
	shared     map[string]float64 // never changed once handed over
	sharedAt   int64              // second
	sharedOf   int                // records and lines added
	complaint  string
	complaints int
	sinceTiles int
	unseen     unseen

	out   sync.Mutex // guards what is handed over; held for moments only
	pings []Ping
	tiles map[[2]int]*Tile
	view  *View
}

// mostRecord is how much memory the record of the lines may take where there is no disk, bytes: our
// own choice, at 11 MB a minute with two channels and 4 with one. What comes after is not kept, and the
// desk says so.
const mostRecord = 256 << 20

const (
	// mostAhead bounds the ticks that may be owed: a machine that cannot keep up
	// lets time go rather than run after it.
	mostAhead = 8
	// tileEvery is how often the mosaic is looked through, ticks.
	tileEvery = 5
	// mostPings bounds what waits for the window; it takes them every frame.
	mostPings = 4096
	// apartBatch is how many ticks are carried out between views by a crew apart:
	// at high rates the window sees every frame's worth, not every tick, and an
	// order waits for no more than these.
	apartBatch = 4
	// mostBatch bounds the ticks carried out at once inside a frame.
	mostBatch = 40
)

// man mans a session before its first step, with a witness and a page for its
// debrief. The witness has the coach at work whether or not anyone listens: the dials
// are coloured by what he makes of them.
func man(s *sim.Session) *Crew {
	witness := sim.Attend(s)
	kept, err := record.OnDisk("") // it goes with the session
	if err != nil {
		kept = record.InMemoryUpTo(mostRecord) // a browser has no disk, and a full one stops no watch
	}
	page := product.AttachPage(s, witness, kept, err != nil)
	c := &Crew{session: s, witness: witness, page: page, clock: newClock(), tiles: map[[2]int]*Tile{}}
	s.Desk.Watch(c.take)
	return c
}

// start has the crew take up its work, apart on a goroutine of its own or else
// inside [Crew.Pass].
func (c *Crew) start(apart bool) *Crew {
	c.show()
	if apart {
		go c.work()
	}
	return c
}

// catchUp goes some of the way to where the session is to be brought.
func (c *Crew) catchUp() {
	c.follow(min(c.until, c.session.Ticks()+20))
	c.session.Desk.Mosaic.Fresh(c.keep)
	if !c.behind() {
		c.arrive()
		c.resumeAssessed()
	}
}

// follow goes to a tick by the script, or to its next order if that comes before.
func (c *Crew) follow(to int64) {
	s := c.session
	for len(c.script) > 0 && (c.script[0].Tick <= s.Ticks() || s.Done()) {
		o := c.script[0]
		c.script = c.script[1:]
		if s.Done() && !o.Later() {
			continue // the time limit finished it, as it did the first time; the desk worked on
		}
		if err := s.Give(o); err != nil {
			c.script, c.until, c.cutShort = nil, 0, true
			c.complain("the session cannot be brought back further: " + plain(err, o.Do))
			return
		}
	}
	if len(c.script) > 0 {
		to = min(to, c.script[0].Tick)
	}
	if s.Done() || s.Ticks() >= to {
		return
	}
	if c.earlier == nil {
		s.Advance(int(to - s.Ticks()))
		return
	}
	if err := s.Refly(nil, to, c.earlier.page.Record); err != nil {
		c.complain(err.Error()) // only an order can be refused, and there is none
	}
}

// SetRate sets how fast time passes, 1 as on the water, and whether it does.
// In an assessment it passes as on the water.
func (c *Crew) SetRate(rate float64, paused bool) {
	if c.session.Brief.Help.Assessed {
		rate, paused = 1, false
	}
	c.clock.set(rate, paused)
}

// SetNow has the crew read another clock than the machine's, for tests. It tells
// what a tick costs and how fast time passes.
func (c *Crew) SetNow(now func() time.Time) {
	c.clock.mu.Lock()
	c.clock.now = now
	c.clock.mu.Unlock()
}

// Pass lets seconds of the window's time pass. budget is how long it may work
// within the call when it has no goroutine of its own; 0 is for one that has.
// What is owed is carried out in as few batches as the budget holds.
func (c *Crew) Pass(seconds float64, budget time.Duration) {
	c.clock.pass(seconds)
	if budget == 0 {
		return
	}
	until := c.clock.now().Add(budget)
	worked := false
	for left := budget; left > 0; left = until.Sub(c.clock.now()) {
		if !c.step(c.fitting(left)) {
			break
		}
		worked = true
	}
	if worked {
		c.mu.Lock()
		c.show()
		c.mu.Unlock()
	}
}

// fitting is how many ticks can be carried out in so much time, at least one.
func (c *Crew) fitting(left time.Duration) int {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.cost <= 0 {
		return 1
	}
	return int(min(max(left/c.cost, 1), mostBatch))
}

// work is the crew's own goroutine.
func (c *Crew) work() {
	for c.clock.wait() {
		c.step(apartBatch)
		c.mu.Lock()
		c.show()
		c.mu.Unlock()
	}
}

// step carries out what time is owed, so many ticks at most in one batch, or some
// of the way back; it reports whether there was anything to do.
func (c *Crew) step(most int) bool {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.clock.isClosed() {
		return false
	}
	if c.behind() {
		c.catchUp()
		c.note()
		return true
	}
	if c.session.Done() || c.awaiting {
		return false
	}
	n := c.clock.spend(most)
	if n == 0 {
		return false
	}
	began := c.clock.now()
	if c.looking {
		for to := c.session.Ticks() + int64(n); c.session.Ticks() < to && !c.session.Done() && !c.cutShort; {
			c.follow(to)
		}
	} else {
		c.session.Advance(n)
	}
	c.costs(c.clock.now().Sub(began) / time.Duration(n))
	c.writeReached(false)
	if c.sinceTiles += n; c.sinceTiles >= tileEvery {
		c.sinceTiles = 0
		c.session.Desk.Mosaic.Fresh(c.keep)
	}
	return true
}

// costs takes what a tick cost into what one costs of late.
func (c *Crew) costs(now time.Duration) {
	if c.cost == 0 {
		c.cost = now
	}
	c.cost += (now - c.cost) / 8
}

// note has the clock know how the session stands.
func (c *Crew) note() { c.clock.note(c.behind(), c.awaiting, c.session.Done()) }

// behind reports whether a session is still being brought to where it is to be.
func (c *Crew) behind() bool {
	due := len(c.script) > 0 && c.script[0].Tick <= c.until
	return due || !c.session.Done() && c.session.Ticks() < c.until
}

// View is the latest view.
func (c *Crew) View() *View {
	c.out.Lock()
	defer c.out.Unlock()
	return c.view
}

// Name tells the session's files from others'.
func (c *Crew) Name() string {
	if c.assessed != nil {
		return c.session.Exercise.Name // nobody is told the seed
	}
	return fmt.Sprintf("%s-%d", c.session.Exercise.Name, c.session.Seeds.One)
}

// Brief is the brief of the exercise.
func (c *Crew) Brief() *exercise.Brief { return c.session.Brief }

// ExerciseHash is the SHA-256 of the exercise file, hex, by which it is told from another
// of its name.
func (c *Crew) ExerciseHash() string { return c.session.Exercise.Hash }

// Cells are how wide the cells of the mosaic are and where the corner of one lies,
// metres.
func (c *Crew) Cells() (size, x, y float64) {
	x, y = c.session.Desk.Mosaic.Corner(0, 0)
	return c.session.Desk.Mosaic.CellSize(), x, y
}

// Parent is the session that this one was tried again from, nil if it was not.
func (c *Crew) Parent() *order.Parent { return c.session.Attempt.Parent }

// Close sends the crew home; it can still be asked.
func (c *Crew) Close() {
	c.clock.close()
	c.leaveAssessed()
	if c.looking {
		c.page.Record.Close() // nobody debriefs it
	}
}
