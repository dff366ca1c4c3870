package acoustics

import (
	"math"
	"slices"
	"testing"
)

// The figures of a uniform line are exact mathematics: roots and extrema of
// sin(x)/x, and its integrals.
func TestUniformLine(t *testing.T) {
	const (
		length     = 1.0
		wavelength = 1e-4 // long against the wavelength, so that sin θ is θ
		ratio      = wavelength / length
	)
	a := LineArray{Length: length}
	tests := []struct {
		name      string
		got, want float64
	}{
		{"half-power width", a.HalfPowerWidth(wavelength) / ratio, 0.885893},
		{"half-power width, degrees", a.HalfPowerWidth(wavelength) / ratio * 180 / math.Pi, 50.758},
		{"-3.000 dB width, degrees", a.width(math.Pow(10, -0.15), wavelength) / ratio * 180 / math.Pi, 50.677},
		{"quarter-power width, degrees", a.width(0.5, wavelength) / ratio * 180 / math.Pi, 69.14},
		{"two-way width", a.TwoWayHalfPowerWidth(wavelength) / ratio, 0.637833},
		{"two-way width, degrees", a.TwoWayHalfPowerWidth(wavelength) / ratio * 180 / math.Pi, 36.545},
		{"equivalent two-way width", a.EquivalentWidth(wavelength) / ratio, 2.0 / 3},
		{"equivalent over half-power width", a.EquivalentWidth(wavelength) / a.HalfPowerWidth(wavelength), 0.7525},
		{"half-power point", Shading{}.crossing(math.Sqrt2 / 2), 1.391557},
		{"peak side lobe", Shading{}.PeakSidelobe(), -13.2615},
	}
	for _, test := range tests {
		if !near(test.got, test.want, 1e-3*math.Abs(test.want)) {
			t.Errorf("%s: got %.6f, want %v", test.name, test.got, test.want)
		}
	}

	lobes := []struct{ x, level float64 }{
		{1.430297, -13.2615}, {2.459024, -17.8304}, {3.470890, -20.7882}, {4.477409, -22.9854}, {5.481537, -24.7357},
	}
	for _, lobe := range lobes {
		angle := math.Asin(lobe.x * ratio)
		if got := Decibels(a.Power(angle, wavelength)); !near(got, lobe.level, 5e-5) {
			t.Errorf("side lobe at x = %v π: got %.5f dB, want %v", lobe.x, got, lobe.level)
		}
		if got := Decibels(a.TwoWay(angle, wavelength)); !near(got, 2*lobe.level, 1e-4) {
			t.Errorf("two-way side lobe at x = %v π: got %.5f dB, want %v", lobe.x, got, 2*lobe.level)
		}
		for _, off := range []float64{-1e-3, 1e-3} {
			if a.Power(math.Asin((lobe.x+off)*ratio), wavelength) >= a.Power(angle, wavelength) {
				t.Errorf("x = %v π is not the top of a lobe", lobe.x)
			}
		}
	}
	for n := 1.0; n <= 3; n++ {
		if got := a.Power(math.Asin(n*ratio), wavelength); got > 1e-20 {
			t.Errorf("null %g: got %g, want 0", n, got)
		}
	}
}

// Arrays in water of 1500 m/s, worked out separately from the closed forms.
func TestLineArrayTable(t *testing.T) {
	tests := []struct {
		kHz, length                     float64
		width, twoWay, nearField, index float64
	}{
		{100, 1.0, 0.7614, 0.5482, 66.67, 21.25},
		{300, 0.5, 0.5076, 0.3655, 50.00, 23.01},
		{455, 0.5, 0.3347, 0.2410, 75.83, 24.82},
		{455, 0.6, 0.2789, 0.2008, 109.20, 25.61},
		{600, 0.4, 0.3172, 0.2284, 64.00, 25.05},
		{900, 0.35, 0.2417, 0.1740, 73.50, 26.23},
		{900, 0.5, 0.1692, 0.1218, 150.00, 27.78},
	}
	for _, test := range tests {
		a := LineArray{Length: test.length}
		wavelength := 1.5 / test.kHz
		for _, value := range []struct {
			name             string
			got, want, width float64
		}{
			{"width", a.HalfPowerWidth(wavelength) * 180 / math.Pi, test.width, 5.1e-5},
			{"two-way width", a.TwoWayHalfPowerWidth(wavelength) * 180 / math.Pi, test.twoWay, 5.1e-5},
			{"near field", a.NearFieldRange(wavelength), test.nearField, 5e-3},
			{"directivity", a.DirectivityIndex(wavelength), test.index, 5e-3},
		} {
			if !near(value.got, value.want, value.width) {
				t.Errorf("%g kHz, %g m, %s: got %.6f, want %v", test.kHz, test.length, value.name, value.got, value.want)
			}
		}
	}
}

