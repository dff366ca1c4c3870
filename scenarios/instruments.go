package scenarios

import "dryline/vessel/nav"

type instrumentsSection struct {
	GNSS      gnssSection      `key:"gnss" doc:"The satellite receiver."`
	Heading   headingSection   `key:"heading" doc:"The vessel's heading sensor."`
	Motion    motionSection    `key:"motion" doc:"The vessel's motion sensor."`
	FishDepth fishDepthSection `key:"fish_depth" doc:"The fish's pressure sensor."`
	Altimeter altimeterSection `key:"altimeter" doc:"The fish's altimeter."`
	Compass   compassSection   `key:"compass" doc:"The fish's compass and tilt sensor."`
	Counter   counterSection   `key:"counter" doc:"The cable counter."`
	Beacon    beaconSection    `key:"beacon" doc:"The acoustic beacon on the fish, if there is one."`
	SpeedLog  speedLogSection  `key:"speed_log" doc:"The vessel's log, which measures speed through the water."`
	Wind      windSection      `key:"wind" doc:"The vessel's wind sensor."`
}

type headingSection struct {
	Bias       float64         `key:"bias_deg" unit:"deg" min:"-20" max:"20" default:"0.4" doc:"Fixed error."`
	Noise      float64         `key:"noise_deg" unit:"deg" min:"0" max:"10" default:"0.15" doc:"Standard deviation from report to report."`
	Resolution float64         `key:"resolution_deg" unit:"deg" min:"0" max:"5" default:"0.1" doc:"Last digit shown; 0 shows all."`
	Lag        float64         `key:"lag_s" unit:"s" min:"0" max:"10" default:"0" doc:"Time constant with which it follows a turn."`
	TurnBias   float64         `key:"turn_bias_deg_s" unit:"deg/s" min:"-2" max:"2" default:"0" doc:"Fixed error of the rate of turn."`
	TurnNoise  float64         `key:"turn_noise_deg_s" unit:"deg/s" min:"0" max:"5" default:"0.02" doc:"Standard deviation of the rate of turn."`
	TurnDigit  float64         `key:"turn_resolution_deg_s" unit:"deg/s" min:"0" max:"5" default:"0" doc:"Last digit of the rate of turn; 0 shows all."`
	Rate       float64         `key:"rate_hz" unit:"Hz" min:"0.2" max:"10" default:"10" doc:"Reports a second."`
	Delay      float64         `key:"delay_s" unit:"s" min:"0" max:"5" default:"0" doc:"Age of what is reported."`
	Outages    []outageSection `key:"outages" items:"0,32" absent:"there are none" doc:"When it says nothing."`
}

type motionSection struct {
	HeaveBias  float64         `key:"heave_bias_m" unit:"m" min:"-2" max:"2" default:"0" doc:"Fixed error of heave."`
	HeaveNoise float64         `key:"heave_noise_m" unit:"m" min:"0" max:"2" default:"0.03" doc:"Standard deviation of heave."`
	HeaveDigit float64         `key:"heave_resolution_m" unit:"m" min:"0" max:"1" default:"0" doc:"Last digit of heave; 0 shows all."`
	PitchBias  float64         `key:"pitch_bias_deg" unit:"deg" min:"-10" max:"10" default:"0" doc:"Fixed error of pitch."`
	PitchNoise float64         `key:"pitch_noise_deg" unit:"deg" min:"0" max:"5" default:"0.05" doc:"Standard deviation of pitch."`
	PitchDigit float64         `key:"pitch_resolution_deg" unit:"deg" min:"0" max:"5" default:"0" doc:"Last digit of pitch; 0 shows all."`
	RollBias   float64         `key:"roll_bias_deg" unit:"deg" min:"-10" max:"10" default:"0" doc:"Fixed error of roll."`
	RollNoise  float64         `key:"roll_noise_deg" unit:"deg" min:"0" max:"5" default:"0.05" doc:"Standard deviation of roll."`
	RollDigit  float64         `key:"roll_resolution_deg" unit:"deg" min:"0" max:"5" default:"0" doc:"Last digit of roll; 0 shows all."`
	Rate       float64         `key:"rate_hz" unit:"Hz" min:"0.2" max:"10" default:"10" doc:"Reports a second."`
	Delay      float64         `key:"delay_s" unit:"s" min:"0" max:"5" default:"0" doc:"Age of what is reported."`
	Outages    []outageSection `key:"outages" items:"0,32" absent:"there are none" doc:"When it says nothing."`
}

