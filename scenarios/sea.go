package scenarios

import (
	"fmt"
	"math"

	"dryline/sim/exercise"
	"dryline/sonar"
	"dryline/sonar/acoustics"
	"dryline/vessel/sea"
)

type seaSection struct {
	Temperature float64       `key:"temperature_c" unit:"deg C" min:"-2" max:"35" default:"10" doc:"Temperature of the water."`
	Salinity    float64       `key:"salinity_psu" unit:"PSU" min:"0" max:"42" default:"35" doc:"Salinity of the water."`
	PH          float64       `key:"ph" min:"7" max:"8.6" default:"8.1" doc:"Acidity of the water."`
	Scattering  float64       `key:"scattering_db" unit:"dB re 1 /m" min:"-120" max:"-40" default:"-65" doc:"Volume scattering strength of what drifts in the water everywhere."`
	SampleDepth *float64      `key:"sample_depth_m" unit:"m" min:"0" max:"500" absent:"half of seabed.depth_m" doc:"Depth for which sound speed and absorption are worked out."`
	SoundSpeed  string        `key:"sound_speed_model" enum:"soundspeed" default:"mackenzie" doc:"Published formula for the speed of sound."`
	Absorption  string        `key:"absorption_model" enum:"absorption" default:"francois-garrison" doc:"Published formula for the absorption of sound."`
	Trend       bool          `key:"backscatter_trend" default:"true" doc:"Whether backscatter of the floor grows with frequency above 100 kHz, where no model is published: by 10 n log10(f / 100 kHz) dB with n 0.25, 0 for cobble and rock. False holds it at its strength at 100 kHz."`
	Cast        []castSection `key:"cast" items:"0,40" absent:"the same speed everywhere" doc:"Sound speed by depth, downwards: layers bend the sound."`

	Wind       float64 `key:"wind_kn" unit:"kn" min:"0" max:"60" default:"0" doc:"Speed of the wind."`
	WindFrom   float64 `key:"wind_from_deg" unit:"deg" min:"0" max:"360" default:"0" doc:"Grid bearing the wind blows from."`
	Gusts      bool    `key:"gusts" default:"true" doc:"Whether the wind gusts and veers about its mean."`
	Current    float64 `key:"current_kn" unit:"kn" min:"0" max:"6" default:"0" doc:"Speed of the current at the surface, and below as current_fades has it."`
	CurrentSet float64 `key:"current_set_deg" unit:"deg" min:"0" max:"360" default:"0" doc:"Grid bearing the current flows towards."`

	CurrentFades bool             `key:"current_fades" default:"false" doc:"Whether current_kn is that of the surface and weakens towards the floor, by the one-seventh law of tidal streams."`
	Currents     []currentSection `key:"currents" items:"0,20" absent:"current_kn, by current_fades" doc:"Current by depth, downwards, in place of current_kn."`
	Waves        wavesSection     `key:"waves" doc:"The waves; none without a fetch or a height."`
	Tide         tideSection      `key:"tide" doc:"The rise and fall of the water."`
}

type currentSection struct {
	Depth float64 `key:"depth_m" required:"true" unit:"m" min:"0" max:"500" doc:"Depth."`
	Speed float64 `key:"speed_kn" required:"true" unit:"kn" min:"0" max:"6" doc:"Speed there."`
	Set   float64 `key:"set_deg" required:"true" unit:"deg" min:"0" max:"360" doc:"Grid bearing it flows towards there."`
}

type wavesSection struct {
	Fetch   float64  `key:"fetch_km" unit:"km" min:"0" max:"2000" default:"0" doc:"Open water to windward; the wind raises the waves that go with it."`
	OpenSea bool     `key:"open_sea" default:"false" doc:"Whether the wind has raised all the sea it can."`
	Height  *float64 `key:"height_m" unit:"m" min:"0" max:"8" absent:"what wind and fetch raise" doc:"Significant height."`
	Period  *float64 `key:"period_s" unit:"s" min:"1" max:"25" absent:"what wind and fetch raise, or goes with the height" doc:"Period of the peak."`
	From    *float64 `key:"from_deg" unit:"deg" min:"0" max:"360" absent:"sea.wind_from_deg" doc:"Grid bearing the waves come from."`
	Spread  float64  `key:"spread" min:"0" max:"200" default:"10" doc:"How narrowly they keep together: s of the cos^2s law; 10 is a wind sea, 75 a swell."`
}

