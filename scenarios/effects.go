package scenarios

import (
	"fmt"

	"dryline/sim/exercise"
	"dryline/sonar"
)

type effectsSection struct {
	SurfaceEcho   bool             `key:"surface_echo" default:"false" doc:"Whether the sea surface answers: from the slant range of the fish's depth outwards, more in a wind."`
	SurfaceGhosts bool             `key:"surface_ghosts" default:"false" doc:"Whether the floor answers again by way of the surface, a little later; most in a calm."`
	SecondBottom  bool             `key:"second_bottom" default:"false" doc:"Whether the floor answers again after the sound has gone to surface and floor once more; most over hard ground in a calm."`
	CrossTalk     float64          `key:"cross_talk_db" unit:"dB" min:"-90" max:"-10" absent:"there is none" doc:"Level at which either side hears the other, below what the other hears itself."`
	Bubbles       bubblesSection   `key:"surface_bubbles" doc:"Bubbles that the wind beats into the water; none if left out."`
	Wake          wakeSection      `key:"wake" doc:"The vessel's own bubbly wake; none if left out."`
	Sounders      []sounderSection `key:"sounders" items:"0,8" absent:"there are none" doc:"Other vessels' sounders within hearing."`
	Schools       []schoolSection  `key:"fish_schools" items:"0,64" absent:"there are none" doc:"Schools of fish, which stay where they are."`
	Kelp          []kelpSection    `key:"kelp" items:"0,16" absent:"there is none" doc:"Forests of kelp."`
	Seeps         []seepSection    `key:"gas_seeps" items:"0,64" absent:"there are none" doc:"Columns of gas bubbles that rise from the floor and lean with the current."`
	Springs       []springSection  `key:"fresh_springs" items:"0,64" absent:"there are none" doc:"Places where fresh water wells up from the floor: smooth plumes that widen and fade."`
	Layers        []layerSection   `key:"layers" items:"0,8" absent:"there are none" doc:"Level layers in the water that scatter."`
	Hum           humSection       `key:"mains_hum" doc:"Noise the receiver picks up from the mains; none if left out."`
	Drops         dropsSection     `key:"lost_pings" doc:"Pings that never reach the recorder, which leaves their rows blank; none if left out."`
}

type bubblesSection struct {
	NoiseRise float64 `key:"noise_rise_db" unit:"dB" min:"0" max:"40" default:"3" doc:"What breaking waves add to the noise of the receiver."`
}

type wakeSection struct {
	Attenuation float64  `key:"attenuation_db_per_m" unit:"dB/m" above:"0" max:"20" default:"1" doc:"Loss of sound, one way, in the fresh wake."`
	HalfLife    float64  `key:"half_life_s" unit:"s" min:"5" max:"1200" default:"60" doc:"Time in which half of the bubbles are gone."`
	Width       *float64 `key:"width_m" unit:"m" min:"0.5" max:"60" absent:"the vessel's beam" doc:"Width of the fresh wake."`
	Spread      float64  `key:"spread_m_s" unit:"m/s" min:"0" max:"1" default:"0.03" doc:"How fast it widens."`
	Depth       *float64 `key:"depth_m" unit:"m" min:"0.2" max:"30" absent:"twice the vessel's draft" doc:"How deep the bubbles reach."`
}

type sounderSection struct {
	Frequency float64 `key:"frequency_khz" required:"true" unit:"kHz" min:"10" max:"2000" doc:"Its frequency; far from a channel's, it is not heard there."`
	Interval  float64 `key:"interval_ms" required:"true" unit:"ms" min:"5" max:"60000" doc:"Time between its pings."`
	Pulse     float64 `key:"pulse_ms" unit:"ms" min:"0.01" max:"100" default:"1" doc:"Length of its pulse."`
	Level     float64 `key:"level_db" unit:"dB re 1 uPa" min:"40" max:"200" default:"105" doc:"Level at our receiver."`
	Offset    float64 `key:"offset_ms" unit:"ms" min:"0" max:"60000" default:"0" doc:"Time of its first ping after the start."`
}

