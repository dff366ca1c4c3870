package sonar

import (
	"math"
	"testing"

	"dryline/seabed"
)

// walkPlain is the walk written for reading: one channel, one ray, every
// facet's echo spread evenly over the slant ranges it spans, nothing shared
// or precomputed.
func walkPlain(e *Engine, s *Section, fishZ float64, weight func(bin int) float64, channel int) []float64 {
	t := e.channels[channel]
	energy := make([]float64, e.spec.Samples)
	horizon := math.Inf(-1)
	for i := 1; i < len(s.G); i++ {
		a, b := s.G[i-1], s.G[i]
		ha, hb := fishZ-s.Z[i-1], fishZ-s.Z[i]
		ea, eb := -ha/a, -hb/b
		ra, rb := math.Hypot(a, ha), math.Hypot(b, hb)
		lit, from := 0.0, ra
		if eb > horizon {
			lit = 1
			if ea < horizon {
				lit = (eb - horizon) / (eb - ea)
				from = rb - lit*(rb-ra)
			}
			horizon = eb
		}
		r := (ra + rb) / 2
		length := math.Hypot(b-a, hb-ha)
		sine := ((ha-hb)*(a+b)/2 + (b-a)*(ha+hb)/2) / r / length
		if lit == 0 || sine <= 0 {
			continue
		}
		depression := math.Asin((ha + hb) / 2 / r)
		vertical := t.vertical[int((depression+math.Pi)*verticalSteps/(2*math.Pi))]
		x := weight(int(min(from, rb)/e.bin)) * vertical * float64(t.drawn[s.Class[i]][min(int(sine*strengthSteps), strengthSteps-1)]) * length * r * lit
		x *= e.remainders.at(s.Class[i], math.Sin(depression)+s.Slope[i]*math.Cos(depression))
		low, high := min(from, rb)/e.bin, max(from, rb)/e.bin
		for k := range energy { // what of the facet falls into each bin
			if part := min(high, float64(k+1)) - max(low, float64(k)); part > 0 {
				energy[k] += x * part / (high - low)
			}
		}
	}
	return energy
}

// The fast walk against the plain one, over real ground with a block on it.
// (Of stone: steel's gleam is so narrow that rounding to the next step of the
// strength table would show.)
func TestWalkAgreesWithPlainForm(t *testing.T) {
	e := newEngine(t, twoChannels())
	world := Ground{seabed.New(seabed.Spec{
		East: 200, North: 200, Depth: 10, Base: seabed.Gravel,
		Relief: seabed.Relief{Height: 1, Wavelength: 30, Octaves: 3},
		Objects: []seabed.Object{
			{Kind: "block", Class: seabed.Stone, At: seabed.Point{X: 120, Y: 100}, Length: 6, Width: 2.4, Height: 2.5, Heading: 1},
		},
	}, 4)}
	ws := e.NewWorkspace()
	echo := e.NewEcho()
	pose := Pose{X: 100, Y: 100, Z: -4}
	ws.begin(e, world, pose)
	ws.tilt(e, 0)
	world.Trace(&ws.section, pose.X, pose.Y, 1, 0)
	ws.aim(e, 2, ws.section.Drawn)
	e.walk(ws, &ws.section, &echo, 0, belowFish(&ws.section, pose.Z), pose.Z, nil, nil)
	ones := make([]float32, e.spec.Samples)
	for k := range ones {
		ones[k] = 1
	}
	for s := range ws.left {
		ws.left[s] = 1
	}
	for channel := range 2 {
		ws.gather(channel, ones)
		weight := func(bin int) float64 {
			return ws.weightsOf(channel, 2)[min(bin, e.spec.Samples-1)/segmentBins]
		}
		plain := walkPlain(e, &ws.section, pose.Z, weight, channel)
		total, miss := 0.0, 0.0
		for k, want := range plain {
			total += want
			miss += math.Abs(float64(ws.energy[k]) - want)
		}
		if miss > 0.001*total {
			t.Errorf("channel %d: the walks differ by %.2f %% of the echo", channel, 100*miss/total)
		}
	}
	if len(echo.Lit) != 1 || echo.Lit[0] != 1 {
		t.Errorf("lit objects: got %v, want the block", echo.Lit)
	}
}
