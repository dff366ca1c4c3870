package sonar

import (
	"math"
	"testing"

	"dryline/seabed"
	"dryline/seabed/chance"
	"dryline/sonar/acoustics"
)

// One fish answers by the sonar equation for a point,
//
//	EL = SL - 40 log R - 2 alpha R + TS + vertical pattern
//
// (Urick 1983, chapter 2) with its energy gathered over the pulse.
func TestOneFish(t *testing.T) {
	const across, deep, fishDepth, length = 25.0, 12.0, 5.0, 0.3
	small := 0.001
	volume := 4.0 / 3 * math.Pi * small * small * small / 8
	e := spoilt(t, tone(), 0, Effects{Schools: []School{{
		X: 100 + across, Y: 100, Depth: deep, Length: small, Width: small, Height: small, Density: 1 / volume, Fish: length,
	}}})
	pose := Pose{X: 100, Y: 100, Z: -fishDepth}
	row := heard(e, bottomless, pose, Starboard)
	r := math.Hypot(across, deep-fishDepth)
	sum, middle := 0.0, 0.0
	for k, v := range row {
		sum += v
		middle += v * (float64(k) + 0.5) * e.bin
	}
	if got := middle / sum; math.Abs(got-r) > e.bin {
		t.Errorf("at %.3f m, want %.3f", got, r)
	}
	wavelength := e.soundSpeed / 450e3
	vertical := acoustics.VerticalBeam{
		Array:      acoustics.LineArrayForWidth(50*deg, wavelength, acoustics.Shading{}),
		Depression: 20 * deg, BackLobe: backLobe, Fill: nullFill,
	}
	alpha := acoustics.FrancoisGarrison(450e3, 11, 34, 10, 8)
	// Love (1971) from memory, see school.
	strength := 22.8*math.Log10(length) - 2.8*math.Log10(wavelength) - 22.9
	want := 210 - 2*acoustics.TransmissionLoss(r, alpha) + strength +
		acoustics.Decibels(vertical.TwoWay(math.Asin((deep-fishDepth)/r), wavelength))
	resolution := acoustics.CWResolution(30e-6, e.soundSpeed)
	if got := acoustics.Decibels(sum * e.bin / resolution); math.Abs(got-want) > 0.3 {
		t.Errorf("got %.2f dB, want %.2f", got, want)
	}
	if row := heard(e, bottomless, pose, Port); !math.IsInf(begins(e, row), 1) {
		t.Error("a fish to starboard is heard to port")
	}
	pose.Y -= 5 // far ahead of the beam
	if row := heard(e, bottomless, pose, Starboard); !math.IsInf(begins(e, row), 1) {
		t.Error("a fish 5 m ahead is heard")
	}
}

// A school hides the floor beyond it between two elevations: those of the two
// tangents from the fish to its ellipse (exact geometry).
func TestSchoolShadow(t *testing.T) {
	const altitude, fishDepth, out, deep, width, height = 9.0, 3.0, 14.0, 6.5, 5.0, 2.0
	floor := plane{z: -altitude - fishDepth, class: seabed.MediumSand}
	pose := Pose{X: 100, Y: 100, Z: -fishDepth}
	school := School{X: 100 + out, Y: 100, Depth: deep, Length: 30, Width: width, Height: height, Density: 10, Fish: 0.3}
	clean := heard(spoilt(t, tone(), 0, Effects{}), floor, pose, Starboard)
	e := spoilt(t, tone(), 0, Effects{Schools: []School{school}})
	row := heard(e, floor, pose, Starboard)
	// The line z = -g tan(s) touches the ellipse where
	// (out s - drop)^2 = (width/2)^2 s^2 + (height/2)^2, drop below the fish.
	drop, a, b := deep-fishDepth, width/2, height/2
	qa, qb, qc := out*out-a*a, -out*drop, drop*drop-b*b
	root := math.Sqrt(qb*qb - qa*qc)
	steep, flat := (-qb+root)/qa, (-qb-root)/qa
	from, to := math.Hypot(altitude/steep, altitude), math.Hypot(altitude/flat, altitude)
	darkest, far := 1.0, 0.0
	for k := int((out + width + 2) / e.bin); k < len(row); k++ {
		r := (float64(k) + 0.5) * e.bin
		share := row[k] / clean[k]
		if (r < from-0.3 || r > to+0.3) && math.Abs(share-1) > 1e-4 {
			t.Errorf("floor at %.2f m: %.4f of its echo, want all outside %.2f to %.2f m", r, share, from, to)
			break
		}
		if share < 0.99 {
			far = r
		}
		darkest = min(darkest, share)
	}
	if end := min(to, 50); far < end-2 {
		t.Errorf("shadow ends at %.2f m, want near %.2f", far, end)
	}
	// Through the middle of the ellipse: between even filling and all in the middle.
	kappa := 10 * 2 * 0.2 * 0.3 * 0.3
	if got := -math.Log(darkest) / (2 * kappa * width); got < 0.8 || got > 2 {
		t.Errorf("the shadow's depth is %.2f of an even school's, want about 1", got)
	}
}

