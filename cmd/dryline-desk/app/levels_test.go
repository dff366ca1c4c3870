package app

import (
	"math"
	"math/rand/v2"
	"testing"

	"dryline/cmd/dryline-desk/crew"
	"dryline/sonar/waterfall"
)

// floorPing is a ping over a floor of so strong an echo, with the amplitude of
// speckle, Rayleigh's distribution of mean one (Goodman, J. Opt. Soc. Am. 66,
// 1976), after a dark water column.
func floorPing(rng *rand.Rand, strong float64) *crew.Ping {
	p := &crew.Ping{Locked: true, Height: 10, RangeScale: 50}
	row := func() []uint8 {
		out := make([]uint8, 500)
		for i := range out {
			v := 0.02
			if i > 100 {
				v = strong * math.Sqrt(4/math.Pi*rng.ExpFloat64())
			}
			out[i] = waterfall.Tone(float32(v))
		}
		return out
	}
	p.Rows = [][2][]uint8{{row(), row()}}
	return p
}

// at is where a levelled amplitude comes on the ramp between the levels.
func (l *levels) at(v float64) float64 {
	return (float64(waterfall.Tone(float32(v)))/255 - l.low) / (l.high - l.low)
}

// Over sand and over mud a third as strong, once the levels have settled, the
// ordinary echo comes near the middle, a shadow at the foot and an echo five
// times as strong as the floor at the top.
func TestLevelsFollowTheFloor(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	var l levels
	for _, strong := range []float64{1, 0.33, 1} {
		for range 5 * levelRows {
			l.learn(floorPing(rng, strong), 0)
		}
		if got := l.at(strong); got < 0.35 || got > 0.65 {
			t.Errorf("floor of %g: an ordinary echo comes at %.2f, want near the middle", strong, got)
		}
		if got := l.at(0.03 * strong); got > 0.05 {
			t.Errorf("floor of %g: a shadow comes at %.2f, want at the foot", strong, got)
		}
		if got := l.at(5 * strong); got < 1 {
			t.Errorf("floor of %g: a strong echo comes at %.2f, want at the top", strong, got)
		}
	}
}

// What is short does not turn the levels: a second of glaring rows, rows without
// bottom track, and the water column at any height.
func TestLevelsAreSlow(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	var l levels
	for range 5 * levelRows {
		l.learn(floorPing(rng, 1), 0)
	}
	low, high := l.low, l.high
	for range 8 {
		l.learn(floorPing(rng, 20), 0)
	}
	if math.Abs(l.low-low) > 0.02 || math.Abs(l.high-high) > 0.05 {
		t.Errorf("eight glaring rows turn the levels from %.3f, %.3f to %.3f, %.3f", low, high, l.low, l.high)
	}
	low, high = l.low, l.high
	for range 500 {
		p := floorPing(rng, 20)
		p.Locked = false
		l.learn(p, 0)
	}
	if l.low != low || l.high != high {
		t.Errorf("rows without bottom track turn the levels from %.3f, %.3f to %.3f, %.3f", low, high, l.low, l.high)
	}
	// Half of each row is water now, and the floor the same.
	for range 2 * levelRows {
		p := floorPing(rng, 1)
		p.Height = 25
		l.learn(p, 0)
	}
	if math.Abs(l.low-low) > 0.03 || math.Abs(l.high-high) > 0.03 {
		t.Errorf("more water turns the levels from %.3f, %.3f to %.3f, %.3f", low, high, l.low, l.high)
	}
}
