package seabed

import (
	"math"
	"testing"
)

// level is a flat floor at -10 m with one pipeline running north along x = 50.
func level(p Pipeline) *World {
	p.Path = []Point{{50, 10}, {50, 190}}
	return New(Spec{Featureless: true, East: 200, North: 200, Depth: 10, Relief: Relief{Wavelength: 50}, Base: FineSand, Pipelines: []Pipeline{p}}, 1)
}

func TestPipelineLiesOnTheFloor(t *testing.T) {
	w := level(Pipeline{Diameter: 0.6})
	for _, test := range []struct {
		name string
		x, y float64
		want float64 // above the floor
	}{
		{"crown", 50, 100, 0.6},
		{"flank", 50.24, 60, 0.3 + 0.18}, // 3-4-5 triangle
		{"beside", 50.31, 60, 0},
		{"before its start", 50, 9.5, 0},
		{"past its end", 50, 190.5, 0},
	} {
		if got := w.HeightAt(test.x, test.y) + 10; math.Abs(got-test.want) > 1e-6 {
			t.Errorf("%s: %.4f m above the floor, want %.4f", test.name, got, test.want)
		}
	}
}

// Over a span the pipe is clear of the floor: a ray across mid-span meets the
// bare floor and one raised piece with the height asked for under it, and its
// shadow from a fish at height h begins and ends where similar triangles say:
// g h / (h - z).
func TestSpanIsRaisedByItsHeight(t *testing.T) {
	const height, diameter = 0.9, 0.5
	w := level(Pipeline{Diameter: diameter, Spans: []Span{{From: 60, To: 90, Height: height}}})
	p := Profile{}
	for g := 0.5; g < 60; g += 0.1 {
		p.Steps = append(p.Steps, g)
	}
	for _, test := range []struct {
		name   string
		y, gap float64
	}{
		{"mid-span", 85, height},
		{"a quarter in", 77.5, height / 2}, // sin^2 of 45 deg
		{"a sixth in", 75, height / 4},     // sin^2 of 30 deg
	} {
		w.Trace(&p, 20, test.y, 1, 0)
		if len(p.Raised) != 1 {
			t.Errorf("%s: %d raised pieces, want 1", test.name, len(p.Raised))
			continue
		}
		r := p.Raised[0]
		const tol = 0.02 // metres: straight pieces of 1.5 m along a curve
		if math.Abs(r.G-30) > 0.01 || math.Abs(r.Z0+10-test.gap) > tol || math.Abs(r.Z1+10-test.gap-diameter) > tol {
			t.Errorf("%s: at %.3f m from %.3f to %.3f m above the floor, want 30, %.3f, %.3f",
				test.name, r.G, r.Z0+10, r.Z1+10, test.gap, test.gap+diameter)
		}
		for i, g := range p.G {
			if p.Object[i] != 0 {
				t.Errorf("%s: something stands on the floor at %.2f m", test.name, g)
			}
		}
		if r.Object != 1 {
			t.Errorf("%s: object %d, want 1, the first after no objects", test.name, r.Object)
		}
	}
	w.Trace(&p, 20, 140, 1, 0)
	stands := 0
	for i := range p.G {
		if p.Object[i] == 1 {
			stands++
		}
	}
	if stands == 0 || len(p.Raised) != 0 {
		t.Errorf("outside the span: %d samples on it and %d raised pieces, want some and none", stands, len(p.Raised))
	}
}

// Burial about half the diameter leaves some of the line bare, some covered
// and some between; its mean is what was asked for.
func TestBurialVariesAboutItsMean(t *testing.T) {
	const diameter = 0.6
	p := Pipeline{Name: "b", Path: []Point{{50, 20}, {50, 1980}}, Diameter: diameter, Burial: 0.3}
	w := New(Spec{Featureless: true, East: 100, North: 2000, Depth: 10, Relief: Relief{Wavelength: 50}, Base: FineSand, Pipelines: []Pipeline{p}}, 4)
	sum, n, bare, covered := 0.0, 0.0, 0, 0
	for y := 25.0; y < 1975; y += 0.5 {
		crown := w.HeightAt(50, y) + 10
		sum += crown
		n++
		if crown > 0.9*diameter {
			bare++
		}
		if crown <= 0.1*diameter {
			covered++
		}
	}
	if mean := sum / n; math.Abs(mean-0.3) > 0.08 {
		t.Errorf("mean height of its crown: %.3f m, want 0.3", mean)
	}
	if share := float64(bare) / n; share < 0.08 || share > 0.5 {
		t.Errorf("bare over %.2f of its length, want some of it", share)
	}
	if share := float64(covered) / n; share < 0.08 || share > 0.5 {
		t.Errorf("covered over %.2f of its length, want some of it", share)
	}
}

func TestPipelineFollowsTheFloor(t *testing.T) {
	p := Pipeline{Path: []Point{{20, 20}, {180, 60}, {150, 180}}, Diameter: 0.4}
	spec := Spec{Featureless: true, East: 200, North: 200, Depth: 20, Relief: Relief{Height: 2, Wavelength: 60, Octaves: 2, Gradient: 0.03}, Base: FineSand, Pipelines: []Pipeline{p}}
	w := New(spec, 3)
	for s := 1.0; s < p.Length()-1; s += 0.7 {
		at := p.at(s)
		if got := w.HeightAt(at.X, at.Y) - w.floor(at.X, at.Y); math.Abs(got-0.4) > 0.03 {
			t.Errorf("%.1f m along: crown %.3f m above the floor, want 0.4", s, got)
		}
	}
}

// By plain geometry: feet of perpendiculars, a corner, and an end.
func TestNearestPointOfAPath(t *testing.T) {
	p := Pipeline{Path: []Point{{0, 0}, {30, 40}, {30, 100}}}
	for _, test := range []struct {
		name         string
		x, y         float64
		wantX, wantY float64
	}{
		{"beside the first leg", 15 + 8, 20 - 6, 15, 20},
		{"beside the second leg", 37, 70, 30, 70},
		{"outside the corner", 40, 38, 30, 40},
		{"before the start", -3, -5, 0, 0},
		{"past the end", 33, 104, 30, 100},
	} {
		got := p.Nearest(test.x, test.y)
		if math.Hypot(got.X-test.wantX, got.Y-test.wantY) > 1e-9 {
			t.Errorf("%s: got %v, want (%g, %g)", test.name, got, test.wantX, test.wantY)
		}
	}
}

// A line of a thousand pieces must not slow a ray that does not cross it.
func BenchmarkTracePastPipeline(b *testing.B) {
	p := Pipeline{Name: "b", Path: []Point{{350, 0}, {380, 200}, {350, 400}}, Diameter: 0.5, Spans: []Span{{100, 130, 1}}}
	spec := Spec{Featureless: true, East: 400, North: 400, Depth: 16, Base: MediumSand, Relief: Relief{Height: 0.6, Wavelength: 60, Octaves: 4}, Pipelines: []Pipeline{p}}
	benchmarkRay(b, New(spec, 3), 200, 100, 1, 0)
}
