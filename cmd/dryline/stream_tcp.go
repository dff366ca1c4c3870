package main

import (
	"fmt"
	"net"
	"slices"
	"sync"
	"time"
)

// mostClients is how many TCP clients are served at a time; more are turned
// away.
const mostClients = 32

// tcpOutlet serves TCP clients, each by its own drip.
type tcpOutlet struct {
	listener        net.Listener
	patience, grace time.Duration

	mu            sync.Mutex
	clients       []*tcpClient
	closed        bool
	served, cut   int // clients; cut off for taking nothing, or gone
	sent, dropped int64
}

type tcpClient struct {
	*drip
	conn net.Conn
}

func openTCP(at string) (*tcpOutlet, error) {
	listener, err := net.Listen("tcp", at)
	if err != nil {
		return nil, fmt.Errorf("--tcp %s: %w", at, err)
	}
	t := &tcpOutlet{listener: listener, patience: patience, grace: grace}
	go t.accept()
	return t, nil
}

func (t *tcpOutlet) accept() {
	for {
		conn, err := t.listener.Accept()
		if err == nil {
			t.serve(conn)
			continue
		}
		t.mu.Lock()
		closed := t.closed
		t.mu.Unlock()
		if closed {
			return
		}
		time.Sleep(100 * time.Millisecond) // out of descriptors, say
	}
}

func (t *tcpOutlet) serve(conn net.Conn) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.closed || len(t.clients) >= mostClients {
		conn.Close()
		return
	}
	if c, ok := conn.(*net.TCPConn); ok {
		c.SetWriteBuffer(16 << 10) // what waits there is stale; an error only leaves more of it
	}
	t.served++
	t.clients = append(t.clients, &tcpClient{conn: conn, drip: newDrip(queueLength, func(sentence []byte) error {
		if err := conn.SetWriteDeadline(time.Now().Add(t.patience)); err != nil {
			return err
		}
		_, err := conn.Write(sentence)
		if err != nil {
			conn.Close()
		}
		return err
	})})
}

func (t *tcpOutlet) name() string { return "TCP at " + t.listener.Addr().String() }

func (t *tcpOutlet) send(sentences [][]byte) {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.clients = slices.DeleteFunc(t.clients, func(c *tcpClient) bool {
		if c.ended() {
			t.settle(c)
			return true
		}
		c.put(sentences)
		return false
	})
}

// settle takes leave of a client and keeps its counts.
func (t *tcpOutlet) settle(c *tcpClient) {
	early := c.ended()
	c.finish(t.grace, func() { c.conn.Close() })
	if early {
		t.cut++
	}
	t.sent += c.sent.Load()
	t.dropped += c.dropped.Load()
}

func (t *tcpOutlet) close() {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.closed {
		return
	}
	t.closed = true
	t.listener.Close()
	var wg sync.WaitGroup
	for _, c := range t.clients { // all at once, not one grace after another
		wg.Go(func() { c.finish(t.grace, func() { c.conn.Close() }) })
	}
	wg.Wait()
	for _, c := range t.clients {
		t.sent += c.sent.Load()
		t.dropped += c.dropped.Load()
	}
	t.clients = nil
}

func (t *tcpOutlet) tally() string {
	t.mu.Lock()
	defer t.mu.Unlock()
	return fmt.Sprintf("%s, %d left or cut off before the end; %s",
		plural(t.served, "client", "clients"), t.cut, sentAndDropped(t.sent, t.dropped))
}
