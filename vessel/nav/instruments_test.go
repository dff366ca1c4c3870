package nav

import (
	"math"
	"testing"
)

func truth() Truth {
	return Truth{
		AntennaX: 120, AntennaY: 340, VX: 0.6, VY: 2, Heading: 0.31, YawRate: 0.02, CableOut: 24,
		FishDepth: 9.5, FishAltitude: 6.2, FishHeading: 0.27, FishPitch: 0.017, Convergence: -0.005,
	}
}

// An instrument without errors says what is, bearings as true ones: true is
// grid plus convergence.
func TestPerfectInstrumentsTellTheTruth(t *testing.T) {
	want := truth()
	r := New(Spec{}, 1).Read(12, 0.1, want)
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"time", r.Time, 12}, {"x", r.X, want.AntennaX}, {"y", r.Y, want.AntennaY},
		{"speed", r.SpeedOverGround, math.Hypot(0.6, 2)}, {"course", float64(r.Course), math.Atan2(0.6, 2) - 0.005},
		{"heading", float64(r.Heading), 0.31 - 0.005}, {"fish heading", float64(r.FishHeading), 0.27 - 0.005},
		{"rate of turn", r.RateOfTurn, 0.02}, {"cable", r.CableOut, 24}, {"fish depth", r.FishDepth, 9.5},
		{"altitude", r.FishAltitude, 6.2}, {"pitch", r.FishPitch, 0.017},
	} {
		if math.Abs(c.got-c.want) > 1e-12 {
			t.Errorf("%s: got %.6f, want %.6f", c.what, c.got, c.want)
		}
	}
}

// The drift of the fix is a first-order Gauss-Markov process: its standard
// deviation is the one given and its correlation falls as exp(-dt/tau) (exact;
// Gelb, Applied Optimal Estimation, 1974).
func TestDriftIsGaussMarkov(t *testing.T) {
	const sigma, tau, dt, n, lag = 0.5, 20.0, 1.0, 200000, 15
	inst := New(Spec{GNSSDrift: sigma, GNSSDriftTime: tau}, 3)
	x := make([]float64, n)
	for i := range x {
		x[i] = inst.Read(float64(i)*dt, dt, Truth{}).X
	}
	var square, product float64
	for i := range n - lag {
		square += x[i] * x[i]
		product += x[i] * x[i+lag]
	}
	if got := math.Sqrt(square / (n - lag)); math.Abs(got-sigma) > 0.03*sigma {
		t.Errorf("standard deviation: got %.4f m, want %.4f", got, sigma)
	}
	if got, want := product/square, math.Exp(-lag*dt/tau); math.Abs(got-want) > 0.03 {
		t.Errorf("correlation after %d s: got %.4f, want %.4f", lag, got, want)
	}
}

// Biases and scales are what they say, and the error of one instrument does not
// move another's.
func TestErrorsStayWithTheirInstrument(t *testing.T) {
	noisy := Spec{GNSSNoise: 0.1, HeadingNoise: 0.01, DepthNoise: 0.05, AltitudeNoise: 0.05, CompassNoise: 0.02, SpeedNoise: 0.1}
	biased := noisy
	biased.CounterScale, biased.DepthBias, biased.HeadingBias, biased.AltitudeNoise = 0.02, 0.3, 0.05, 0
	a, b := New(noisy, 5), New(biased, 5)
	for i := range 100 {
		p, q := a.Read(float64(i), 1, truth()), b.Read(float64(i), 1, truth())
		if p.X != q.X || p.SpeedOverGround != q.SpeedOverGround || p.FishHeading != q.FishHeading {
			t.Fatalf("reading %d: an instrument whose errors did not change reads differently", i)
		}
		if math.Abs(q.FishDepth-p.FishDepth-0.3) > 1e-9 || math.Abs(float64(q.Heading-p.Heading)-0.05) > 1e-9 || math.Abs(q.CableOut-24*1.02) > 1e-9 {
			t.Fatalf("reading %d: depth %.4f against %.4f, heading %.4f against %.4f, cable %.4f", i, q.FishDepth, p.FishDepth, q.Heading, p.Heading, q.CableOut)
		}
		if q.FishAltitude != truth().FishAltitude {
			t.Fatalf("reading %d: a quiet altimeter reads %.4f", i, q.FishAltitude)
		}
	}
}
