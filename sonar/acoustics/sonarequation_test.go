package acoustics

import (
	"math"
	"testing"
)

// The form of the reverberation level, after the test of an open acoustics
// library: no absorption, cos θ = 1.
func TestReverberationLevel(t *testing.T) {
	area := ReverberationArea(1000, 0.1, CWResolution(0.1, 1500), 0)
	if !near(area, 7500, 1e-9) {
		t.Errorf("got area %v m², want 7500", area)
	}
	if got := ReverberationLevel(220, -40, 1000, 0, area); !near(got, 98.751, 5e-4) {
		t.Errorf("got %.4f dB, want 98.751", got)
	}
}

// lambertBudget is a fish 10 m up with an array of 0.5 m and a 50 µs pulse over
// a bottom of Lambert's law at -27 dB, in water of 10 °C and salinity 35.
func lambertBudget(frequency float64) Budget {
	array := LineArray{Length: 0.5}
	return Budget{
		SourceLevel:     220,
		Absorption:      FrancoisGarrison(frequency, 10, 35, 10, 8),
		Height:          10,
		EquivalentWidth: array.EquivalentWidth(1500 / frequency),
		Resolution:      CWResolution(50e-6, 1500),
		Strength:        func(grazing float64) float64 { return Lambert(LambertDeepSea, grazing) },
	}
}

func TestBudgetEcho(t *testing.T) {
	// Worked out separately from the same published parts.
	for _, test := range []struct {
		kHz  float64
		want [4]float64
	}{
		{455, [4]float64{100.1, 79.2, 64.8, 53.0}},
		{900, [4]float64{87.8, 57.4, 33.6, 12.4}},
		{100, [4]float64{110.6, 93.6, 83.0, 75.1}},
	} {
		b := lambertBudget(test.kHz * 1000)
		for i, distance := range []float64{25, 50, 75, 100} {
			if got := b.Echo(distance); !near(got, test.want[i], 0.1) {
				t.Errorf("%g kHz at %g m: got %.2f dB, want %.1f", test.kHz, distance, got, test.want[i])
			}
		}
	}
	b := lambertBudget(455e3)
	if got := b.Echo(9); !math.IsInf(got, -1) {
		t.Errorf("water column: got %v dB, want -Inf", got)
	}
}

func TestRangeLimit(t *testing.T) {
	limits := make(map[float64]float64)
	for _, kHz := range []float64{100, 455, 900} {
		f := kHz * 1000
		b := lambertBudget(f)
		b.NoiseLevel = BandNoise(ThermalNoise(f, 10, 1027, 1490), 20e3, 25)
		got, ok := b.RangeLimit(6, 1000)
		if !ok {
			t.Fatalf("%g kHz: got no range", kHz)
		}
		if snr := b.SignalToNoise(got); !near(snr, 6, 1e-6) {
			t.Errorf("%g kHz: got %v dB at the limit of %.1f m, want 6", kHz, snr, got)
		}
		limits[kHz] = got
	}
	// Absorption orders them.
	if !(limits[100] > limits[455] && limits[455] > limits[900]) {
		t.Errorf("got limits %v, want them to fall with frequency", limits)
	}

	b := lambertBudget(455e3)
	b.NoiseLevel = 60
	plain, _ := b.RangeLimit(6, 1000)
	b.ProcessingGain = 20
	if compressed, _ := b.RangeLimit(6, 1000); compressed <= plain {
		t.Errorf("got %v m with processing gain, want more than %v", compressed, plain)
	}
	b.Beam = func(float64) float64 { return 0.01 } // -20 dB takes the gain away again
	if dimmed, _ := b.RangeLimit(6, 1000); !near(dimmed, plain, 1e-6) {
		t.Errorf("got %v m behind a -20 dB beam, want %v", dimmed, plain)
	}
	b.Beam = nil
	if got, ok := b.RangeLimit(6, 20); !ok || got != 20 {
		t.Errorf("within the limit: got %v, %v, want 20, true", got, ok)
	}
	b.NoiseLevel = 300
	if got, ok := b.RangeLimit(6, 1000); ok {
		t.Errorf("in loud noise: got %v m, want none", got)
	}
	if _, ok := b.RangeLimit(6, 5); ok {
		t.Error("limit above the bottom: got a range, want none")
	}
}
