package main

import "github.com/spf13/cobra"

func newLineSpacingCommand() *cobra.Command {
	var rangeScale, overlap, percent float64
	var c *cobra.Command
	c = newCalculator(&cobra.Command{
		Use:   "line-spacing",
		Short: "Distance between lines for an overlap of their swaths",
		Long: `Distance between parallel lines whose swaths overlap by a length, or by a
percentage of the full swath, which is twice the range scale. Give one of the
two. Beware of percentages: 20 % of the swath is 40 % of the range scale.`,
	}, func() (answer, error) {
		byPercent := c.Flags().Changed("overlap-percent")
		if byPercent == c.Flags().Changed("overlap-m") {
			return answer{}, usagef("%s needs exactly one of --overlap-m and --overlap-percent", c.Name())
		}
		swath := 2 * rangeScale
		if byPercent {
			overlap = swath * percent / 100
		}
		if overlap >= swath {
			return answer{}, usagef("--overlap-m %g leaves no spacing, want below the swath of %g m", overlap, swath)
		}
		spacing := swath - overlap
		return answer{
			results: []result{
				{"spacing_m", "Line spacing", "m", spacing, 2},
				{"overlap_m", "Overlap of neighbours", "m", overlap, 2},
				{"swath_m", "Swath", "m", swath, 2},
				{"coverage_percent", "Ground seen", "%", 100 * swath / spacing, 1},
			},
			source: "Spacing 2R less overlap, on straight tracks; ground seen 2R/S as in IHO C-13, chapter 4, 2.3.9.1 (the strip under the fish not taken off)",
		}, nil
	})
	numberFlag(c, &rangeScale, "range", "m", rangeLimits, "range scale, one side")
	c.Flags().Var(&number{value: &overlap, unit: "m", limits: from(0, 20000)}, "overlap-m", "overlap of neighbouring swaths, from 0 m to below the swath")
	c.Flags().Var(&number{value: &percent, unit: "%", limits: from(0, 99)}, "overlap-percent", "overlap as a share of the full swath 2R, from 0 to 99 %")
	return c
}
