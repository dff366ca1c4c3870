package main

import (
	"fmt"
	"math"

	"github.com/spf13/cobra"

	"dryline/vessel/tow"
)

func newTowCommand() *cobra.Command {
	var speed, cable, diameter, sheave float64
	var s tow.Spec
	c := newCalculator(&cobra.Command{
		Use:   "tow",
		Short: "Where the fish flies behind a straight, steady tow",
		Long: `Depth of the fish, layback from the sheave, tension and angle of the cable at the
sheave, for a straight tow at a steady speed through the water. They come from
the equations the simulator checks its own cable by.`,
	}, func() (answer, error) {
		s.Cable.Diameter = diameter / 1e3
		if cable <= sheave {
			return answer{}, fmt.Errorf("%g m of cable does not reach the water from a sheave %g m above it", cable, sheave)
		}
		shape := s.Steady(speed*knot, cable, sheave)
		if shape.Depth <= 0 {
			return answer{}, fmt.Errorf("%g m of cable does not put the fish in the water at %g kn", cable, speed)
		}
		return answer{
			results: []result{
				{"fish_depth_m", "Depth of the fish", "m", shape.Depth, 2},
				{"layback_m", "Layback from the sheave", "m", shape.Layback, 2},
				{"tension_top_n", "Tension at the sheave", "N", shape.Tension, 0},
				{"cable_angle_deg", "Cable at the sheave, to the horizontal", "deg", shape.Angle * 180 / math.Pi, 1},
			},
			source: "dT/ds = w sin φ + F cos² φ, T dφ/ds = w cos φ - R sin² φ; C. M. Ablow and S. Schechter, Ocean Engng 10, 443-457 (1983)",
		}, nil
	})
	numberFlag(c, &speed, "speed-kn", "kn", from(0, 20), "speed through the water")
	numberFlag(c, &cable, "cable-out", "m", above(0, 15000), "cable out from the sheave")
	numberFlag(c, &diameter, "cable-diameter-mm", "mm", from(1, 100), "diameter of the cable")
	numberFlag(c, &s.Cable.Weight, "cable-weight-n-m", "N/m", from(0, 200), "weight in water of a metre of cable")
	numberFlag(c, &s.Fish.Weight, "fish-weight-n", "N", above(0, 100000), "weight of the fish in water, less its lift")
	numberFlag(c, &s.Fish.DragArea, "fish-drag-area-m2", "m²", from(0, 10), "drag coefficient of the fish times its area")
	numberFlag(c, &s.Cable.Normal, "cn", "", from(0, 5), "drag coefficient across the cable, on its diameter")
	numberFlag(c, &s.Cable.Tangential, "ct", "", from(0, 0.2), "drag coefficient along the cable, on its wetted surface")
	optionalNumberFlag(c, &sheave, "sheave-height", "m", from(0, 50), 0, "height of the sheave above the water")
	return c
}
