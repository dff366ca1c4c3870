package nav

import (
	"math"
	"testing"
)

// moving is a vessel going steadily north and turning, telling the time in all
// that it does.
func moving(now float64) Truth {
	return Truth{
		AntennaY: 2 * now, VY: 2, Heading: 0.01 * now, YawRate: 0.01 * now, Heave: 0.1 * now, CableOut: 20 + 0.4*now,
		FishX: 3 * now, FishDepth: 5 + 0.1*now, FishAltitude: 50 - 0.2*now, FishHeading: 0.02 * now, WaterAhead: 0.05 * now,
		WindX: -3 - 0.04*now, WindY: 4 + 0.03*now,
	}
}

// What is reported is what was the delay ago, and a report holds until the
// next.
func TestDelayAndRate(t *testing.T) {
	const delay, tick = 0.7, 0.1
	for _, rate := range []float64{0, 10, 5, 2, 1, 0.4} {
		timing := Timing{Rate: rate, Delay: delay}
		inst := New(Spec{
			GNSS: GNSSSpec{Timing: timing}, Heading: HeadingSpec{Timing: timing}, Motion: MotionSpec{Timing: timing},
			FishDepth: DepthSpec{Timing: timing}, Altimeter: AltimeterSpec{Timing: timing}, Compass: CompassSpec{Timing: timing},
			Counter: CounterSpec{Timing: timing}, SpeedLog: SpeedLogSpec{Timing: timing}, Wind: WindSpec{Timing: timing},
			Beacon: BeaconSpec{Timing: timing, Fitted: true},
		}, 1)
		period := tick
		if rate > 0 {
			period = 1 / rate
		}
		reports, shown := 0, 0.0
		const ticks = 1000
		for i := range ticks {
			now := float64(i) * tick
			r := inst.Read(now, tick, moving(now))
			if r.Fresh.Has(Fix) {
				reports++
				shown = max(now-delay, 0)
			}
			want := moving(shown)
			wx, wy := want.WindX-want.VX, want.WindY-want.VY
			for _, c := range []struct {
				what      string
				got, want float64
			}{
				{"fix", r.Y, want.AntennaY}, {"heading", float64(r.Heading), want.Heading}, {"turn", r.RateOfTurn, want.YawRate},
				{"heave", r.Heave, want.Heave}, {"depth", r.FishDepth, want.FishDepth}, {"altitude", r.FishAltitude, want.FishAltitude},
				{"compass", float64(r.FishHeading), want.FishHeading}, {"counter", r.CableOut, want.CableOut}, {"log", r.WaterSpeed, want.WaterAhead},
				{"wind", r.WindSpeed, math.Hypot(wx, wy)}, {"wind from", r.WindFrom, math.Remainder(math.Atan2(-wx, -wy)-want.Heading, 2*math.Pi)},
				{"beacon", r.Beacon.Depth, want.FishDepth},
			} {
				if math.Abs(c.got-c.want) > 1e-9 {
					t.Fatalf("%g Hz, %.1f s, %s: got %.4f, want %.4f", rate, now, c.what, c.got, c.want)
				}
			}
		}
		if want := int(math.Round(ticks * tick / period)); reports != want {
			t.Errorf("%g Hz: got %d reports, want %d", rate, reports, want)
		}
	}
}

// A rate the ticks do not divide is kept on average, and one they cannot keep
// is every tick.
func TestAwkwardRates(t *testing.T) {
	for rate, want := range map[float64]int{3: 300, 7: 700, 25: 1000} {
		var c clock
		got := 0
		for i := range 1000 {
			if c.due(float64(i)*0.1, rate) {
				got++
			}
		}
		if got != want {
			t.Errorf("%g Hz: got %d reports in 100 s, want %d", rate, got, want)
		}
	}
}

// Displays show multiples of their last digit.
func TestLastDigit(t *testing.T) {
	e := func(step float64) Errors { return Errors{Noise: 1, Step: step} }
	inst := New(Spec{
		GNSS: GNSSSpec{Noise: 3, Step: 0.05}, Heading: HeadingSpec{Errors: e(0.1 * degree)}, FishDepth: DepthSpec{Errors: e(0.02)},
		Altimeter: AltimeterSpec{Errors: e(0.25)}, Compass: CompassSpec{Errors: e(0.5 * degree)}, Counter: CounterSpec{Errors: e(0.1)},
		SpeedLog: SpeedLogSpec{Errors: e(0.3)}, Wind: WindSpec{Speed: e(0.5)}, Motion: MotionSpec{Heave: e(0.01)},
	}, 2)
	for i := range 500 {
		r := inst.Read(float64(i), 1, truth())
		for _, c := range []struct {
			what     string
			v, digit float64
		}{
			{"x", r.X, 0.05}, {"y", r.Y, 0.05}, {"heading", float64(r.Heading), 0.1 * degree}, {"depth", r.FishDepth, 0.02},
			{"altitude", r.FishAltitude, 0.25}, {"compass", float64(r.FishHeading), 0.5 * degree}, {"cable", r.CableOut, 0.1},
			{"log", r.WaterSpeed, 0.3}, {"wind", r.WindSpeed, 0.5}, {"heave", r.Heave, 0.01},
		} {
			if n := c.v / c.digit; math.Abs(n-math.Round(n)) > 1e-6 {
				t.Fatalf("%s: got %.6f, want a multiple of %g", c.what, c.v, c.digit)
			}
		}
	}
}

// A first-order lag trails a steady turn by rate times time constant (exact in
// the limit of short steps), and noise has the spread given.
func TestHeadingLagAndNoise(t *testing.T) {
	const lag, rate, dt = 2.0, 0.05, 0.01
	inst := New(Spec{Heading: HeadingSpec{Lag: lag}}, 1)
	var r Reading
	now := 0.0
	for i := range 3000 {
		now = float64(i) * dt
		r = inst.Read(now, dt, Truth{Heading: rate * now})
	}
	if got := rate*now - float64(r.Heading); math.Abs(got-rate*lag) > rate*dt {
		t.Errorf("trails by %.4f rad, want %.4f", got, rate*lag)
	}
	const sigma, bias, n = 0.02, 0.1, 50000
	inst = New(Spec{Heading: HeadingSpec{Errors: Errors{Bias: bias, Noise: sigma}}}, 8)
	sum, square := 0.0, 0.0
	for i := range n {
		e := float64(inst.Read(float64(i), 1, Truth{Heading: 1}).Heading) - 1
		sum, square = sum+e, square+e*e
	}
	mean := sum / n
	if got := math.Sqrt(square/n - mean*mean); math.Abs(mean-bias) > 4*sigma/math.Sqrt(n) || math.Abs(got-sigma) > 0.02*sigma {
		t.Errorf("got %.5f and %.5f rad, want bias %g and noise %g", mean, got, bias, sigma)
	}
}
