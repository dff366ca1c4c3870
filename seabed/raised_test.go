package seabed

import (
	"math"
	"testing"
)

// Against brute force: the vertical extent of all the pieces is that of the
// points of the ray's plane within a radius of the axis.
func TestCutIsTheSectionOfACapsule(t *testing.T) {
	for _, test := range []struct {
		name       string
		r          capsule
		x, bearing float64
		tolerance  float64
	}{
		{"level, square across", capsule{a: vec{-2, 10, -5}, b: vec{2, 10, -5}, radius: 0.3}, 0, 0, 0.002},
		{"level, aslant", capsule{a: vec{-2, 9, -5}, b: vec{2, 12, -5}, radius: 0.3}, 0, 0, 0.002},
		{"rising across", capsule{a: vec{-2, 10, -6}, b: vec{2, 10, -3}, radius: 0.3}, 0, 0, 0.002},
		{"rising aslant", capsule{a: vec{-2, 9, -6}, b: vec{2, 11, -3}, radius: 0.3}, 0.2, 0.02, 0.002},
		{"upright", capsule{a: vec{0.1, 10, -6}, b: vec{0.1, 10, -3}, radius: 0.3}, 0, 0, 0.002},
		{"a ball", capsule{a: vec{0.1, 10, -4}, b: vec{0.1, 10, -4}, radius: 0.4}, 0, 0, 0.002},
		{"past its end", capsule{a: vec{0.2, 10, -5}, b: vec{3, 10, -5}, radius: 0.3}, 0, 0, 0.002},
		{"along the ray", capsule{a: vec{0.1, 9, -6}, b: vec{0.1, 12, -4}, radius: 0.3}, 0, 0, 0.03},
	} {
		ux, uy := math.Sincos(test.bearing)
		pieces := test.r.cut(nil, test.x, 0, ux, uy, 1, 50)
		low, high := math.Inf(1), math.Inf(-1)
		for _, p := range pieces {
			low, high = min(low, p.Z0), max(high, p.Z1)
		}
		wantLow, wantHigh := math.Inf(1), math.Inf(-1)
		for g := 8.0; g < 13; g += 0.004 {
			for z := -7.0; z < -2; z += 0.002 {
				if test.r.distance(vec{test.x + g*ux, g * uy, z}) <= test.r.radius {
					wantLow, wantHigh = min(wantLow, z), max(wantHigh, z)
				}
			}
		}
		if math.Abs(low-wantLow) > test.tolerance+0.002 || math.Abs(high-wantHigh) > test.tolerance+0.002 {
			t.Errorf("%s: %.3f to %.3f m, want %.3f to %.3f", test.name, low, high, wantLow, wantHigh)
		}
	}
}

func TestRodThatEndsShortIsNotCut(t *testing.T) {
	r := capsule{a: vec{0.31, 10, -5}, b: vec{3, 10, -5}, radius: 0.3}
	if got := r.cut(nil, 0, 0, 0, 1, 1, 50); len(got) != 0 {
		t.Errorf("a ray 1 cm past the end cuts %d pieces, want none", len(got))
	}
	if got := r.cut(nil, 0.02, 0, 0, 1, 1, 50); len(got) != 1 {
		t.Errorf("a ray 1 cm inside the end cuts %d pieces, want 1", len(got))
	}
}

// Where two capsules join, rays on either side of the joint meet one of them.
func TestJointsAreMetOnce(t *testing.T) {
	var s shape
	s.line(Steel, 0.3, vec{-2, 10, -5}, vec{0, 10, -5}, vec{2, 10.2, -4.8})
	for x := -0.4; x <= 0.4; x += 0.05 {
		var pieces []Raised
		for i := range s.rods {
			pieces = s.rods[i].cut(pieces, x, 0, 0, 1, 1, 50)
		}
		if len(pieces) != 1 {
			t.Errorf("ray %.2f m from the joint: %d pieces, want 1", x, len(pieces))
			continue
		}
		if h := pieces[0].Z1 - pieces[0].Z0; math.Abs(h-0.6) > 0.02 {
			t.Errorf("ray %.2f m from the joint: %.3f m high, want 0.6", x, h)
		}
	}
}
