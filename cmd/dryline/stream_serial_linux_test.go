package main

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"
	"unsafe"

	parser "github.com/adrianmo/go-nmea"

	"dryline/vessel/nav/nmea"
)

// pseudoTerminal stands in for a serial line: what is written to the port of
// that name is read from the file.
func pseudoTerminal(t *testing.T) (master *os.File, port string) {
	t.Helper()
	master, err := os.OpenFile("/dev/ptmx", os.O_RDWR|syscall.O_NOCTTY, 0)
	if err != nil {
		t.Skipf("no pseudo-terminal to stand in for a serial line: %v", err)
	}
	t.Cleanup(func() { master.Close() })
	var unlock, number int32
	for request, value := range map[uintptr]*int32{syscall.TIOCSPTLCK: &unlock, syscall.TIOCGPTN: &number} {
		if _, _, errno := syscall.Syscall(syscall.SYS_IOCTL, master.Fd(), request, uintptr(unsafe.Pointer(value))); errno != 0 {
			t.Skipf("no pseudo-terminal to stand in for a serial line: %v", errno)
		}
	}
	return master, fmt.Sprintf("/dev/pts/%d", number)
}

// What a line cannot carry is not sent, and is said once; the rest is.
func TestStreamSerialThinned(t *testing.T) {
	master, port := pseudoTerminal(t)
	file := filepath.Join(t.TempDir(), "pond.yaml")
	if err := os.WriteFile(file, []byte(pond), 0o600); err != nil {
		t.Fatal(err)
	}
	heard := make(chan map[string]int)
	go func() {
		kinds := map[string]int{}
		for lines := bufio.NewScanner(master); lines.Scan(); {
			if text := lines.Text(); len(text) > 6 {
				kinds[text[3:6]]++
			}
		}
		heard <- kinds
	}()
	// Twenty reports a second of the clock on the wall are 11.6 kB/s, the line carries 11.5.
	var stdout, stderr bytes.Buffer
	status := Main([]string{"stream", file, "--serial", port, "--baud", "115200", "--speed-up", "20"}, &stdout, &stderr)
	kinds := <-heard
	if status != 0 || strings.Count(stderr.String(), "\n") != 1 || !strings.Contains(stderr.String(), ": DBT left out") {
		t.Errorf("status %d, said %q, want one line about what is left out", status, stderr.String())
	}
	for _, k := range nmea.Kinds() {
		out := k == nmea.DBT
		if n := kinds[string(k)]; (n == 0) != out {
			t.Errorf("%s: %d heard, left out %t", k, n, out)
		}
	}
}

// A pseudo-terminal stands in for a serial line.
func TestStreamSerial(t *testing.T) {
	master, port := pseudoTerminal(t)
	var complaints bytes.Buffer
	out, err := openSerial(port, 38400, &complaints)
	if err != nil {
		t.Fatal(err)
	}
	defer out.close()
	p := pondPlayer(t, 1, out)
	p.kinds = []nmea.Kind{nmea.HDT, nmea.ZDA}
	heard := make(chan int)
	go func() {
		n := 0
		for lines := bufio.NewScanner(master); lines.Scan(); n++ { // ends when the other side closes
			if _, err := parser.Parse(strings.TrimSpace(lines.Text())); err != nil {
				t.Errorf("%q: %v", lines.Text(), err)
			}
		}
		heard <- n
	}()
	line := out.(*serialOutlet)
	p.wait = func(context.Context, float64) { // until the last report is out
		for len(line.queue) > 0 && !line.ended() {
			runtime.Gosched()
		}
	}
	made := play(t, p)
	out.close()
	if got := <-heard; got != made || out.tally() != fmt.Sprintf("%d sent, 0 dropped", made) || complaints.Len() > 0 {
		t.Errorf("got %d of %d sentences, %s, %q", got, made, out.tally(), complaints.String())
	}
}

// A line that carries less than it is given says so, once.
func TestSerialDropsOnce(t *testing.T) {
	var complaints bytes.Buffer
	let := make(chan struct{})
	s := &serialOutlet{port: "line", baud: 4800, stderr: &complaints, drip: newDrip(1, func([]byte) error { <-let; return nil })}
	for range 5 {
		s.send([][]byte{[]byte("a"), []byte("b")})
	}
	close(let)
	s.finish(enough, func() {})
	if got := strings.Count(complaints.String(), "\n"); got != 1 || !strings.Contains(complaints.String(), "serial line, 4800 baud drops") {
		t.Errorf("got %q, want one complaint", complaints.String())
	}
}
