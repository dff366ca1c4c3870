package scenarios

import "dryline/vessel/nav"

type gnssSection struct {
	Model      string          `key:"model" enum:"gnss" default:"differential" doc:"Kind of fix, which sets drift and noise unless they are given."`
	Drift      *float64        `key:"drift_m" unit:"m" min:"0" max:"20" absent:"1.5 autonomous, 0.3 differential, 0.008 rtk" doc:"Standard deviation of the slow error of the fix, each axis."`
	DriftTime  *float64        `key:"drift_time_s" unit:"s" min:"1" max:"7200" absent:"300 autonomous, 120 differential, 20 rtk" doc:"Correlation time of that error."`
	BiasEast   float64         `key:"bias_east_m" unit:"m" min:"-50" max:"50" default:"0" doc:"Fixed error of the fix to the east."`
	BiasNorth  float64         `key:"bias_north_m" unit:"m" min:"-50" max:"50" default:"0" doc:"Fixed error of the fix to the north."`
	Noise      *float64        `key:"noise_m" unit:"m" min:"0" max:"20" absent:"0.15 autonomous, 0.05 differential, 0.006 rtk" doc:"Standard deviation from fix to fix, each axis."`
	Resolution float64         `key:"resolution_m" unit:"m" min:"0" max:"10" default:"0.01" doc:"Last digit of the position; 0 shows all."`
	SpeedNoise float64         `key:"speed_noise_kn" unit:"kn" min:"0" max:"2" default:"0.05" doc:"Standard deviation of the speed over ground, each axis."`
	SpeedDigit float64         `key:"speed_resolution_kn" unit:"kn" min:"0" max:"1" default:"0" doc:"Last digit of the speed over ground; 0 shows all."`
	CourseStep float64         `key:"course_resolution_deg" unit:"deg" min:"0" max:"5" default:"0" doc:"Last digit of the course over ground; 0 shows all."`
	Rate       float64         `key:"rate_hz" unit:"Hz" min:"0.2" max:"10" default:"10" doc:"Fixes a second."`
	Latency    float64         `key:"latency_s" unit:"s" min:"0" max:"5" default:"0.1" doc:"Age of the fix: what is reported is where the antenna was so long ago."`
	Outages    []outageSection `key:"outages" items:"0,32" absent:"there are none" doc:"When there is no fix."`
}

var gnssModels = map[string]nav.Quality{"autonomous": nav.Autonomous, "differential": nav.Differential, "rtk": nav.RTK}

func (g gnssSection) spec(c *checker) nav.GNSSSpec {
	s := gnssModels[g.Model].Preset()
	s.Timing = timing(c, "gnss", g.Rate, g.Latency, g.Outages)
	s.BiasX, s.BiasY = g.BiasEast, g.BiasNorth
	s.Step, s.SpeedNoise = g.Resolution, knots(g.SpeedNoise)
	s.SpeedStep, s.CourseStep = knots(g.SpeedDigit), g.CourseStep*degree
	for _, given := range []struct {
		to   *float64
		from *float64
	}{{&s.Drift, g.Drift}, {&s.DriftTime, g.DriftTime}, {&s.Noise, g.Noise}} {
		if given.from != nil {
			*given.to = *given.from
		}
	}
	return s
}
