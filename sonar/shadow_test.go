package sonar

import (
	"math"
	"testing"

	"dryline/seabed"
	"dryline/sonar/acoustics"
)

// A block of known height on a flat floor: its height from the shadow in the
// rendered samples, by similar triangles H = h S/(R+S) with R and S slant to
// the block's top and the shadow's tip (IHO C-13, chapter 4, 2.3.11.4; exact
// on a flat floor measured that way), to one sample's worth.
func TestShadowGivesTheHeightBack(t *testing.T) {
	e := newEngine(t, sharp())
	e.SpeckleOff, e.NoiseOff = true, true
	for _, test := range []struct{ altitude, at, height float64 }{
		{7, 20, 1}, {7, 35, 0.5}, {5, 15, 2}, {8, 30, 0.25},
	} {
		echo := ping(e, plane{z: -10, class: seabed.MediumSand, from: test.at, to: test.at + 0.6, height: test.height}, test.altitude)
		intensity := func(k int) float64 {
			v := float64(echo.Samples[1][k]) / float64(e.channels[1].gain[k])
			return v * v
		}
		// The far top edge casts the tip. From the middle of the shadow, out to
		// where each side is lit, counting the part of a sample that is.
		mid := int((math.Hypot(test.at+0.6, test.altitude-test.height) + 0.2) / e.Bin())
		end, start := mid, mid
		for intensity(end) < 0.5*intensity(end+1) || intensity(end) == 0 {
			end++
		}
		for intensity(start) == 0 {
			start--
		}
		tip := float64(end) + 1 - intensity(end)/intensity(end+1)
		if intensity(end-1) > 0 {
			tip -= intensity(end-1) / intensity(end+1)
		}
		top := float64(start) + min(intensity(start)/intensity(start-1), 1)
		r, s := top*e.Bin(), (tip-top)*e.Bin()
		got := acoustics.HeightFromShadow(test.altitude, s, r)
		// What one sample of shadow is worth: dH/dS = h R/(R+S)^2.
		tol := e.Bin() * test.altitude * r / ((r + s) * (r + s))
		if math.Abs(got-test.height) > tol {
			t.Errorf("block of %.2f m at %.0f m from %.0f m up: shadow gives %.4f m (one sample is worth %.4f)", test.height, test.at, test.altitude, got, tol)
		}
	}
}

// A thin rod held clear of the floor throws a shadow detached from its echo:
// from g h/(h-z0) to g h/(h-z1) by similar triangles (exact mathematics).
func TestRaisedRodThrowsADetachedShadow(t *testing.T) {
	e := newEngine(t, sharp())
	e.SpeckleOff, e.NoiseOff = true, true
	const altitude, at, up, radius = 8.0, 20.0, 1.5, 0.2
	clean := ping(e, plane{z: -10, class: seabed.MediumSand}, altitude).Samples[1]
	row := ping(e, plane{z: -10, class: seabed.MediumSand, from: at, height: up, rod: true, rodRadius: radius}, altitude).Samples[1]
	echo := int(math.Hypot(at, altitude-up) / e.Bin())
	if row[echo] < 2*clean[echo] {
		t.Errorf("at the rod's range: %d counts, floor alone %d; want a bright echo", row[echo], clean[echo])
	}
	from := math.Hypot(at*altitude/(altitude-up+radius), altitude)
	to := math.Hypot(at*altitude/(altitude-up-radius), altitude)
	first, last := -1, -1
	for k := range row {
		if clean[k] > 0 && float64(row[k]) < 0.4*float64(clean[k]) {
			if first < 0 {
				first = k
			}
			last = k
		}
	}
	if math.Abs(float64(first)*e.Bin()-from) > 3*e.Bin() || math.Abs(float64(last+1)*e.Bin()-to) > 3*e.Bin() {
		t.Errorf("shadow from %.2f to %.2f m, geometry says %.2f to %.2f", float64(first)*e.Bin(), float64(last+1)*e.Bin(), from, to)
	}
}

// The first return comes from straight below, at R = h; before it there is
// only noise (exact geometry).
func TestFirstReturn(t *testing.T) {
	e := newEngine(t, sharp())
	e.NoiseOff, e.SpeckleOff = true, true
	row := ping(e, plane{z: -10, class: seabed.Mud}, 6.4).Samples[0]
	k := 0
	for row[k] == 0 {
		k++
	}
	if got := float64(k) * e.Bin(); math.Abs(got-6.4) > 3*e.Bin() {
		t.Errorf("first return at %.3f m, want 6.4", got)
	}
}
