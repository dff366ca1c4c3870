package main

import (
	"github.com/spf13/cobra"

	"dryline/vessel/sea"
)

func newWavesCommand() *cobra.Command {
	var wind, fetch, depth float64
	c := newCalculator(&cobra.Command{
		Use:   "waves",
		Short: "Height and period of the waves a steady wind raises",
		Long: `Significant height and peak period of the waves a steady wind raises over a
fetch, given time enough. The wind is the mean 10 m above the water. A fetch of 0
is the open sea, where the waves are as high as this wind can make them; a depth
of 0 is deep water.`,
	}, func() (answer, error) {
		hs, tp := sea.Grow(wind*knot, fetch*1e3, depth)
		a := answer{
			results: []result{
				{"hs_m", "Significant wave height", "m", hs, 2},
				{"tp_s", "Peak period", "s", tp, 1},
			},
			source: "g H/U² = 0.0016 √X up to 0.243, g T/U = 0.286 ∛X up to 8.13, X = g F/U²; K. Hasselmann et al. (1973) as in the Shore Protection Manual (1984)",
		}
		if wind > 0 {
			a.warning = sea.CheckGrowth(wind*knot, fetch*1e3, depth)
		}
		if deepHs, deepTp := sea.Grow(wind*knot, fetch*1e3, 0); hs < deepHs || tp < deepTp {
			a.notes = []string{"Held down by the depth: I. R. Young and L. A. Verhagen, Coastal Engng 29, 47-78 (1996)"}
		}
		return a, nil
	})
	numberFlag(c, &wind, "wind-kn", "kn", from(0, 120), "mean wind speed")
	numberFlag(c, &fetch, "fetch-km", "km", from(0, 5000), "water the wind blows over, 0 for the open sea")
	optionalNumberFlag(c, &depth, "depth", "m", from(0, 12000), 0, "depth of the water, 0 for deep water")
	return c
}
