package acoustics

import (
	"math"
	"testing"
)

func TestC13Geometry(t *testing.T) {
	// IHO C-13 (2005), Chapter 4.
	for _, row := range readChecks(t, "iho_c13.csv") {
		distance := row.number(t, "range")
		var got float64
		switch row["case"] {
		case "ground":
			height := row.number(t, "fish_height")
			got = GroundRange(distance, height)
			if back := math.Hypot(got, height); !near(back, distance, 1e-12*distance) {
				t.Errorf("%v: got slant range %v back, want %v", row, back, distance)
			}
		case "height":
			got = HeightFromShadow(row.number(t, "fish_height"), row.number(t, "shadow"), distance)
		case "shadow":
			got = ShadowLength(row.number(t, "target"), row.number(t, "fish_height"), distance)
		case "beam":
			got = Footprint(distance, degrees(row.number(t, "beam_deg")))
		default:
			t.Fatalf("unknown case %v", row)
		}
		if want := row.number(t, "want"); !near(got, want, halfDigit(row["want"])) {
			t.Errorf("%v: got %.6f, want %v", row, got, want)
		}
	}
}

// Right triangles worked out separately.
func TestSlantRange(t *testing.T) {
	for _, test := range []struct{ slant, height, ground float64 }{
		{50, 10, 48.990}, {75, 10, 74.330}, {20, 12, 16}, {13, 5, 12},
	} {
		if got := GroundRange(test.slant, test.height); !near(got, test.ground, 5e-4) {
			t.Errorf("%+v: got %v", test, got)
		}
		if got, want := GrazingAngle(test.slant, test.height), math.Acos(test.ground/test.slant); !near(got, want, 1e-4) {
			t.Errorf("%+v: got grazing %v, want %v", test, got, want)
		}
	}
	if got := GroundRange(8, 10); got != 0 {
		t.Errorf("water column: got ground range %v, want 0", got)
	}
	if got := GrazingAngle(8, 10); got != math.Pi/2 {
		t.Errorf("water column: got grazing %v, want π/2", got)
	}
	if got := GroundResolution(0.1, degrees(60)); !near(got, 0.2, 1e-12) {
		t.Errorf("got ground resolution %v, want 0.2", got)
	}
	// Far from nadir the exact extent is the approximate one.
	if got, want := GroundExtent(80, 0.05, 10), GroundResolution(0.05, GrazingAngle(80, 10)); !near(got, want, 1e-6) {
		t.Errorf("got extent %v, want %v", got, want)
	}
	if got, want := GroundExtent(10, 0.1, 10), math.Sqrt(10.05*10.05-100); !near(got, want, 1e-12) {
		t.Errorf("first return: got extent %v, want %v", got, want)
	}
}

func TestShadow(t *testing.T) {
	for _, test := range []struct{ height, shadow, distance, want float64 }{
		{10, 5, 50, 0.9091}, {12, 8, 60, 1.4118}, {20, 10, 90, 2},
	} {
		got := HeightFromShadow(test.height, test.shadow, test.distance)
		if !near(got, test.want, 5e-5) {
			t.Errorf("%+v: got %v m", test, got)
		}
		if back := ShadowLength(got, test.height, test.distance); !near(back, test.shadow, 1e-12*test.shadow) {
			t.Errorf("%+v: got shadow %v back", test, back)
		}
	}
	if got := ShadowLength(12, 10, 50); !math.IsInf(got, 1) {
		t.Errorf("target above the fish: got %v, want +Inf", got)
	}
}

// The rule is exact for ground ranges from the foot and for slant ranges from
// the top of a target, and for no mixture.
func TestShadowRanges(t *testing.T) {
	const fish, target, foot = 12.0, 2.0, 40.0
	tip := foot * fish / (fish - target) // where the ray over the top lands
	top := math.Hypot(foot, fish-target)
	slantTip, slantFoot := math.Hypot(tip, fish), math.Hypot(foot, fish)
	if got := HeightFromShadow(fish, tip-foot, foot); !near(got, target, 1e-12) {
		t.Errorf("ground ranges: got %v m, want %v", got, target)
	}
	if got := HeightFromShadow(fish, slantTip-top, top); !near(got, target, 1e-12) {
		t.Errorf("slant ranges: got %v m, want %v", got, target)
	}
	if got := HeightFromShadow(fish, slantTip-slantFoot, slantFoot); near(got, target, 0.05) {
		t.Errorf("slant range to the foot: got %v m, want a bias", got)
	}
}
