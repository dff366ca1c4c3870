package waterfall

import (
	"math"
	"math/rand/v2"
	"testing"

	"dryline/sonar/recorder"
)

// fall is a prior of a level that falls with the range as Lambert's law does.
type fall float64

func (f fall) Counts(dst []float64, _ recorder.Receiver, slants []float64, height float64) {
	for i, r := range slants {
		dst[i] = float64(f) * height / r
	}
}

const bin = 0.05

// record is a side of a ping over ordinary ground whose level falls with the range
// as Lambert's law does, with the speckle's mean amplitude at 9000 h/R, and times
// what is said of the ground.
func record(rng *rand.Rand, altitude float64, ground func(g float64) float64) []uint16 {
	s := make([]uint16, 1000)
	for k := range s {
		r := (float64(k) + 0.5) * bin
		if r < altitude {
			continue
		}
		a := 9000 * altitude / r * math.Sqrt(rng.ExpFloat64()*4/math.Pi)
		if ground != nil {
			a *= ground(math.Sqrt(r*r - altitude*altitude))
		}
		s[k] = uint16(a + 0.5)
	}
	return s
}

// levelled is the mean of what a leveller makes of fresh pings between two ground
// ranges, on one side.
func levelled(l *Leveller, rng *rand.Rand, altitude float64, side int, ground func(float64) float64, from, to float64) float64 {
	l.Prepare(1000, bin, altitude)
	dst := make([]float32, 1000)
	sum, n := 0.0, 0.0
	for range 300 {
		l.Level(dst, record(rng, altitude, ground), side)
		for k, v := range dst {
			r := (float64(k) + 0.5) * bin
			if g := math.Sqrt(max(r*r-altitude*altitude, 0)); g >= from && g < to {
				sum, n = sum+float64(v), n+1
			}
		}
	}
	return sum / n
}

// A record that falls otherwise than expected comes out level on either side, near
// and far, and ground twice as strong twice as strong. The prior is flat here, so
// that all of the fall, 15 dB between the two, has to be learnt, and a hundredth of
// it is still the prior's.
func TestLevellingTakesOutTheFallAndKeepsTheGround(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	l := NewLeveller(Flat(4000), recorder.Receiver{})
	for range 6000 {
		l.Prepare(1000, bin, 6)
		l.Learn(record(rng, 6, nil), record(rng, 6, nil))
	}
	l.Settle()
	near, far := levelled(l, rng, 6, 0, nil, 8, 12), levelled(l, rng, 6, 1, nil, 40, 48)
	if d := 20 * math.Log10(near/far); math.Abs(d) > 1 {
		t.Errorf("ordinary floor: %.3f near, %.3f far, %.2f dB apart", near, far, d)
	}
	twice := func(g float64) float64 {
		if g > 30 {
			return 2
		}
		return 1
	}
	if loud := levelled(l, rng, 6, 1, twice, 40, 48); math.Abs(loud/far-2) > 0.05 {
		t.Errorf("ground twice as strong comes out %.2f times as strong", loud/far)
	}
}

// Before anything is learnt the prior levels: an expected record comes out at one.
func TestThePriorLevelsTheFirstPing(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	l := NewLeveller(fall(9000), recorder.Receiver{})
	for _, at := range [][2]float64{{3, 6}, {10, 14}, {40, 48}} {
		if got := levelled(l, rng, 6, 0, nil, at[0], at[1]); math.Abs(got-1) > 0.02 {
			t.Errorf("from %g to %g m: %.3f, want 1", at[0], at[1], got)
		}
	}
}

// Ground three times as strong that lies always to port stays three times as
// strong, and the level of one side's ground does not shape the other.
func TestGroundToOneSideKeepsItsLevel(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	strong := func(float64) float64 { return 3 }
	l := NewLeveller(fall(9000), recorder.Receiver{})
	for range 2000 {
		l.Prepare(1000, bin, 6)
		l.Learn(record(rng, 6, strong), record(rng, 6, nil))
	}
	l.Settle()
	port, starboard := levelled(l, rng, 6, 0, strong, 10, 48), levelled(l, rng, 6, 1, nil, 10, 48)
	if math.Abs(port/starboard-3) > 0.06 {
		t.Errorf("port is %.2f times starboard, want 3", port/starboard)
	}
}

