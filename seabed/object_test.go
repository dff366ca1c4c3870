package seabed

import (
	"math"
	"testing"
)

func flat(objects ...Object) *World {
	return New(Spec{Featureless: true, East: 200, North: 200, Depth: 10, Relief: Relief{Wavelength: 50}, Base: Mud, Objects: objects}, 1)
}

func TestSolidsHaveTheirMeasures(t *testing.T) {
	for _, test := range []struct {
		name   string
		object Object
		dx, dy float64 // offset from the middle, metres
		want   float64 // height above the floor
	}{
		{"block middle", Object{Kind: "block", Length: 2, Width: 1, Height: 0.8}, 0, 0, 0.8},
		{"block past its side", Object{Kind: "block", Length: 2, Width: 1, Height: 0.8}, 0.6, 0, 0},
		{"block turned east", Object{Kind: "block", Length: 2, Width: 1, Height: 0.8, Heading: math.Pi / 2}, 0.9, 0.4, 0.8},
		{"buried block", Object{Kind: "block", Length: 2, Width: 1, Height: 0.8, Burial: 0.3}, 0, 0, 0.5},
		{"sphere top", Object{Kind: "sphere", Length: 1, Width: 1, Height: 1}, 0, 0, 1},
		{"sphere flank", Object{Kind: "sphere", Length: 1, Width: 1, Height: 1}, 0.3, 0, 0.5 + 0.4},
		{"pipe crown", Object{Kind: "pipe", Length: 6, Width: 0.5, Height: 0.5}, 0, 2.5, 0.5},
		{"pipe beyond its end", Object{Kind: "pipe", Length: 6, Width: 0.5, Height: 0.5}, 0, 3.2, 0},
		{"tyre hole", Object{Kind: "tyre", Length: 1.1, Width: 1.1, Height: 0.3}, 0, 0, 0},
		{"tyre tread", Object{Kind: "tyre", Length: 1.1, Width: 1.1, Height: 0.3}, 0.4, 0, 0.3},
	} {
		test.object.At = Point{100, 100}
		w := flat(test.object)
		if got := w.HeightAt(100+test.dx, 100+test.dy) + 10; math.Abs(got-test.want) > 1e-6 {
			t.Errorf("%s: got %.4f m above the floor, want %.4f", test.name, got, test.want)
		}
	}
}

func TestRayCutsARod(t *testing.T) {
	// A spar from the floor at (91, 100) rising to the east; rays north along
	// x = 100 cut it halfway, where its axis is 1 m up.
	w := flat(Object{Kind: "mast", At: Point{100, 100}, Heading: math.Pi / 2, Length: 18, Width: 0.4, Height: 2})
	p := Profile{Steps: []float64{1, 5, 10, 15, 20}}
	w.Trace(&p, 100, 90, 0, 1)
	if len(p.Raised) != 1 {
		t.Fatalf("pieces cut: got %d, want 1", len(p.Raised))
	}
	r := p.Raised[0]
	if math.Abs(r.G-10) > 0.01 {
		t.Errorf("ground range: got %.3f m, want 10", r.G)
	}
	if mid := (r.Z0+r.Z1)/2 + 10; math.Abs(mid-1) > 0.02 {
		t.Errorf("height of the cut: got %.3f m, want 1", mid)
	}
	if r.Object != 1 {
		t.Errorf("object: got %d, want 1", r.Object)
	}
	w.Trace(&p, 80, 90, 0, 1)
	if len(p.Raised) != 0 {
		t.Errorf("a ray that misses cut %d pieces, want none", len(p.Raised))
	}
}

// Over an object the ray is sampled finely, elsewhere as asked.
func TestRayIsRefinedOverObjects(t *testing.T) {
	w := flat(Object{Kind: "block", At: Point{100, 100}, Length: 2, Width: 2, Height: 1})
	p := Profile{Fine: 0.02}
	for g := 0.5; g < 30; g += 0.5 {
		p.Steps = append(p.Steps, g)
	}
	w.Trace(&p, 100, 85, 0, 1)
	first, last := -1.0, -1.0
	for i, g := range p.G {
		if i > 0 && g <= p.G[i-1] {
			t.Fatalf("ranges do not ascend at %g", g)
		}
		if p.Object[i] == 1 {
			if first < 0 {
				first = g
			}
			last = g
		}
	}
	if math.Abs(first-14) > 0.02 || math.Abs(last-16) > 0.02 {
		t.Errorf("block from %.3f to %.3f m, want 14 to 16 to 0.02", first, last)
	}
	if extra := len(p.G) - len(p.Steps); extra < 100 || extra > 250 {
		t.Errorf("%d ranges were added, want those of some 3 m at 0.02", extra)
	}
	w.Trace(&p, 60, 85, 0, 1)
	if len(p.G) != len(p.Steps) {
		t.Errorf("a ray that misses has %d ranges, want the %d asked for", len(p.G), len(p.Steps))
	}
}

func TestSignedDistance(t *testing.T) {
	square := []Point{{0, 0}, {10, 0}, {10, 10}, {0, 10}}
	for _, test := range []struct {
		x, y, want float64
	}{{5, 5, 5}, {9, 5, 1}, {11, 5, -1}, {13, 14, -5}, {5, 0, 0}} {
		if got := signedDistance(square, test.x, test.y); math.Abs(got-test.want) > 1e-12 {
			t.Errorf("(%g, %g): got %g, want %g", test.x, test.y, got, test.want)
		}
	}
}
