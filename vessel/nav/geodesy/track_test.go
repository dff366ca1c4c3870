package geodesy_test

import (
	"math"
	"testing"

	"dryline/vessel/nav/geodesy"

	"pgregory.net/rapid"
)

// A 3-4-5 triangle: 30 east and 40 north is 50 m on a bearing of atan(3/4).
func TestTrackByTheTriangle(t *testing.T) {
	track := geodesy.Track{AX: 10, AY: 20, BX: 40, BY: 60}
	if got := track.Length(); got != 50 {
		t.Errorf("length %v, want 50", got)
	}
	if got := track.Bearing() * 180 / math.Pi; math.Abs(got-36.8698976458) > 1e-9 {
		t.Errorf("bearing %v, want 36.8698976458", got)
	}
	// 25 m on and 5 m to the right of it: (15, 20) along, (4, -3) across.
	along, across := track.Offset(10+15+4, 20+20-3)
	if math.Abs(along-25) > 1e-12 || math.Abs(across-5) > 1e-12 {
		t.Errorf("offset %v, %v, want 25, 5", along, across)
	}
}

// Run the other way, what lay along lies before the far end and what lay to the
// right lies to the left.
func TestTrackRunTheOtherWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string) float64 { return rapid.Float64Range(-5000, 5000).Draw(t, name) }
		track := geodesy.Track{AX: draw("ax"), AY: draw("ay"), BX: draw("bx"), BY: draw("by")}
		if track.Length() < 1 {
			t.Skip("no line")
		}
		x, y := draw("x"), draw("y")
		along, across := track.Offset(x, y)
		back, other := track.Reversed().Offset(x, y)
		if math.Abs(along+back-track.Length()) > 1e-8 || math.Abs(across+other) > 1e-8 {
			t.Errorf("%v, %v one way and %v, %v the other on %v m", along, across, back, other, track.Length())
		}
		if d := math.Hypot(along, across) - math.Hypot(x-track.AX, y-track.AY); math.Abs(d) > 1e-8 {
			t.Errorf("the offset is %v m too long", d)
		}
	})
}
