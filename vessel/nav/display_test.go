package nav

import (
	"math"
	"testing"
)

// display is a number shown, with the errors that are to spoil it and no other.
type display struct {
	name   string
	errors func(*Spec) *Errors
	shows  func(*Reading) float64
	truth  float64
}

// displays are those with a bias, a noise and a last digit of the common kind.
func displays() []display {
	x := truth()
	wx, wy := x.WindX-x.VX, x.WindY-x.VY
	return []display{
		{"heading", func(s *Spec) *Errors { return &s.Heading.Errors }, func(r *Reading) float64 { return float64(r.Heading) }, x.Heading + x.Convergence},
		{"rate of turn", func(s *Spec) *Errors { return &s.Heading.Turn }, func(r *Reading) float64 { return r.RateOfTurn }, x.YawRate},
		{"heave", func(s *Spec) *Errors { return &s.Motion.Heave }, func(r *Reading) float64 { return r.Heave }, x.Heave},
		{"pitch", func(s *Spec) *Errors { return &s.Motion.Pitch }, func(r *Reading) float64 { return r.Pitch }, x.Pitch},
		{"roll", func(s *Spec) *Errors { return &s.Motion.Roll }, func(r *Reading) float64 { return r.Roll }, x.Roll},
		{"depth", func(s *Spec) *Errors { return &s.FishDepth.Errors }, func(r *Reading) float64 { return r.FishDepth }, x.FishDepth},
		{"altitude", func(s *Spec) *Errors { return &s.Altimeter.Errors }, func(r *Reading) float64 { return r.FishAltitude }, x.FishAltitude},
		{"fish heading", func(s *Spec) *Errors { return &s.Compass.Errors }, func(r *Reading) float64 { return float64(r.FishHeading) }, x.FishHeading + x.Convergence},
		{"fish pitch", func(s *Spec) *Errors { return &s.Compass.Pitch }, func(r *Reading) float64 { return r.FishPitch }, x.FishPitch},
		{"fish roll", func(s *Spec) *Errors { return &s.Compass.Roll }, func(r *Reading) float64 { return r.FishRoll }, x.FishRoll},
		{"cable", func(s *Spec) *Errors { return &s.Counter.Errors }, func(r *Reading) float64 { return r.CableOut }, x.CableOut},
		{"log", func(s *Spec) *Errors { return &s.SpeedLog.Errors }, func(r *Reading) float64 { return r.WaterSpeed }, x.WaterAhead},
		{"wind speed", func(s *Spec) *Errors { return &s.Wind.Speed }, func(r *Reading) float64 { return r.WindSpeed }, math.Hypot(wx, wy)},
		{"wind direction", func(s *Spec) *Errors { return &s.Wind.From }, func(r *Reading) float64 { return r.WindFrom }, math.Atan2(-wx, -wy) - x.Heading},
	}
}

// Each error reaches its own display and no other: a bias moves it by as much,
// noise has the spread given (of n draws to sigma/sqrt(2n), at 4 of them), and a
// last digit makes it a multiple.
func TestEachErrorSpoilsItsOwnDisplay(t *testing.T) {
	const bias, sigma, digit, n = 0.05, 0.01, 0.07, 4000
	for i, d := range displays() {
		var biased, noisy, stepped Spec
		d.errors(&biased).Bias, d.errors(&noisy).Noise, d.errors(&stepped).Step = bias, sigma, digit
		r := New(biased, 1).Read(1, 1, truth())
		for j, other := range displays() {
			want := other.truth
			if i == j {
				want += bias
			}
			if got := other.shows(&r); math.Abs(got-want) > 1e-12 {
				t.Errorf("a bias of %s: %s shows %.6f, want %.6f", d.name, other.name, got, want)
			}
		}
		inst, sum, square := New(noisy, 1), 0.0, 0.0
		for k := range n {
			r := inst.Read(float64(k+1), 1, truth())
			e := d.shows(&r) - d.truth
			sum, square = sum+e, square+e*e
		}
		if mean, got := sum/n, math.Sqrt(square/n); math.Abs(mean) > 4*sigma/math.Sqrt(n) || math.Abs(got-sigma) > 4*sigma/math.Sqrt(2*n) {
			t.Errorf("%s: noise of %.5f about %.5f, want %g about 0", d.name, got, mean, sigma)
		}
		r = New(stepped, 1).Read(1, 1, truth())
		got := d.shows(&r)
		if off := math.Abs(math.Remainder(got, digit)); off > 1e-12 || math.Abs(got-d.truth) > digit/2+1e-12 {
			t.Errorf("%s: shows %.6f of %.6f, want the nearest multiple of %g", d.name, got, d.truth, digit)
		}
	}
}

