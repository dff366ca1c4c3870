//go:build linux

package main

import (
	"fmt"
	"os"
	"strings"
	"testing"

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

// The whole window, with waterfall, chart and instruments drawn, takes no more
// memory twenty minutes later than after eight minutes: with the log off nothing is
// to be remembered but the track.
func TestTheWindowDoesNotGrow(t *testing.T) {
	t.Setenv("GOGC", "20") // what is garbage goes soon: what stays is what counts
	d := openDesk(t, newHome(t), 1280, 720, "first-line")
	d.tap(ebiten.KeyEqual, ebiten.KeyEqual, ebiten.KeyEqual, ebiten.KeyEqual)
	d.hold(ebiten.KeyLeft, 2) // round and round
	at := func(minutes int64) float64 {
		d.until(fmt.Sprintf("%d minutes", minutes), 60000, func(s *shown) bool {
			d.frame()
			return s.watch.Tick >= minutes*600
		})
		return resident(t, d.cmd.Process.Pid)
	}
	before, after := at(8), at(28)
	t.Logf("%.0f MB after eight minutes, %.0f after twenty-eight", before, after)
	if after > before+25 {
		t.Errorf("%.0f MB after eight minutes and %.0f after twenty-eight, want hardly more", before, after)
	}
}
