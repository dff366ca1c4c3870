package scenarios

import (
	"fmt"

	"dryline/sonar"
	"dryline/sonar/acoustics"
)

// castSection is one point of a cast: a speed, or what a speed is made of.
type castSection struct {
	Depth       float64  `key:"depth_m" required:"true" unit:"m" min:"0" max:"1000" doc:"Depth of the point."`
	Speed       *float64 `key:"sound_speed_m_s" unit:"m/s" min:"1350" max:"1650" absent:"worked out from temperature and salinity" doc:"Speed of sound there."`
	Temperature *float64 `key:"temperature_c" unit:"deg C" min:"-2" max:"35" absent:"that of the sea" doc:"Temperature there, if no speed is given."`
	Salinity    *float64 `key:"salinity_psu" unit:"PSU" min:"0" max:"42" absent:"that of the sea" doc:"Salinity there, if no speed is given."`
}

// cast turns the points into sound speeds, each by the sea's own formula where
// none is given.
func (s seaSection) cast(c *checker) []sonar.CastPoint {
	var out []sonar.CastPoint
	for i, p := range s.Cast {
		path := fmt.Sprintf("sea.cast[%d]", i)
		if p.Speed != nil && (p.Temperature != nil || p.Salinity != nil) {
			c.fault(path+".sound_speed_m_s", c.number(*p.Speed), "stands beside a temperature or a salinity", "either the speed or what it is made of")
		}
		if i > 0 && c.sound(path+".depth_m") && p.Depth <= s.Cast[i-1].Depth {
			c.fault(path+".depth_m", c.number(p.Depth), "is not below the point before", "more than "+c.number(s.Cast[i-1].Depth)+" m")
		}
		point := sonar.CastPoint{Depth: p.Depth}
		if p.Speed != nil {
			point.SoundSpeed = *p.Speed
		} else {
			temperature, salinity := s.Temperature, s.Salinity
			if p.Temperature != nil {
				temperature = *p.Temperature
			}
			if p.Salinity != nil {
				salinity = *p.Salinity
			}
			speed, err := acoustics.SoundSpeed(acoustics.SoundSpeedModel(s.SoundSpeed), temperature, salinity, p.Depth)
			if err != nil {
				continue // the model's own fault is reported where it stands
			}
			point.SoundSpeed = speed
		}
		out = append(out, point)
	}
	return out
}