// Each shading against a plain sum over the aperture, the definition.
func TestShadingAgainstSum(t *testing.T) {
	weights := map[string]func(x float64) float64{
		"uniform": func(float64) float64 { return 1 },
		"hann":    func(x float64) float64 { return 0.5 + 0.5*math.Cos(2*math.Pi*x) },
		"hamming": func(x float64) float64 { return 0.54 + 0.46*math.Cos(2*math.Pi*x) },
		"cosine":  func(x float64) float64 { return math.Cos(math.Pi * x) },
	}
	const n = 20000
	for name, weight := range weights {
		s, err := ShadingNamed(name)
		if err != nil {
			t.Fatal(err)
		}
		var sum, square float64
		for i := range n {
			w := weight((float64(i)+0.5)/n - 0.5)
			sum += w
			square += w * w
		}
		if got, want := s.Efficiency(), sum*sum/(n*square); !near(got, want, 1e-6) {
			t.Errorf("%s: got efficiency %.7f, want %.7f", name, got, want)
		}
		for _, u := range []float64{0, 0.3, 1, math.Pi / 2, 2, math.Pi, 4.7, 2 * math.Pi, 11} {
			var transform float64
			for i := range n {
				x := (float64(i)+0.5)/n - 0.5
				transform += weight(x) * math.Cos(2*u*x)
			}
			if got, want := s.Transform(u), transform/sum; !near(got, want, 1e-6) {
				t.Errorf("%s at u = %.3f: got %.7f, want %.7f", name, u, got, want)
			}
		}
	}
	if got, want := CosineShading(1).Transform(2.2), (Shading{}).Transform(2.2); !near(got, want, 1e-15) {
		t.Errorf("full pedestal: got %v, want the uniform %v", got, want)
	}
	if _, err := ShadingNamed("velvet"); err == nil {
		t.Error("got no error for an unknown shading")
	}
}

// Shading trades width for side lobes. The side lobe levels are standard window
// values quoted from memory; the sum above is the check that does not rest on
// them.
func TestShadingTrade(t *testing.T) {
	const wavelength = 1.5 / 455
	uniform := LineArray{Length: 0.5}
	tests := []struct {
		name    string
		shading Shading
		lobe    float64
	}{
		{"hann", HannShading(), -31.5},
		{"hamming", HammingShading(), -42.7},
		{"cosine", CosineShading(0), -23.0},
	}
	for _, test := range tests {
		a := LineArray{Length: 0.5, Shading: test.shading}
		if got := test.shading.PeakSidelobe(); !near(got, test.lobe, 0.1) {
			t.Errorf("%s: got side lobe %.2f dB, want %.1f", test.name, got, test.lobe)
		}
		if got, than := a.HalfPowerWidth(wavelength), uniform.HalfPowerWidth(wavelength); got <= than {
			t.Errorf("%s: got width %v, want more than %v", test.name, got, than)
		}
		if got, than := a.DirectivityIndex(wavelength), uniform.DirectivityIndex(wavelength); got >= than {
			t.Errorf("%s: got directivity %v dB, want less than %v", test.name, got, than)
		}
		if got := Decibels(a.Power(a.HalfPowerWidth(wavelength)/2, wavelength)); !near(got, -3.0103, 1e-4) {
			t.Errorf("%s: got %v dB at the half-power point", test.name, got)
		}
		if got := Decibels(a.TwoWay(a.TwoWayHalfPowerWidth(wavelength)/2, wavelength)); !near(got, -3.0103, 1e-4) {
			t.Errorf("%s: got %v dB at the two-way half-power point", test.name, got)
		}
		// The definition of the equivalent width, summed over the half circle.
		var sum float64
		const step = 1e-5
		for angle := -math.Pi / 2; angle < math.Pi/2; angle += step {
			sum += a.TwoWay(angle, wavelength) * step
		}
		if got := a.EquivalentWidth(wavelength); !near(got, sum, 1e-4*sum) {
			t.Errorf("%s: got equivalent width %.7f, want %.7f", test.name, got, sum)
		}
	}
}