type tideSection struct {
	Amplitude float64 `key:"amplitude_m" unit:"m" min:"0" max:"8" default:"0" doc:"Half the range."`
	High      float64 `key:"high_water_min" unit:"min" min:"-1500" max:"1500" default:"0" doc:"Time of a high water from the start of the exercise."`
}

func (s seaSection) sea(c *checker, depth float64) exercise.Sea {
	at := depth / 2
	if s.SampleDepth != nil {
		at = *s.SampleDepth
	}
	return exercise.Sea{
		Water: sonar.Sea{
			Temperature: s.Temperature, Salinity: s.Salinity, PH: s.PH, Depth: at, Wind: knots(s.Wind), FlatTrend: !s.Trend, Cast: s.cast(c), Scattering: s.Scattering,
			SoundSpeed: acoustics.SoundSpeedModel(s.SoundSpeed), Absorption: acoustics.AbsorptionModel(s.Absorption),
		},
		WindSpeed: knots(s.Wind), WindFrom: s.WindFrom * degree, Gusty: s.Gusts,
		Waves:   s.waves(c, depth),
		Current: s.current(c, depth),
		Tide:    sea.Tide{Amplitude: s.Tide.Amplitude, High: s.Tide.High * minute},
	}
}

// current is the current by depth.
func (s seaSection) current(c *checker, depth float64) sea.Profile {
	points := []sea.Current{{Speed: knots(s.Current), Set: s.CurrentSet * degree}}
	if len(s.Currents) > 0 {
		points = points[:0]
	}
	for i, p := range s.Currents {
		path := fmt.Sprintf("sea.currents[%d].depth_m", i)
		if i > 0 && c.sound(path) && p.Depth <= s.Currents[i-1].Depth {
			c.fault(path, c.number(p.Depth), "is not below the one before", "more than "+c.number(s.Currents[i-1].Depth)+" m")
		}
		points = append(points, sea.Current{Depth: p.Depth, Speed: knots(p.Speed), Set: p.Set * degree})
	}
	if s.CurrentFades {
		if len(s.Currents) > 0 {
			c.fault("sea.current_fades", "true", "does not go with sea.currents, which say how it changes with depth", "one of the two")
		}
		return sea.PowerLaw(points[0], depth)
	}
	profile, _ := sea.NewProfile(points) // what it refuses is a fault already
	return profile
}

// waves returns the waves that the wind raises over the fetch, or those given.
func (s seaSection) waves(c *checker, depth float64) sea.Conditions {
	w, from := s.Waves, s.WindFrom
	if w.From != nil {
		from = *w.From
	}
	var waves sea.Conditions
	if w.OpenSea || w.Fetch > 0 {
		fetch := w.Fetch * kilo
		if w.OpenSea {
			fetch = 0
		}
		waves = sea.Blown(knots(s.Wind), from*degree, fetch, depth)
	}
	if w.Height != nil {
		waves.Hs = *w.Height
		waves.Tp = steepPeriod(waves.Hs)
	}
	if w.Period != nil {
		waves.Tp = *w.Period
	}
	waves.Toward, waves.Spread, waves.Depth = from*degree+math.Pi, w.Spread, depth
	const path = "sea.waves.height_m"
	if w.Height != nil && c.sound(path, "seabed.depth_m") && *w.Height > depth/2 {
		c.fault(path, c.number(*w.Height), "breaks in water that shallow", "at most half of seabed.depth_m, "+c.number(depth/2)+" m")
	}
	return waves
}

// steepPeriod is the peak period of a young sea of a height: Tp = 3.6 sqrt(Hs),
// the steep end of DNV-RP-C205, 3.5.5.
func steepPeriod(hs float64) float64 { return max(3.6*math.Sqrt(hs), 1) }
