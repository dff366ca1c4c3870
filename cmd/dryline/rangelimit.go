package main

import (
	"fmt"
	"math"

	"github.com/spf13/cobra"

	"dryline/sonar"
	"dryline/sonar/acoustics"
)

// farthest is where the search for the limit begins, metres.
const farthest = 5000

// oneChannel is a sonar of one channel in its water over one floor.
type oneChannel struct {
	channel    sonar.Channel
	sea        sonar.Sea
	sediment   acoustics.Sediment
	height     float64 // of the fish, metres
	vertical   float64 // beam, degrees
	depression float64 // degrees
}

// budget is the engine's own sonar equation of it.
func (o oneChannel) budget() (acoustics.Budget, error) {
	spec := sonar.Spec{
		RangeScale: 100, Samples: 1000, Rays: 1,
		VerticalBeam: o.vertical * math.Pi / 180, Depression: o.depression * math.Pi / 180,
		Channels: []sonar.Channel{o.channel},
	}
	e, err := sonar.NewEngine(spec, o.sea, usualSoundSpeed, 1)
	if err != nil {
		return acoustics.Budget{}, err
	}
	bottom, err := o.sediment.Bottom()
	if err != nil {
		return acoustics.Budget{}, err
	}
	return e.Budget(0, bottom, o.height)
}

func newRangeLimitCommand() *cobra.Command {
	var kilohertz, bandwidth, pulse, wind, required float64
	var shading shadingName
	var focused bool
	o := oneChannel{channel: sonar.Channel{Name: "one"}, sea: sonar.Sea{PH: 8, Depth: 10, SoundSpeed: acoustics.ModelMackenzie}}
	var c *cobra.Command
	c = newCalculator(&cobra.Command{
		Use:   "range-limit",
		Short: "Range at which the echo of the floor sinks into the noise",
		Long: `Greatest slant range at which the echo of a flat floor stands a number of
decibels above the noise, by the terms the simulator makes its records from.

Above 100 kHz the strength of the floor is extrapolated; see calc backscatter.`,
	}, func() (answer, error) {
		o.channel.Frequency, o.channel.Bandwidth, o.channel.PulseLength = kilohertz*1e3, bandwidth*1e3, pulse/1e3
		o.channel.PulseShading, o.channel.Focus, o.sea.Wind = string(shading), 0, wind*knot
		if focused {
			o.channel.Focus = sonar.Dynamic
		}
		if !c.Flags().Changed("sediment") {
			return answer{}, usagef("%s needs --sediment", c.Name())
		}
		if bandwidth > 0 && bandwidth*pulse < 1 {
			return answer{}, usagef("--pulse-ms %g is too short for the bandwidth of a chirp, want at least %g", pulse, 1/bandwidth)
		}
		if least := 2 * usualSoundSpeed / o.channel.Frequency; o.channel.ArrayLength < least {
			return answer{}, usagef("--array-length-m %g is less than two wavelengths and makes no beam, want at least %.3g", o.channel.ArrayLength, least)
		}
		b, err := o.budget()
		if err != nil {
			return answer{}, err
		}
		limit, ok := b.RangeLimit(required, farthest)
		if !ok {
			return answer{}, fmt.Errorf("the echo of the floor stands %g dB above the noise at no range", required)
		}
		valid, err := o.sea.Absorption.Validity(o.channel.Frequency)
		if err != nil {
			return answer{}, err
		}
		a := answer{
			results: []result{
				{"range_limit_m", "Range limit, slant", "m", limit, 1},
				{"ground_range_m", "Range limit, over the ground", "m", math.Sqrt(max(limit*limit-o.height*o.height, 0)), 1},
				{"grazing_deg", "Grazing angle there", "deg", acoustics.GrazingAngle(limit, o.height) * 180 / math.Pi, 2},
				{"absorption_db_per_km", "Absorption", "dB/km", b.Absorption, 1},
				{"noise_db", "Noise after compression", "dB re 1 µPa", b.NoiseLevel, 1},
			},
			source:  "Sonar equation RL = SL - 40 log10 R - 2 α R + Sb + 10 log10 A against noise (R. J. Urick, Principles of Underwater Sound, 1983)",
			warning: valid.Check(o.channel.Frequency, o.sea.Temperature, o.sea.Salinity, o.sea.Depth, o.sea.PH),
		}
		if limit == farthest {
			a.notes = []string{fmt.Sprintf("Heard as far as this looks, %d m", farthest)}
		}
		return a, nil
	})
	numberFlag(c, &kilohertz, "frequency-khz", "kHz", from(10, 2000), "frequency")
	numberFlag(c, &o.channel.SourceLevel, "source-level-db", "dB", from(150, 240), "source level re 1 µPa at 1 m")
	named := &choice[acoustics.Sediment]{&o.sediment, acoustics.Sediments()}
	c.Flags().Var(named, "sediment", "sea floor: "+named.list())
	numberFlag(c, &o.height, "fish-height", "m", above(0, 500), "height of the fish above the floor")
	numberFlag(c, &o.channel.ArrayLength, "array-length-m", "m", above(0, 20), "length of the array")
	numberFlag(c, &bandwidth, "bandwidth-khz", "kHz", from(0, 500), "bandwidth of the chirp, 0 for a single tone")
	numberFlag(c, &pulse, "pulse-ms", "ms", above(0, 50), "length of the pulse")
	choiceFlag(c, &shading, "pulse-shading", []shadingName{"hamming", "uniform", "hann", "cosine"}, "weights over the band of a chirp")
	c.Flags().BoolVar(&focused, "focused", false, "the array follows the echo out with its focus")
	optionalNumberFlag(c, &o.vertical, "vertical-beam-deg", "deg", from(5, 120), 50, "width of the vertical beam")
	optionalNumberFlag(c, &o.depression, "depression-deg", "deg", from(0, 80), 20, "axis of the vertical beam below the horizontal")
	optionalNumberFlag(c, &o.sea.Temperature, "temperature", "°C", from(-5, 50), 10, "water temperature")
	optionalNumberFlag(c, &o.sea.Salinity, "salinity", "PSU", from(0, 60), 35, "salinity")
	optionalNumberFlag(c, &wind, "wind-kn", "kn", from(0, 100), 10, "wind speed")
	optionalNumberFlag(c, &o.channel.NoiseFigure, "noise-figure-db", "dB", from(0, 60), 8, "noise of the receiver above thermal")
	optionalNumberFlag(c, &required, "required-snr-db", "dB", from(-30, 60), 6, "echo above noise that is asked for")
	choiceFlag(c, &o.sea.Absorption, "absorption-model", acoustics.AbsorptionModels(), "formula of absorption")
	return c
}