type speedLogSection struct {
	Scale      float64         `key:"scale_percent" unit:"percent" min:"-20" max:"20" default:"2" doc:"How much too much it reads."`
	Bias       float64         `key:"bias_kn" unit:"kn" min:"-2" max:"2" default:"0" doc:"Fixed error."`
	Noise      float64         `key:"noise_kn" unit:"kn" min:"0" max:"2" default:"0.1" doc:"Standard deviation from report to report."`
	Resolution float64         `key:"resolution_kn" unit:"kn" min:"0" max:"1" default:"0.1" doc:"Last digit shown; 0 shows all."`
	Rate       float64         `key:"rate_hz" unit:"Hz" min:"0.2" max:"10" default:"1" doc:"Reports a second."`
	Delay      float64         `key:"delay_s" unit:"s" min:"0" max:"5" default:"0" doc:"Age of what is reported."`
	Outages    []outageSection `key:"outages" items:"0,32" absent:"there are none" doc:"When it says nothing."`
}

type windSection struct {
	SpeedScatter float64         `key:"speed_noise_kn" unit:"kn" min:"0" max:"10" default:"0.5" doc:"Standard deviation of its speed."`
	SpeedBias    float64         `key:"speed_bias_kn" unit:"kn" min:"-10" max:"10" default:"0" doc:"Fixed error of its speed."`
	SpeedDigit   float64         `key:"speed_resolution_kn" unit:"kn" min:"0" max:"5" default:"0" doc:"Last digit of its speed; 0 shows all."`
	FromScatter  float64         `key:"direction_noise_deg" unit:"deg" min:"0" max:"45" default:"3" doc:"Standard deviation of its direction."`
	FromBias     float64         `key:"direction_bias_deg" unit:"deg" min:"-45" max:"45" default:"0" doc:"Fixed error of its direction."`
	FromDigit    float64         `key:"direction_resolution_deg" unit:"deg" min:"0" max:"45" default:"0" doc:"Last digit of its direction; 0 shows all."`
	Rate         float64         `key:"rate_hz" unit:"Hz" min:"0.2" max:"10" default:"1" doc:"Reports a second."`
	Delay        float64         `key:"delay_s" unit:"s" min:"0" max:"5" default:"0" doc:"Age of what is reported."`
	Outages      []outageSection `key:"outages" items:"0,32" absent:"there are none" doc:"When it says nothing."`
}

func (n instrumentsSection) spec(c *checker) nav.Spec {
	h, m, l, w := n.Heading, n.Motion, n.SpeedLog, n.Wind
	return nav.Spec{
		GNSS: n.GNSS.spec(c),
		Heading: nav.HeadingSpec{
			Timing: timing(c, "heading", h.Rate, h.Delay, h.Outages), Lag: h.Lag,
			Errors: nav.Errors{Bias: h.Bias * degree, Noise: h.Noise * degree, Step: h.Resolution * degree},
			Turn:   nav.Errors{Bias: h.TurnBias * degree, Noise: h.TurnNoise * degree, Step: h.TurnDigit * degree},
		},
		Motion: nav.MotionSpec{
			Timing: timing(c, "motion", m.Rate, m.Delay, m.Outages),
			Heave:  nav.Errors{Bias: m.HeaveBias, Noise: m.HeaveNoise, Step: m.HeaveDigit},
			Pitch:  nav.Errors{Bias: m.PitchBias * degree, Noise: m.PitchNoise * degree, Step: m.PitchDigit * degree},
			Roll:   nav.Errors{Bias: m.RollBias * degree, Noise: m.RollNoise * degree, Step: m.RollDigit * degree},
		},
		FishDepth: n.FishDepth.spec(c), Altimeter: n.Altimeter.spec(c), Compass: n.Compass.spec(c),
		Counter: n.Counter.spec(c), Beacon: n.Beacon.spec(c),
		SpeedLog: nav.SpeedLogSpec{
			Timing: timing(c, "speed_log", l.Rate, l.Delay, l.Outages), Scale: l.Scale / hundred,
			Errors: nav.Errors{Bias: knots(l.Bias), Noise: knots(l.Noise), Step: knots(l.Resolution)},
		},
		Wind: nav.WindSpec{
			Timing: timing(c, "wind", w.Rate, w.Delay, w.Outages),
			Speed:  nav.Errors{Bias: knots(w.SpeedBias), Noise: knots(w.SpeedScatter), Step: knots(w.SpeedDigit)},
			From:   nav.Errors{Bias: w.FromBias * degree, Noise: w.FromScatter * degree, Step: w.FromDigit * degree},
		},
	}
}
