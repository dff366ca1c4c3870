//go:build linux

package main

import (
	"encoding/json"
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/hajimehoshi/ebiten/v2"
)

// resident is the memory a process has, megabytes.
func resident(t *testing.T, pid int) float64 {
	t.Helper()
	data, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(data)) {
		var kb float64
		if n, _ := fmt.Sscanf(line, "VmRSS: %f kB", &kb); n == 1 {
			return kb / 1000
		}
	}
	t.Fatal("no VmRSS")
	return 0
}

// The whole window, with waterfall, chart and instruments drawn, takes hardly more
// memory eight minutes later than after four: with the log off nothing is to be
// remembered but the track. (The app's own tests look at half an hour of it without a
// window, and TestTheWindowStaysSmall at as much with one.)
func TestTheWindowDoesNotGrow(t *testing.T) {
	t.Setenv("GOGC", "20") // what is garbage goes soon: only what stays counts
	d := openDesk(t, newHome(t), 1024, 600, "first-line")
	d.tap(ebiten.KeyEqual, ebiten.KeyEqual, ebiten.KeyEqual, ebiten.KeyEqual)
	d.hold(ebiten.KeyLeft, 2) // round and round
	at := func(minutes int64) float64 {
		looks := 0
		d.until(fmt.Sprintf("%d minutes", minutes), 60000, func(s *shown) bool {
			if looks++; looks%3 == 0 {
				d.frame()
			}
			return s.watch.Tick >= minutes*600
		})
		return resident(t, d.cmd.Process.Pid)
	}
	before, after := at(4), at(12)
	t.Logf("%.0f MB after four minutes, %.0f after twelve", before, after)
	if after > before+15 {
		t.Errorf("%.0f MB after four minutes and %.0f after twelve, want hardly more", before, after)
	}
}

// mostResident is the most memory a window may have, megabytes, of which a driver
// that draws in software and its libraries take some 140.
const mostResident = 400

// The whole window on a real screen, the driver's textures and all, from its start
// over a watch of eighteen minutes with the log on and its debrief to a second
// exercise. It takes two minutes by the clock and runs when DRYLINE_MEMORY is set.
func TestTheWindowStaysSmall(t *testing.T) {
	if os.Getenv("DRYLINE_MEMORY") == "" {
		t.Skip("two minutes by the clock: set DRYLINE_MEMORY=1")
	}
	needScreen(t)
	x, err := dialX(os.Getenv("DISPLAY"))
	if err != nil {
		t.Fatal(err)
	}
	defer x.c.Close()
	x.c.SetDeadline(time.Time{})
	h := newHome(t)
	cmd := h.command(t, []string{"GOGC="}, "-size", "1280x720", "disused-anchorage")
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	defer func() {
		cmd.Process.Kill()
		cmd.Wait()
	}()
	most := 0.0
	// until waits for something to be so, pressing a key every second: a machine that
	// is busy misses some.
	until := func(what string, key uint32, so func(screen string, s *watchState) bool) {
		t.Helper()
		begun, pressed := time.Now(), time.Time{}
		for ; ; time.Sleep(100 * time.Millisecond) {
			most = max(most, resident(t, cmd.Process.Pid))
			var s struct {
				Screen string
				State  json.RawMessage
			}
			var w watchState
			if data, err := os.ReadFile(h.shown()); err == nil && json.Unmarshal(data, &s) == nil {
				json.Unmarshal(s.State, &w) // not every screen's is of this kind
				if so(s.Screen, &w) {
					break
				}
			}
			if key != 0 && time.Since(pressed) > time.Second {
				pressed = time.Now()
				if err := x.key(key); err != nil {
					t.Fatal(err)
				}
			}
			if time.Since(begun) > 10*time.Minute {
				t.Fatalf("%s: not within ten minutes", what)
			}
		}
		t.Logf("%s: %.0f MB, so far %.0f at most", what, resident(t, cmd.Process.Pid), most)
	}
	watch := func(minutes int64) {
		t.Helper()
		until("on watch", 0, func(_ string, s *watchState) bool { return s.Tick > 10 })
		until("the log is on", xL, func(_ string, s *watchState) bool { return s.Logging != "" })
		until("at twenty times", xEqual, func(_ string, s *watchState) bool { return s.Rate == 20 })
		// Time slackens at both ends of a line, and at whatever happens: it is hurried again.
		until(fmt.Sprintf("%d minutes of it", minutes), xEqual, func(_ string, s *watchState) bool { return s.Tick > minutes*600 })
	}
	screen := func(name string, key uint32) {
		t.Helper()
		until(name, key, func(screen string, _ *watchState) bool { return screen == name })
	}
	watch(18)
	screen("desk", xF9)
	screen("debrief", xF9)
	screen("choose", xEscape)
	screen("watch", xEnter)
	watch(12)
	if most > mostResident {
		t.Errorf("%.0f MB at most, want no more than %d", most, mostResident)
	}
}
