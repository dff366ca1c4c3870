package main

import (
	"dryline/seabed"
	"dryline/seabed/units"
	"dryline/sim/exercise"
	"dryline/sonar"
	"dryline/vessel/tow"
)

// plate is two views of the same ground.
type plate struct {
	file, title string
	why         string // what to see and why, a sentence or two
	left, right view
}

// view is one half of a plate: a change to the base exercise, and the channel
// shown.
type view struct {
	caption string
	channel int
	change  func(*exercise.Exercise)

	asRecorded bool // not levelled
}

const (
	knot = units.Knot
	deg  = units.Degree
)

// plain changes nothing.
func plain(caption string) view { return view{caption: caption} }

// shown is a view of a channel after a change.
func shown(caption string, channel int, change func(*exercise.Exercise)) view {
	return view{caption: caption, channel: channel, change: change}
}

// asRecorded is the view not levelled: the counts of the recorder.
func asRecorded(v view) view {
	v.asRecorded = true
	return v
}

// with shows an effect.
func with(caption string, set func(*sonar.Effects)) view {
	return view{caption: caption, change: func(ex *exercise.Exercise) { set(&ex.Sonar.Effects) }}
}

// cable tows with so much of it.
func cable(metres float64) func(*exercise.Exercise) {
	return func(ex *exercise.Exercise) { ex.Plan.CableOut = metres }
}

var plates = []plate{
	{
		"altitude", "Height of the fish", "From low the shadows are long and the far floor is grazed; from high the shadows are short, the water column wide.",
		shown("fish low", 0, cable(23)), shown("fish high", 0, cable(9)),
	}, {
		"frequency", "Frequency", "The high channel is sharper and dies sooner: water absorbs nearly three times as much at 900 kHz, and the far floor sinks into noise.",
		shown("450 kHz", 0, soft), shown("900 kHz", 1, soft),
	}, {
		"speed", "Speed", "Twice the speed halves the pings on a thing and lifts the fish; small things are missed between pings.",
		shown("3 knots", 1, at(3, 15)), shown("9 knots", 1, at(9, 48)),
	}, {
		"weather", "Weather", "Chop at the stern moves the fish: wavy edges, doubled and missed ground, dimmed far ranges; the surface beats bubbles into the water.",
		plain("calm"), shown("twenty knots of wind", 0, blow),
	}, {
		"ripples", "Look direction over ripples", "Ripples run north and south here: seen across their crests they stripe the record, seen along them they all but vanish.",
		shown("line along the crests, looking across them", 0, nil), shown("line across the crests, looking along them", 0, eastward),
	}, {
		"range", "Range scale", "A longer range scale covers more and pings less often: coarser samples, fewer pings on a thing. The fish flies at an eighth of either, so it is towed higher for the longer one.",
		plain("50 m, fish 7 m up"), shown("100 m, fish 12 m up", 0, func(ex *exercise.Exercise) { ex.Sonar.RangeScale, ex.Plan.CableOut = 100, 8 }),
	}, {
		"gain", "Gain", "Too much gain clips: sand, gravel and rock all end at the recorder's largest count. Levelling takes the gain off again and makes such a record look tame, but what was cut off stays cut off, and rock is no brighter than sand; so this is the record as it was written.",
		asRecorded(plain("gain as it should be")), asRecorded(shown("36 dB too much", 0, func(ex *exercise.Exercise) { ex.Sonar.Channels[0].Gain = 36 })),
	}, {
		"thermocline", "Layered water", "Cold fresh water over warm salt: sound speeds up with depth and bends away from the floor, and beyond the last ray that grazes it there is nothing but noise. Nearer in, things land a little off, because the desk believes in straight rays.",
		shown("mixed water", 0, layered(1500, 1500)), shown("fresh water over salt", 0, layered(1408, 1500)),
	}, {
		"surface", "Surface echo", "The sea surface answers at a slant range equal to the depth of the fish, the more the rougher it is: an edge in the water column that follows the depth of the fish and not its height, and a haze in the shadows. The bottom track may take it for the floor, as it does here.",
		asRecorded(shown("off", 0, shallow)), asRecorded(shown("surface echo", 0, func(ex *exercise.Exercise) {
			shallow(ex)
			ex.Sea.Water.Wind = 9
			ex.Sonar.Effects.SurfaceEcho = true
		})),
	}, {
		"secondbottom", "Second bottom echo", "Over hard ground in a calm the echo goes up, comes down and is heard again, from a slant range of the height of the fish and the depth of the water together: the container stands twice.",
		shown("off", 0, hard), shown("second bottom echo", 0, func(ex *exercise.Exercise) { hard(ex); ex.Sonar.Effects.SecondBottom = true }),
	}, {
		"sounder", "Another sounder", "A sounder within hearing draws slanted dashes: its pings fall ever earlier or later in ours.",
		plain("off"), with("a sounder within hearing", func(e *sonar.Effects) {
			e.Sounders = []sonar.Sounder{{Frequency: 452e3, Interval: 0.2112, PulseLength: 0.9e-3, Level: 122}}
		}),
	}, {
		"fish", "Fish", "A school hangs in the water and throws a soft shadow, apart from it by as much as it is off the floor. A school at the depth of the fish has its shadow beyond the record.",
		plain("off"), with("a school of fish", func(e *sonar.Effects) {
			e.Schools = []sonar.School{{X: 171, Y: 196, Depth: 14.6, Length: 16, Width: 6, Height: 2.4, Density: 12, Fish: 0.25}}
		}),
	}, {
		"kelp", "Kelp", "Plants stand in the water: tufts of echo that begin before the floor does, and a floor seen through them.",
		plain("off"), with("a bed of kelp", func(e *sonar.Effects) {
			e.Kelp = []sonar.Kelp{{
				Area:   seabed.Area{Polygon: []seabed.Point{{X: 156, Y: 185}, {X: 192, Y: 185}, {X: 192, Y: 236}, {X: 156, Y: 236}}},
				Height: 3.5, Radius: 0.35, Density: 0.25, Through: 0.8,
			}}
		}),
	}, {
		"layer", "Scattering layer", "Plankton on a thermocline: a haze in the water and in the shadows from the distance of the layer outwards, rising and falling with internal waves, and the bottom track with it.",
		asRecorded(plain("off")), asRecorded(with("a layer below the fish", func(e *sonar.Effects) {
			e.Layers = []sonar.Layer{{Depth: 13.2, Thickness: 0.8, Strength: -40, Swing: 0.8, Swell: 45}}
		})),
	}, {
		"wake", "Your own wake", "On a short cable the fish swims in the bubbles the propeller leaves: the far ranges fade and the near ones fill with haze.",
		shown("short cable, no bubbles", 0, cable(6)), shown("short cable in the wake", 0, func(ex *exercise.Exercise) {
			ex.Plan.CableOut = 6
			ex.Sonar.Effects.Wake = sonar.Wake{Attenuation: 1.2, HalfLife: 60, Width: 4, Spread: 0.05, Depth: 4.5}
		}),
	}, {
		"bubbles", "Wind in the water", "Twenty knots of wind alone, with a fish that does not feel it: the wind beats bubbles into the upper water, which are heard as haze from the distance of the surface and which deafen; the first return drowns, and the bottom track goes astray.",
		asRecorded(shown("calm", 0, shallow)), asRecorded(shown("bubbles and noise of twenty knots", 0, func(ex *exercise.Exercise) {
			shallow(ex)
			ex.Sea.Water.Wind = 20 * knot
			ex.Sonar.Effects.Bubbles = sonar.Bubbles{On: true, NoiseRise: 6}
		})),
	}, {
		"seep", "Gas seep", "Bubbles rise from a point off nadir and lean with the current: a plume that begins at the floor and comes into the water column where it is nearer than the floor below the fish. It stands on one side, and the bottom track stays on the other.",
		plain("off"), with("a seep to starboard", func(e *sonar.Effects) {
			e.CurrentX, e.CurrentY = -0.03, 0.12
			e.Seeps = []sonar.Seep{{X: 155, Y: 196, Z: -17, Rise: 0.25, Width: 0.5, Strength: -16}}
		}),
	}, {
		"hum", "Electrical hum", "Mains pick-up: ripples at a fixed spacing in range, c/(4f), alike on both sides, through shadows and all, that drift from ping to ping by what the interval misses of half a period.",
		plain("off"), with("hum", func(e *sonar.Effects) { e.Hum = sonar.Hum{Level: 80, Frequency: 60, Sharpness: 4} }),
	}, {
		"drops", "Dropped pings", "Pings that never reach the recorder leave blank rows; a burst of them is a holiday.",
		plain("off"), with("dropped pings", func(e *sonar.Effects) { e.Drops = sonar.Drops{Share: 0.03, Bursts: 0.012, Length: 24} }),
	},
}

