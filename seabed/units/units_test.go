package units

import (
	"math"
	"math/big"
	"testing"
)

// The SI brochure, 8th edition 2006, table 8: 1 knot = (1852/3600) m/s; table 6:
// 1 degree = (pi/180) rad.
func TestUnitsAreThoseOfTheBrochure(t *testing.T) {
	for kn := range int64(60) {
		want, _ := big.NewRat(kn*1852, 3600).Float64()
		if got := Knots(float64(kn)); got != want {
			t.Errorf("%d kn: got %v m/s, want the nearest to 1852/3600 of it, %v", kn, got, want)
		}
		if back := InKnots(want); math.Abs(back-float64(kn)) > 2e-15*float64(kn) {
			t.Errorf("%d kn, there and back: %v", kn, back)
		}
	}
	if got, want := Knot, 0.514444; math.Abs(got-want) > 5e-7 {
		t.Errorf("a knot is %v m/s, the table prints %v", got, want)
	}
	if got, want := Degree, 0.01745329; math.Abs(got-want) > 5e-9 {
		t.Errorf("a degree is %v, the table prints %v", got, want)
	}
}
