package acoustics

import (
	"math"
	"testing"
)

// Urick, Principles of Underwater Sound, Table 9.1. The sphere of 2 m is the
// published anchor; the rest was worked out separately for 1500 m/s.
func TestTargetStrength(t *testing.T) {
	const at100, at455 = 1.5 / 100, 1.5 / 455
	tests := []struct {
		name      string
		got, want float64
	}{
		{"sphere 0.05 m", SphereStrength(0.05), -32.041},
		{"sphere 0.1 m", SphereStrength(0.1), -26.021},
		{"sphere 0.25 m", SphereStrength(0.25), -18.062},
		{"sphere 0.5 m", SphereStrength(0.5), -12.041},
		{"sphere 1 m", SphereStrength(1), -6.021},
		{"sphere 2 m", SphereStrength(2), 0},
		{"cylinder 0.25 m by 2 m, 100 kHz", CylinderStrength(0.25, 2, at100, 0), 15.229},
		{"cylinder 0.25 m by 2 m, 455 kHz", CylinderStrength(0.25, 2, at455, 0), 21.809},
		{"cylinder 0.05 m by 1 m, 455 kHz", CylinderStrength(0.05, 1, at455, 0), 8.799},
		{"plate 1 m², 100 kHz", PlateStrength(1, 1, at100, 0), 36.478},
		{"plate 0.25 m², 455 kHz", PlateStrength(0.5, 0.5, at455, 0), 37.597},
	}
	for _, test := range tests {
		if !near(test.got, test.want, 5e-4) {
			t.Errorf("%s: got %.4f dB, want %v", test.name, test.got, test.want)
		}
	}
}

// The two-way pattern of a body of length L has its first null where
// sin φ = λ/2L.
func TestTargetStrengthNull(t *testing.T) {
	const wavelength, length = 0.01, 1.0
	null := math.Asin(wavelength / (2 * length))
	for name, strength := range map[string]func(aspect float64) float64{
		"cylinder": func(aspect float64) float64 { return CylinderStrength(0.1, length, wavelength, aspect) },
		"plate":    func(aspect float64) float64 { return PlateStrength(length, 0.5, wavelength, aspect) },
	} {
		if got := strength(null) - strength(0); got > -200 {
			t.Errorf("%s: got %v dB at the null", name, got)
		}
		// The first side lobe of sin(x)/x.
		lobe := math.Asin(1.430297 * wavelength / (2 * length))
		if got := strength(lobe) - strength(0); !near(got, -13.2615, 1e-3) {
			t.Errorf("%s: got side lobe %v dB, want -13.2615", name, got)
		}
	}
}
