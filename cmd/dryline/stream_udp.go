package main

import (
	"fmt"
	"io"
	"net"
)

// udpOutlet sends each sentence as a datagram. A datagram nobody takes is lost,
// as it should be.
type udpOutlet struct {
	to           string
	conn         net.Conn
	stderr       io.Writer
	sent, failed int64
}

func openUDP(to string, stderr io.Writer) (*udpOutlet, error) {
	conn, err := net.Dial("udp", to)
	if err != nil {
		return nil, fmt.Errorf("--udp %s: %w", to, err)
	}
	return &udpOutlet{to: to, conn: conn, stderr: stderr}, nil
}

func (u *udpOutlet) name() string { return "UDP to " + u.to }

func (u *udpOutlet) send(sentences [][]byte) {
	for _, sentence := range sentences {
		if _, err := u.conn.Write(sentence); err != nil {
			if u.failed == 0 {
				warn(u.stderr, fmt.Sprintf("%v; goes on, and says so once", err))
			}
			u.failed++
			continue
		}
		u.sent++
	}
}

func (u *udpOutlet) close() { u.conn.Close() }

func (u *udpOutlet) tally() string { return fmt.Sprintf("%d sent, %d failed", u.sent, u.failed) }
