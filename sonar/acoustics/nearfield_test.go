package acoustics

import (
	"math"
	"math/cmplx"
	"testing"
)

// lineIntegral is the two-way power of a line array by plain summation of
// spherical waves from its length, focused by delays of whole wave paths: exact
// distances, nothing of Fresnel's. It is over the far field's power on the axis.
func lineIntegral(length, wavelength, focus, r, offset float64, weight func(x float64) float64) float64 {
	const n = 1600
	k := 2 * math.Pi / wavelength
	across := math.Sqrt(r*r - offset*offset)
	var sum complex128
	total := 0.0
	for i := range n {
		x := ((float64(i)+0.5)/n - 0.5) * length
		path := math.Hypot(across, offset-x)
		switch {
		case focus > 0:
			path -= math.Hypot(focus, x)
		case focus < 0:
			path -= math.Hypot(r, x)
		}
		w := weight(x / length)
		sum += complex(w*r/math.Hypot(across, offset-x), 0) * cmplx.Exp(complex(0, k*path))
		total += w
	}
	p := cmplx.Abs(sum) / total
	return p * p * p * p
}

var nearFields = []struct {
	name    string
	shading Shading
	weight  func(x float64) float64
	focus   float64
}{
	{"uniform", Shading{}, func(float64) float64 { return 1 }, 0},
	{"uniform, focused at 40 m", Shading{}, func(float64) float64 { return 1 }, 40},
	{"uniform, focused everywhere", Shading{}, func(float64) float64 { return 1 }, -1},
	{"hamming", HammingShading(), func(x float64) float64 { return 0.54 + 0.46*math.Cos(2*math.Pi*x) }, 0},
	{"cosine, focused at 15 m", CosineShading(0), func(x float64) float64 { return math.Cos(math.Pi * x) }, 15},
}

// Pattern and floor level against plain summation at eight ranges: the pattern
// within 3 % of its largest, the floor within 0.1 dB.
func TestNearFieldAgainstLineIntegral(t *testing.T) {
	const length, wavelength = 0.48, 1493.0 / 450e3
	for _, test := range nearFields {
		a := LineArray{Length: length, Shading: test.shading}
		for _, r := range []float64{5, 10, 15, 20, 30, 60, 95, 150} {
			step := (0.7*length + 2.2*r*wavelength/length) / 200
			got := make([]float64, 200)
			a.AlongTrackPattern(got, step, r, wavelength, test.focus)
			most, sum := 0.0, 0.0
			want := make([]float64, len(got))
			for i := range want {
				want[i] = lineIntegral(length, wavelength, test.focus, r, float64(i)*step, test.weight)
				most = math.Max(most, want[i])
				sum += 2 * want[i] * step
			}
			sum -= want[0] * step
			for i := range want {
				if math.Abs(got[i]-want[i]) > 0.03*most {
					t.Errorf("%s at %g m, %.3f m off: %.4f, line integral %.4f", test.name, r, float64(i)*step, got[i], want[i])
					break
				}
			}
			loss := -Decibels(sum / (r * a.EquivalentWidth(wavelength)))
			if got := a.AlongTrackLoss(r, wavelength, test.focus); math.Abs(got-loss) > 0.1 {
				t.Errorf("%s at %g m: floor %.2f dB below the far field's, line integral %.2f", test.name, r, got, loss)
			}
		}
	}
}

// Quadrature of the line integral done apart, to two figures, for 0.48 m at
// 450 kHz.
func TestNearFieldFigures(t *testing.T) {
	const wavelength = 1500.0 / 450e3
	a := LineArray{Length: 0.48}
	for _, test := range []struct{ r, width float64 }{{20, 0.11}, {30, 0.14}, {60, 0.27}, {95, 0.42}} {
		var p [4000]float64
		a.AlongTrackPattern(p[:], 1e-4, test.r, wavelength, 0)
		i := 0
		for p[i] > p[0]/2 {
			i++
		}
		if got := 2 * float64(i) * 1e-4; math.Abs(got-test.width) > 0.006 {
			t.Errorf("at %g m: %.3f m between half-power points, want %.2f", test.r, got, test.width)
		}
	}
	for _, test := range []struct{ r, level float64 }{{20, -3.0}, {30, -1.3}, {60, -0.3}} {
		if got := Decibels(a.AlongTrackPower(0, test.r, wavelength, 0)); math.Abs(got-test.level) > 0.1 {
			t.Errorf("on the axis at %g m: %.2f dB, want %.1f", test.r, got, test.level)
		}
	}
	for _, test := range []struct{ r, loss float64 }{{30, 2.0}, {20, 3.9}, {15, 5.2}, {10, 6.6}} {
		if got := a.AlongTrackLoss(test.r, wavelength, 0); math.Abs(got-test.loss) > 0.12 {
			t.Errorf("floor at %g m: %.2f dB lost, want %.1f", test.r, got, test.loss)
		}
	}
}

// In focus the pattern is the far field's, whose side lobe at 1.430 lambda/L is
// -26.52 dB two-way (exact mathematics of sin(x)/x).
func TestNearFieldInFocus(t *testing.T) {
	const wavelength, length, r = 0.003, 0.5, 30.0
	a := LineArray{Length: length}
	for _, focus := range []float64{-1, r} {
		if got := 2 * Decibels(a.AlongTrackPower(1.430297*wavelength/length*r, r, wavelength, focus)); !near(got, -26.523, 0.01) {
			t.Errorf("focus %g: side lobe at %.3f dB, want -26.52", focus, got)
		}
		if got := a.AlongTrackLoss(r, wavelength, focus); !near(got, 0, 1e-9) {
			t.Errorf("focus %g: loss of %g dB", focus, got)
		}
	}
}

// What is left when the beam has turned, against the sum that defines it.
func TestOverlapAgainstItsSum(t *testing.T) {
	const wavelength = 1500.0 / 450e3
	for _, test := range nearFields {
		a := LineArray{Length: 0.48, Shading: test.shading}
		for _, r := range []float64{8, 30, 150} {
			var got [12]float64
			turn := 0.2 * wavelength / a.Length
			a.AlongTrackOverlaps(got[:], turn, r, wavelength, test.focus)
			sum := func(d float64) float64 {
				total := 0.0
				const n = 1500
				reach := a.Length + 8*wavelength/a.Length*r
				for i := range n {
					y := reach * (2*(float64(i)+0.5)/n - 1)
					total += a.AlongTrackPower(y, r, wavelength, test.focus) * a.AlongTrackPower(y+d*r, r, wavelength, test.focus)
				}
				return total
			}
			whole := sum(0)
			for _, i := range []int{0, 1, 4, 9} {
				if want := sum(float64(i)*turn) / whole; math.Abs(got[i]-want) > 3e-3 {
					t.Errorf("%s at %g m, turned by %.1f lambda/L: %.4f left, want %.4f", test.name, r, 0.2*float64(i), got[i], want)
				}
			}
		}
	}
}
