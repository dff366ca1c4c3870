//go:build !wasm

package main

import (
	"fmt"
	"io"

	"go.bug.st/serial"
)

// serialOutlet writes to a serial port by a drip, since 4800 baud takes two
// milliseconds for each byte.
type serialOutlet struct {
	*drip
	port string
	baud int
	line serial.Port

	stderr io.Writer
	warned bool
}

// serialQueue is how many sentences wait for the port: at 4800 baud those of
// some three seconds. More would only be older.
const serialQueue = 32

// openSerial opens a port with 8 data bits, no parity and 1 stop bit, as NMEA
// 0183 has it, besides 4800 baud ("NMEA Revealed" v2.24, gpsd project).
func openSerial(port string, baud int, stderr io.Writer) (outlet, error) {
	line, err := serial.Open(port, &serial.Mode{BaudRate: baud, DataBits: 8, Parity: serial.NoParity, StopBits: serial.OneStopBit})
	if err != nil {
		return nil, fmt.Errorf("--serial %s: %w", port, err)
	}
	return &serialOutlet{port: port, baud: baud, line: line, stderr: stderr, drip: newDrip(serialQueue, func(sentence []byte) error {
		for len(sentence) > 0 {
			n, err := line.Write(sentence)
			if err != nil {
				return err
			}
			sentence = sentence[n:]
		}
		return nil
	})}, nil
}

func (s *serialOutlet) name() string { return fmt.Sprintf("serial %s, %d baud", s.port, s.baud) }

func (s *serialOutlet) send(sentences [][]byte) {
	if s.put(sentences); s.warned || s.dropped.Load() == 0 {
		return
	}
	s.warned = true
	warn(s.stderr, fmt.Sprintf("%s drops sentences: want a higher --baud, a lower --rate or --speed-up, or fewer --sentences", s.name()))
}

func (s *serialOutlet) close() { s.finish(grace, func() { s.line.Close() }) }

func (s *serialOutlet) tally() string {
	text := sentAndDropped(s.sent.Load(), s.dropped.Load())
	if s.ended() && s.err != nil {
		text += fmt.Sprintf("; the port failed: %v", s.err)
	}
	return text
}
