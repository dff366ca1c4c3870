package scenarios

import "dryline/vessel/nav"

type fishDepthSection struct {
	Bias       float64         `key:"bias_m" unit:"m" min:"-10" max:"10" default:"0" doc:"Fixed error."`
	Noise      float64         `key:"noise_m" unit:"m" min:"0" max:"5" default:"0.03" doc:"Standard deviation from report to report."`
	Resolution float64         `key:"resolution_m" unit:"m" min:"0" max:"1" default:"0.01" doc:"Last digit shown; 0 shows all."`
	FullScale  float64         `key:"full_scale_m" unit:"m" min:"10" max:"6000" default:"100" doc:"Depth the sensor is made for."`
	Accuracy   float64         `key:"accuracy_percent" unit:"percent" min:"0" max:"5" default:"0" doc:"Calibration error in percent of full scale, the standard deviation of one draw that holds for the exercise."`
	Rate       float64         `key:"rate_hz" unit:"Hz" min:"0.2" max:"10" default:"10" doc:"Reports a second."`
	Delay      float64         `key:"delay_s" unit:"s" min:"0" max:"5" default:"0" doc:"Age of what is reported."`
	Outages    []outageSection `key:"outages" items:"0,32" absent:"there are none" doc:"When it says nothing."`
}

func (d fishDepthSection) spec(c *checker) nav.DepthSpec {
	return nav.DepthSpec{
		Timing: timing(c, "fish_depth", d.Rate, d.Delay, d.Outages), FullScale: d.FullScale, Share: d.Accuracy / hundred,
		Errors: nav.Errors{Bias: d.Bias, Noise: d.Noise, Step: d.Resolution},
	}
}

type altimeterSection struct {
	Bias       float64         `key:"bias_m" unit:"m" min:"-5" max:"5" default:"0" doc:"Fixed error."`
	Noise      float64         `key:"noise_m" unit:"m" min:"0" max:"5" default:"0.05" doc:"Standard deviation from report to report."`
	Resolution float64         `key:"resolution_m" unit:"m" min:"0" max:"1" default:"0.01" doc:"Last digit shown; 0 shows all."`
	Min        float64         `key:"min_m" unit:"m" min:"0" max:"20" default:"0.3" doc:"Least altitude it can tell."`
	Max        float64         `key:"max_m" unit:"m" min:"1" max:"1000" default:"100" doc:"Greatest altitude it can tell."`
	DropOuts   float64         `key:"drop_outs_per_min" unit:"1/min" min:"0" max:"60" default:"0" doc:"How often it loses the bottom, on average."`
	DropTime   float64         `key:"drop_out_s" unit:"s" min:"0.1" max:"120" default:"2" doc:"How long it then has none, on average."`
	FalseLocks float64         `key:"false_locks_per_min" unit:"1/min" min:"0" max:"60" default:"0" doc:"How often it locks on something in the water, on average."`
	FalseTime  float64         `key:"false_lock_s" unit:"s" min:"0.1" max:"120" default:"4" doc:"How long it then reads too little, on average."`
	Rate       float64         `key:"rate_hz" unit:"Hz" min:"0.2" max:"10" default:"10" doc:"Reports a second."`
	Delay      float64         `key:"delay_s" unit:"s" min:"0" max:"5" default:"0" doc:"Age of what is reported."`
	Outages    []outageSection `key:"outages" items:"0,32" absent:"there are none" doc:"When it says nothing."`
}

func (a altimeterSection) spec(c *checker) nav.AltimeterSpec {
	const path = "instruments.altimeter.max_m"
	if c.sound(path, "instruments.altimeter.min_m") && a.Max <= a.Min {
		c.fault(path, c.number(a.Max), "is not beyond its least altitude", "more than "+c.number(a.Min)+" m")
	}
	return nav.AltimeterSpec{
		Timing: timing(c, "altimeter", a.Rate, a.Delay, a.Outages), Min: a.Min, Max: a.Max,
		Errors:    nav.Errors{Bias: a.Bias, Noise: a.Noise, Step: a.Resolution},
		DropOut:   nav.EpisodeSpec{Rate: a.DropOuts / minute, Mean: a.DropTime},
		FalseLock: nav.EpisodeSpec{Rate: a.FalseLocks / minute, Mean: a.FalseTime},
	}
}