// The number of plants a ray meets is density x 2 radius x length on the mean
// (Poisson's law for points in a strip), and none outside the polygon.
func TestKelpDensity(t *testing.T) {
	f := newForest(&Kelp{Height: 3, Radius: 0.2, Density: 0.4, Through: 0.5}, 5, 0)
	plants, rays := 0, 0
	for i := range 400 {
		ux, uy := math.Sincos(float64(i))
		for _, p := range f.cut(nil, float64(i)*37.3, float64(i)*11.1, ux, uy, 50) {
			plants++
			if p.plant < 1.5 || p.plant > 3 || p.g < 0.5 || p.g > 51 {
				t.Fatalf("plant %+v", p)
			}
		}
		rays++
	}
	got, want := float64(plants)/float64(rays), 0.4*2*0.2*49.5
	if math.Abs(got-want) > 0.08*want {
		t.Errorf("plants on a ray: got %.2f, want %.2f", got, want)
	}
	square := Kelp{Height: 3, Radius: 0.2, Density: 2, Through: 0.5, Area: seabed.Area{Polygon: []seabed.Point{{X: 20, Y: -5}, {X: 30, Y: -5}, {X: 30, Y: 5}, {X: 20, Y: 5}}}}
	f = newForest(&square, 5, 0)
	inside := f.cut(nil, 0, 0, 1, 0, 50)
	if len(inside) == 0 {
		t.Error("no plants inside the polygon")
	}
	for _, p := range inside {
		if p.g < 20 || p.g > 30 {
			t.Errorf("a plant at %.1f m, outside the polygon", p.g)
		}
	}
}

// Kelp hides the floor behind it, not the floor before it, and what one plant
// lets through is squared, once out and once back.
func TestKelpShadow(t *testing.T) {
	floor := plane{z: -12, class: seabed.MediumSand}
	pose := Pose{X: 0, Y: 0, Z: -5}
	belt := Kelp{Height: 4, Radius: 0.5, Density: 1, Through: 0.7, Area: seabed.Area{Polygon: []seabed.Point{{X: 20, Y: -40}, {X: 24, Y: -40}, {X: 24, Y: 40}, {X: 20, Y: 40}}}}
	clean := heard(spoilt(t, tone(), 0, Effects{}), floor, pose, Starboard)
	e := spoilt(t, tone(), 0, Effects{Kelp: []Kelp{belt}})
	row := heard(e, floor, pose, Starboard)
	near, behind := int(17/e.bin), int(27/e.bin)
	for k := int(8 / e.bin); k < near; k++ {
		if row[k] != clean[k] {
			t.Fatalf("floor at %.2f m before the kelp changes", float64(k)*e.bin)
		}
	}
	sum, was := 0.0, 0.0
	for k := behind; k < behind+80; k++ {
		sum, was = sum+row[k], was+clean[k]
	}
	if share := sum / was; share > 0.7 || share < 0.01 {
		t.Errorf("%.3f of the floor's echo comes through a belt of kelp", share)
	}
	if row[int(22.5/e.bin)] <= clean[int(22.5/e.bin)] && row[int(22/e.bin)] <= clean[int(22/e.bin)] {
		t.Error("the kelp itself is silent")
	}
}

