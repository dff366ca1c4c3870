package crew

import (
	"sync"
	"time"

	"dryline/sim"
)

// clock is the time that is owed to the session. It has a lock of its own, so
// that the window never waits for a tick to be done.
type clock struct {
	mu      sync.Mutex
	due     *sync.Cond
	credit  float64 // ticks that may be stepped
	rate    float64
	paused  bool
	closed  bool
	lagging bool // the session is still being brought back
	held    bool // an order has to be written down first
	over    bool
	reached rateMeter
	now     func() time.Time
}

func newClock() *clock {
	k := &clock{rate: 1, now: time.Now}
	k.due = sync.NewCond(&k.mu)
	return k
}

// pass lets seconds of the window's time pass. None is owed for the way back.
func (k *clock) pass(seconds float64) {
	k.mu.Lock()
	if !k.paused && !k.lagging {
		k.credit = min(k.credit+seconds*k.rate/sim.Tick, mostAhead*max(k.rate, 1))
	}
	k.mu.Unlock()
	k.due.Signal()
}

// spend takes the ticks that are owed, so many at most, and returns how many.
func (k *clock) spend(most int) int {
	k.mu.Lock()
	defer k.mu.Unlock()
	n := min(int(k.credit), most)
	if n < 1 || k.closed {
		return 0
	}
	k.credit -= float64(n)
	k.reached.add(n, k.now())
	return n
}

// set changes how fast time passes.
func (k *clock) set(rate float64, paused bool) {
	k.mu.Lock()
	if rate != k.rate || paused != k.paused {
		k.reached = rateMeter{} // time that stood still is not slowness
	}
	k.rate, k.paused = rate, paused
	if paused {
		k.credit = 0 // time stands still at once, whatever was owed
	}
	k.mu.Unlock()
}

// note says how the session stands.
func (k *clock) note(lagging, held, over bool) {
	k.mu.Lock()
	k.lagging, k.held, k.over = lagging, held, over
	k.mu.Unlock()
	k.due.Signal()
}

// wait waits until there is something to do; it returns false when there never
// will be.
func (k *clock) wait() bool {
	k.mu.Lock()
	defer k.mu.Unlock()
	for !k.closed && !k.lagging && (k.credit < 1 || k.held || k.over) {
		k.due.Wait()
	}
	return !k.closed
}

func (k *clock) close() {
	k.mu.Lock()
	k.closed = true
	k.mu.Unlock()
	k.due.Broadcast()
}

// paces are the rate asked for and the rate reached.
func (k *clock) paces() (asked, reached float64) {
	k.mu.Lock()
	defer k.mu.Unlock()
	return k.rate, k.reached.rate()
}

func (k *clock) isClosed() bool {
	k.mu.Lock()
	defer k.mu.Unlock()
	return k.closed
}

// rateMeter measures how much faster than the clock time is passing.
type rateMeter struct {
	began time.Time
	ticks int
	last  float64
}

func (m *rateMeter) add(ticks int, now time.Time) {
	if m.began.IsZero() {
		m.began = now
	}
	m.ticks += ticks
	if spent := now.Sub(m.began); spent > time.Second {
		m.last = float64(m.ticks) / 10 / spent.Seconds()
		m.began, m.ticks = now, 0
	}
}

func (m *rateMeter) rate() float64 { return m.last }
