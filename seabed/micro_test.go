package seabed

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/dsp/fourier"
	"gonum.org/v1/gonum/stat"
)

// The roughness spectrum of APL-UW TR 9407 (1994), equation 7, falls as
// K^-3.25 in two dimensions. One line across an isotropic surface with that
// spectrum falls as K^-2.25 (integrate over the other wavenumber; exact
// mathematics). Measured here by an outside FFT on the rows of the patch.
func TestMicroReliefFollowsThePublishedSpectrum(t *testing.T) {
	p := newPatch(0.0147, 1, "test")
	sum := 0.0
	for _, z := range p {
		sum += float64(z) * float64(z)
	}
	if got := math.Sqrt(sum / float64(len(p))); math.Abs(got-0.0147) > 1e-5 {
		t.Errorf("rms height: got %.5f m, want 0.0147 m", got)
	}
	fft := fourier.NewFFT(microSide)
	power := make([]float64, microSide/2+1)
	row := make([]float64, microSide)
	for j := range microSide {
		for i := range row {
			row[i] = float64(p[j*microSide+i])
		}
		for k, c := range fft.Coefficients(nil, row) {
			power[k] += real(c)*real(c) + imag(c)*imag(c)
		}
	}
	// Fit between four times the low cut-off (where its missing power no longer
	// shows) and a third of the Nyquist limit.
	var lk, lp []float64
	for k := 64; k < 170; k++ {
		lk = append(lk, math.Log(float64(k)))
		lp = append(lp, math.Log(power[k]))
	}
	_, slope := stat.LinearRegression(lk, lp, nil, false)
	if math.Abs(slope+2.25) > 0.2 {
		t.Errorf("slope of the line spectrum: got %.2f, want -2.25", slope)
	}
}

func TestPatchIsPeriodic(t *testing.T) {
	p := newPatch(1, 1, "test")
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
	for _, class := range []Class{FineSand, Gravel, Seagrass} {
		w := New(Spec{East: 300, North: 200, Depth: 12, Base: class, Relief: Relief{Wavelength: 40}}, 7)
		p := Profile{}
		for g := 0.0; g < 100; g += microStep {
			p.Steps = append(p.Steps, g)
		}
		sum, n := 0.0, 0.0
		for i := range 40 {
			w.Trace(&p, 20+6*float64(i), 50, 0.3, math.Sqrt(1-0.09))
			for k := 1; k < len(p.Z); k++ {
				d := (p.Z[k] - p.Z[k-1]) / microStep
				sum, n = sum+d*d, n+1
				if math.Abs(p.Slope[k]) > 1e-9 {
					t.Fatalf("flat ground is said to rise by %g", p.Slope[k])
				}
			}
		}
		if got, want := math.Sqrt(2*sum/n), class.DrawnSlope(); math.Abs(got-want) > 0.03*want {
			t.Errorf("%v: a slope of %.4f is drawn, %.4f is said", class, got, want)
		}
	}
}
