package main

import (
	"github.com/spf13/cobra"

	"dryline/sonar/acoustics"
)

func newAbsorptionCommand() *cobra.Command {
	var kilohertz, temperature, salinity, depth, ph float64
	var model acoustics.AbsorptionModel
	c := newCalculator(&cobra.Command{
		Use:   "absorption",
		Short: "Absorption of sound in sea water",
	}, func() (answer, error) {
		hertz := kilohertz * 1e3
		alpha, err := acoustics.Absorption(model, hertz, temperature, salinity, depth, ph)
		if err != nil {
			return answer{}, err
		}
		valid, err := model.Validity(hertz)
		if err != nil {
			return answer{}, err
		}
		return answer{
			results: []result{{"absorption_db_per_km", "Absorption", "dB/km", alpha, 3}},
			source:  absorptionSource(model),
			warning: valid.Check(hertz, temperature, salinity, depth, ph),
		}, nil
	})
	numberFlag(c, &kilohertz, "frequency-khz", "kHz", above(0, 5000), "frequency")
	numberFlag(c, &temperature, "temperature", "°C", from(-5, 50), "water temperature")
	numberFlag(c, &salinity, "salinity", "PSU", from(0, 60), "salinity")
	numberFlag(c, &depth, "depth", "m", from(0, 12000), "depth below the surface")
	numberFlag(c, &ph, "ph", "", from(6, 9), "acidity; the sea has about 8")
	choiceFlag(c, &model, "model", acoustics.AbsorptionModels(), "formula")
	return c
}

func absorptionSource(model acoustics.AbsorptionModel) string {
	switch model {
	case acoustics.ModelFrancoisGarrison:
		return "Boric acid, magnesium sulphate and water by Francois and Garrison, Part II, J. Acoust. Soc. Am. 72(6), 1879-1890 (1982)"
	case acoustics.ModelAinslieMcColm:
		return "Simplified formula of Ainslie and McColm, J. Acoust. Soc. Am. 103(3), 1671-1672 (1998)"
	}
	return string(model)
}
