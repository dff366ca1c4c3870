package seabed

import (
	"math"
	"testing"

	"dryline/seabed/lanes"
)

// A stretch is what a trace answers at its steps, to some micrometres, on sand, ripples,
// outcrop and seagrass, across seams and borders; lanes do nearly all of it.
func TestStretchIsWhatATraceAnswers(t *testing.T) {
	w := New(Spec{
		East: 200, North: 200, Depth: 12, Base: MediumSand,
		Relief: Relief{Height: 1, Wavelength: 30, Octaves: 3},
		Bedforms: []Bedform{
			{Kind: Ripples, Height: 0.05, Wavelength: 0.6, Area: Area{Polygon: []Point{{60, 60}, {140, 60}, {140, 85}, {60, 85}}}},
			{Kind: Outcrop, Height: 1.5, Wavelength: 8, Area: Area{Polygon: []Point{{112, 90}, {132, 90}, {132, 112}, {112, 112}}}},
		},
		Patches: []Patch{
			{Class: Gravel, Area: Area{Polygon: []Point{{74, 80}, {88, 80}, {88, 120}, {74, 120}}}},
			{Class: Seagrass, Area: Area{Polygon: []Point{{80, 108}, {130, 108}, {130, 130}, {80, 130}}}},
		},
	}, 4)
	const n, z0 = 160, -5.0
	s, p := Stretch{}, Profile{}
	for k := range n * lanes.Width {
		p.Steps = append(p.Steps, float64(k+1)/lanes.PerMetre)
	}
	for _, bearing := range []float64{0, 0.3, 1.2, 2.5, 4, 5.5} {
		x, y := 100.0, 100.0
		uy, ux := math.Cos(bearing), math.Sin(bearing)
		w.TraceGround(&p, x, y, ux, uy)
		w.TraceStretch(&s, x, y, ux, uy, n, z0)
		left := len(s.left) * lanes.Width
		for k := range p.Z {
			if d := float64(s.Z[k]) + z0 - p.Z[k]; math.Abs(d) > 5e-6 {
				t.Fatalf("bearing %.1f, %.3f m: %.2g m over the trace", bearing, p.G[k], d)
			}
			// At a node the cubics of either side have one slope.
			if d := float64(s.Slope[k]) - p.Slope[k]; math.Abs(d) > 5e-5 {
				t.Fatalf("bearing %.1f, %.3f m: slope %.2g over the trace's", bearing, p.G[k], d)
			}
			if Class(s.Class[k]) != p.Class[k] {
				t.Fatalf("bearing %.1f, %.3f m: %v, the trace has %v", bearing, p.G[k], Class(s.Class[k]), p.Class[k])
			}
		}
		if left > len(p.Z)/10 {
			t.Errorf("bearing %.1f: %d of %d samples left to the trace", bearing, left, len(p.Z))
		}
		t.Logf("bearing %.1f: %d of %d samples left to the trace", bearing, left, len(p.Z))
	}
	if allocations := testing.AllocsPerRun(10, func() { w.TraceStretch(&s, 100, 100, 1, 0, n, z0) }); allocations > 0 {
		t.Errorf("%v allocations a stretch", allocations)
	}
}

// BenchmarkTraceStretch is the floor in lanes, nodes and all.
func BenchmarkTraceStretch(b *testing.B) {
	w := strewn()
	s := Stretch{}
	w.TraceStretch(&s, 200, 100, 1, 0, 200, -5)
	for b.Loop() {
		w.TraceStretch(&s, 200, 100, 1, 0, 200, -5)
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*len(s.Z)), "ns/sample")
}

// BenchmarkTraceGround measures what the floor costs one sample after another, at the spacing of lanes.
func BenchmarkTraceGround(b *testing.B) {
	w := strewn()
	p := Profile{}
	for k := range 50 * lanes.PerMetre {
		p.Steps = append(p.Steps, float64(k+1)/lanes.PerMetre)
	}
	w.TraceGround(&p, 200, 100, 1, 0)
	for b.Loop() {
		w.TraceGround(&p, 200, 100, 1, 0)
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*len(p.G)), "ns/sample")
}

// The nodes of a ray are bit for bit what each gives that is asked for by itself: within tiles, along
// their edges, over the edge of the world and where the last tiles reach beyond it.
func TestNodesOfAStretchAreReadAsOneByOne(t *testing.T) {
	w := New(ground(), 3) // 400 by 300 m: no whole number of tiles
	var s Stretch
	for k := range 200 {
		x, y, bearing := math.Mod(float64(k)*37.3, 420)-10, math.Mod(float64(k)*51.7, 320)-10, 0.1*float64(k)
		switch k % 5 {
		case 0: // along the axes, as near as sines are
			bearing = float64(k/5) * math.Pi / 2
		case 1: // on the edge of tiles, and but a hair off it
			x, y, bearing = tileSize*float64(k%12), tileSize*float64(k%9), float64(k/5)*math.Pi/2+1e-9*float64(k%3)
		}
		ux, uy := math.Sin(bearing), math.Cos(bearing)
		w.TraceStretch(&s, x, y, ux, uy, 700, -15)
		for n := range s.nodes {
			g := float64(n-1) * nodeStep
			var c cursor
			z, at := c.bilinear(w, x+ux*g, y+uy*g)
			if s.heights[n] != float32(z+15) || s.nodes[n] != c.tile.surface[at] {
				t.Fatalf("from (%g, %g) bearing %g, node %d: %v m of %+v, by itself %v of %+v",
					x, y, bearing, n, s.heights[n], s.nodes[n], float32(z+15), c.tile.surface[at])
			}
		}
	}
}