// soft is mud, where the high channel runs out of signal first.
func soft(ex *exercise.Exercise) { ex.Seabed.Base = seabed.Mud }

// shallow tows the fish nearer to the surface than to the floor.
func shallow(ex *exercise.Exercise) { ex.Plan.CableOut = 7 }

// hard is a floor of gravel under a shallow fish.
func hard(ex *exercise.Exercise) {
	ex.Seabed.Base = seabed.Gravel
	ex.Plan.CableOut = 19
	ex.Sea.Water.Wind = 0
}

// at tows at a speed with cable to match.
func at(knots, metres float64) func(*exercise.Exercise) {
	return func(ex *exercise.Exercise) { ex.Plan.Speed, ex.Plan.CableOut = knots*knot, metres }
}

// blow is twenty knots of wind and what it does to the fish and the water.
func blow(ex *exercise.Exercise) {
	ex.Sea.Water.Wind, ex.Sea.WindSpeed = 20*knot, 20*knot
	ex.Tow.Jitter = tow.JitterSpec{Heave: 0.25, Pitch: 1.5 * deg, Roll: 3 * deg, Yaw: 1.2 * deg, Period: 4}
	ex.Sonar.Effects.Bubbles = sonar.Bubbles{On: true, NoiseRise: 3}
	ex.Sonar.Effects.SurfaceEcho = true
}

// layered is water whose sound speed changes all the way down, with a fish
// flown high in it at a long range scale.
func layered(above, below float64) func(*exercise.Exercise) {
	return func(ex *exercise.Exercise) {
		ex.Sonar.RangeScale, ex.Plan.CableOut = 100, 8
		ex.Sea.Water.Cast = []sonar.CastPoint{{Depth: 0, SoundSpeed: above}, {Depth: 18, SoundSpeed: below}}
		ex.Desk.SoundSpeed = below
	}
}

// eastward runs the line across the other.
func eastward(ex *exercise.Exercise) { ex.Plan.Order = []exercise.Run{{Line: 1}} }