func TestLineArrayForWidth(t *testing.T) {
	const wavelength = 0.005
	for _, width := range []float64{0.2, 0.5, 1.5, 50} {
		a := LineArrayForWidth(degrees(width), wavelength, HammingShading())
		if got := a.HalfPowerWidth(wavelength) * 180 / math.Pi; !near(got, width, 1e-9*width) {
			t.Errorf("got %v degrees, want %v", got, width)
		}
	}
	short := LineArray{Length: wavelength / 4}
	if got := short.HalfPowerWidth(wavelength); got != math.Pi {
		t.Errorf("short array: got width %v, want π", got)
	}
}

func TestAlongTrackWidth(t *testing.T) {
	for width, want := range map[float64]float64{0.2: 0.175, 0.3: 0.262, 0.5: 0.436, 1.0: 0.873} {
		for _, factor := range []float64{1, 2} {
			if got := Footprint(50*factor, degrees(width)); !near(got, want*factor, 5e-4*factor) {
				t.Errorf("%g deg at %g m: got %.4f m, want %.3f", width, 50*factor, got, want*factor)
			}
		}
	}
	const wavelength = 1.5 / 455
	a := LineArray{Length: 0.6}
	far := 200 * a.HalfPowerWidth(wavelength)
	tests := []struct {
		name     string
		distance float64
		focused  bool
		want     float64
	}{
		{"far, focused", 200, true, far},
		{"near, focused", 20, true, far / 10},
		{"at the array, focused", 0.01, true, wavelength / 2},
	}
	for _, test := range tests {
		if got := a.AlongTrackWidth(test.distance, wavelength, test.focused); !near(got, test.want, 1e-12) {
			t.Errorf("%s: got %v m, want %v", test.name, got, test.want)
		}
	}
	// Not focused: where the line integral, summed, last falls to half of its most.
	uniform := func(float64) float64 { return 1 }
	for _, r := range []float64{6, 20, 45, 200} {
		const step = 0.002
		var p []float64
		for y := 0.0; y < 0.5+far*r/200; y += step {
			p = append(p, lineIntegral(a.Length, wavelength, 0, r, y, uniform))
		}
		i := len(p) - 1
		for p[i] < slices.Max(p)/4 { // two ways
			i--
		}
		if got, want := a.AlongTrackWidth(r, wavelength, false), (2*float64(i)+1)*step; !near(got, want, 2*step) {
			t.Errorf("not focused at %g m: got %.4f m, want %.4f", r, got, want)
		}
	}
}

func TestPistonDirectivityIndex(t *testing.T) {
	// A square of one wavelength: 10 log10 4π.
	if got := PistonDirectivityIndex(0.3, 0.3, 0.3); !near(got, 10.9921, 5e-5) {
		t.Errorf("got %v dB, want 10.9921", got)
	}
}

func TestVerticalBeam(t *testing.T) {
	const wavelength = 1.5 / 455
	v := VerticalBeam{
		Array:      LineArrayForWidth(degrees(50), wavelength, Shading{}),
		Depression: degrees(10),
		BackLobe:   -25,
	}
	tests := []struct {
		name       string
		depression float64
		want       float64
	}{
		{"axis", 10, 0},
		{"lower half power", 35, -3.0103},
		{"upper half power", -15, -3.0103},
		{"straight behind", 190, -25},
		{"behind, on the mirrored half power", 215, -28.0103},
	}
	for _, test := range tests {
		if got := Decibels(v.Power(degrees(test.depression), wavelength)); !near(got, test.want, 1e-3) {
			t.Errorf("%s: got %.4f dB, want %v", test.name, got, test.want)
		}
		if got := Decibels(v.TwoWay(degrees(test.depression), wavelength)); !near(got, 2*test.want, 2e-3) {
			t.Errorf("%s, two-way: got %.4f dB, want %v", test.name, got, 2*test.want)
		}
	}
	last := v.Amplitude(-math.Pi, wavelength)
	for angle := -math.Pi; angle <= math.Pi; angle += 1e-3 {
		got := v.Amplitude(angle, wavelength)
		if math.Abs(got-last) > 5e-3 {
			t.Errorf("jump from %v to %v at %v rad", last, got, angle)
		}
		last = got
	}
}

func BenchmarkVerticalBeam(b *testing.B) {
	v := VerticalBeam{Array: LineArray{Length: 0.0035}, Depression: degrees(20), BackLobe: -30}
	angle := degrees(30)
	for b.Loop() {
		v.Power(angle, 1.5/455)
	}
}
