package main

import (
	"github.com/spf13/cobra"

	"dryline/sim/survey"
)

func newLaybackCommand() *cobra.Command {
	var cable, depth, sheave, factor, offset float64
	c := newCalculator(&cobra.Command{
		Use:   "layback",
		Short: "Horizontal distance from the fix point aft to the fish",
		Long: `Horizontal distance from the fix point aft to the fish. The catenary factor is
chord over arc of the cable, and multiplies the cable out; 1 is a straight wire,
which gives the longest layback there can be.`,
	}, func() (answer, error) {
		layback, err := survey.Layback(cable, depth, sheave, factor, offset)
		if err != nil {
			return answer{}, err
		}
		return answer{
			results: []result{{"layback_m", "Layback", "m", layback, 2}},
			source:  "L = o + √((f C)² - (d + h)²); with f = 1 the formula of IHO C-13, chapter 4, 2.3.11.1",
		}, nil
	})
	numberFlag(c, &cable, "cable-out", "m", from(0, 15000), "cable out from the sheave")
	numberFlag(c, &depth, "fish-depth", "m", from(0, 12000), "depth of the fish below the surface")
	numberFlag(c, &sheave, "sheave-height", "m", from(0, 50), "height of the sheave above the water")
	numberFlag(c, &factor, "catenary-factor", "", above(0, 1), "chord over arc of the cable")
	numberFlag(c, &offset, "offset", "m", from(-200, 200), "from the fix point aft to the sheave, negative forward")
	return c
}
