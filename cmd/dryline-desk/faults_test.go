//go:build !js

package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"dryline/sim/order"

	"github.com/hajimehoshi/ebiten/v2"
)

func contains(s, part string) bool { return strings.Contains(s, part) }

// A watch that is left half way, whichever way the window ends, can be resumed where
// it was.
func TestAWatchLeftHalfWay(t *testing.T) {
	for _, way := range []struct {
		name   string
		code   int
		reason string
		end    func(*testing.T, *desk) int
	}{
		{"the window goes", 0, order.ReasonInterrupted, func(_ *testing.T, d *desk) int { return d.close() }},
		// Killed, it can do nothing more.
		{"it is killed", -1, order.ReasonTruncated, func(_ *testing.T, d *desk) int { return d.kill() }},
		{"the system ends it", 0, order.ReasonInterrupted, func(t *testing.T, d *desk) int {
			if err := d.cmd.Process.Signal(syscall.SIGTERM); err != nil {
				t.Fatal(err)
			}
			// The signal is taken by a goroutine, the end by the next tick.
			for deadline := time.Now().Add(30 * time.Second); d.guest.Err() == nil && time.Now().Before(deadline); d.passed++ {
				d.guest.AdvanceTicks(1)
				d.guest.WaitTicks()
			}
			return d.close()
		}},
	} {
		t.Run(way.name, func(t *testing.T) {
			h := newHome(t)
			d := openDesk(t, h, 1024, 600, "first-line")
			d.tap(ebiten.KeyEqual, ebiten.KeyEqual, ebiten.KeyEqual)
			d.until("a while", 2000, func(s *shown) bool { return s.watch.Tick > 60 })
			d.tap(ebiten.KeyPageDown)
			d.until("some more", 2000, func(s *shown) bool { return s.watch.Tick > 200 })
			left, passed, kept := d.shown.watch, d.passed, d.shown.watch.Tick
			if way.reason == order.ReasonTruncated {
				// A second of the window's clock is lost at most, however far the session got in
				// it: what was seen so long before is kept. A look takes twelve ticks of the
				// window, and what it sees is six of them old.
				kept = d.seen[len(d.seen)-1-6]
			}
			if code := way.end(t, d); code != way.code {
				t.Errorf("exit status %d, want %d; %s", code, way.code, &d.stderr)
			}
			logs := h.logs(t, "*.jsonl")
			if len(logs) != 1 || filepath.Base(logs[0]) != "first-line-3-watch.jsonl" {
				t.Fatalf("kept: %v, want first-line-3-watch.jsonl", logs)
			}
			l, _, _ := replayed(t, logs[0])
			// A machine that is busy owes the session up to eighty ticks at this rate, and two
			// more for each tick of the window since.
			if most := left.Tick + 100 + 2*int64(d.passed-passed); l.Ticks < kept || l.Ticks > most || l.Reason != way.reason {
				t.Errorf("the log ends at tick %d (%s), want %d to %d; the window was last seen at %d", l.Ticks, l.Reason, kept, most, left.Tick)
			}

			d = openDesk(t, h, 1024, 600, logs[0])
			s := d.until("it is back where it was", 6000, func(s *shown) bool { return s.watch.Restored == 1 })
			// Two of its ticks a look.
			if s.watch.Tick < l.Ticks || s.watch.Tick > l.Ticks+12 {
				t.Errorf("back at tick %d, want %d", s.watch.Tick, l.Ticks)
			}
			if s.watch.CableOrdered != left.CableOrdered {
				t.Errorf("back with %g m of cable ordered, want %g", s.watch.CableOrdered, left.CableOrdered)
			}
			if !s.watch.Paused {
				t.Error("time goes on before anyone is ready")
			}
			d.tap(ebiten.KeySpace, ebiten.KeyPageDown)
			d.until("it goes on", 2000, func(s *shown) bool {
				return s.watch.CableOrdered == left.CableOrdered+1 && s.watch.Tick > l.Ticks+20
			})
			d.close()
			if more := h.logs(t, "*.jsonl"); len(more) != 1 || more[0] != logs[0] {
				t.Fatalf("kept: %v, want it where it was, in %v", more, logs)
			}
			again, _, _ := replayed(t, logs[0])
			if again.Reason != order.ReasonInterrupted {
				t.Errorf("left again it is %s, want %s", again.Reason, order.ReasonInterrupted)
			}
			if n := len(l.Commands); len(again.Commands) != n+1 || !reflect.DeepEqual(again.Commands[:n], l.Commands) || again.Commands[n].Do != order.Cable {
				t.Errorf("orders after going on: %+v, want those before and one for the cable: %+v", again.Commands, l.Commands)
			}
		})
	}
}

// Asked wrongly, the program says so in one line and ends with 2; without a
// screen it says so in one line and ends with 1.
func TestWhatCannotBeOpened(t *testing.T) {
	broken := filepath.Join(t.TempDir(), "broken.yaml")
	if err := os.WriteFile(broken, []byte("title: [\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	cut := filepath.Join(t.TempDir(), "cut.jsonl")
	if err := os.WriteFile(cut, []byte("{\"dryl"), 0o666); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name string
		args []string
		code int
		says string
	}{
		{"unknown flag", []string{"-warp"}, 2, "-warp"},
		{"no size", []string{"-size", "wide"}, 2, `-size: "wide" is no size`},
		{"too small", []string{"-size", "100x100"}, 2, "at least 1024x600"},
		{"seed no number", []string{"-seed", "x"}, 2, "seed"},
		{"two names", []string{"first-line", "sloping-bank"}, 2, "2 names given"},
		{"unknown exercise", []string{"no-such"}, 2, "no-such"},
		{"no such file", []string{"missing.yaml"}, 2, "missing.yaml"},
		{"broken exercise", []string{broken}, 2, "broken.yaml"},
		{"no such log", []string{"missing.jsonl"}, 2, "missing.jsonl"},
		{"broken log", []string{cut}, 2, ""},
		{"no screen", []string{"first-line"}, 1, "there is no display to open a window on"},
		{"no screen to choose on", nil, 1, "there is no display to open a window on"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if c.code == 1 && !isUnix {
				t.Skip("there is always a display here")
			}
			h := newHome(t)
			cmd := h.command(t, nil, c.args...)
			cmd.Env = slices.DeleteFunc(cmd.Env, func(v string) bool {
				return strings.HasPrefix(v, "DISPLAY=") || strings.HasPrefix(v, "WAYLAND_DISPLAY=")
			})
			var stderr bytes.Buffer
			cmd.Stderr = &stderr
			cmd.Run()
			if got := cmd.ProcessState.ExitCode(); got != c.code {
				t.Errorf("exit status %d, want %d", got, c.code)
			}
			said := stderr.String()
			if !strings.HasPrefix(said, "dryline-desk: ") || !contains(said, c.says) || strings.Count(said, "\n") != 1 || !strings.HasSuffix(said, "\n") {
				t.Errorf("says %q, want one line with %q", said, c.says)
			}
			if left := h.logs(t, "*"); len(left) > 0 {
				t.Errorf("leaves %v behind", left)
			}
		})
	}
	t.Run("help", func(t *testing.T) {
		out, err := exec.Command(program, "-h").CombinedOutput()
		if err != nil || !bytes.HasPrefix(out, []byte("usage: dryline-desk ")) {
			t.Errorf("-h says %q, %v; want how it is used, and status 0", out, err)
		}
	})
}
