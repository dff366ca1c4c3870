package seabed

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/dsp/fourier"
)

// One line across an isotropic surface with the spectrum of APL-UW TR 9407 (1994),
// equation 7, W2 = w2 K^-gamma, ended by an outer scale, has the spectrum
//
//	W1(k) = integral of W2(sqrt(k^2 + q^2)) dq = w2 (k^2 + K0^2)^((1-gamma)/2) sqrt(pi) G((gamma-1)/2) / G(gamma/2)
//
// (exact mathematics, G the gamma function). Here it is measured on the floor as read
// along rays, by a Fourier transform with a Hann window, octave by octave: no octave
// is missing and each has that level, which is within a decibel the published one up to
// a metre. w2 is by equation 10 or Table 2, in
// cm^4 with K in 1/cm.
func TestGroundHasThePublishedSpectrum(t *testing.T) {
	const (
		gamma = 3.25
		step  = 0.1
		n     = 2560
	)
	var p Profile
	for i := range n {
		p.Steps = append(p.Steps, float64(i)*step)
	}
	fft := fourier.NewFFT(n)
	line := make([]float64, n)
	for _, test := range []struct {
		class Class
		w2    float64
	}{{Mud, 0.000518}, {MediumSand, 0.00447}, {Rock, 0.01862}} {
		w := New(Spec{East: 900, North: 900, Depth: 20, Base: test.class, Relief: Relief{Wavelength: 100}}, 5)
		power := make([]float64, n/2+1)
		const lines = 60
		for l := range lines {
			turn := float64(l)
			w.Trace(&p, 450+90*math.Cos(7*turn), 450+90*math.Sin(7*turn), math.Sin(turn), math.Cos(turn))
			for i, z := range p.Z {
				line[i] = (z + 20) * 100 * (1 - math.Cos(2*math.Pi*float64(i)/n))
			}
			for m, c := range fft.Coefficients(nil, line) {
				// By the mean square of the window, 1.5.
				power[m] += (real(c)*real(c) + imag(c)*imag(c)) / (1.5 * n) * step * 100 / (2 * math.Pi) / lines
			}
		}
		for shortest := 0.5; shortest < longestRoughness/2; shortest *= 2 {
			got, want := 0.0, 0.0
			for m := int(n*step/(2*shortest)) + 1; m <= int(n*step/shortest); m++ {
				k := 2 * math.Pi * float64(m) / (n * step * 100)
				got += power[m]
				want += test.w2 * math.Pow(math.Hypot(k, 2*math.Pi/400), 1-gamma) * math.Sqrt(math.Pi) * math.Gamma((gamma-1)/2) / math.Gamma(gamma/2)
			}
			if d := 10 * math.Log10(got/want); math.Abs(d) > 1 {
				t.Errorf("%v, waves of %.1f to %.1f m: %+.1f dB over the published spectrum", test.class, shortest, 2*shortest, d)
			}
		}
	}
}

// The rms relief over 100 cm of bottom is that of TR 9407, equation 9, from which
// its spectral strength is made: fine sand of 2.5 phi 1.15 cm, coarse sand of 0.5 phi
// 1.83 cm, sandy gravel of -1 phi 2.5 cm. Less what of it the waves had that end at the
// outer scale: a share of W2(K) (1 - sinc^2(K L cos(a)/2)), integrated over the plane.
func TestReliefOverAMetreIsThePublished(t *testing.T) {
	var kept, all float64
	for u := math.Log(2 * math.Pi / longestRoughness); u < math.Log(2*math.Pi/(2*microStep)); u += 0.01 {
		k := math.Exp(u)
		for a := 0.05; a < math.Pi/2; a += 0.1 {
			x := k * math.Cos(a) / 2
			sinc := math.Sin(x) / x
			w := math.Pow(k, 2-3.25) * (1 - sinc*sinc)
			all += w
			kept += w * math.Pow(1+math.Pow(2*math.Pi/(4*k), 2), -3.25/2)
		}
	}
	share := math.Sqrt(kept / all)
	for _, test := range []struct {
		class Class
		cm    float64
	}{{FineSand, 1.15}, {CoarseSand, 1.83}, {Gravel, 2.5}} {
		w := New(Spec{East: 300, North: 300, Depth: 20, Base: test.class, Relief: Relief{Wavelength: 100}}, 9)
		var p Profile
		const n = 50 // of 2 cm
		for i := range n {
			p.Steps = append(p.Steps, 0.02*(float64(i)+0.5))
		}
		sum := 0.0
		const metres = 4000
		for i := range metres {
			turn := float64(i)
			w.Trace(&p, 20+math.Mod(turn*37.7, 260), 20+math.Mod(turn*11.3, 260), math.Sin(turn), math.Cos(turn))
			mean, square := 0.0, 0.0
			for _, z := range p.Z {
				mean += (z + 20) / n
				square += (z + 20) * (z + 20) / n
			}
			sum += (square - mean*mean) / metres
		}
		if got := 100 * math.Sqrt(sum); math.Abs(got-share*test.cm) > 0.12*share*test.cm {
			t.Errorf("%v: rms relief over a metre is %.2f cm, want %.2f of the %.2f cm published", test.class, got, share, test.cm)
		}
	}
}

