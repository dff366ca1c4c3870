package trial

import (
	"math"
	"math/rand/v2"
	"testing"
)

// A record of twelve hours by hand: F F F n F F F F F n n F. Work of 2.5 hours goes into 3: it could
// begin at hours 0, 4, 5 and 6; the waits from hours 0 to 6 are 0 3 2 1 0 0 0.
func TestWindowsByHand(t *testing.T) {
	record := []float64{5, 8, 12, 20, 3, 4, 5, 6, 15, 16, 22, 1}
	f := &Fit{MostWind: 15, Hourly: record}
	w := f.windows(2.5)
	if w.Count != 2 || w.Longest != 5 || w.Hours != 12 || w.Fit != 9.0/12 || w.Begin != 4.0/12 || *w.Wait != 6.0/7 || math.Abs(w.Outlives-5.0/12) > 1e-12 || w.Broken != nil {
		t.Errorf("%+v, wait %g", w, *w.Wait)
	}
	// Of 6 hours no window has room. In pieces of two hours at least, from hour 0: 3 h, one lost, 3 h more: over at 7.
	two := 2.0
	f.Least = &two
	w = f.windows(6)
	// From 1: 2 + 4 over at 8, 7 h; from 2: its window has one hour left, so all from 4: 5 h done at 9 and one to go.
	if w.Count != 0 || w.Begin != 0 || w.Wait != nil || *w.Broken != (7+7)/2.0 || math.Abs(w.Outlives-10.0/12) > 1e-12 {
		t.Errorf("%+v, broken off %g", w, *w.Broken)
	}
}

// Hours that are fit with a chance p, each on its own: runs of k or more begin at p^k of them (Feller,
// An Introduction to Probability Theory, on success runs), and the mean wait to the first hour of such a run
// is (1-p^k)/((1-p)p^k) - k, from the formula there for the trials to a run, from memory.
func TestWindowsOfChance(t *testing.T) {
	const p, k, n = 0.8, 4, 400_000
	rng := rand.New(rand.NewPCG(5, 6))
	record := make([]float64, n)
	for i := range record {
		if rng.Float64() > p {
			record[i] = 30
		}
	}
	w := (&Fit{MostWind: 10, Hourly: record}).windows(k)
	pk := math.Pow(p, k)
	if want := pk; math.Abs(w.Begin-want) > 0.01*want {
		t.Errorf("%.4f of the hours begin a run of %d, want %.4f", w.Begin, k, want)
	}
	if want := (1-pk)/((1-p)*pk) - k; math.Abs(*w.Wait-want) > 0.02*want {
		t.Errorf("mean wait %.3f h, want %.3f", *w.Wait, want)
	}
}
