package transport

import (
	"bufio"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
)

// Every law against rows worked out by others from the same publication; the sources
// are named in the file.
func TestPublishedRows(t *testing.T) {
	f, err := os.Open("../../testdata/transport/rows.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	seen := map[string]int{}
	for lines := bufio.NewScanner(f); lines.Scan(); {
		line := lines.Text()
		if strings.HasPrefix(line, "#") {
			continue
		}
		fields := strings.Split(line, ",")
		var v []float64
		for _, s := range fields[1:] {
			x, err := strconv.ParseFloat(s, 64)
			if err != nil {
				t.Fatalf("%s: %v", line, err)
			}
			v = append(v, x)
		}
		seen[fields[0]]++
		near := func(what string, got, want float64) {
			if math.Abs(got-want) > 0.002*want {
				t.Errorf("%s: %s is %.5g, published %.5g", line, what, got, want)
			}
		}
		const mm = 1e-3
		switch fields[0] {
		case "threshold":
			near("theta_cr", ThresholdShields(v[0]*mm), v[1])
			near("tau_cr", Stress(ThresholdShields(v[0]*mm), v[0]*mm), v[2])
		case "orbit":
			d0, ub := Orbit(v[0], v[1], v[2])
			near("d0", d0, v[3])
			near("ub", ub, v[4])
		case "ripple":
			r := WaveRipple(v[0]*mm, v[1])
			near("length", r.Length, v[2])
			near("height", r.Height, v[3])
		case "flemming":
			near("mean", DuneHeight(v[0]), v[1])
			near("limit", HighestDune(v[0]), v[2])
		case "dune":
			r := Dune(v[0], v[1]*mm, v[2])
			near("height", r.Height, v[3])
			near("length", r.Length, v[4])
		case "burial":
			near("of large things", Burial(v[0], 0.5), v[1])
			near("of small things", Burial(v[0], 0.01), min(v[2], 1))
		case "pile":
			near("scour", PileScour(v[0]), v[1])
		default:
			t.Fatalf("unknown row %q", line)
		}
	}
	if len(seen) != 7 {
		t.Errorf("kinds of rows: %v, want seven", seen)
	}
}

// Where Wiberg and Harris' law has no root (0.2 mm grains, an orbit of 3 m) the ripple
// is guarded: no number that is none, and no higher than before.
func TestRippleWithoutRoot(t *testing.T) {
	before := WaveRipple(0.2e-3, 2)
	for orbit := 2.0; orbit < 40; orbit += 0.5 {
		r := WaveRipple(0.2e-3, orbit)
		if !(r.Length > 0 && r.Height > 0) || r.Height > before.Height || r.Length != before.Length {
			t.Errorf("orbit %.1f m: %+v", orbit, r)
		}
	}
	if r := WaveRipple(0.2e-3, 0); r != (Ripple{}) {
		t.Errorf("still water: %+v", r)
	}
}

// Of nothing moving and of everything swept flat there are no ripples; a swell makes
// ripples of coarse sand, a current of fine.
func TestRippleOfFlow(t *testing.T) {
	if r := (Flow{Current: 0.05, Depth: 20}).Ripple(0.3e-3); r != (Ripple{}) {
		t.Errorf("nothing moves, but %+v", r)
	}
	if r := (Flow{Height: 3, Period: 9, Depth: 6}).Ripple(0.15e-3); r != (Ripple{}) {
		t.Errorf("swept flat, but %+v", r)
	}
	if r := (Flow{Height: 1.5, Period: 9, Depth: 15}).Ripple(0.7e-3); r.Length < 0.5 || r.Length > 1.2 {
		t.Errorf("coarse sand under a swell: %+v", r)
	}
	if r := (Flow{Current: 0.5, Depth: 15}).Ripple(0.2e-3); math.Abs(r.Length-0.2) > 1e-9 {
		t.Errorf("fine sand in a current: %+v", r)
	}
	if b := Burial(0.01, 0.5); b > 0.3 {
		t.Errorf("burial in little flow: %.2f", b)
	}
}
