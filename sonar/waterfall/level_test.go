package waterfall

import (
	"math"
	"math/rand/v2"
	"testing"
)

// record is a side of a ping over ordinary ground whose level falls with the
// range as Lambert's law does, twice as strong where loud says so.
func record(rng *rand.Rand, altitude float64, loud func(g float64) bool) []uint16 {
	const bin = 0.05
	s := make([]uint16, 1000)
	for k := range s {
		r := (float64(k) + 0.5) * bin
		if r < altitude {
			continue
		}
		a := 9000 * altitude / r * math.Sqrt(rng.ExpFloat64())
		if loud != nil && loud(math.Sqrt(r*r-altitude*altitude)) {
			a *= 2
		}
		s[k] = uint16(a)
	}
	return s
}

// Levelling takes the fall out of the record and leaves the ground in it: the
// near and the far floor come out alike, ground twice as strong twice as
// strong.
func TestLevellingKeepsTheGround(t *testing.T) {
	const bin, altitude = 0.05, 6.0
	rng := rand.New(rand.NewPCG(1, 2))
	l := NewLeveller(4000)
	for range 600 {
		l.Learn(record(rng, altitude, nil), bin, altitude)
	}
	dst := make([]float32, 1000)
	mean := func(loud func(float64) bool, from, to float64) float64 {
		sum, n := 0.0, 0.0
		for range 300 {
			l.Level(dst, record(rng, altitude, loud), bin, altitude)
			for _, v := range dst[int(from/bin):int(to/bin)] {
				sum, n = sum+float64(v), n+1
			}
		}
		return sum / n
	}
	near, far := mean(nil, 8, 12), mean(nil, 40, 48)
	if math.Abs(near-1) > 0.03 || math.Abs(far-1) > 0.03 {
		t.Errorf("ordinary floor: %.3f near, %.3f far, want 1 and 1", near, far)
	}
	loud := mean(func(g float64) bool { return g > 30 }, 40, 48)
	if math.Abs(loud/far-2) > 0.05 {
		t.Errorf("ground twice as strong comes out %.2f times as strong", loud/far)
	}
}

// An angle never seen before borrows its neighbour's level instead of the
// recorder's: no bright edge when the fish first flies low.
func TestUnseenAnglesBorrow(t *testing.T) {
	const bin = 0.05
	rng := rand.New(rand.NewPCG(1, 2))
	l := NewLeveller(40000)
	for range 600 {
		l.Learn(record(rng, 8, nil), bin, 8)
	}
	dst := make([]float32, 1000)
	l.Level(dst, record(rng, 4, nil), bin, 4)
	for k := 900; k < 1000; k++ { // R/h of 11 to 12.5, beyond the 6.2 that was learnt
		if dst[k] > 8 {
			t.Fatalf("sample %d comes out at %.1f, want an ordinary level", k, dst[k])
		}
	}
	sum := float32(0)
	for _, v := range dst[900:] {
		sum += v
	}
	if m := sum / 100; m < 0.3 || m > 1.5 {
		t.Errorf("mean level where nothing was learnt: %.2f, want near the neighbour's", m)
	}
}

func TestToneRisesAndMarksNoData(t *testing.T) {
	last := uint8(0)
	for v := float32(0); v < 20; v += 0.01 {
		g := Tone(v)
		if g < max(last, 1) {
			t.Fatalf("tone(%g) = %d after %d; 0 is no data and the curve rises", v, g, last)
		}
		last = g
	}
	if got := Tone(1); got < 95 || got > 125 {
		t.Errorf("an ordinary echo is %d, want a little below the middle", got)
	}
	if Tone(-1) != 1 || Tone(float32(math.Inf(1))) != 255 {
		t.Errorf("ends: %d and %d, want 1 and 255", Tone(-1), Tone(float32(math.Inf(1))))
	}
}
