package acoustics

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Moments of the gamma distribution: exact mathematics.
func TestSpeckle(t *testing.T) {
	for _, test := range []struct{ looks, contrast, std, bias, amplitude float64 }{
		{1, 1, 5.5700, -2.5068, 0.52272},
		{2, 0.70711, 3.4877, -1.1742, 0.36300},
		{3, 0.57735, 2.7293, -0.7636, 0.29410},
		{4, 0.5, 2.3137, -0.5654, 0.25362},
		{8, 0.35355, 1.5847, -0.2771, 0.17811},
		{16, 0.25, 1.1029, -0.1371, 0.12548},
	} {
		for _, value := range []struct {
			name             string
			got, want, width float64
		}{
			{"contrast", SpeckleContrast(test.looks), test.contrast, 5.1e-6},
			{"dB std", SpeckleStdDB(test.looks), test.std, 5.1e-5},
			{"dB bias", SpeckleBiasDB(test.looks), test.bias, 5.1e-5},
			{"amplitude contrast", SpeckleAmplitudeContrast(test.looks), test.amplitude, 5.1e-6},
		} {
			if !near(value.got, value.want, value.width) {
				t.Errorf("%g looks, %s: got %.7f, want %v", test.looks, value.name, value.got, value.want)
			}
		}
	}
}

// Moments of the K-distribution, exact, and its tails, worked out separately
// from 2/Γ(a) (a x)^(a/2) K_a(2√(a x)).
func TestKDistribution(t *testing.T) {
	for _, test := range []struct{ shape, contrast, amplitude, over3, over5, over10 float64 }{
		{0.5, 2.23607, 1.00000, 0.08634, 0.04233, 0.01142},
		{1, 1.73205, 0.78812, 0.08034, 0.03266, 0.00597},
		{2, 1.41421, 0.66409, 0.07166, 0.02350, 0.00267},
		{5, 1.18322, 0.58173, 0.06148, 0.01498, 0.000819},
		{10, 1.09545, 0.55268, 0.05637, 0.01125, 0.000348},
		{50, 1.01980, 0.52879, 0.05124, 0.00772, 0.000087},
	} {
		for _, value := range []struct {
			name             string
			got, want, width float64
		}{
			{"contrast", KContrast(test.shape), test.contrast, 5.1e-6},
			{"amplitude contrast", KAmplitudeContrast(test.shape), test.amplitude, 5.1e-6},
			{"P(I>3)", KExceedance(3, test.shape), test.over3, 5.1e-6},
			{"P(I>5)", KExceedance(5, test.shape), test.over5, 5.1e-6},
			{"P(I>10)", KExceedance(10, test.shape), test.over10, 5.1e-6},
		} {
			if !near(value.got, value.want, value.width) {
				t.Errorf("shape %g, %s: got %.7f, want %v", test.shape, value.name, value.got, value.want)
			}
		}
	}
	// The closed form at shape one half, exp(-√(2x)).
	for _, x := range []float64{0.1, 1, 4, 20} {
		if got, want := KExceedance(x, 0.5), math.Exp(-math.Sqrt(2*x)); !near(got, want, 1e-9) {
			t.Errorf("shape 0.5, x %g: got %.10f, want %.10f", x, got, want)
		}
	}
	if got, want := KExceedance(3, 1e4), math.Exp(-3); !near(got, want, 1e-4) {
		t.Errorf("many scatterers: got %v, want the exponential %v", got, want)
	}
}

// The formulas against a million draws of the process they describe.
func TestSpeckleAgainstDraws(t *testing.T) {
	const n = 1_000_000
	random := rand.New(rand.NewPCG(1, 2))
	var intensity, square, amplitude, level, levelSquare float64
	for range n {
		i := random.ExpFloat64()
		db := Decibels(i)
		intensity += i
		square += i * i
		amplitude += math.Sqrt(i)
		level += db
		levelSquare += db * db
	}
	contrast := func(sum, square float64) float64 { return math.Sqrt(n*square/(sum*sum) - 1) }
	for _, test := range []struct {
		name             string
		got, want, width float64
	}{
		{"contrast", contrast(intensity, square), SpeckleContrast(1), 0.01},
		{"amplitude contrast", contrast(amplitude, intensity), SpeckleAmplitudeContrast(1), 0.002},
		{"dB bias", level/n - Decibels(intensity/n), SpeckleBiasDB(1), 0.03},
		{"dB std", math.Sqrt(levelSquare/n - level*level/(n*n)), SpeckleStdDB(1), 0.03},
	} {
		if !near(test.got, test.want, test.width) {
			t.Errorf("%s: got %.4f, want %.4f", test.name, test.got, test.want)
		}
	}
}
