package main

import (
	"fmt"
	"math"

	"github.com/spf13/cobra"

	"dryline/sonar/acoustics"
)

// onOff is a switch that is named in full, so that off can be said.
type onOff string

func newBackscatterCommand() *cobra.Command {
	var phi, grazing, kilohertz, soundSpeed float64
	var sediment acoustics.Sediment
	var trend onOff
	var c *cobra.Command
	c = newCalculator(&cobra.Command{
		Use:   "backscatter",
		Short: "Strength of the echo of a sea floor",
		Long: `Backscattering strength of a sea floor, by name of sediment or by mean grain
size in phi units (phi = -log2 of the diameter in mm). Give one of the two.

The model was published for 10 to 100 kHz. Above that it is evaluated at
100 kHz and a growth with frequency added; --trend off leaves that out.`,
	}, func() (answer, error) {
		byName := c.Flags().Changed("sediment")
		if byName == c.Flags().Changed("grain-size-phi") {
			return answer{}, usagef("%s needs exactly one of --sediment and --grain-size-phi", c.Name())
		}
		bottom, published, err := acoustics.Bottom{}, true, error(nil)
		if byName {
			bottom, err = sediment.Bottom()
			published = sediment.Published()
		} else {
			bottom, err = acoustics.BottomForGrainSize(phi)
		}
		if err != nil {
			return answer{}, err
		}
		if trend == "off" {
			bottom.TrendExponent = 0
		}
		hertz := kilohertz * 1e3
		model := bottom.Scattering(hertz, soundSpeed)
		rough, volume := model.Parts(grazing * math.Pi / 180)
		return answer{
			results: []result{
				{"backscatter_db", "Backscatter", "dB re 1 m²", model.Strength(grazing * math.Pi / 180), 2},
				{"rough_db", "Of the interface", "dB re 1 m²", acoustics.Decibels(rough), 2},
				{"volume_db", "Of the sediment volume", "dB re 1 m²", acoustics.Decibels(volume), 2},
			},
			truths: []truth{
				{"extrapolated", "Beyond the published band", acoustics.Extrapolated(hertz)},
				{"published", "Published parameters", published},
			},
			notes:  trendNotes(kilohertz, bottom.TrendExponent),
			source: "Bottom model of APL-UW TR 9407 (1994), Section IV, published for 10 to 100 kHz",
		}, nil
	})
	sediments := acoustics.Sediments()
	named := &choice[acoustics.Sediment]{&sediment, sediments}
	c.Flags().Var(named, "sediment", "sea floor: "+named.list())
	c.Flags().Var(&number{value: &phi, unit: "phi", limits: from(-1, 9)}, "grain-size-phi", "mean grain size, from -1 to 9 phi")
	numberFlag(c, &grazing, "grazing-deg", "deg", above(0, 90), "grazing angle, 90 straight down")
	numberFlag(c, &kilohertz, "frequency-khz", "kHz", from(1, 5000), "frequency")
	optionalNumberFlag(c, &soundSpeed, "sound-speed", "m/s", soundSpeedLimits, usualSoundSpeed, "speed of sound in the water")
	choiceFlag(c, &trend, "trend", []onOff{"on", "off"}, "growth with frequency above 100 kHz")
	return c
}

// trendNotes say what was done outside the published band.
func trendNotes(kilohertz, exponent float64) []string {
	const highest = 100 // kHz
	switch {
	case !acoustics.Extrapolated(kilohertz * 1e3):
		return nil
	case kilohertz < highest:
		return []string{"Below 10 kHz the model is run on as it stands"}
	case exponent == 0:
		return []string{"Above 100 kHz the interface terms are evaluated at 100 kHz; no trend was added"}
	}
	return []string{fmt.Sprintf("Above 100 kHz the interface terms are evaluated at 100 kHz; a trend of 10 x %g log10(f/100 kHz) = %.2f dB was added, our own choice",
		exponent, 10*exponent*math.Log10(kilohertz/highest))}
}
