package seabed

import (
	"math"
	"testing"

	"dryline/seabed/chance"
)

// The angle is bit for bit what the standard library gives: all round, near the axes, at the
// entries of the table and between them, and where one side is many times the other.
func TestTurnsAreThoseOfAtan2(t *testing.T) {
	rng := chance.Stream(1, "turns")
	check := func(y, x float64) {
		fy, fx := float32(y), float32(x)
		got, want := turnsOf(fy, fx), float32(math.Atan2(float64(fy), float64(fx))/(2*math.Pi))
		if got != got && want != want {
			return // neither is a number
		}
		if math.Float32bits(got) != math.Float32bits(want) {
			t.Fatalf("atan2(%g, %g): %v turns, math has %v", y, x, got, want)
		}
	}
	for range 1_000_000 {
		check(rng.NormFloat64(), 1+rng.NormFloat64())
		check(rng.NormFloat64()*math.Exp(-20*rng.Float64()), rng.NormFloat64()*math.Exp(-20*rng.Float64()))
	}
	for k := range 4 * angleSteps {
		for _, side := range []float64{0.3, 1, 77} {
			for _, sx := range []float64{1, -1} {
				for _, sy := range []float64{1, -1} {
					a := side * float64(k) / (2 * angleSteps)
					check(sy*side, sx*a)
					check(sy*a, sx*side)
				}
			}
		}
	}
	for _, x := range []float64{0, math.Copysign(0, -1), math.NaN(), math.Inf(1), math.Inf(-1), math.SmallestNonzeroFloat32, math.MaxFloat32} {
		for _, y := range []float64{1, -1, 0, math.Inf(1), math.Inf(-1), math.SmallestNonzeroFloat32} {
			check(y, x)
			check(x, y)
		}
	}
}