// The fix has its own ways of being wrong: a fixed error on the grid, noise of
// the velocity on both axes, and last digits of speed and course.
func TestFixErrors(t *testing.T) {
	at := truth()
	r := New(Spec{GNSS: GNSSSpec{BiasX: 3, BiasY: -2}}, 1).Read(1, 1, at)
	if r.X != at.AntennaX+3 || r.Y != at.AntennaY-2 {
		t.Errorf("got %.3f, %.3f with a bias of 3, -2 m about %.3f, %.3f", r.X, r.Y, at.AntennaX, at.AntennaY)
	}
	r = New(Spec{GNSS: GNSSSpec{SpeedStep: 0.3, CourseStep: 5 * degree}}, 1).Read(1, 1, at)
	if want := 2.1; math.Abs(r.SpeedOverGround-want) > 1e-12 { // of 2.088
		t.Errorf("speed: got %.4f, want %.1f in steps of 0.3", r.SpeedOverGround, want)
	}
	if got := float64(r.Course) / degree; math.Abs(got-15) > 1e-9 { // of 16.4
		t.Errorf("course: got %.4f deg, want 15 in steps of 5", got)
	}
	at.VX, at.VY, at.Convergence = -0.02, 5, 0 // a hair to the west of north
	if r = New(Spec{GNSS: GNSSSpec{CourseStep: 5 * degree}}, 1).Read(1, 1, at); r.Course != 0 {
		t.Errorf("course: got %.4f rad, want 0 and not a full circle", r.Course)
	}

	const sigma, n = 0.1, 20000
	inst, squareX, squareY := New(Spec{GNSS: GNSSSpec{SpeedNoise: sigma}}, 6), 0.0, 0.0
	for i := range n {
		r := inst.Read(float64(i), 1, Truth{VX: 1, VY: 2})
		sin, cos := math.Sincos(float64(r.GridCourse()))
		x, y := r.SpeedOverGround*sin-1, r.SpeedOverGround*cos-2
		squareX, squareY = squareX+x*x, squareY+y*y
	}
	for axis, square := range map[string]float64{"east": squareX, "north": squareY} {
		if got := math.Sqrt(square / n); math.Abs(got-sigma) > 4*sigma/math.Sqrt(2*n) {
			t.Errorf("noise of the velocity %s: got %.5f m/s, want %g", axis, got, sigma)
		}
	}
}

// The log reads too much by its scale, as a share of the speed.
func TestLogScale(t *testing.T) {
	for _, scale := range []float64{0.03, -0.1} {
		if got, want := New(Spec{SpeedLog: SpeedLogSpec{Scale: scale}}, 1).Read(1, 1, truth()).WaterSpeed, 1.9*(1+scale); math.Abs(got-want) > 1e-12 {
			t.Errorf("scale %g: got %.4f m/s, want %.4f", scale, got, want)
		}
	}
}

// The beacon's fixed errors are in the vessel's own axes: offsets as they
// stand, a transducer turned to starboard by a has the beacon R sin a to port of
// where it is (1.75 m per degree and 100 m: NOAA Field Procedures Manual,
// 1.5.7.1.1.2). Its last digits are those of the axes.
func TestBeaconFixedErrors(t *testing.T) {
	at := far()
	at.FishX, at.FishY, at.FishDepth = at.VesselX-100*math.Sin(at.Heading), at.VesselY-100*math.Cos(at.Heading), 20
	axes := func(s BeaconSpec) (ahead, abeam, down float64) {
		s.Fitted = true
		e := answers(Spec{Beacon: s}, at, 1)
		sin, cos := math.Sincos(at.Heading)
		return e[0][0]*sin + e[0][1]*cos, e[0][0]*cos - e[0][1]*sin, e[0][2]
	}
	for _, row := range []struct {
		name               string
		spec               BeaconSpec
		ahead, abeam, down float64
	}{
		{"nothing", BeaconSpec{}, 0, 0, 0},
		{"offsets", BeaconSpec{BiasForward: 1, BiasStarboard: 2, BiasDown: 3}, 1, 2, 3},
		// The beacon is astern: what is turned to starboard has it to starboard.
		{"turned", BeaconSpec{Align: degree}, 100 * (1 - math.Cos(degree)), 1.7452, 0},
		// From the transducer it lies -99.6, -0.2 and 19.3 m: shown -99.5, 0, 19.5.
		{"digits", BeaconSpec{Forward: -0.4, Starboard: 0.2, Down: 0.7, Step: 0.5}, 0.1, 0.2, 0.2},
	} {
		ahead, abeam, down := axes(row.spec)
		if math.Abs(ahead-row.ahead) > 1e-4 || math.Abs(abeam-row.abeam) > 1e-4 || math.Abs(down-row.down) > 1e-4 {
			t.Errorf("%s: got %.4f ahead, %.4f abeam, %.4f down, want %.4f, %.4f, %.4f", row.name, ahead, abeam, down, row.ahead, row.abeam, row.down)
		}
	}
	// Noise besides the share of the range: the squares add.
	const noise, share, n = 0.4, 0.003, 20000
	square := 0.0
	for _, d := range answers(Spec{Beacon: BeaconSpec{Fitted: true, Noise: noise, Share: share}}, far(), n) {
		square += d[0] * d[0]
	}
	if got, want := math.Sqrt(square/n), math.Hypot(noise, share*100); math.Abs(got-want) > 0.02*want {
		t.Errorf("noise: got %.4f m, want %.4f", got, want)
	}
}
