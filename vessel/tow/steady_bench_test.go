package tow

import "testing"

// Tows as the coach asks for them and the light fish on a long cable that takes
// the solver the most pieces.
func BenchmarkSteady(b *testing.B) {
	for _, test := range []struct {
		name                 string
		spec                 Spec
		speed, cable, sheave float64
	}{
		{"inshore 30 m", cases["S"], 2, 30, 2},
		{"inshore 150 m", cases["S"], 2, 150, 2},
		{"armoured 300 m", cases["A"], 3, 300, 3},
		{"light 600 m", featherweight, 5.14, 600, 0},
	} {
		b.Run(test.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				test.spec.Steady(test.speed, test.cable, test.sheave)
			}
		})
	}
}

func BenchmarkNew(b *testing.B) {
	for b.Loop() {
		New(cases["S"], 2, 30, 2, 0, 0, 0)
	}
}

// featherweight is a soft cable with next to nothing at its end.
var featherweight = Spec{
	Cable: Cable{Diameter: 0.0104, Weight: 0.5, Normal: 1.2, Tangential: 0.01, Length: 600},
	Fish:  Fish{Weight: 1},
}
