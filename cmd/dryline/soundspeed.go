package main

import (
	"github.com/spf13/cobra"

	"dryline/sonar/acoustics"
)

func newSoundSpeedCommand() *cobra.Command {
	var temperature, salinity, depth float64
	var model acoustics.SoundSpeedModel
	c := newCalculator(&cobra.Command{
		Use:   "sound-speed",
		Short: "Speed of sound in sea water",
	}, func() (answer, error) {
		speed, err := acoustics.SoundSpeed(model, temperature, salinity, depth)
		if err != nil {
			return answer{}, err
		}
		valid, err := model.Validity()
		if err != nil {
			return answer{}, err
		}
		return answer{
			results: []result{{"sound_speed_m_s", "Speed of sound", "m/s", speed, 3}},
			source:  soundSpeedSource(model),
			warning: valid.Check(temperature, salinity, depth),
		}, nil
	})
	numberFlag(c, &temperature, "temperature", "°C", from(-5, 50), "water temperature")
	numberFlag(c, &salinity, "salinity", "PSU", from(0, 60), "salinity")
	numberFlag(c, &depth, "depth", "m", from(0, 12000), "depth below the surface")
	choiceFlag(c, &model, "model", acoustics.SoundSpeedModels(), "formula")
	return c
}

func soundSpeedSource(model acoustics.SoundSpeedModel) string {
	switch model {
	case acoustics.ModelMackenzie:
		return "Nine-term equation of K. V. Mackenzie, J. Acoust. Soc. Am. 70(3), 807-812 (1981)"
	case acoustics.ModelUNESCO:
		return "Equation of Chen and Millero as in UNESCO Technical Papers in Marine Science 44 (1983), pressure for latitude 45°"
	case acoustics.ModelMedwin:
		return "Short equation of H. Medwin, J. Acoust. Soc. Am. 58, 1318-1319 (1975)"
	}
	return string(model)
}
