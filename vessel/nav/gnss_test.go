package nav

import (
	"math"
	"testing"
)

// The drift of the fix is a first-order Gauss-Markov process: its standard
// deviation is the one given and its correlation falls as exp(-dt/tau) (exact;
// Gelb, Applied Optimal Estimation, 1974), whatever the rate of the fixes.
func TestDriftIsGaussMarkov(t *testing.T) {
	const sigma, tau, n, lag = 0.5, 20.0, 200000, 15
	for _, row := range []struct {
		name     string
		rate, dt float64
		each     int // ticks per fix
	}{
		{"a fix a tick", 0, 1, 1},
		{"a fix every four ticks", 1, 0.25, 4},
	} {
		inst := New(Spec{GNSS: GNSSSpec{Timing: Timing{Rate: row.rate}, Drift: sigma, DriftTime: tau}}, 3)
		x := make([]float64, 0, n)
		for i := range n * row.each {
			if r := inst.Read(float64(i)*row.dt, row.dt, Truth{}); r.Fresh.Has(Fix) {
				x = append(x, r.X)
			}
		}
		if len(x) != n {
			t.Fatalf("%s: got %d fixes, want %d", row.name, len(x), n)
		}
		var square, product float64
		for i := range n - lag {
			square += x[i] * x[i]
			product += x[i] * x[i+lag]
		}
		if got := math.Sqrt(square / (n - lag)); math.Abs(got-sigma) > 0.03*sigma {
			t.Errorf("%s: standard deviation: got %.4f m, want %.4f", row.name, got, sigma)
		}
		if got, want := product/square, math.Exp(-lag/tau); math.Abs(got-want) > 0.03 {
			t.Errorf("%s: correlation after %d s: got %.4f, want %.4f", row.name, lag, got, want)
		}
	}
}

// Of white noise and a drift of long memory, two fixes running differ by the
// noise alone: the variance of the difference is 2 sigma^2 (exact).
func TestNoiseFromFixToFix(t *testing.T) {
	const sigma, n = 0.12, 100000
	inst := New(Spec{GNSS: GNSSSpec{Drift: 2, DriftTime: 1e7, Noise: sigma}}, 4)
	last, square := inst.Read(0, 0.1, Truth{}).Y, 0.0
	for i := range n {
		y := inst.Read(float64(i+1)*0.1, 0.1, Truth{}).Y
		square += (y - last) * (y - last)
		last = y
	}
	if got := math.Sqrt(square / n / 2); math.Abs(got-sigma) > 0.02*sigma {
		t.Errorf("got %.4f m, want %.4f", got, sigma)
	}
}

// The better the kind of fix, the nearer: each preset's error has the spread of
// its drift and noise, and RTK stays within the 1 to 2 cm that tables of GNSS
// methods give for it.
func TestPresets(t *testing.T) {
	const n = 20000
	spread := func(q Quality) float64 {
		s := q.Preset()
		square := 0.0
		for seed := range uint64(n) {
			x := New(Spec{GNSS: s}, seed).Read(0, 0.1, Truth{}).X
			square += x * x
		}
		got, want := math.Sqrt(square/n), math.Hypot(s.Drift, s.Noise)
		if math.Abs(got-want) > 0.03*want {
			t.Errorf("quality %d: got %.4f m, want %.4f", q, got, want)
		}
		return got
	}
	a, d, r := spread(Autonomous), spread(Differential), spread(RTK)
	if !(a > d && d > r) || r*math.Sqrt2 < 0.01 || r*math.Sqrt2 > 0.02 {
		t.Errorf("got %.3f, %.3f and %.4f m, want ever less and the last 1 to 2 cm over both axes", a, d, r)
	}
}

