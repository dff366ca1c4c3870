package scenarios

import "dryline/vessel/nav"

type instrumentsSection struct {
	GNSSDrift     float64 `key:"gnss_drift_m" unit:"m" min:"0" max:"20" default:"0.25" doc:"Standard deviation of the slow error of the fix, each axis."`
	GNSSDriftTime float64 `key:"gnss_drift_time_s" unit:"s" min:"1" max:"7200" default:"120" doc:"Correlation time of that error."`
	GNSSNoise     float64 `key:"gnss_noise_m" unit:"m" min:"0" max:"20" default:"0.05" doc:"Standard deviation from fix to fix, each axis."`
	HeadingBias   float64 `key:"heading_bias_deg" unit:"deg" min:"-20" max:"20" default:"0.4" doc:"Fixed error of the vessel's heading."`
	HeadingNoise  float64 `key:"heading_noise_deg" unit:"deg" min:"0" max:"10" default:"0.15" doc:"Standard deviation of the heading."`
	SpeedNoise    float64 `key:"speed_noise_kn" unit:"kn" min:"0" max:"2" default:"0.05" doc:"Standard deviation of the speed over ground, each axis."`
	CounterScale  float64 `key:"counter_scale_percent" unit:"percent" min:"-20" max:"20" default:"0.5" doc:"How much too much the cable counter reads."`
	DepthBias     float64 `key:"depth_bias_m" unit:"m" min:"-10" max:"10" default:"0" doc:"Fixed error of the fish's depth."`
	DepthNoise    float64 `key:"depth_noise_m" unit:"m" min:"0" max:"5" default:"0.03" doc:"Standard deviation of the fish's depth."`
	AltitudeNoise float64 `key:"altitude_noise_m" unit:"m" min:"0" max:"5" default:"0.05" doc:"Standard deviation of the fish's altimeter."`
	CompassBias   float64 `key:"compass_bias_deg" unit:"deg" min:"-30" max:"30" default:"1.5" doc:"Fixed error of the fish's compass."`
	CompassNoise  float64 `key:"compass_noise_deg" unit:"deg" min:"0" max:"10" default:"0.4" doc:"Standard deviation of the fish's compass."`
}

func (n instrumentsSection) spec() nav.Spec {
	return nav.Spec{
		GNSSDrift: n.GNSSDrift, GNSSDriftTime: n.GNSSDriftTime, GNSSNoise: n.GNSSNoise,
		HeadingBias: n.HeadingBias * degree, HeadingNoise: n.HeadingNoise * degree,
		SpeedNoise: knots(n.SpeedNoise), CounterScale: n.CounterScale / hundred,
		DepthBias: n.DepthBias, DepthNoise: n.DepthNoise, AltitudeNoise: n.AltitudeNoise,
		CompassBias: n.CompassBias * degree, CompassNoise: n.CompassNoise * degree,
	}
}