type compassSection struct {
	Bias       float64         `key:"bias_deg" unit:"deg" min:"-30" max:"30" default:"1.5" doc:"Fixed error of the heading."`
	Noise      float64         `key:"noise_deg" unit:"deg" min:"0" max:"10" default:"0.4" doc:"Standard deviation of the heading."`
	Resolution float64         `key:"resolution_deg" unit:"deg" min:"0" max:"5" default:"0.1" doc:"Last digit of the heading; 0 shows all."`
	PitchBias  float64         `key:"pitch_bias_deg" unit:"deg" min:"-10" max:"10" default:"0" doc:"Fixed error of pitch."`
	PitchNoise float64         `key:"pitch_noise_deg" unit:"deg" min:"0" max:"5" default:"0.2" doc:"Standard deviation of pitch."`
	PitchDigit float64         `key:"pitch_resolution_deg" unit:"deg" min:"0" max:"5" default:"0" doc:"Last digit of pitch; 0 shows all."`
	RollBias   float64         `key:"roll_bias_deg" unit:"deg" min:"-10" max:"10" default:"0" doc:"Fixed error of roll."`
	RollNoise  float64         `key:"roll_noise_deg" unit:"deg" min:"0" max:"5" default:"0.2" doc:"Standard deviation of roll."`
	RollDigit  float64         `key:"roll_resolution_deg" unit:"deg" min:"0" max:"5" default:"0" doc:"Last digit of roll; 0 shows all."`
	Rate       float64         `key:"rate_hz" unit:"Hz" min:"0.2" max:"10" default:"10" doc:"Reports a second."`
	Delay      float64         `key:"delay_s" unit:"s" min:"0" max:"5" default:"0" doc:"Age of what is reported."`
	Outages    []outageSection `key:"outages" items:"0,32" absent:"there are none" doc:"When it says nothing."`
}

func (f compassSection) spec(c *checker) nav.CompassSpec {
	return nav.CompassSpec{
		Timing: timing(c, "compass", f.Rate, f.Delay, f.Outages),
		Errors: nav.Errors{Bias: f.Bias * degree, Noise: f.Noise * degree, Step: f.Resolution * degree},
		Pitch:  nav.Errors{Bias: f.PitchBias * degree, Noise: f.PitchNoise * degree, Step: f.PitchDigit * degree},
		Roll:   nav.Errors{Bias: f.RollBias * degree, Noise: f.RollNoise * degree, Step: f.RollDigit * degree},
	}
}

type counterSection struct {
	Scale      float64         `key:"scale_percent" unit:"percent" min:"-20" max:"20" default:"0.5" doc:"How much too much it reads."`
	Slip       float64         `key:"slip_percent" unit:"percent" min:"0" max:"20" default:"0" doc:"Share of the cable hauled that it misses; the error grows with every haul."`
	Offset     float64         `key:"offset_m" unit:"m" min:"-50" max:"50" default:"0" doc:"What it reads with the fish at the sheave; zeroed at the water line, less than 0 by the sheave's height."`
	Noise      float64         `key:"noise_m" unit:"m" min:"0" max:"2" default:"0" doc:"Standard deviation from report to report."`
	Resolution float64         `key:"resolution_m" unit:"m" min:"0" max:"5" default:"0.1" doc:"Last digit shown; 0 shows all."`
	Rate       float64         `key:"rate_hz" unit:"Hz" min:"0.2" max:"10" default:"10" doc:"Reports a second."`
	Delay      float64         `key:"delay_s" unit:"s" min:"0" max:"5" default:"0" doc:"Age of what is reported."`
	Outages    []outageSection `key:"outages" items:"0,32" absent:"there are none" doc:"When it says nothing."`
}