type schoolSection struct {
	At      [2]float64 `key:"at" required:"true" unit:"m" min:"-10000" max:"15000" doc:"Its middle, east and north."`
	Depth   float64    `key:"depth_m" required:"true" unit:"m" min:"0.5" max:"500" doc:"Depth of its middle."`
	Length  float64    `key:"length_m" unit:"m" min:"0.5" max:"500" default:"10" doc:"Length along the heading."`
	Width   float64    `key:"width_m" unit:"m" min:"0.5" max:"500" default:"6" doc:"Width."`
	Height  float64    `key:"height_m" unit:"m" min:"0.2" max:"100" default:"2.5" doc:"Height."`
	Heading float64    `key:"heading_deg" unit:"deg" min:"0" max:"360" default:"0" doc:"Grid bearing of its long axis."`
	Density float64    `key:"fish_per_m3" unit:"1/m^3" min:"0.01" max:"500" default:"4" doc:"Fish to the cubic metre."`
	Fish    float64    `key:"fish_length_cm" unit:"cm" min:"1" max:"300" default:"25" doc:"Length of one fish."`
}

type kelpSection struct {
	Area    [][2]float64 `key:"area" required:"true" items:"3,200" unit:"m" min:"-10000" max:"15000" doc:"Corners of the forest, east and north."`
	Height  float64      `key:"height_m" unit:"m" min:"0.2" max:"60" default:"4" doc:"Height of a full-grown plant."`
	Leaves  float64      `key:"leaves_m" unit:"m" min:"0.05" max:"2" default:"0.25" doc:"How far the leaves reach from the stalk."`
	Density float64      `key:"plants_per_m2" unit:"1/m^2" min:"0.01" max:"5" default:"0.4" doc:"Plants to the square metre."`
	Through float64      `key:"lets_through_percent" unit:"percent" min:"0" max:"100" default:"60" doc:"Share of the sound that one plant lets through, one way."`
}

type seepSection struct {
	At       [2]float64 `key:"at" required:"true" unit:"m" min:"-10000" max:"15000" doc:"Where it leaves the floor, east and north."`
	Rise     float64    `key:"rise_m_s" unit:"m/s" min:"0.05" max:"1" default:"0.23" doc:"How fast the bubbles rise."`
	Width    float64    `key:"width_m" unit:"m" min:"0" max:"20" default:"0.4" doc:"Width of the column at the floor; it doubles by ten metres up."`
	Strength float64    `key:"strength_db" unit:"dB re 1 m^2" min:"-80" max:"20" default:"-28" doc:"Target strength of one metre of the column."`
}

type springSection struct {
	At       [2]float64 `key:"at" required:"true" unit:"m" min:"-10000" max:"15000" doc:"Where it leaves the floor, east and north."`
	Rise     float64    `key:"rise_m_s" unit:"m/s" min:"0.02" max:"3" default:"0.3" doc:"How fast the water leaves the floor."`
	Width    float64    `key:"width_m" unit:"m" min:"0.1" max:"20" default:"0.8" doc:"Width of the mouth."`
	Strength float64    `key:"strength_db" unit:"dB re 1 m^-1" min:"-90" max:"0" default:"-40" doc:"Volume scattering strength at the mouth."`
}

type layerSection struct {
	Depth     float64 `key:"depth_m" required:"true" unit:"m" min:"0.5" max:"500" doc:"Depth of its middle."`
	Thickness float64 `key:"thickness_m" unit:"m" min:"0.05" max:"50" default:"1" doc:"Thickness."`
	Strength  float64 `key:"strength_db" unit:"dB re 1 m^-1" min:"-110" max:"-20" default:"-55" doc:"Volume scattering strength in its middle."`
	Swing     float64 `key:"swing_m" unit:"m" min:"0" max:"20" default:"0" doc:"Amplitude of the internal waves on it."`
	Swell     float64 `key:"swell_m" unit:"m" min:"5" max:"5000" default:"100" doc:"Length of the internal waves."`
}

type humSection struct {
	Level     float64 `key:"level_db" unit:"dB re 1 uPa" above:"0" max:"200" default:"78" doc:"Mean level, as if it came in at the receiver."`
	Frequency float64 `key:"frequency_hz" unit:"Hz" min:"10" max:"1000" default:"50" doc:"Frequency of the mains; lines stand at every half period."`
	Sharpness float64 `key:"sharpness" min:"1" max:"100" default:"4" doc:"How narrow the lines are: 1 is a plain ripple."`
}

type dropsSection struct {
	Share  float64 `key:"single_percent" unit:"percent" min:"0" max:"100" default:"1" doc:"Share of pings lost one by one."`
	Bursts float64 `key:"bursts_per_1000" min:"0" max:"1000" default:"0" doc:"Runs of lost pings that begin in a thousand pings."`
	Length int     `key:"longest_burst" min:"2" max:"64" default:"10" doc:"Longest run; they are 2 to this long."`
}

