package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dryline/sim/order"
)

// flatPond is an invented exercise of one short line over flat mud, with gaps
// for the tow and the plan.
const flatPond = `title: A pond
briefing: One short line over mud.
place: {name: Fenwarra Inlet, latitude_deg: 47.2, longitude_deg: -33.4}
seabed: {east_m: 300, north_m: 600, depth_m: %g, sediment: {base: mud}}
tow: {cable: {length_m: %g}, winch: {shortest_m: %g}}
sonar:
  range_scale_m: 50
  samples: 200
  rays: 1
  channels: [{name: "450", frequency_khz: 450}]
lines: [{name: L1, from: [100, 160], to: [100, 330]}]
plan: {cable_out_m: %g, run_in_m: 60, run_out_m: 10, altitude_m: %g}
`

// Whatever cable there is and whatever height is wanted, the mate asks the winch
// for nothing it cannot do, and asks for the same only once.
func TestTheMateAsksTheWinchForWhatItCanDo(t *testing.T) {
	for _, test := range []struct{ depth, length, shortest, out, altitude float64 }{
		{14, 20.3, 2, 15, 3},       // never deep enough, with 20.3 m of cable
		{14, 20.25, 20.1, 20.2, 3}, // hardly any cable to haul or to pay out
		{14, 100, 12.3, 15, 12},    // never high enough, with 12.3 m out at least
		{14, 100, 1, 8, 12.9},      // high, where less than 4 m are wanted
		{14, 61.7, 0.5, 20, 5},
	} {
		dir := t.TempDir()
		file, folder := filepath.Join(dir, "pond.yaml"), filepath.Join(dir, "out")
		text := fmt.Sprintf(flatPond, test.depth, test.length, test.shortest, test.out, test.altitude)
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		var stdout, stderr bytes.Buffer
		if status := Main([]string{"run", file, "-o", folder}, &stdout, &stderr); status != exitOK || stderr.Len() > 0 {
			t.Errorf("%+v: status %d, %s", test, status, strings.TrimSpace(stderr.String()))
			continue
		}
		log, err := os.Open(filepath.Join(folder, "session.jsonl"))
		if err != nil {
			t.Fatal(err)
		}
		read, err := order.ReadLog(log)
		log.Close()
		if err != nil {
			t.Fatal(err)
		}
		last := test.out
		for _, c := range read.Commands {
			if c.Do != order.Cable {
				continue
			}
			if c.Value < test.shortest || c.Value > test.length {
				t.Errorf("%+v: ordered %g m of cable", test, c.Value)
			}
			if c.Value == last {
				t.Errorf("%+v: ordered %g m of cable again at tick %d", test, c.Value, c.Tick)
			}
			last = c.Value
		}
	}
}