func (k counterSection) spec(c *checker) nav.CounterSpec {
	return nav.CounterSpec{
		Timing: timing(c, "counter", k.Rate, k.Delay, k.Outages), Scale: k.Scale / hundred, Slip: k.Slip / hundred,
		Errors: nav.Errors{Bias: k.Offset, Noise: k.Noise, Step: k.Resolution},
	}
}

type beaconSection struct {
	On          bool              `key:"on" default:"false" doc:"Whether the fish carries one."`
	Accuracy    float64           `key:"accuracy_percent" unit:"percent" min:"0" max:"20" default:"1" doc:"Standard deviation of each axis in percent of the slant range."`
	Noise       float64           `key:"noise_m" unit:"m" min:"0" max:"20" default:"0" doc:"Standard deviation of each axis besides, whatever the range."`
	Resolution  float64           `key:"resolution_m" unit:"m" min:"0" max:"5" default:"0" doc:"Last digit of each axis; 0 shows all."`
	Forward     float64           `key:"bias_forward_m" unit:"m" min:"-20" max:"20" default:"0" doc:"Fixed error forward."`
	Starboard   float64           `key:"bias_starboard_m" unit:"m" min:"-20" max:"20" default:"0" doc:"Fixed error to starboard."`
	Down        float64           `key:"bias_down_m" unit:"m" min:"-20" max:"20" default:"0" doc:"Fixed error downward."`
	Align       float64           `key:"misaligned_deg" unit:"deg" min:"-20" max:"20" default:"0" doc:"How far the transducer is turned to starboard from where it is thought to stand."`
	Outliers    float64           `key:"outliers_percent" unit:"percent" min:"0" max:"50" default:"2" doc:"Answers that are taken for what they are not."`
	OutlierSize float64           `key:"outlier_size_percent" unit:"percent" min:"1" max:"200" default:"25" doc:"How far off those are on average, in percent of the slant range."`
	DropOuts    float64           `key:"drop_outs_percent" unit:"percent" min:"0" max:"100" default:"3" doc:"Calls that are not answered."`
	Rate        float64           `key:"rate_hz" unit:"Hz" min:"0.05" max:"10" default:"1" doc:"Calls a second."`
	Delay       float64           `key:"delay_s" unit:"s" min:"0" max:"5" default:"0.1" doc:"Age of what is reported."`
	Outages     []outageSection   `key:"outages" items:"0,32" absent:"there are none" doc:"When it says nothing."`
	Transducer  transducerSection `key:"transducer" doc:"Where the transducer hangs, from the vessel's origin."`
}

type transducerSection struct {
	Forward   float64 `key:"forward_m" unit:"m" min:"-100" max:"100" default:"0" doc:"Forward; negative is aft."`
	Starboard float64 `key:"starboard_m" unit:"m" min:"-50" max:"50" default:"1.8" doc:"To starboard; negative is to port."`
	Down      float64 `key:"down_m" unit:"m" min:"0" max:"30" default:"1.5" doc:"Below the still water."`
}

func (b beaconSection) spec(c *checker) nav.BeaconSpec {
	return nav.BeaconSpec{
		Timing: timing(c, "beacon", b.Rate, b.Delay, b.Outages), Fitted: b.On,
		Forward: b.Transducer.Forward, Starboard: b.Transducer.Starboard, Down: b.Transducer.Down,
		BiasForward: b.Forward, BiasStarboard: b.Starboard, BiasDown: b.Down, Align: b.Align * degree,
		Noise: b.Noise, Step: b.Resolution,
		Share: b.Accuracy / hundred, Outliers: b.Outliers / hundred, OutlierSize: b.OutlierSize / hundred, DropOuts: b.DropOuts / hundred,
	}
}
