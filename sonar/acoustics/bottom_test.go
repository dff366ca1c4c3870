package acoustics

import (
	"math"
	"strconv"
	"strings"
	"testing"
)

// tr9407Speed is the speed of sound behind TR 9407 Table 3, m/s.
const tr9407Speed = 1528.0

// tr9407Bottom returns the bottom of a row of Table 2 or 3.
func tr9407Bottom(t *testing.T, row check) Bottom {
	t.Helper()
	var b Bottom
	var err error
	switch row["bottom"] {
	case "rough rock":
		b, err = RoughRock.Bottom()
	case "rock":
		b, err = Rock.Bottom()
	case "cobble/gravel/pebble":
		b, err = Cobble.Bottom()
	default:
		b, err = BottomForGrainSize(row.number(t, "mz"))
	}
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func mustBottom(t testing.TB, s Sediment) Bottom {
	t.Helper()
	b, err := s.Bottom()
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func TestBottomParameters(t *testing.T) {
	// TR 9407 Table 2.
	for _, row := range readChecks(t, "tr9407_table2.csv") {
		b := tr9407Bottom(t, row)
		got := map[string]float64{
			"density":  b.DensityRatio,
			"speed":    b.SoundSpeedRatio,
			"loss":     b.LossParameter,
			"volume":   b.VolumeParameter,
			"exponent": b.SpectralExponent,
			"strength": b.SpectralStrength,
		}
		for column, value := range got {
			if want := row.number(t, column); !near(value, want, halfDigit(row[column])) {
				t.Errorf("%s, %s: got %.7f, want %s", row["bottom"], column, value, row[column])
			}
		}
		if err := b.Check(); err != nil {
			t.Errorf("%s: %v", row["bottom"], err)
		}
	}
}

func TestBottomStrength(t *testing.T) {
	// TR 9407 Table 3, pp. IV-23 to IV-25. The printed rock row departs from
	// the report's own equations in one cell.
	for _, row := range readChecks(t, "tr9407_table3.csv") {
		b := tr9407Bottom(t, row)
		b.VolumeParameter = row.number(t, "volume")
		f := row.number(t, "frequency_khz") * 1000
		worst := 0.0
		for column := range row {
			angle, err := strconv.ParseFloat(column, 64)
			if err != nil {
				continue // not an angle
			}
			tolerance := 0.3
			if row["bottom"] == "rock" && angle == 40 {
				tolerance = 0.6
			}
			got, want := b.Strength(degrees(angle), f, tr9407Speed), row.number(t, column)
			worst = math.Max(worst, math.Abs(got-want))
			if !near(got, want, tolerance) {
				t.Errorf("%s, %g kHz, %g deg: got %.2f dB, want %.1f", row["bottom"], f/1000, angle, got, want)
			}
		}
		t.Logf("%-14s %3g kHz σ2 %s: largest difference %.2f dB", row["bottom"], f/1000, row["volume"], worst)
	}
}

// Intermediate values for medium sand at 30 kHz, worked out separately from
// the equations of TR 9407 Section IV.
func TestBottomIntermediateValues(t *testing.T) {
	b := mustBottom(t, MediumSand)
	const f = 30e3
	s := b.Scattering(f, tr9407Speed)
	r90, _ := b.halfSpace().reflection(1, 0)
	tests := []struct {
		name             string
		got, want, width float64
	}{
		{"k", s.rough.small.k, 1.23361, 5e-6},
		{"alpha", s.rough.kirchhoff.alpha, 0.625, 0},
		{"Ch^2", s.rough.kirchhoff.structure, 0.0496828, 5e-8},
		{"qc", s.rough.kirchhoff.qc, 0.0489026, 5e-8},
		{"a", s.rough.kirchhoff.a, 1.68925, 5e-6},
		{"b", s.rough.kirchhoff.b, 0.61078, 5e-6},
		{"slope", s.rough.slopes.rms, 0.08616, 5e-6},
		{"R at nadir", math.Sqrt(power(r90)), 0.36977, 5e-6},
	}
	for _, test := range tests {
		if !near(test.got, test.want, test.width) {
			t.Errorf("%s: got %.8f, want %v", test.name, test.got, test.want)
		}
	}

	levels := []struct{ grazing, total, rough, volume float64 }{
		{5, -42.09, -43.06, -49.08},
		{10, -35.38, -36.36, -42.33},
		{20, -28.33, -29.43, -34.84},
		{30, -24.86, -26.97, -29.02},
		{45, -23.10, -27.92, -24.83},
		{60, -21.15, -24.29, -24.04},
		{90, -3.13, -3.17, -23.48},
	}
	for _, want := range levels {
		rough, volume := s.Parts(degrees(want.grazing))
		for _, part := range []struct {
			name      string
			got, want float64
		}{
			{"total", s.Strength(degrees(want.grazing)), want.total},
			{"rough", Decibels(rough), want.rough},
			{"volume", Decibels(volume), want.volume},
		} {
			if !near(part.got, part.want, 5e-3) {
				t.Errorf("%s at %g deg: got %.4f dB, want %.2f", part.name, want.grazing, part.got, part.want)
			}
		}
	}

	slope := b.Scattering(100e3, tr9407Speed).rough.slopes.rms
	if !near(slope, 0.17744, 5e-6) {
		t.Errorf("slope at 100 kHz: got %.6f, want 0.17744", slope)
	}

	silt := mustBottom(t, Silt)
	quiet := silt.Scattering(f, tr9407Speed)
	rough, volume := quiet.Parts(degrees(30))
	r90, _ = silt.halfSpace().reflection(1, 0)
	for _, test := range []struct {
		name             string
		got, want, width float64
	}{
		{"slope", quiet.rough.slopes.rms, 0.01542, 5e-6},
		{"R at nadir", math.Sqrt(power(r90)), 0.06288, 5e-6},
		{"total", Decibels(rough + volume), -29.92, 5e-3},
		{"rough", Decibels(rough), -57.79, 5e-3},
		{"volume", Decibels(volume), -29.93, 5e-3},
	} {
		if !near(test.got, test.want, test.width) {
			t.Errorf("silt, %s: got %.6f, want %v", test.name, test.got, test.want)
		}
	}
}

func TestBottomForwardLoss(t *testing.T) {
	// Worked out separately from TR 9407 Section IV, Eqs. 30-33; its Figure 1
	// shows silt peaking at 33 to 37 dB near 14 to 18 degrees with about 24 dB
	// at the vertical, and rock under 0.1 dB below 66 degrees and about 2.8 dB
	// at the vertical.
	tests := []struct {
		sediment      Sediment
		grazing, want float64
		width         float64
	}{
		{MediumSand, 5, 0.21, 5e-3},
		{MediumSand, 10, 0.37, 5e-3},
		{MediumSand, 20, 0.56, 5e-3},
		{MediumSand, 30, 1.15, 5e-3},
		{MediumSand, 45, 6.55, 5e-3},
		{MediumSand, 60, 7.97, 5e-3},
		{MediumSand, 90, 8.64, 5e-3},
		{Gravel, 90, 5.38, 5e-3},
		{Cobble, 90, 3.93, 5e-3},
		{Rock, 90, 2.80, 5e-3},
		{Silt, 90, 24.03, 5e-3},
		{Silt, 16, 33.99, 5e-3},
		{Rock, 60, 0, 0.1},
	}
	for _, test := range tests {
		b := mustBottom(t, test.sediment)
		if got := b.ForwardLoss(degrees(test.grazing)); !near(got, test.want, test.width) {
			t.Errorf("%s at %g deg: got %.4f dB, want %.2f", test.sediment, test.grazing, got, test.want)
		}
	}
	for sediment, want := range map[Sediment]float64{MediumSand: 31.92, Gravel: 41.59, Cobble: 56.25, Rock: 66.42, Silt: 0} {
		b := mustBottom(t, sediment)
		if got := b.CriticalAngle() * 180 / math.Pi; !near(got, want, 5e-3) {
			t.Errorf("%s: got critical angle %.4f deg, want %.2f", sediment, got, want)
		}
	}
}

// Above 100 kHz the bottom is that at 100 kHz plus the documented trend.
func TestBottomExtrapolation(t *testing.T) {
	for _, s := range Sediments() {
		b := mustBottom(t, s)
		steady := b
		steady.TrendExponent = 0
		for _, angle := range []float64{2, 10, 30, 60, 90} {
			base := b.Strength(degrees(angle), 100e3, 1500)
			for _, f := range []float64{150e3, 455e3, 900e3} {
				want := base + 10*b.TrendExponent*math.Log10(f/100e3)
				if got := b.Strength(degrees(angle), f, 1500); !near(got, want, 1e-9) {
					t.Errorf("%s, %g deg, %g Hz: got %.4f dB, want %.4f", s, angle, f, got, want)
				}
				if got := steady.Strength(degrees(angle), f, 1500); !near(got, base, 1e-12) {
					t.Errorf("%s, %g deg, %g Hz, no trend: got %.4f dB, want %.4f", s, angle, f, got, base)
				}
			}
		}
	}
	for f, want := range map[float64]bool{9e3: true, 10e3: false, 50e3: false, 100e3: false, 100.1e3: true, 900e3: true} {
		if got := Extrapolated(f); got != want {
			t.Errorf("Extrapolated(%g): got %v, want %v", f, got, want)
		}
	}
}

// Strength rises from clay to rock, by about 25 dB in all, at the 12 sites of
// J. Acoust. Soc. Am. 44(6), 1713-1718 (1968). The trend must keep that order.
func TestBottomOrder(t *testing.T) {
	order := []Sediment{Mud, Silt, FineSand, MediumSand, CoarseSand, Gravel, Cobble, Rock, RoughRock}
	for _, f := range []float64{100e3, 300e3, 455e3, 900e3} {
		for _, angle := range []float64{5, 10, 20, 30} {
			last := math.Inf(-1)
			for _, s := range order {
				b := mustBottom(t, s)
				got := b.Strength(degrees(angle), f, 1500)
				if got <= last {
					t.Errorf("%s at %g Hz, %g deg: got %.1f dB, want more than the softer %.1f", s, f, angle, got, last)
				}
				last = got
			}
		}
	}
}

func TestBottomStrengthIsSmooth(t *testing.T) {
	const step = 0.01
	for _, s := range Sediments() {
		b := mustBottom(t, s)
		for _, f := range []float64{10e3, 30e3, 100e3, 455e3} {
			sc := b.Scattering(f, 1500)
			last := sc.Strength(degrees(5))
			for angle := 5 + step; angle <= 90; angle += step {
				got := sc.Strength(degrees(angle))
				if math.IsNaN(got) || math.Abs(got-last) > 0.2 {
					t.Errorf("%s at %g Hz, %.2f deg: got %.2f dB, want within 0.2 of %.2f", s, f, angle, got, last)
				}
				last = got
			}
		}
	}
}

func TestBottomEdges(t *testing.T) {
	b := mustBottom(t, MediumSand)
	low := b.Strength(degrees(0.001), 100e3, 1500)
	for _, angle := range []float64{0, -0.1, 1e-9} {
		if got := b.Strength(angle, 100e3, 1500); got != low || math.IsInf(got, 0) {
			t.Errorf("%g rad: got %v dB, want %v", angle, got, low)
		}
	}
	if got, want := b.Strength(2, 100e3, 1500), b.Strength(math.Pi/2, 100e3, 1500); got != want {
		t.Errorf("beyond the vertical: got %v dB, want %v", got, want)
	}
	for _, phi := range []float64{-1.1, 9.1, math.NaN()} {
		if _, err := BottomForGrainSize(phi); err == nil {
			t.Errorf("%g phi: got no error", phi)
		}
	}
	if _, err := Sediment("porridge").Bottom(); err == nil || !strings.Contains(err.Error(), "rough_rock") {
		t.Errorf("got error %v, want one that lists the catalogue", err)
	}
	b.SpectralStrength = 0
	if err := b.Check(); err == nil || !strings.Contains(err.Error(), "spectral strength 0 cm⁴") {
		t.Errorf("got %v, want a complaint about spectral strength", err)
	}
}

func TestScatteringStrengths(t *testing.T) {
	b := mustBottom(t, Gravel)
	s := b.Scattering(100e3, 1500)
	grazing := []float64{degrees(5), degrees(45), degrees(90)}
	got := make([]float64, len(grazing))
	s.Strengths(got, grazing)
	for i, angle := range grazing {
		if want := b.Strength(angle, 100e3, 1500); got[i] != want {
			t.Errorf("angle %d: got %v dB, want %v", i, got[i], want)
		}
	}
	if n := testing.AllocsPerRun(100, func() { s.Strengths(got, grazing) }); n != 0 {
		t.Errorf("got %v allocations, want none", n)
	}
}

func TestLambert(t *testing.T) {
	// Lambert's law at Mackenzie's (1961) level.
	for angle, want := range map[float64]float64{5: -48.19, 10: -42.21, 20: -36.32, 30: -33.02, 45: -30.01, 60: -28.25, 90: -27.00} {
		if got := Lambert(LambertDeepSea, degrees(angle)); !near(got, want, 5e-3) {
			t.Errorf("%g deg: got %.4f dB, want %.2f", angle, got, want)
		}
	}
	if want := 10 * math.Log10(1/math.Pi); !near(LambertCeiling, want, 1e-14) {
		t.Errorf("ceiling: got %v, want %v", LambertCeiling, want)
	}
	// The μ that matches medium sand at 100 kHz, worked out separately from
	// TR 9407, is about 10 dB above Mackenzie's deep-sea level.
	b := mustBottom(t, MediumSand)
	for angle, want := range map[float64]float64{20: -14.9, 30: -16.6, 45: -18.3} {
		if got := b.Strength(degrees(angle), 100e3, tr9407Speed) - Lambert(0, degrees(angle)); !near(got, want, 0.05) {
			t.Errorf("%g deg: got best μ %.3f dB, want %.1f", angle, got, want)
		}
	}
}

func BenchmarkBottomStrength(b *testing.B) {
	bottom := mustBottom(b, MediumSand)
	angle := degrees(20)
	for b.Loop() {
		bottom.Strength(angle, 455e3, 1500)
	}
}

func BenchmarkScatteringStrength(b *testing.B) {
	bottom := mustBottom(b, MediumSand)
	s := bottom.Scattering(455e3, 1500)
	angle := degrees(20)
	for b.Loop() {
		s.Strength(angle)
	}
}

// A facet whose slopes are all drawn answers as the model without its averages:
// small roughness and volume at the very angle. With none drawn it is the bottom.
func TestFacetScattering(t *testing.T) {
	b, err := MediumSand.Bottom()
	if err != nil {
		t.Fatal(err)
	}
	whole := b.Scattering(450e3, 1500)
	none, all := b.FacetScattering(450e3, 1500, 0), b.FacetScattering(450e3, 1500, 1)
	for deg := 3.0; deg < 45; deg += 3 {
		g := degrees(deg)
		if got, want := none.Strength(g), whole.Strength(g); !near(got, want, 1e-12) {
			t.Errorf("nothing drawn, %g deg: %.3f dB, want %.3f", deg, got, want)
		}
		rough, volume := all.Parts(g)
		if want := whole.trend * whole.volume.at(g); !near(volume, want, 1e-5*want) {
			t.Errorf("all drawn, %g deg: volume %g, want %g", deg, volume, want)
		}
		small := (1 - whole.rough.largeWeight) * whole.trend * whole.rough.small.at(g)
		large := whole.rough.largeWeight * whole.trend * whole.rough.large.at(g)
		if want := small + large; deg < 40 && !near(rough, want, 1e-5*want) {
			t.Errorf("all drawn, %g deg: interface %g, want %g", deg, rough, want)
		}
	}
}
