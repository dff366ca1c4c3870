package main

import (
	"math"

	"github.com/spf13/cobra"

	"dryline/sonar/acoustics"
)

// waterDensity, in kg/m³, is that of sea water near 10 °C and 35 PSU.
const waterDensity = 1027

func newNoiseCommand() *cobra.Command {
	var kilohertz, wind, bandwidth, temperature, soundSpeed, length, vertical, figure float64
	var c *cobra.Command
	c = newCalculator(&cobra.Command{
		Use:   "noise",
		Short: "Noise that an echo has to stand out from",
		Long: `Noise of the sea and of the receiver at a frequency, per hertz and in a band.

The array's directivity is taken off the band level when both its length and
its vertical beam are given; without them the receiver hears all around. The
receiver's own noise is that many dB above the thermal noise of the sea, and is
left out when no figure is given.`,
	}, func() (answer, error) {
		if c.Flags().Changed("array-length-m") != c.Flags().Changed("vertical-beam-deg") {
			return answer{}, usagef("%s needs both or none of --array-length-m and --vertical-beam-deg", c.Name())
		}
		hertz := kilohertz * 1e3
		receiver := math.Inf(-1)
		thermal := acoustics.ThermalNoise(hertz, temperature, waterDensity, soundSpeed)
		if c.Flags().Changed("noise-figure-db") {
			receiver = thermal + figure
		}
		ambient := acoustics.AmbientNoise(hertz, wind*knot, temperature, waterDensity, soundSpeed)
		spectrum := acoustics.AddLevels(ambient, receiver)
		index := 0.0
		if c.Flags().Changed("array-length-m") {
			wavelength := soundSpeed / hertz
			height := acoustics.LineArrayForWidth(vertical*math.Pi/180, wavelength, acoustics.Shading{}).Length
			index = acoustics.PistonDirectivityIndex(length, height, wavelength)
		}
		results := []result{{"thermal_db", "Thermal noise", "dB re 1 µPa²/Hz", thermal, 2}}
		if wind > 0 { // a calm is silent, and has no level
			results = append(results, result{"wind_db", "Wind noise", "dB re 1 µPa²/Hz", acoustics.WindNoise(hertz, wind*knot), 2})
		}
		if !math.IsInf(receiver, -1) {
			results = append(results, result{"receiver_db", "Receiver noise", "dB re 1 µPa²/Hz", receiver, 2})
		}
		return answer{
			results: append(results,
				result{"spectrum_db", "All together", "dB re 1 µPa²/Hz", spectrum, 2},
				result{"directivity_index_db", "Directivity index", "dB", index, 2},
				result{"band_db", "In the band", "dB re 1 µPa", acoustics.BandNoise(spectrum, bandwidth*1e3, index), 2},
			),
			source: "Thermal by Mellen, J. Acoust. Soc. Am. 24, 478-480 (1952); wind by the rule of fives after Knudsen and Wenz, J. Acoust. Soc. Am. 34, 1936-1956 (1962), beyond its data above 20 kHz",
		}, nil
	})
	numberFlag(c, &kilohertz, "frequency-khz", "kHz", from(1, 5000), "frequency")
	numberFlag(c, &wind, "wind-kn", "kn", from(0, 100), "wind speed")
	numberFlag(c, &bandwidth, "bandwidth-khz", "kHz", above(0, 5000), "bandwidth of the receiver")
	optionalNumberFlag(c, &temperature, "temperature", "°C", from(-5, 50), 10, "water temperature")
	optionalNumberFlag(c, &soundSpeed, "sound-speed", "m/s", soundSpeedLimits, usualSoundSpeed, "speed of sound")
	c.Flags().Var(&number{value: &length, unit: "m", limits: above(0, 20)}, "array-length-m", "length of the array, above 0 up to 20 m")
	c.Flags().Var(&number{value: &vertical, unit: "deg", limits: above(0, 120)}, "vertical-beam-deg", "width of the vertical beam, above 0 up to 120 deg")
	c.Flags().Var(&number{value: &figure, unit: "dB", limits: from(0, 60)}, "noise-figure-db", "noise of the receiver above thermal, from 0 to 60 dB")
	return c
}