// A floor without features is its relief and nothing else.
func TestFeaturelessFloorIsSmooth(t *testing.T) {
	spec := Spec{East: 300, North: 300, Depth: 20, Base: MediumSand, Featureless: true, Relief: Relief{Height: 1, Wavelength: 150, Octaves: 1}}
	w := New(spec, 9)
	for i := range 500 {
		x, y := 10+math.Mod(float64(i)*7.77, 280), 10+math.Mod(float64(i)*3.21, 280)
		if z, _, _ := w.SurfaceAt(x, y); math.Abs(z-w.relief.height(x, y)) > 0.002 {
			t.Fatalf("at (%.1f, %.1f): %.4f m, its relief %.4f m", x, y, z, w.relief.height(x, y))
		}
	}
}

func TestPatchIsPeriodic(t *testing.T) {
	p := newPatch(microStep, 2*microStep, longestMicro, outerScale, 1, "test")
	for i := range 100 {
		u, v := 3.3*float64(i), 511.7
		if a, b := p.at(u, v), p.at(u+microSide, v+3*microSide); math.Abs(a-b) > 1e-9 {
			t.Fatalf("at (%g, %g): %g, one period on %g", u, v, a, b)
		}
	}
}

// The slope that is said to be drawn is the one drawn, along a line, in steps as
// long as facets: twice the variance of one direction.
func TestDrawnSlope(t *testing.T) {
	for _, class := range []Class{Mud, Silt, FineSand, MediumSand, CoarseSand, Gravel, Cobble, Rock, ShellBed, Seagrass} {
		w := New(Spec{East: 300, North: 200, Depth: 12, Base: class, Relief: Relief{Wavelength: 40}}, 7)
		p := Profile{}
		for g := 0.0; g < 100; g += microStep {
			p.Steps = append(p.Steps, g)
		}
		sum, n := 0.0, 0.0
		for i := range 40 {
			w.Trace(&p, 20+6*float64(i), 50, 0.3, math.Sqrt(1-0.09))
			for k := 1; k < len(p.Z); k++ {
				d := (p.Z[k]-p.Z[k-1])/microStep - p.Slope[k] // of what is longer
				sum, n = sum+d*d, n+1
			}
		}
		if got, want := math.Sqrt(2*sum/n), class.DrawnSlope(); math.Abs(got-want) > 0.03*want {
			t.Errorf("%v: a slope of %.4f is drawn, %.4f is said", class, got, want)
		}
	}
}

// What is spread over a tile is what is read node by node.
func TestSpreadAgreesWithPlainForm(t *testing.T) {
	f := newFabric(&Spec{}, 3)
	var dst [tileSide]float32
	var spread weave
	for _, at := range []Point{{0, 0}, {32, 64}, {320, 160}, {992, 32}} {
		for _, q := range []*quilt{&f.grains, &f.long} {
			spread.lay(q, Silt, at.X, at.Y)
			var sewn footing
			eachNode(at.X, at.Y, func(n int, x, y float64) {
				if n%tileSide == 0 {
					spread.line(&dst, n/tileSide, 0, tileSide)
				}
				want := q.at(&sewn, Silt, x*nodesPerM+quiltOrigin, y*nodesPerM+quiltOrigin)
				if math.Abs(float64(dst[n%tileSide])-want) > 1e-5 {
					t.Fatalf("tile (%g, %g), node at (%.2f, %.2f): %.6f, plainly %.6f", at.X, at.Y, x, y, dst[n%tileSide], want)
				}
			})
		}
	}
}
