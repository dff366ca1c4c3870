package scenarios

import (
	"fmt"
	"regexp"
	"runtime"
	"strconv"
	"strings"
	"testing"

	"dryline/sim"
	"dryline/sim/debrief"
	"dryline/sim/order"
	"dryline/sim/simtest"
)

// The largest exercise there may be is known by its memory: what would take more
// is refused in a line that says what is allowed, and that much is.
func TestExercisesOfTooMuchMemoryAreRefused(t *testing.T) {
	channels := `
    - { name: a, frequency_khz: 400 }
    - { name: b, frequency_khz: 500 }
    - { name: c, frequency_khz: 600 }
`
	large := func(minutes string) string {
		return edit(t, small(t), "range_scale_m: 50", "range_scale_m: 20", "    - { name: low, frequency_khz: 100 }\n", "    - { name: low, frequency_khz: 100 }"+channels,
			"  cable_out_m: 20", "  cable_out_m: 20\n  time_limit_min: "+minutes)
	}
	_, err := Parse("x.yaml", []byte(large("600")))
	most := regexp.MustCompile(`^x\.yaml:20: plan\.time_limit_min: 600 may take 9\.\d GB of memory at this range scale, with so many channels and this mosaic \(want at most (2\d\d) min for 4 GB\)$`).
		FindStringSubmatch(fmt.Sprint(err))
	if most == nil {
		t.Fatalf("got %v", err)
	}
	ex, err := Parse("x.yaml", []byte(large(most[1])))
	if err != nil {
		t.Fatalf("what was allowed is refused: %v", err)
	}
	minutes, _ := strconv.Atoi(most[1])
	if _, err := Parse("x.yaml", []byte(large(strconv.Itoa(minutes+2)))); err == nil {
		t.Errorf("%d min are allowed as well", minutes+2)
	}
	// And what the trainee can set keeps to it.
	s, err := sim.New(ex, 1)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Give(order.Command{Do: order.Range, Value: 10}); err == nil || !strings.Contains(err.Error(), "of memory (want at most 4)") {
		t.Errorf("a range scale of 10 m: %v, want a refusal", err)
	}
	for _, scale := range []float64{40, 20} {
		if err := s.Give(order.Command{Do: order.Range, Value: scale}); err != nil {
			t.Errorf("a range scale of %g m: %v", scale, err)
		}
	}
}

// What an exercise takes with its log on from beginning to end, whatever way she
// goes, is no more than the loader reckons, and the ping's share of it is no idle
// figure.
func TestExercisesTakeNoMoreThanTheLoaderReckons(t *testing.T) {
	for name, source := range map[string]string{
		"one channel": small(t),
		"four channels close by": edit(t, small(t), "range_scale_m: 50", "range_scale_m: 20\n  samples: 600\n  rays: 1", "frequency_khz: 100 }\n",
			"frequency_khz: 100 }\n    - { name: a, frequency_khz: 400 }\n    - { name: b, frequency_khz: 500 }\n    - { name: c, frequency_khz: 600 }\n"),
	} {
		t.Run(name, func(t *testing.T) {
			ex, err := Parse("x.yaml", []byte(source))
			if err != nil {
				t.Fatal(err)
			}
			before := held()
			s, err := sim.New(ex, 1)
			if err != nil {
				t.Fatal(err)
			}
			witness := sim.Attend(s)
			simtest.Give(t, s, order.Command{Do: order.LogOn, Line: "L1"}, order.Command{Do: order.SteerHeading, Value: 1}, order.Command{Do: order.Speed, Value: 5})
			s.Advance(300)
			early := held() - before
			s.Advance(1200) // out of the world
			s.Close(order.ReasonInterrupted)
			r := debrief.Make(s, witness)
			late := held() - before
			takes := sim.MemoryOf(ex, ex.Sonar.RangeScale)
			if most := takes.Over(150); late > most || r.Lines[0].Pings < 2000 {
				t.Errorf("%.1f MB after 150 s and %d pings, the loader reckons %.1f", late/1e6, r.Lines[0].Pings, most/1e6)
			}
			// Of what it grows by, the mosaic and the floor are reckoned in beforehand.
			if each := (late - early) / 120; each < takes.PerSecond/4 {
				t.Errorf("%.1f kB a second, the loader reckons %.1f", each/1e3, takes.PerSecond/1e3)
			}
			// The picture reaches a range scale beyond the world, and no further.
			if i0, j0, i1, j1, ok := s.Desk.Mosaic.Bounds(); !ok || max(-i0, -j0, i1-int(400/0.25), j1-int(600/0.25)) > int(ex.Sonar.RangeScale/0.25)+128 {
				t.Errorf("the mosaic goes from %d, %d to %d, %d", i0, j0, i1, j1)
			}
			runtime.KeepAlive(s)
		})
	}
}

// held returns how much lives in the heap, bytes.
func held() float64 {
	runtime.GC()
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return float64(m.HeapAlloc)
}

// A pipeline of hundreds of kilometres would be laid for minutes.
func TestPipelinesHaveAnEnd(t *testing.T) {
	path := strings.TrimSuffix(strings.Repeat("[0, 0], [400, 600], ", 20), ", ")
	source := edit(t, small(t), "  depth_m: 20", "  depth_m: 20\n  pipelines: [{ name: p, diameter_m: 0.3, path: ["+path+"] }]")
	_, err := Parse("x.yaml", []byte(source))
	if want := "x.yaml:8: seabed.pipelines[0].path: is 28.1 km long (want at most 20 km)"; err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
}
