package main

import (
	"fmt"
	"sync/atomic"
	"time"
)

// outlet is a way out for sentences. send never waits.
type outlet interface {
	name() string
	send(sentences [][]byte)
	close()        // once more does nothing
	tally() string // what became of the sentences; after close
}

func closeAll(outlets []outlet) {
	for _, out := range outlets {
		out.close()
	}
}

const (
	queueLength = 512                    // sentences waiting for one listener
	patience    = 3 * time.Second        // a client that takes nothing so long is cut off
	grace       = 500 * time.Millisecond // to drain at the end
)

// drip carries sentences to one slow writer in a goroutine of its own. When its
// queue is full the oldest goes.
type drip struct {
	queue         chan []byte
	done          chan struct{} // the writer has ended
	err           error         // why, before done is closed; nil at the end of the queue
	sent, dropped atomic.Int64
	closed        bool
}

func newDrip(length int, write func([]byte) error) *drip {
	d := &drip{queue: make(chan []byte, length), done: make(chan struct{})}
	go func() {
		defer close(d.done)
		for sentence := range d.queue {
			if d.err = write(sentence); d.err != nil {
				d.dropped.Add(1)
				return
			}
			d.sent.Add(1)
		}
	}()
	return d
}

// put queues sentences, from one goroutine only.
func (d *drip) put(sentences [][]byte) {
	for _, sentence := range sentences {
		for queued := false; !queued; {
			select {
			case d.queue <- sentence:
				queued = true
			default:
				select {
				case <-d.queue:
					d.dropped.Add(1)
				default: // the writer took one meanwhile
				}
			}
		}
	}
}

// ended reports whether the writer has given up.
func (d *drip) ended() bool {
	select {
	case <-d.done:
		return true
	default:
		return false
	}
}

// finish lets the queue drain for a while, then hangs up and counts what was
// left as dropped. hangUp makes a write that blocks fail.
func (d *drip) finish(grace time.Duration, hangUp func()) {
	if d.closed {
		return
	}
	d.closed = true
	close(d.queue)
	select {
	case <-d.done:
	case <-time.After(grace):
	}
	hangUp()
	select {
	case <-d.done:
	case <-time.After(grace): // a port that does not even let go
	}
	for range d.queue {
		d.dropped.Add(1)
	}
}

// sentAndDropped tells two counts.
func sentAndDropped(sent, dropped int64) string {
	return fmt.Sprintf("%d sent, %d dropped", sent, dropped)
}
