package main

import (
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"os"
	"strings"
	"syscall"
	"testing"
	"time"
)

// A window on a real screen, closed the way a window manager closes it: with the
// WM_DELETE_WINDOW message (Inter-Client Communication Conventions Manual 2.0,
// 4.2.8.1), sent by the X protocol, version 11.
func TestAWindowClosedByItsManager(t *testing.T) {
	needScreen(t)
	x, err := dialX(os.Getenv("DISPLAY"))
	if err != nil {
		if os.Getenv("DRYLINE_REQUIRE_TOOLS") == "1" {
			t.Fatalf("required by DRYLINE_REQUIRE_TOOLS=1: %v", err)
		}
		t.Skip(err)
	}
	defer x.c.Close()
	h := newHome(t)
	cmd := h.command(t, nil, "-size", "1200x680", "first-line")
	var stderr strings.Builder
	cmd.Stderr = &stderr
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	ended := make(chan error, 1)
	go func() { ended <- cmd.Wait() }()
	defer cmd.Process.Signal(syscall.SIGKILL)
	var tick int64
	for deadline := time.Now().Add(60 * time.Second); tick < 10; time.Sleep(50 * time.Millisecond) {
		var s struct {
			State watchState `json:"state"`
		}
		if data, err := os.ReadFile(h.shown()); err == nil && json.Unmarshal(data, &s) == nil {
			tick = s.State.Tick
		}
		if time.Now().After(deadline) {
			t.Fatalf("after a minute the watch is at tick %d, want 10; %s", tick, &stderr)
		}
	}
	if err := x.closeWindow(uint32(cmd.Process.Pid)); err != nil {
		t.Fatal(err)
	}
	select {
	case err := <-ended:
		if err != nil {
			t.Errorf("the program ends with %v; %s", err, &stderr)
		}
	case <-time.After(30 * time.Second):
		t.Fatal("the window does not close")
	}
	logs := h.logs(t, "*.jsonl")
	if len(logs) != 1 {
		t.Fatalf("kept: %v, want the log of the watch", logs)
	}
	if l, _, _ := replayed(t, logs[0]); l.Ticks < tick {
		t.Errorf("the log kept ends at tick %d, the window was last seen at %d", l.Ticks, tick)
	}
}

// xConn speaks the little of the X protocol that closing a window takes.
type xConn struct {
	c    net.Conn
	root uint32
}

var le = binary.LittleEndian

// dialX connects to a display of this machine that asks for no cookie.
func dialX(display string) (*xConn, error) {
	number, ok := strings.CutPrefix(display, ":")
	if !ok {
		return nil, fmt.Errorf("the display %q is not of this machine", display)
	}
	number, _, _ = strings.Cut(number, ".")
	c, err := net.Dial("unix", "/tmp/.X11-unix/X"+number)
	if err != nil {
		return nil, err
	}
	c.SetDeadline(time.Now().Add(2 * time.Minute))
	hello := make([]byte, 12)
	hello[0] = 'l'
	le.PutUint16(hello[2:], 11)
	if _, err := c.Write(hello); err != nil {
		return nil, err
	}
	head := make([]byte, 8)
	if _, err := io.ReadFull(c, head); err != nil {
		return nil, err
	}
	if head[0] != 1 {
		return nil, errors.New("the display asks for a cookie")
	}
	body := make([]byte, 4*int(le.Uint16(head[6:])))
	if _, err := io.ReadFull(c, body); err != nil {
		return nil, err
	}
	vendor := (int(le.Uint16(body[16:])) + 3) &^ 3
	return &xConn{c, le.Uint32(body[32+vendor+8*int(body[21]):])}, nil
}

// ask sends a request of whole words and returns its reply; what else comes in
// between is passed over.
func (x *xConn) ask(opcode, detail byte, words ...uint32) ([]byte, error) {
	if err := x.send(opcode, detail, words...); err != nil {
		return nil, err
	}
	for {
		r := make([]byte, 32)
		if _, err := io.ReadFull(x.c, r); err != nil {
			return nil, err
		}
		switch r[0] {
		case 0:
			return nil, fmt.Errorf("X error %d of request %d", r[1], r[10])
		case 1:
			more := make([]byte, 4*le.Uint32(r[4:]))
			_, err := io.ReadFull(x.c, more)
			return append(r, more...), err
		}
	}
}

func (x *xConn) send(opcode, detail byte, words ...uint32) error {
	b := []byte{opcode, detail, 0, 0}
	le.PutUint16(b[2:], uint16(1+len(words)))
	for _, w := range words {
		b = le.AppendUint32(b, w)
	}
	_, err := x.c.Write(b)
	return err
}

func (x *xConn) atom(name string) (uint32, error) {
	words := []uint32{uint32(len(name))}
	padded := append([]byte(name), 0, 0, 0)
	for i := 0; i+4 <= len(padded); i += 4 {
		words = append(words, le.Uint32(padded[i:]))
	}
	r, err := x.ask(16, 0, words...) // InternAtom
	if err != nil {
		return 0, err
	}
	return le.Uint32(r[8:]), nil
}

// closeWindow asks the window of a process to close.
func (x *xConn) closeWindow(pid uint32) error {
	window, err := x.windowOf(pid)
	if err != nil {
		return err
	}
	protocols, err := x.atom("WM_PROTOCOLS")
	if err != nil {
		return err
	}
	closes, err := x.atom("WM_DELETE_WINDOW")
	if err != nil {
		return err
	}
	const clientMessage, format32 = 33, 32
	return x.send(25, 0, window, 0, clientMessage|format32<<8, window, protocols, closes, 0, 0, 0, 0) // SendEvent
}

// windowOf is the window of a process.
func (x *xConn) windowOf(pid uint32) (uint32, error) {
	owner, err := x.atom("_NET_WM_PID")
	if err != nil {
		return 0, err
	}
	r, err := x.ask(15, 0, x.root) // QueryTree
	if err != nil {
		return 0, err
	}
	for i := range int(le.Uint16(r[16:])) {
		window := le.Uint32(r[32+4*i:])
		p, err := x.ask(20, 0, window, owner, 0, 0, 1) // GetProperty
		if err == nil && len(p) >= 36 && le.Uint32(p[32:]) == pid {
			return window, nil
		}
	}
	return 0, fmt.Errorf("process %d has no window on the display", pid)
}

// Codes of keys on an X display with the layout of a PC (xkeyboard-config,
// keycodes/evdev).
const (
	xEscape = 9
	xEqual  = 21
	xEnter  = 36
	xL      = 46
	xF9     = 75
)

// key presses a key of the keyboard and lets it go, by the XTEST extension, version
// 2.2: the window under the pointer gets it where no window manager gives it to
// another.
func (x *xConn) key(code uint32) error {
	const name = "XTEST"
	r, err := x.ask(98, 0, uint32(len(name)), le.Uint32([]byte(name)), le.Uint32([]byte("T   "))) // QueryExtension
	if err != nil {
		return err
	}
	if r[8] == 0 {
		return errors.New("the display has no " + name)
	}
	for _, event := range []uint32{2, 3} { // KeyPress, KeyRelease
		if err := x.send(r[9], 2, event|code<<8, 0, x.root, 0, 0, 0, 0, 0); err != nil { // FakeInput
			return err
		}
		time.Sleep(120 * time.Millisecond)
	}
	return nil
}
