package crew

import (
	"errors"
	"iter"
	"runtime"
	"sync"
	"time"

	"dryline/sim/record"
	"dryline/vessel/nav"
)

// Task is work at the desk that takes longer than a frame. It goes on beside the window, which looks
// at how far it is, takes what comes of it, or calls it off.
type Task[T any] struct {
	progress
	ended chan struct{}
	value T
	err   error
}

// ErrCalledOff is the error of a task that was called off.
var ErrCalledOff = errors.New("it was called off")

// progress is how far a task is.
type progress struct {
	mu    sync.Mutex
	done  int
	of    int
	off   bool
	rests time.Time // when it last let others work
}

// oneThread is where nothing goes on beside anything else: work has to rest for the page to be drawn.
const oneThread = runtime.GOOS == "js"

// step says that one more piece is done, and stops the work that was called off.
func (p *progress) step() error {
	p.mu.Lock()
	p.done++
	off := p.off
	p.mu.Unlock()
	if off {
		return ErrCalledOff
	}
	if oneThread {
		if now := time.Now(); now.Sub(p.rests) > 8*time.Millisecond {
			time.Sleep(time.Millisecond) // the browser draws meanwhile
			p.rests = time.Now()
		}
	}
	return nil
}

// expect says of how many pieces the work is.
func (p *progress) expect(pieces int) {
	p.mu.Lock()
	p.of = pieces
	p.mu.Unlock()
}

// Share is how much of it is done, 0 to 1.
func (p *progress) Share() float64 {
	p.mu.Lock()
	defer p.mu.Unlock()
	return min(float64(p.done)/float64(max(p.of, 1)), 1)
}

// Cancel calls it off.
func (p *progress) Cancel() {
	p.mu.Lock()
	p.off = true
	p.mu.Unlock()
}

// begin has a task worked on.
func begin[T any](work func(p *progress) (T, error)) *Task[T] {
	t := &Task[T]{ended: make(chan struct{})}
	go func() {
		defer close(t.ended)
		t.value, t.err = work(&t.progress)
	}()
	return t
}

// Came returns the result, once the task is done.
func (t *Task[T]) Came() (value T, err error, done bool) {
	select {
	case <-t.ended:
		return t.value, t.err, true
	default:
		return value, nil, false
	}
}

// Wait waits until it is done.
func (t *Task[T]) Wait() (T, error) {
	<-t.ended
	return t.value, t.err
}

// counted is a record whose pings count as pieces of a task.
type counted struct {
	*record.Store
	p *progress
}

// Pings implements [remake.Record].
func (c counted) Pings(from, to uint64) iter.Seq2[*record.Ping, error] {
	return func(yield func(*record.Ping, error) bool) {
		for ping, err := range c.Store.Pings(from, to) {
			if err == nil {
				err = c.p.step()
			}
			if !yield(ping, err) || err != nil {
				return
			}
		}
	}
}

// Readings implements [remake.Kept].
func (c counted) Readings(from, to float64) iter.Seq2[*nav.Reading, error] {
	return func(yield func(*nav.Reading, error) bool) {
		for r, err := range c.Store.Readings(from, to) {
			if err == nil && c.p.called() {
				err = ErrCalledOff
			}
			if !yield(r, err) || err != nil {
				return
			}
		}
	}
}

func (p *progress) called() bool {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.off
}
