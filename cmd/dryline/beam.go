package main

import (
	"math"

	"github.com/spf13/cobra"

	"dryline/sonar/acoustics"
)

// shadingName is a name that acoustics.ShadingNamed knows.
type shadingName string

func shadingNames() []shadingName { return []shadingName{"uniform", "hann", "hamming", "cosine"} }

func newBeamCommand() *cobra.Command {
	var kilohertz, length, rangeM, soundSpeed float64
	var name shadingName
	var focused bool
	var c *cobra.Command
	c = newCalculator(&cobra.Command{
		Use:   "beam",
		Short: "Horizontal beam of an array",
		Long: `Horizontal beam of a straight array: its far field, where that begins, and how
wide the beam is along the track at a slant range.

Close by the beam of an array that is not focused is about as wide as the array is
long, narrower half way to its near field range. --focused is for an array focused at that range.`,
	}, func() (answer, error) {
		if focused && !c.Flags().Changed("range") {
			return answer{}, usagef("--focused needs --range")
		}
		shading, err := acoustics.ShadingNamed(string(name))
		if err != nil {
			return answer{}, err
		}
		array := acoustics.LineArray{Length: length, Shading: shading}
		wavelength := soundSpeed / (kilohertz * 1e3)
		if length < 2*wavelength {
			return answer{}, usagef("--array-length-m %g is less than two wavelengths and makes no beam, want at least %.3g", length, 2*wavelength)
		}
		results := []result{
			{"beamwidth_deg", "Beam width", "deg", inDegrees(array.HalfPowerWidth(wavelength)), 4},
			{"two_way_beamwidth_deg", "Two-way beam width", "deg", inDegrees(array.TwoWayHalfPowerWidth(wavelength)), 4},
			{"equivalent_width_deg", "Equivalent two-way width", "deg", inDegrees(array.EquivalentWidth(wavelength)), 4},
			{"peak_sidelobe_db", "Highest side lobe, one way", "dB", shading.PeakSidelobe(), 2},
			{"near_field_m", "Near field ends about", "m", array.NearFieldRange(wavelength), 2},
		}
		if c.Flags().Changed("range") {
			results = append(results, result{"along_track_m", "Along the track at range", "m", array.AlongTrackWidth(rangeM, wavelength, focused), 3})
		}
		return answer{
			results: append(results, result{"directivity_index_db", "Directivity index", "dB", array.DirectivityIndex(wavelength), 2}),
			source:  "Far field of a continuous line array, widths between half-power points; near field L²/λ; along the track by the line integral of the array",
		}, nil
	})
	numberFlag(c, &kilohertz, "frequency-khz", "kHz", from(1, 5000), "frequency")
	numberFlag(c, &length, "array-length-m", "m", above(0, 20), "length of the array")
	choiceFlag(c, &name, "shading", shadingNames(), "weights along the array")
	c.Flags().Var(&number{value: &rangeM, unit: "m", limits: rangeLimits}, "range", "slant range, above 0 up to 10000 m")
	c.Flags().BoolVar(&focused, "focused", false, "the array is focused at that range")
	optionalNumberFlag(c, &soundSpeed, "sound-speed", "m/s", soundSpeedLimits, usualSoundSpeed, "speed of sound")
	return c
}

func inDegrees(radians float64) float64 { return radians * 180 / math.Pi }
