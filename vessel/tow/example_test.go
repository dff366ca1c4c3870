package tow_test

import (
	"fmt"

	"dryline/seabed/units"
	"dryline/vessel/tow"
)

// still is water that does not move.
type still struct{}

func (still) Current(float64) (east, north float64) { return 0, 0 }

// A fish towed at four knots, by the steady equations and in motion: where it is
// when the winch has paid out ten metres more.
func Example() {
	spec := tow.Spec{
		Cable: tow.Cable{Diameter: 0.0104, Weight: 2.2, Normal: 1.4, Tangential: 0.015, Length: 200},
		Fish:  tow.Fish{Weight: 300, DragArea: 0.02, Mass: 45},
		Winch: tow.Winch{Rate: 0.5, Min: 2},
	}
	speed := 4 * units.Knot
	for _, cable := range []float64{40, 50} {
		steady := spec.Steady(speed, cable, 1)
		fmt.Printf("%.0f m of cable: %.1f m deep, %.1f m astern\n", cable, steady.Depth, steady.Layback)
	}

	gear := tow.New(spec, 1, 40, speed, 0, 0, 0)
	gear.Ordered = 50
	for tick := range 1200 { // two minutes to the north
		gear.Step(0.1, 0, speed*0.1*float64(tick+1), still{}, -100)
	}
	fmt.Printf("in motion: %.0f m deep, %.0f m astern\n", gear.Depth, gear.Layback)
	// Output:
	// 40 m of cable: 20.8 m deep, 31.7 m astern
	// 50 m of cable: 24.0 m deep, 41.2 m astern
	// in motion: 24 m deep, 41 m astern
}
