package nav

import (
	"math"
	"testing"
)

// Drop-outs and false locks are on Rate*Mean/(1+Rate*Mean) of the time (a
// random telegraph signal, exact), whatever the rate of the reports; a drop-out
// says so and holds the value, a false lock reads too little and does not say.
func TestAltimeterEpisodes(t *testing.T) {
	const altitude, n = 10.0, 400000
	spec := EpisodeSpec{Rate: 0.05, Mean: 4}
	want := spec.Rate * spec.Mean / (1 + spec.Rate*spec.Mean)
	for _, dt := range []float64{0.1, 1} {
		drop := New(Spec{Altimeter: AltimeterSpec{DropOut: spec}}, 2)
		lock := New(Spec{Altimeter: AltimeterSpec{FalseLock: spec}}, 2)
		lost, deceived := 0, 0
		for i := range n {
			now := float64(i) * dt
			r := drop.Read(now, dt, Truth{FishAltitude: altitude})
			if !r.Valid.Has(FishAltitude) {
				lost++
			} else if r.FishAltitude != altitude {
				t.Fatalf("got %.3f m", r.FishAltitude)
			}
			r = lock.Read(now, dt, Truth{FishAltitude: altitude})
			if r.FishAltitude != altitude {
				deceived++
				if share := r.FishAltitude / altitude; share < nearestLock || share > farthestLock || !r.Valid.Has(FishAltitude) {
					t.Fatalf("a false lock reads %.3f m, valid %v", r.FishAltitude, r.Valid.Has(FishAltitude))
				}
			}
		}
		for what, count := range map[string]int{"drop-outs": lost, "false locks": deceived} {
			// The variance of the average over T of a process that is on p of the
			// time and forgets in tau is 2 p (1-p) tau/T; here tau = (1-p) Mean.
			sigma := math.Sqrt(2 * want * (1 - want) * (1 - want) * spec.Mean / (n * dt))
			if got := float64(count) / n; math.Abs(got-want) > 4*sigma {
				t.Errorf("every %g s, %s: got %.4f of the time, want %.4f +- %.4f", dt, what, got, want, 4*sigma)
			}
		}
	}
}

// Out of its reach the altimeter has nothing to say; never having said anything
// it reads 0.
func TestAltimeterReach(t *testing.T) {
	inst := New(Spec{Altimeter: AltimeterSpec{Min: 1, Max: 30}}, 1)
	for i, row := range []struct {
		altitude, want float64
		ok             bool
	}{
		{40, 0, false}, {0.5, 0, false}, {12, 12, true}, {31, 12, false}, {0.9, 12, false}, {30, 30, true}, {1, 1, true},
	} {
		r := inst.Read(float64(i), 1, Truth{FishAltitude: row.altitude})
		if r.FishAltitude != row.want || r.Valid.Has(FishAltitude) != row.ok {
			t.Errorf("at %g m: got %g, %v, want %g, %v", row.altitude, r.FishAltitude, r.Valid.Has(FishAltitude), row.want, row.ok)
		}
	}
}

// The share of full scale is one draw for the exercise: the same in every
// reading, and spread over exercises as given.
func TestDepthOfFullScale(t *testing.T) {
	const fullScale, share, n = 200.0, 0.001, 20000
	square := 0.0
	for seed := range uint64(n) {
		inst := New(Spec{FishDepth: DepthSpec{FullScale: fullScale, Share: share}}, seed)
		e := inst.Read(0, 1, Truth{FishDepth: 20}).FishDepth - 20
		if again := inst.Read(1, 1, Truth{FishDepth: 20}).FishDepth - 20; again != e {
			t.Fatalf("got %g, then %g", e, again)
		}
		square += e * e
	}
	if got, want := math.Sqrt(square/n), fullScale*share; math.Abs(got-want) > 0.02*want {
		t.Errorf("got %.4f m, want %.4f", got, want)
	}
}

// The counter reads too much by its scale, gathers slip hauling and none paying
// out, and reads what it is set to.
func TestCounter(t *testing.T) {
	inst := New(Spec{Counter: CounterSpec{Scale: 0.02, Slip: 0.05, Errors: Errors{Bias: -2.2}}}, 1)
	now := 0.0
	read := func(cable float64) float64 { now++; return inst.Read(now, 1, Truth{CableOut: cable}).CableOut }
	for i, row := range []struct{ cable, want float64 }{
		{50, 51 - 2.2},
		{60, 61.2 - 2.2},
		{40, 40.8 + 0.05*1.02*20 - 2.2},
		{50, 51 + 0.05*1.02*20 - 2.2},
		{30, 30.6 + 0.05*1.02*40 - 2.2},
	} {
		if got := read(row.cable); math.Abs(got-row.want) > 1e-9 {
			t.Errorf("step %d: got %.4f m, want %.4f", i, got, row.want)
		}
	}
	inst.ZeroCounter(30)
	if got := read(30); math.Abs(got-30) > 1e-9 {
		t.Errorf("set to 30: got %.4f", got)
	}
	if got := read(40); math.Abs(got-40.2) > 1e-9 {
		t.Errorf("10 m on: got %.4f, want 40.2", got)
	}
}
