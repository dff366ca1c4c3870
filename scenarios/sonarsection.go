package scenarios

import (
	"fmt"

	"dryline/sonar"
	"dryline/sonar/acoustics"
	"dryline/sonar/recorder"
)

type sonarSection struct {
	RangeScale   float64            `key:"range_scale_m" required:"true" unit:"m" min:"10" max:"1000" doc:"Range recorded on each side, by the recorder's own sound speed."`
	Samples      int                `key:"samples" min:"128" max:"8192" default:"2000" doc:"Samples per side, channel and ping."`
	Depression   float64            `key:"depression_deg" unit:"deg" min:"0" max:"80" default:"20" doc:"Axis of the vertical beam below the horizontal."`
	VerticalBeam float64            `key:"vertical_beam_deg" unit:"deg" min:"5" max:"120" default:"50" doc:"Width of the vertical beam between half-power points, one way."`
	Rays         *int               `key:"rays" min:"1" max:"31" absent:"as many as the width of the beam asks for" doc:"Rays reckoned across the beam on each side."`
	Channels     []frequencySection `key:"channels" required:"true" items:"1,4" doc:"The frequencies that sound together."`
}

type frequencySection struct {
	Name          string   `key:"name" required:"true" runes:"20" filed:"true" doc:"Name of the channel, unlike any other; part of file names."`
	Frequency     float64  `key:"frequency_khz" required:"true" unit:"kHz" min:"10" max:"2000" doc:"Centre frequency."`
	Bandwidth     float64  `key:"bandwidth_khz" unit:"kHz" min:"0" max:"500" default:"0" doc:"Bandwidth of a chirp; 0 is a pulse of one tone."`
	Pulse         float64  `key:"pulse_ms" unit:"ms" min:"0.005" max:"50" default:"0.1" doc:"Length of the pulse."`
	ArrayLength   float64  `key:"array_length_m" unit:"m" min:"0.05" max:"5" default:"0.5" doc:"Length of the array, transmitting and receiving."`
	ArrayShading  string   `key:"array_shading" enum:"shading" default:"uniform" doc:"Weights along the array: lower side lobes for a wider beam."`
	PulseShading  string   `key:"pulse_shading" enum:"shading" default:"hamming" doc:"Weights over the band of a chirp: lower side lobes in range for a longer pulse."`
	Focus         string   `key:"focus" enum:"focus" default:"none" doc:"Focus of the array: none, at focus_m, or following the echo out."`
	FocusRange    float64  `key:"focus_m" unit:"m" min:"0" max:"1000" default:"0" doc:"Range of a fixed focus."`
	SourceLevel   float64  `key:"source_level_db" unit:"dB re 1 uPa at 1 m" min:"150" max:"240" default:"210" doc:"Source level."`
	NoiseFigure   float64  `key:"noise_figure_db" unit:"dB" min:"0" max:"60" default:"8" doc:"Noise of the receiver above thermal noise."`
	RingDown      float64  `key:"ring_down_ms" unit:"ms" min:"0" max:"20" default:"0.5" doc:"Time in which the transducer falls silent by 60 dB once its pulse is out; 0 for one that is not heard in the record."`
	Gain          float64  `key:"gain_db" unit:"dB" min:"-60" max:"60" default:"0" doc:"Gain of the recorder about its nominal setting."`
	TVGSpreading  float64  `key:"tvg_spreading" min:"0" max:"60" default:"30" doc:"Time-varying gain against spreading: k in k log10(R)."`
	TVGAbsorption *float64 `key:"tvg_absorption_db_per_km" unit:"dB/km" min:"0" max:"1000" absent:"that of the exercise's water" doc:"Time-varying gain against absorption, one way."`
}

func (s sonarSection) spec(c *checker, water sonar.Sea) sonar.Spec {
	spec := sonar.Spec{
		RangeScale: s.RangeScale, Samples: s.Samples,
		Depression: s.Depression * degree, VerticalBeam: s.VerticalBeam * degree,
	}
	if s.Rays != nil {
		spec.Rays = *s.Rays
	}
	names := uniqueNames{fold: true}
	for i, p := range s.Channels {
		path := fmt.Sprintf("sonar.channels[%d]", i)
		names.check(c, path+".name", p.Name)
		p.check(c, path, s.RangeScale)
		channel := p.channel()
		if p.TVGAbsorption != nil {
			channel.TVGAbsorption = *p.TVGAbsorption
		} else if loss, err := acoustics.Absorption(water.Absorption, channel.Frequency, water.Temperature, water.Salinity, water.Depth, water.PH); err == nil {
			channel.TVGAbsorption = loss
		}
		spec.Channels = append(spec.Channels, channel)
	}
	return spec
}

func (p frequencySection) channel() sonar.Channel {
	focus := 0.0
	switch p.Focus {
	case "fixed":
		focus = p.FocusRange
	case "dynamic":
		focus = sonar.Dynamic
	}
	return sonar.Channel{
		ArrayShading: p.ArrayShading, PulseShading: p.PulseShading, Focus: focus,
		Name: p.Name, Frequency: p.Frequency * kilo, Bandwidth: p.Bandwidth * kilo, PulseLength: p.Pulse / kilo,
		ArrayLength: p.ArrayLength, SourceLevel: p.SourceLevel, NoiseFigure: p.NoiseFigure, RingDown: p.RingDown / kilo,
		Receiver: recorder.Receiver{Gain: p.Gain, TVGSpreading: p.TVGSpreading},
	}
}

// check refuses signals that cannot be sent or heard.
func (p frequencySection) check(c *checker, path string, rangeScale float64) {
	const nominal = 1500 // m/s
	frequency, bandwidth, pulse, array := path+".frequency_khz", path+".bandwidth_khz", path+".pulse_ms", path+".array_length_m"
	if c.sound(frequency, bandwidth) && p.Bandwidth > p.Frequency {
		c.fault(bandwidth, c.number(p.Bandwidth), "is more than the frequency itself", "at most "+c.number(p.Frequency)+" kHz")
	}
	if c.sound(bandwidth, pulse) && p.Bandwidth > 0 && p.Bandwidth*p.Pulse < 1 {
		c.fault(pulse, c.number(p.Pulse), "is too short for the bandwidth of a chirp", "at least "+c.number(1/p.Bandwidth)+" ms")
	}
	focus, focusRange := path+".focus", path+".focus_m"
	if c.sound(focus, focusRange) && (p.Focus == "fixed") != (p.FocusRange > 0) {
		c.fault(focusRange, c.number(p.FocusRange), "does not go with focus: "+p.Focus, "above 0 m with focus: fixed, and left out otherwise")
	}
	// A tone burst longer than a tenth of the range resolves nothing.
	if most := rangeScale / 10 * 2 / nominal * kilo; c.sound(bandwidth, pulse, "sonar.range_scale_m") && p.Bandwidth == 0 && p.Pulse > most {
		c.fault(pulse, c.number(p.Pulse), "smears a tenth of the range scale or more", "at most "+c.number(most)+" ms")
	}
	if least := 2 * nominal / (p.Frequency * kilo); c.sound(frequency, array) && p.ArrayLength < least {
		c.fault(array, c.number(p.ArrayLength), "is less than two wavelengths and makes no beam", "at least "+c.number(least)+" m")
	}
}
