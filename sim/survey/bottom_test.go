package survey

import (
	"math"
	"math/rand/v2"
	"testing"
)

// water is a side of a ping: noise, then the floor from a slant range on.
func water(rng *rand.Rand, height, bin float64) []uint16 {
	s := make([]uint16, 1000)
	for k := range s {
		a := 3 * math.Sqrt(rng.ExpFloat64())
		if float64(k)*bin >= height {
			a += 2500 * math.Sqrt(rng.ExpFloat64())
		}
		s[k] = uint16(a)
	}
	return s
}

// The first return is at R = h (exact geometry); the tracker must find it to
// a sample or two through noise, follow it, and ride out a bubble.
func TestBottomTrack(t *testing.T) {
	const bin = 0.05
	rng := rand.New(rand.NewPCG(3, 4))
	var b BottomTracker
	for i := range 400 {
		height := 6 + 1.5*math.Sin(float64(i)/120)
		port, starboard := water(rng, height, bin), water(rng, height, bin)
		if i%50 == 20 { // a bubble high in the water
			for k := 30; k < 34; k++ {
				port[k] = 3000
			}
		}
		got, ok := b.Find(port, starboard, bin, 6.1)
		if !ok {
			t.Fatalf("ping %d: no bottom", i)
		}
		if i > 7 && math.Abs(got-height) > 0.12 {
			t.Errorf("ping %d: got %.3f m, want %.3f", i, got, height)
		}
	}
}

// A fish that sinks at 0.35 m/s, as when cable is paid out, or rises as fast over the
// lee of a sand wave, is followed without lag, and turns back again.
func TestBottomTrackDoesNotLag(t *testing.T) {
	const bin = 0.04
	rng := rand.New(rand.NewPCG(7, 8))
	var b BottomTracker
	var sinking, rising float64 // sums of how far the track is too high
	for i := range 800 {
		const rate = 0.046 // metres a ping
		phase := i % 80
		height := 16 - rate*float64(min(phase, 80-phase))
		got, _ := b.Find(water(rng, height, bin), water(rng, height, bin), bin, 16)
		switch {
		case phase > 10 && phase <= 38:
			sinking += got - height
		case phase > 50 && phase <= 78:
			rising += got - height
		}
	}
	if lag := (sinking - rising) / 2 / 280; math.Abs(lag) > bin/2 {
		t.Errorf("the track lags by %.3f m, want less than half a sample of %.2f m", lag, bin)
	}
}

func TestBottomTrackSaysWhenItHasNone(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	var b BottomTracker
	empty := water(rng, 1e9, 0.05)
	if h, ok := b.Find(empty, empty, 0.05, 0); ok || h != 0 {
		t.Errorf("in empty water: %.2f m, %v; want none", h, ok)
	}
	good := water(rng, 5, 0.05)
	if h, ok := b.Find(good, good, 0.05, 0); !ok || math.Abs(h-5) > 0.1 {
		t.Errorf("first bottom: %.2f m, %v; want 5", h, ok)
	}
	if h, ok := b.Find(empty, empty, 0.05, 0); ok || math.Abs(h-5) > 0.1 {
		t.Errorf("lost: %.2f m, %v; want the last height and false", h, ok)
	}
}

// A column of gas off to one side answers before the floor on that side alone; the
// height stays that of the floor (exact geometry: straight below is the floor to
// both sides). The same on both sides hides the floor, and is taken for it.
func TestBottomTrackGoesByTheOtherSideOfAPlume(t *testing.T) {
	const bin, floor = 0.05, 7.0
	for _, sides := range []int{1, 2} {
		rng := rand.New(rand.NewPCG(3, 4))
		var b BottomTracker
		last := 0.0
		for i := range 60 {
			port, starboard := water(rng, floor, bin), water(rng, floor, bin)
			if i > 20 {
				starboard = water(rng, 5.6, bin)
				if sides == 2 {
					port = water(rng, 5.6, bin)
				}
			}
			last, _ = b.Find(port, starboard, bin, 0)
		}
		if want := []float64{0, floor, 5.6}[sides]; math.Abs(last-want) > 0.15 {
			t.Errorf("on %d sides: got %.2f m, want %.2f", sides, last, want)
		}
	}
}

// Where the first return fades on one side the height stays that of the other.
func TestBottomTrackOutlastsAFadedSide(t *testing.T) {
	const bin, floor = 0.05, 7.0
	rng := rand.New(rand.NewPCG(3, 4))
	var b BottomTracker
	last := 0.0
	for i := range 60 {
		port, starboard := water(rng, floor, bin), water(rng, floor, bin)
		if i > 20 {
			port = water(rng, 8.4, bin)
		}
		last, _ = b.Find(port, starboard, bin, 0)
	}
	if math.Abs(last-floor) > 0.15 {
		t.Errorf("got %.2f m, want %.2f", last, floor)
	}
}

// A fish that has touched the floor, sent nothing for a while and flies again is found
// again: by the altimeter, as at the start.
func TestBottomTrackIsFoundAgain(t *testing.T) {
	const bin = 0.05
	rng := rand.New(rand.NewPCG(9, 10))
	var b BottomTracker
	pulse := func(s []uint16) []uint16 { // the sonar's own, at the start of a record
		for k := range 8 {
			s[k] = 30000
		}
		return s
	}
	ping := func(height float64) (float64, bool) {
		return b.Find(pulse(water(rng, height, bin)), pulse(water(rng, height, bin)), bin, height)
	}
	for range 50 {
		ping(5)
	}
	for i := range 30 { // sinking to the floor
		ping(5 - 4.8*float64(i)/30)
	}
	silent := make([]uint16, 1000)
	for range 40 {
		b.Find(silent, silent, bin, 0)
	}
	found := 0
	for i := range 60 {
		if h, ok := ping(5.5); ok && math.Abs(h-5.5) < 0.2 {
			found++
		} else if i > 25 {
			t.Fatalf("ping %d after it: %.2f m, locked %v; want 5.5 m", i, h, ok)
		}
	}
	if found < 35 {
		t.Errorf("%d of 60 pings after it are on the bottom", found)
	}
}
