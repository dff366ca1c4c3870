package scenarios

import (
	"dryline/sim"
	"dryline/sonar"
	"dryline/sonar/acoustics"
)

type seaSection struct {
	Temperature float64       `key:"temperature_c" unit:"deg C" min:"-2" max:"35" default:"10" doc:"Temperature of the water."`
	Salinity    float64       `key:"salinity_psu" unit:"PSU" min:"0" max:"42" default:"35" doc:"Salinity of the water."`
	PH          float64       `key:"ph" min:"7" max:"8.6" default:"8.1" doc:"Acidity of the water."`
	SampleDepth *float64      `key:"sample_depth_m" unit:"m" min:"0" max:"500" absent:"half of seabed.depth_m" doc:"Depth for which sound speed and absorption are worked out."`
	SoundSpeed  string        `key:"sound_speed_model" enum:"soundspeed" default:"mackenzie" doc:"Published formula for the speed of sound."`
	Absorption  string        `key:"absorption_model" enum:"absorption" default:"francois-garrison" doc:"Published formula for the absorption of sound."`
	Trend       bool          `key:"backscatter_trend" default:"true" doc:"Whether backscatter of the floor grows with frequency above 100 kHz, where no model is published: by 10 n log10(f / 100 kHz) dB with n 0.25, 0 for cobble and rock. False holds it at its strength at 100 kHz."`
	Cast        []castSection `key:"cast" items:"0,40" absent:"the same speed everywhere" doc:"Sound speed by depth, downwards: layers bend the sound."`

	Wind       float64 `key:"wind_kn" unit:"kn" min:"0" max:"60" default:"0" doc:"Speed of the wind."`
	WindFrom   float64 `key:"wind_from_deg" unit:"deg" min:"0" max:"360" default:"0" doc:"Grid bearing the wind blows from."`
	Current    float64 `key:"current_kn" unit:"kn" min:"0" max:"6" default:"0" doc:"Speed of the current."`
	CurrentSet float64 `key:"current_set_deg" unit:"deg" min:"0" max:"360" default:"0" doc:"Grid bearing the current flows towards."`
}

func (s seaSection) sea(c *checker, depth float64) sim.Sea {
	at := depth / 2
	if s.SampleDepth != nil {
		at = *s.SampleDepth
	}
	return sim.Sea{
		Water: sonar.Sea{
			Temperature: s.Temperature, Salinity: s.Salinity, PH: s.PH, Depth: at, Wind: knots(s.Wind), FlatTrend: !s.Trend, Cast: s.cast(c),
			SoundSpeed: acoustics.SoundSpeedModel(s.SoundSpeed), Absorption: acoustics.AbsorptionModel(s.Absorption),
		},
		WindSpeed: knots(s.Wind), WindFrom: s.WindFrom * degree,
		CurrentSpeed: knots(s.Current), CurrentSet: s.CurrentSet * degree,
	}
}
