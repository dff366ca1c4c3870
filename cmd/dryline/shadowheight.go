package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"dryline/sonar/acoustics"
)

func newShadowHeightCommand() *cobra.Command {
	var height, slantRange, shadow float64
	c := newCalculator(&cobra.Command{
		Use:   "shadow-height",
		Short: "Height of a target from the length of its shadow",
		Long: `Height of a target above a flat bottom from the length of its shadow. Range and
shadow are both measured along the slant, the range to where the shadow begins.`,
	}, func() (answer, error) {
		if slantRange < height {
			return answer{}, fmt.Errorf("impossible geometry: slant range %g m is short of the bottom %g m below the fish", slantRange, height)
		}
		return answer{
			results: []result{{"target_height_m", "Target height", "m", acoustics.HeightFromShadow(height, shadow, slantRange), 3}},
			source:  "H = h S/(R + S), similar triangles on a flat bottom: IHO C-13, chapter 4, 2.3.11.4",
		}, nil
	})
	numberFlag(c, &height, "fish-height", "m", above(0, 12000), "height of the fish above the bottom")
	numberFlag(c, &slantRange, "slant-range", "m", rangeLimits, "slant range to the contact")
	numberFlag(c, &shadow, "shadow", "m", from(0, 10000), "length of the shadow along the slant")
	return c
}