// In an outage the display holds the last fix and says it is none; it then
// comes back.
func TestOutage(t *testing.T) {
	inst := New(Spec{GNSS: GNSSSpec{Timing: Timing{Outages: []Window{{2, 4}, {7, 7.5}}}}}, 1)
	var held Reading
	for i := range 100 {
		now := float64(i) / 10
		r := inst.Read(now, 0.1, Truth{AntennaX: now})
		out := now >= 2 && now < 4 || now >= 7 && now < 7.5
		switch {
		case r.Valid.Has(Fix) == out || (r.Quality == NoFix) != out || (r.Satellites == 0) != out:
			t.Fatalf("%.1f s: valid %v, quality %d, %d satellites", now, r.Valid.Has(Fix), r.Quality, r.Satellites)
		case out && (r.X != held.X || r.FixTime != held.FixTime):
			t.Fatalf("%.1f s: got x %.2f of %.1f s, want the held %.2f of %.1f s", now, r.X, r.FixTime, held.X, held.FixTime)
		case !out && (r.X != now || r.FixTime != now):
			t.Fatalf("%.1f s: got x %.2f of %.1f s", now, r.X, r.FixTime)
		case !out && math.Abs(r.HDOP*r.HDOP*float64(r.Satellites)-6) > 1e-9:
			t.Fatalf("%.1f s: HDOP %.3f with %d satellites", now, r.HDOP, r.Satellites)
		}
		if !out {
			held = r
		}
	}
}

// A fix carries the time of its epoch: whatever the latency and the rate, the
// antenna was where the fix has it at the time the fix has, so that a listener
// who carries it on by course and speed has it where it is.
func TestFixTimeIsItsEpoch(t *testing.T) {
	for _, timing := range []Timing{{}, {Delay: 0.1}, {Delay: 1.5}, {Rate: 1, Delay: 0.4}, {Rate: 0.4, Delay: 5}} {
		inst := New(Spec{GNSS: GNSSSpec{Timing: timing}}, 1)
		for i := range 200 {
			now := 7 + float64(i)*0.1
			at := Truth{AntennaX: 3 * now, AntennaY: -2 * now, VX: 3, VY: -2}
			r := inst.Read(now, 0.1, at)
			if x, y := 3*r.FixTime, -2*r.FixTime; math.Abs(r.X-x) > 1e-9 || math.Abs(r.Y-y) > 1e-9 {
				t.Fatalf("%+v at %.1f s: fix %.3f, %.3f of %.2f s, the antenna was at %.3f, %.3f then", timing, now, r.X, r.Y, r.FixTime, x, y)
			}
			if r.Fresh.Has(Fix) && i > 60 && math.Abs(now-r.FixTime-timing.Delay) > 1e-9 {
				t.Fatalf("%+v at %.1f s: the fix is of %.2f s, want %.2f", timing, now, r.FixTime, now-timing.Delay)
			}
			if x, y := r.CarriedOn(); math.Hypot(x-at.AntennaX, y-at.AntennaY) > 1e-9 {
				t.Fatalf("%+v at %.1f s: carried on to %.3f, %.3f, the antenna is at %.3f, %.3f", timing, now, x, y, at.AntennaX, at.AntennaY)
			}
		}
	}
}

// The beacon is laid off from the fix as carried on: an old fix does not drag
// it astern.
func TestBeaconGoesByTheFixCarriedOn(t *testing.T) {
	inst := New(Spec{GNSS: GNSSSpec{Timing: Timing{Rate: 0.5, Delay: 0.7}}, Beacon: BeaconSpec{Fitted: true}}, 1)
	for i := range 100 {
		now := 3 + float64(i)*0.1
		at := Truth{VesselY: 2 * now, AntennaY: 2*now + 1, VY: 2, FishX: 5, FishY: 2*now - 40, FishDepth: 8}
		if r := inst.Read(now, 0.1, at); math.Hypot(r.Beacon.X-at.FishX, r.Beacon.Y-at.FishY) > 1e-9 {
			t.Fatalf("at %.1f s, of a fix %.1f s old: got %.3f, %.3f, want %.3f, %.3f", now, now-r.FixTime, r.Beacon.X, r.Beacon.Y, at.FishX, at.FishY)
		}
	}
}