// effects gathers what spoils the record. A section by itself is off unless the
// file gives it.
func (f *exerciseFile) effects(c *checker, sea exercise.Sea) sonar.Effects {
	s := &f.Effects
	fx := sonar.Effects{SurfaceEcho: s.SurfaceEcho, SurfaceGhosts: s.SurfaceGhosts, SecondBottom: s.SecondBottom, CrossTalk: s.CrossTalk}
	if c.given("effects.surface_bubbles") {
		fx.Bubbles = sonar.Bubbles{On: true, NoiseRise: s.Bubbles.NoiseRise}
	}
	if c.given("effects.wake") {
		fx.Wake = s.Wake.wake(f.Vessel)
	}
	for _, o := range s.Sounders {
		fx.Sounders = append(fx.Sounders, sonar.Sounder{
			Frequency: o.Frequency * kilo, Interval: o.Interval / kilo, PulseLength: o.Pulse / kilo, Level: o.Level, Offset: o.Offset / kilo,
		})
	}
	s.inWater(c, f, &fx)
	fx.CurrentX, fx.CurrentY = sea.Current.At(0)
	if c.given("effects.mains_hum") {
		fx.Hum = sonar.Hum{Level: s.Hum.Level, Frequency: s.Hum.Frequency, Sharpness: s.Hum.Sharpness}
	}
	if c.given("effects.lost_pings") {
		fx.Drops = sonar.Drops{Share: s.Drops.Share / hundred, Bursts: s.Drops.Bursts / kilo, Length: s.Drops.Length}
	}
	return fx
}

func (w wakeSection) wake(v vesselSection) sonar.Wake {
	out := sonar.Wake{Attenuation: w.Attenuation, HalfLife: w.HalfLife, Width: v.Beam, Spread: w.Spread, Depth: 2 * v.Draft}
	if w.Width != nil {
		out.Width = *w.Width
	}
	if w.Depth != nil {
		out.Depth = *w.Depth
	}
	return out
}

// inWater adds what hangs in the water, and refuses what is not in it.
func (s *effectsSection) inWater(c *checker, f *exerciseFile, fx *sonar.Effects) {
	within := func(path string, at [2]float64) {
		if c.sound(path, "seabed.east_m", "seabed.north_m") {
			c.inWorld(path, at)
		}
	}
	for i, o := range s.Schools {
		path := fmt.Sprintf("effects.fish_schools[%d]", i)
		within(path+".at", o.At)
		if c.sound(path+".depth_m", path+".height_m") && o.Depth < o.Height/2 {
			c.fault(path+".depth_m", c.number(o.Depth), "lets the school out of the water", "at least half its height of "+c.number(o.Height)+" m")
		}
		if c.sound(path+".at", path+".depth_m", "seabed") {
			if deep := c.depthAt(o.At[0], o.At[1]); o.Depth > deep {
				c.fault(path+".depth_m", c.number(o.Depth), "puts the school under the floor", "less than the depth of about "+c.number(deep)+" m there")
			}
		}
		fx.Schools = append(fx.Schools, sonar.School{
			X: o.At[0], Y: o.At[1], Depth: o.Depth, Length: o.Length, Width: o.Width, Height: o.Height,
			Heading: o.Heading * degree, Density: o.Density, Fish: o.Fish / hundred,
		})
	}
	for i, o := range s.Kelp {
		c.polygon(fmt.Sprintf("effects.kelp[%d].area", i), o.Area)
		kelp := sonar.Kelp{Height: o.Height, Radius: o.Leaves, Density: o.Density, Through: o.Through / hundred}
		kelp.Area.Polygon = points(o.Area)
		fx.Kelp = append(fx.Kelp, kelp)
	}
	for i, o := range s.Seeps {
		within(fmt.Sprintf("effects.gas_seeps[%d].at", i), o.At)
		fx.Seeps = append(fx.Seeps, sonar.Seep{X: o.At[0], Y: o.At[1], Rise: o.Rise, Width: o.Width, Strength: o.Strength})
	}
	for i, o := range s.Springs {
		within(fmt.Sprintf("effects.fresh_springs[%d].at", i), o.At)
		fx.Springs = append(fx.Springs, sonar.Spring{X: o.At[0], Y: o.At[1], Rise: o.Rise, Width: o.Width, Strength: o.Strength})
	}
	for _, o := range s.Layers {
		fx.Layers = append(fx.Layers, sonar.Layer{Depth: o.Depth, Thickness: o.Thickness, Strength: o.Strength, Swing: o.Swing, Swell: o.Swell})
	}
}
