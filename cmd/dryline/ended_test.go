//go:build unix

package main

import (
	"bufio"
	"bytes"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// longPond is an invented exercise that takes half an hour at the pace of the
// clock.
const longPond = `title: A pond
briefing: One line over mud, long enough to be cut short.
seed: 3
place: {name: Fenwarra Inlet, latitude_deg: 47.2, longitude_deg: -33.4}
seabed: {east_m: 300, north_m: 4000, depth_m: 14, sediment: {base: mud}}
sonar:
  range_scale_m: 50
  samples: 200
  rays: 1
  channels: [{name: "450", frequency_khz: 450}]
lines: [{name: L1, from: [100, 220], to: [100, 3810]}]
plan: {cable_out_m: 15, run_in_m: 60, run_out_m: 10}
`

// child is dryline in a process of its own, what it says line by line, and its
// complaints.
type child struct {
	*exec.Cmd
	lines  *bufio.Scanner
	stderr bytes.Buffer
}

// start begins dryline in a folder that holds pond.yaml.
func start(t *testing.T, folder string, args ...string) *child {
	t.Helper()
	if err := os.WriteFile(filepath.Join(folder, "pond.yaml"), []byte(longPond), 0o644); err != nil {
		t.Fatal(err)
	}
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	c := &child{Cmd: exec.Command(self, args...)}
	c.Args[0], c.Dir, c.Stderr = "dryline", folder, &c.stderr
	out, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	c.lines = bufio.NewScanner(out)
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { c.Process.Kill() })
	return c
}

// says waits for a line of output that begins so.
func (c *child) says(t *testing.T, begins string) {
	t.Helper()
	for c.lines.Scan() {
		if strings.HasPrefix(c.lines.Text(), begins) {
			return
		}
	}
	t.Fatalf("%v never says %q: %s", c.Args, begins, c.stderr.String())
}

// makes waits for a file of that pattern to be there.
func (c *child) makes(t *testing.T, pattern string) {
	t.Helper()
	for {
		if found, _ := filepath.Glob(filepath.Join(c.Dir, pattern)); len(found) > 0 {
			return
		}
		if c.Process.Signal(syscall.Signal(0)) != nil {
			t.Fatalf("%v ended: %s", c.Args, c.stderr.String())
		}
		time.Sleep(5 * time.Millisecond)
	}
}

// end sends a signal and waits for the child to end well; what it said last is
// returned.
func (c *child) end(t *testing.T, signal os.Signal) string {
	t.Helper()
	if err := c.Process.Signal(signal); err != nil {
		t.Fatal(err)
	}
	var last strings.Builder
	for c.lines.Scan() {
		last.WriteString(c.lines.Text() + "\n")
	}
	if err := c.Wait(); err != nil {
		t.Fatalf("%v, told to end by %v: %v\n%s", c.Args, signal, err, c.stderr.String())
	}
	return last.String()
}

// Whatever way it is told to end, a survey hands over what there is, marked as
// partial and valid, and its log replays to the same bytes.
func TestEndedByTheSystem(t *testing.T) {
	for _, signal := range []syscall.Signal{syscall.SIGINT, syscall.SIGTERM, syscall.SIGHUP} {
		dir := t.TempDir()
		run := start(t, dir, "run", "pond.yaml", "-o", "part", "--speed-up", "1")
		run.makes(t, ".part.making-*/.") // it flies: whoever tells it now tells a survey
		said := run.end(t, signal)
		if !strings.Contains(said, "PARTIAL: the session was interrupted") {
			t.Errorf("%v: run says %q", signal, said)
		}
		part, again := filepath.Join(dir, "part"), filepath.Join(dir, "again")
		if status := Main([]string{"replay", filepath.Join(part, "session.jsonl"), "-o", again}, io.Discard, os.Stderr); status != exitOK {
			t.Fatalf("%v: the replay ends with status %d", signal, status)
		}
		was, is := digestsOf(t, part), digestsOf(t, again)
		for name, digest := range was {
			if is[name] != digest {
				t.Errorf("%v: %s differs when flown again", signal, name)
			}
		}
		if len(was) != len(is) || was["debrief.html"] == "" {
			t.Errorf("%v: %d files, flown again %d", signal, len(was), len(is))
		}

		// The stream and the page end well too.
		stream := start(t, dir, "stream", "pond.yaml", "--udp", "9")
		stream.says(t, "  UDP to")
		if said := stream.end(t, signal); !strings.Contains(said, "Interrupted after 0 min 0") {
			t.Errorf("%v: stream says %q", signal, said)
		}
		for name, content := range map[string][]byte{"tiny.wasm": []byte("\x00asm\x01\x00\x00\x00"), "wasm_exec.js": []byte("// Goes with it.\n")} {
			if err := os.WriteFile(filepath.Join(dir, name), content, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		page := start(t, dir, "serve", "--listen", "0.0.0.0:0", "--bundle", "tiny.wasm")
		page.says(t, "Serving the trainer window at http://")
		page.end(t, signal)
		if text := page.stderr.String(); !strings.HasPrefix(text, "dryline: warning: 0.0.0.0:0 is beyond this computer") || strings.Count(text, "\n") != 1 {
			t.Errorf("%v: serve complains %q", signal, text)
		}
	}
}
