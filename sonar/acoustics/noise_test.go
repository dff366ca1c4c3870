package acoustics

import (
	"math"
	"testing"

	"dryline/seabed/units"
)

func TestThermalNoise(t *testing.T) {
	// Mellen (1952), worked out separately at 10 °C, 1027 kg/m³, 1490 m/s.
	for kHz, want := range map[float64]float64{100: 25.297, 300: 34.839, 455: 38.457, 600: 40.860, 900: 44.382, 1000: 45.297} {
		got := ThermalNoise(kHz*1000, 10, 1027, 1490)
		if !near(got, want, 5e-4) {
			t.Errorf("%g kHz: got %.4f dB, want %v", kHz, got, want)
		}
		// Ainslie (2010), Principles of Sonar Performance Modelling, eq. 9.153.
		if rule := -14.7 + 20*math.Log10(kHz); !near(got, rule, 0.05) {
			t.Errorf("%g kHz: got %.4f dB, want the rule's %.2f", kHz, got, rule)
		}
	}
}

func TestWindNoise(t *testing.T) {
	// The rule of fives, worked out separately.
	for _, test := range []struct{ kHz, knots, want, width float64 }{
		{1, 5, 51.02, 5e-3},
		{100, 5, 17.7, 0.05},
		{455, 5, 6.7, 0.05},
		{100, 20, 27.7, 0.05},
		{455, 20, 16.8, 0.05},
		// Read from the curves in Etter, Underwater Acoustic Modeling.
		{1, 5, 50, 1.5},
		{10, 5, 35, 1.5},
	} {
		if got := WindNoise(test.kHz*1000, test.knots*units.Knot); !near(got, test.want, test.width) {
			t.Errorf("%g kHz, %g kn: got %.3f dB, want %v", test.kHz, test.knots, got, test.want)
		}
	}
	if got := WindNoise(100e3, 0); !math.IsInf(got, -1) {
		t.Errorf("no wind: got %v dB, want -Inf", got)
	}
}

// Wind noise gives way to thermal noise between 40 and 90 kHz in a light wind,
// as the curves of Etter show.
func TestAmbientNoise(t *testing.T) {
	crossing := 0.0
	for f := 10e3; f < 200e3; f += 100 {
		if ThermalNoise(f, 10, 1027, 1490) > WindNoise(f, 5*units.Knot) {
			crossing = f
			break
		}
	}
	if !(40e3 <= crossing && crossing <= 90e3) {
		t.Errorf("got crossing at %g Hz, want 40 to 90 kHz", crossing)
	}
	both := AmbientNoise(crossing, 5*units.Knot, 10, 1027, 1490)
	if want := WindNoise(crossing, 5*units.Knot) + 10*math.Log10(2); !near(both, want, 0.02) {
		t.Errorf("at the crossing: got %v dB, want %v", both, want)
	}
	if got, want := AmbientNoise(455e3, 0, 10, 1027, 1490), ThermalNoise(455e3, 10, 1027, 1490); !near(got, want, 1e-9) {
		t.Errorf("no wind: got %v dB, want the thermal %v", got, want)
	}
	// 38.5 dB in 20 kHz is 81.5 dB before directivity.
	if got := BandNoise(38.5, 20e3, 0); !near(got, 81.51, 5e-3) {
		t.Errorf("band: got %v dB, want 81.51", got)
	}
	if got := AddLevels(60, 60); !near(got, 63.0103, 1e-4) {
		t.Errorf("got %v dB, want 63.0103", got)
	}
}