// A seep leans with the current: at h above its mouth it has drifted by current
// over rise times h (exact geometry), so on the side it leans to its head is
// farther than its mouth.
func TestSeepLeans(t *testing.T) {
	const mouth, rise, depth, fishDepth = 20.0, 0.25, 30.0, 15.0
	pose := Pose{X: 0, Y: 0, Z: -fishDepth, Time: 1000}
	for _, current := range []float64{0, 0.1, -0.1} {
		e := spoilt(t, tone(), 0, Effects{CurrentX: current, Seeps: []Seep{{X: mouth, Z: -depth, Rise: rise, Strength: -20}}})
		row := heard(e, bottomless, pose, Starboard)
		last := 0
		for k, v := range row {
			if v > 0 {
				last = k
			}
		}
		nearest, farthest := math.Inf(1), 0.0
		for h := 0.0; h <= depth; h += 0.01 {
			r := math.Hypot(mouth+current/rise*h, depth-fishDepth-h)
			nearest, farthest = min(nearest, r), max(farthest, r)
		}
		if got := begins(e, row); math.Abs(got-nearest) > 0.2 {
			t.Errorf("current %+.1f m/s: nearest at %.2f m, want %.2f", current, got, nearest)
		}
		if got := float64(last) * e.bin; math.Abs(got-farthest) > 0.3 {
			t.Errorf("current %+.1f m/s: farthest at %.2f m, want %.2f", current, got, farthest)
		}
	}
}

// A layer begins at its distance from the fish and has the level of volume
// reverberation (Urick 1983, chapter 8) for what lies in the beam's ring,
//
//	RL = SL - 40 log R - 2 alpha R + Sv + 10 log(thickness) + 10 log(R Theta delta/cos)
func TestLayer(t *testing.T) {
	const fishDepth, depth, thickness = 5.0, 12.0, 0.2
	spec := tone()
	e := spoilt(t, spec, 0, Effects{Layers: []Layer{{Depth: depth, Thickness: thickness, Strength: -50}}})
	row := heard(e, bottomless, Pose{Z: -fishDepth}, Port)
	below := depth - fishDepth
	if got := begins(e, row); math.Abs(got-below) > thickness+3*e.bin {
		t.Errorf("begins at %.2f m, want %.2f", got, below)
	}
	wavelength := e.soundSpeed / 450e3
	vertical := acoustics.VerticalBeam{
		Array:      acoustics.LineArrayForWidth(50*deg, wavelength, acoustics.Shading{}),
		Depression: 20 * deg, BackLobe: backLobe, Fill: nullFill,
	}
	alpha := acoustics.FrancoisGarrison(450e3, 11, 34, 10, 8)
	array := acoustics.LineArray{Length: 0.48}
	// The integral of exp(-2 (z/T)^2) is sqrt(pi/2) T.
	column := -50 + acoustics.Decibels(math.Sqrt(math.Pi/2)*thickness)
	for _, r := range []float64{12, 20, 40} {
		k := int(r / e.bin)
		r = (float64(k) + 0.5) * e.bin
		angle := math.Asin(below / r)
		want := acoustics.ReverberationLevel(210, column, r, alpha,
			acoustics.ReverberationArea(r, array.EquivalentWidth(wavelength), acoustics.CWResolution(30e-6, e.soundSpeed), angle))
		want += acoustics.Decibels(vertical.TwoWay(angle, wavelength))
		if got := acoustics.Decibels(row[k]); math.Abs(got-want) > 0.4 {
			t.Errorf("at %.1f m: rendered %.2f dB, sonar equation %.2f dB", r, got, want)
		}
	}
}

// Fish are where the school is, whatever the seed.
func TestSchoolHoldsItsFish(t *testing.T) {
	spec := School{Length: 10, Width: 4, Height: 2, Heading: 0.7, Density: 3, Fish: 0.2}
	for seed := range uint64(5) {
		s := newSchool(&spec, chance.Mix(seed), 0)
		if got, want := float64(len(s.fish))*s.each, 3*4.0/3*math.Pi*5*2*1; math.Abs(got-want) > 1e-6*want {
			t.Errorf("%d fish standing for %.1f, want %.1f", len(s.fish), got, want)
		}
		for _, f := range s.fish {
			a, b := f[0]*s.sin+f[1]*s.cos, f[0]*s.cos-f[1]*s.sin
			if q := a*a/25 + b*b/4 + f[2]*f[2]; q > 1+1e-9 {
				t.Fatalf("a fish at %v, outside", f)
			}
		}
	}
}