// A border of other ground that runs along the track at one range, in one ping of
// five, leaves no edge in the shape: steps in it are outliers.
func TestABorderAlongTheTrackLeavesNoEdge(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	beyond := func(g float64) float64 {
		if g > 20 {
			return 3
		}
		return 1
	}
	l := NewLeveller(fall(9000), recorder.Receiver{})
	for i := range 4000 {
		var ground func(float64) float64
		if i%5 == 0 {
			ground = beyond
		}
		l.Prepare(1000, bin, 6)
		l.Learn(record(rng, 6, ground), record(rng, 6, ground))
	}
	l.Settle()
	near, far := levelled(l, rng, 6, 0, nil, 10, 16), levelled(l, rng, 6, 0, nil, 26, 48)
	if d := 20 * math.Log10(far/near); math.Abs(d) > 0.5 {
		t.Errorf("even ground is %.2f dB brighter beyond where others had a border, want 0", d)
	}
}

// An angle never seen before borrows its neighbour's shape: no bright edge when the
// fish first flies low.
func TestUnseenAnglesBorrow(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	l := NewLeveller(Flat(40000), recorder.Receiver{})
	for range 2000 {
		l.Prepare(1000, bin, 8)
		l.Learn(record(rng, 8, nil), record(rng, 8, nil))
	}
	l.Settle()
	// R/h of 11 to 12.5, beyond the 6.2 that was learnt
	if m := levelled(l, rng, 4, 0, nil, 44, 50); m < 0.3 || m > 1.5 {
		t.Errorf("mean level where nothing was learnt: %.2f, want near the neighbour's", m)
	}
}

// hushed is a prior of ground that is level and of water with little noise.
type hushed struct{ ground, noise float64 }

func (h hushed) Counts(dst []float64, _ recorder.Receiver, slants []float64, height float64) {
	for i, r := range slants {
		if dst[i] = h.ground; r < height {
			dst[i] = h.noise
		}
	}
}

// The water column comes out dark and not black, whatever the noise, and what swims in
// it at a hundredth of the ground's level stands out from it.
func TestTheWaterColumnCanBeRead(t *testing.T) {
	for _, noise := range []float64{15, 60} {
		l := NewLeveller(hushed{4000, noise}, recorder.Receiver{})
		l.Prepare(1000, bin, 10)
		row, dst := make([]uint16, 1000), make([]float32, 1000)
		for k := range row {
			row[k] = 4000
			if k < 200 {
				row[k] = uint16(noise)
			}
		}
		row[100] += 400
		l.Level(dst, row, 0)
		if v := dst[150]; Tone(v) < 10 || v > 0.3 {
			t.Errorf("noise of %g counts in the water comes out at %.3f, grey %d; want it dark and not black", noise, v, Tone(v))
		}
		if dst[100] < 5*dst[150] {
			t.Errorf("a fish comes out at %.2f over %.2f of water", dst[100], dst[150])
		}
		if v := dst[500]; math.Abs(float64(v)-1) > 0.01 {
			t.Errorf("the ground comes out at %.2f", v)
		}
	}
}

// What is kept for an altitude is dropped with the settings it was for: a leveller that
// comes back to it after the receiver or the rows changed does as a new one does.
func TestNothingStaleIsKept(t *testing.T) {
	row := make([]uint16, 1000)
	for k := range row {
		row[k] = 5000
	}
	level := func(l *Leveller, bin, altitude float64) float32 {
		dst := make([]float32, len(row))
		l.Prepare(len(row), bin, altitude)
		l.Level(dst, row, 0)
		return dst[800]
	}
	old := NewLeveller(fall(9000), recorder.Receiver{})
	level(old, bin, 6)
	level(old, bin, 7)
	if got, want := level(old, 2*bin, 6), level(NewLeveller(fall(9000), recorder.Receiver{}), 2*bin, 6); got != want {
		t.Errorf("after longer samples: %g, want %g", got, want)
	}
	old = NewLeveller(Flat(4000), recorder.Receiver{})
	level(old, bin, 6)
	louder := recorder.Receiver{Gain: 6}
	old.Set(louder)
	if got, want := level(old, bin, 6), level(NewLeveller(Flat(4000), louder), bin, 6); got != want {
		t.Errorf("after 6 dB more gain: %g, want %g", got, want)
	}
	for range 100 {
		old.Prepare(len(row), bin, 6)
		old.Learn(row, row)
	}
	before := level(old, bin, 6)
	for range 100 {
		old.Prepare(len(row), bin, 7)
		old.Learn(record(rand.New(rand.NewPCG(1, 2)), 7, nil), row)
	}
	if after := level(old, bin, 6); after == before {
		t.Errorf("what was learnt meanwhile is not in the factors: %g as before", after)
	}
}
