package tow

import (
	"math"
	"testing"
)

func TestJitterHasItsDeviationAndPeriod(t *testing.T) {
	spec := JitterSpec{Heave: 0.2, Pitch: 0.02, Roll: 0.03, Yaw: 0.01, Period: 5}
	r := NewJitter(spec, 3)
	const dt, n = 0.05, 400000
	var sum, crossings float64
	last := 0.0
	for i := range n {
		h := r.At(dt * float64(i)).Heave
		sum += h * h
		if last < 0 && h >= 0 {
			crossings++
		}
		last = h
	}
	if got := math.Sqrt(sum / n); math.Abs(got-spec.Heave) > 0.01*spec.Heave {
		t.Errorf("deviation of heave: got %.4f m, want %.4f", got, spec.Heave)
	}
	if got := dt * n / crossings; math.Abs(got-spec.Period) > 0.15*spec.Period {
		t.Errorf("mean period of heave: got %.2f s, want about %.2f", got, spec.Period)
	}
}

func TestYawRateIsTheRateOfYaw(t *testing.T) {
	r := NewJitter(JitterSpec{Yaw: 0.02, Period: 4}, 9)
	for i := range 200 {
		at := 0.37 * float64(i)
		const h = 1e-5
		want := (r.At(at+h).Yaw - r.At(at-h).Yaw) / (2 * h)
		if got := r.At(at).YawRate; math.Abs(got-want) > 1e-7 {
			t.Fatalf("at %.2f s: got %g, want %g", at, got, want)
		}
	}
}

func TestOneAxisDoesNotMoveAnother(t *testing.T) {
	a := NewJitter(JitterSpec{Heave: 0.2, Period: 5}, 3)
	b := NewJitter(JitterSpec{Heave: 0.2, Roll: 0.1, Period: 5}, 3)
	for i := range 50 {
		if x, y := a.At(float64(i)).Heave, b.At(float64(i)).Heave; x != y {
			t.Fatalf("heave at %d s: %g without roll, %g with", i, x, y)
		}
	}
	if still := (JitterSpec{}); NewJitter(still, 3).At(7) != (Displacement{}) {
		t.Error("a fish on rails moves")
	}
}
