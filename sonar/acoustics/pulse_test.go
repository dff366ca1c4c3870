package acoustics

import (
	"math"
	"testing"
)

func TestResolution(t *testing.T) {
	if got := CWResolution(100e-6, 1500); !near(got, 0.075, 1e-12) {
		t.Errorf("100 µs tone: got %v m, want 0.075", got)
	}
	for bandwidth, want := range map[float64]float64{10e3: 0.075, 20e3: 0.0375, 50e3: 0.015, 100e3: 0.0075} {
		if got := ChirpResolution(bandwidth, 1500); !near(got, want, 1e-12) {
			t.Errorf("%g Hz chirp: got %v m, want %v", bandwidth, got, want)
		}
		p := Pulse{Duration: 5e-3, Bandwidth: bandwidth}
		if got := p.Resolution(1500); !near(got, want, 1e-12) {
			t.Errorf("%g Hz pulse: got %v m, want %v", bandwidth, got, want)
		}
		if got := p.HalfPowerWidth(1500); !near(got, 0.885893*want, 1e-6*want) {
			t.Errorf("%g Hz pulse: got half-power width %v m, want %v", bandwidth, got, 0.885893*want)
		}
	}
}

func TestPulse(t *testing.T) {
	tone := Pulse{Duration: 100e-6}
	chirp := Pulse{Duration: 4e-3, Bandwidth: 50e3}
	shaded := Pulse{Duration: 4e-3, Bandwidth: 50e3, Shading: HannShading()}
	const c = 1500
	tests := []struct {
		name             string
		got, want, width float64
	}{
		{"tone resolution", tone.Resolution(c), 0.075, 1e-12},
		{"tone half-power width", tone.HalfPowerWidth(c), 0.075, 1e-12},
		{"tone gain", tone.ProcessingGain(), 0, 0},
		{"tone band", tone.NoiseBandwidth(), 10e3, 1e-6},
		{"tone inside", tone.Envelope(0.03, c), 1, 0},
		{"tone outside", tone.Envelope(0.04, c), 0, 0},
		{"chirp gain, 10 log BT", chirp.ProcessingGain(), 23.0103, 1e-4},
		{"chirp band", chirp.NoiseBandwidth(), 50e3, 0},
		{"chirp peak", chirp.Envelope(0, c), 1, 0},
		{"chirp null", chirp.Envelope(0.015, c), 0, 1e-12},
		{"chirp half power", chirp.Envelope(chirp.HalfPowerWidth(c)/2, c), math.Sqrt2 / 2, 1e-9},
		{"first side lobe", 2 * Decibels(chirp.Envelope(1.430297*0.015, c)), -13.2615, 1e-4},
		// A Hann window loses 10 log 1.5 dB.
		{"shaded gain", shaded.ProcessingGain(), 23.0103 - 1.7609, 1e-4},
		{"shaded resolution", shaded.Resolution(c), 1.5 * 0.015, 1e-12},
	}
	for _, test := range tests {
		if !near(test.got, test.want, test.width) {
			t.Errorf("%s: got %v, want %v", test.name, test.got, test.want)
		}
	}
	// Resolution is the extent of the ideal pulse of equal peak and energy.
	for _, p := range []Pulse{tone, chirp, shaded} {
		const step = 1e-5
		var energy float64
		for x := -3.0; x < 3; x += step {
			e := p.Envelope(x, c)
			energy += e * e * step
		}
		if got := p.Resolution(c); !near(got, energy, 3e-3*energy) {
			t.Errorf("%+v: got resolution %v m, want %v", p, got, energy)
		}
	}
}

func TestPing(t *testing.T) {
	const knots4 = 2.05778
	for _, test := range []struct{ distance, rate, advance float64 }{
		{25, 30, 0.0686}, {50, 15, 0.1372}, {75, 10, 0.2058}, {100, 7.5, 0.2744}, {150, 5, 0.4116}, {200, 3.75, 0.5487},
	} {
		rate := PingRate(test.distance, 1500)
		if !near(rate, test.rate, 1e-12) {
			t.Errorf("%g m: got %v Hz, want %v", test.distance, rate, test.rate)
		}
		if got := PingInterval(test.distance, 1500); !near(got*test.rate, 1, 1e-12) {
			t.Errorf("%g m: got interval %v s, want %v", test.distance, got, 1/test.rate)
		}
		if got := PingAdvance(knots4, rate); !near(got, test.advance, 5.1e-5) {
			t.Errorf("%g m: got advance %.5f m, want %v", test.distance, got, test.advance)
		}
		if got := SpeedForPings(3*PingAdvance(knots4, rate), 3, rate); !near(got, knots4, 1e-9) {
			t.Errorf("%g m: got speed %v, want %v", test.distance, got, knots4)
		}
	}
}
