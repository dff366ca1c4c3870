package main

import (
	"dryline/seabed"
	"dryline/sim/exercise"
	"dryline/sonar"
	"dryline/vessel/tow"
)

// pairs are things that look alike, side by side, with the fact that tells them
// apart; the tests measure each fact on the record.
var pairs = []plate{
	{
		"school", "School or boulder", "A boulder's shadow begins at its echo. A school hangs clear of the floor, so bright floor lies between it and its shadow; and on the second pass the school is gone and the boulder is not.",
		shown("first pass", 0, sand(schoolAndBoulder, func(ex *exercise.Exercise) {
			ex.Sonar.Effects.Schools = []sonar.School{school}
		})),
		shown("second pass, the school has left", 0, sand(schoolAndBoulder)),
	}, {
		"span", "Free span or resting pipe", "The shadow of a pipe that rests begins at the pipe. Where the pipe hangs free, floor is seen under it: with the fish h up and the pipe at slant range R, a gap of g between pipe and shadow means a clearance of h g/(R+g).",
		shown("pipe at rest", 0, sand(pipe())), shown("pipe with a span 1.2 m clear", 0, sand(pipe(seabed.Span{From: 18, To: 58, Height: spanHeight}))),
	}, {
		"scar", "Scar or cable", "A cable stands up: bright first, then its shadow. A scar is cut in: its near side lies in shadow, its far side faces the sonar, so dark comes first, but for a faint berm.",
		shown("anchor scar", 0, sand(scar)), shown("cable on the floor", 0, sand(cableOnFloor)),
	}, {
		"trawl", "Trawl marks or yaw", "The two marks of a trawl keep their distance from each other on both sides of nadir and go their own way over the ground. What yaw does lies along the ping, out to the far ranges where it is worst: the turn that carries the beam away from its echo on one side carries it back on the other, so one side is dark while the other is bright.",
		shown("trawl marks across the track", 0, sand(trawl)), shown("a fish that yaws", 0, sand(func(ex *exercise.Exercise) {
			ex.Tow.Jitter = tow.JitterSpec{Yaw: 4 * deg, Period: 4}
		})),
	}, {
		"pit", "Pockmark or tyre", "A pit is dark on the near side and bright on the far side, and throws nothing beyond itself. A tyre is bright first, and its shadow lies beyond.",
		shown("pockmarks", 0, sand(high, pockmarks)), shown("tyres", 0, sand(high, tyres)),
	}, {
		"mound", "Mound or pockmark", "What stands up faces the sonar first: bright, then dark. A pit shows its far side: dark, then bright. A tyre is bright first too: what tells a mound from it is that its bright face is broad and dim, for it is of the same ground.",
		shown("mounds", 0, sand(high, mounds)), shown("pockmarks", 0, sand(high, pockmarks)),
	}, {
		"dump", "Rock dump or rock", "A dump lies as it was tipped: its crest is straight and equally high from end to end, so the end of its shadow is a straight line too, and its foot frays out into single stones. Rock has ridges in no order and shadows of every length.",
		shown("rock dumped in a ridge", 0, sand(dump)), shown("outcrop", 0, sand(outcrop)),
	}, {
		"spoil", "Spoil or gravel", "Loads of spoil fall in discs, one over another and much of a size, without any relief of their own. A lag of gravel has a border with structure at every scale, and carries ripples that are its own: they end where it ends.",
		shown("spoil on sand", 0, sand(spoil)), shown("gravel with its ripples", 0, sand(lag)),
	}, {
		"meadow", "Seagrass or shells", "Both are bright and ragged. Where the sea has torn a hole into a meadow the sand lies deeper: on the near side of the hole it is in shadow, and one of its edges is a step. Shells lie flat on the sand, and next to a blot of them the sand is as bright as anywhere.",
		shown("seagrass with blow-outs", 0, sand(meadow)), shown("blots of shells", 0, sand(shells)),
	}, {
		"trail", "Trail or shadow", "A shadow points away from the fish, to port on the one side and to starboard on the other. The trail that a current leaves behind a stone points down the current on both sides, and it is ground: brighter or dimmer than what is about it, never black.",
		shown("boulders, a current to the north-east", 0, sand(stones, trails)), shown("boulders alone", 0, sand(stones)),
	}, {
		"ghost", "Ghost or target", "Sound that goes out straight and comes home by way of the surface, or the other way round, draws a strong target again at half the sum of the two ways. A ghost has no shadow of its own and may lie where nothing can: in the shadow of the target.",
		shown("a container", 0, sand(container, calm)), shown("a container and its ghost", 0, sand(container, calm, func(ex *exercise.Exercise) {
			ex.Sonar.Effects.SurfaceGhosts = true
		})),
	}, {
		"crosstalk", "Cross-talk or target", "What leaks from one side of the sonar into the other repeats a strong target there: in the same pings, at the same slant range, and without a shadow of its own. Two things that lie so by chance each have theirs.",
		shown("a container to starboard, cross-talk to port", 0, sand(container, func(ex *exercise.Exercise) {
			ex.Sonar.Effects.CrossTalk = crossTalk
		})), shown("a container on either side", 0, sand(container, containerToPort)),
	}, {
		"plume", "Gas or fresh water", "Both rise from a point on the floor and stand, off nadir, in the water on one side alone. Gas comes in puffs: a thread of bright grains. Fresh water mixes with the salt as it rises: a smooth cone, which widens and fades upwards, that is towards the fish.",
		shown("a gas seep to starboard", 0, sand(wideWater, gas)), shown("a fresh-water spring to starboard", 0, sand(wideWater, spring)),
	}, {
		"turned", "Ripples or hum", "Ripples belong to the ground: on another heading they lie otherwise in the record. Hum belongs to the receiver: whatever the heading, it stays at its spacing in range.",
		shown("heading north: ripples and hum", 0, sand(ripplesAndHum)), shown("heading 050: ripples and hum", 0, sand(ripplesAndHum, turned)),
	}, {
		"edge", "Edge of the rays or change of sediment", "In water that speeds up with depth the record ends where the last ray grazes the floor: at the same range on both sides, all along the line. A change of sediment lies where it lies.",
		shown("sound bent away from the floor", 0, sand(bentAway)), shown("sand beside mud", 0, sand(mudBeyond)),
	}, {
		"hulk", "Hulk or outcrop", "A hulk is as long and as wide as a hull, straight-sided, its shadow one piece with an outline. An outcrop has ridges in no order, many shadows, and no end that looks made.",
		shown("hulk", 0, sand(hulk)), shown("outcrop", 0, sand(outcrop)),
	}, {
		"ranges", "The same car, near and far, and turned", "Near nadir a car is short of shadow and lost in the floor; in the middle it is best seen; far out it is coarse and its shadow runs off the record. Broadside on it answers loudest, end on its shadow is narrow.",
		shown("at 15, 50 and 90 % of the range scale", 0, sand(carsByRange)), shown("headings 000, 045, 090 and 135", 0, sand(carsByHeading)),
	}, {
		"notseen", "Not seen", "Nothing shows a thing that lies in a shadow, and next to nothing one that lies under the fish: the first return comes a little sooner. Here is one tyre in the open and one in the shadow of a container; and one block at nadir and one abreast of it. 'Not seen' is the right answer, and another line the remedy.",
		shown("a tyre in the open, one in a shadow", 0, sand(tyreInShadow)), shown("a block at nadir, one to starboard", 0, sand(blockAtNadir)),
	},
}

// sand is a short line over plain sand with little on it, changed as told.
func sand(changes ...func(*exercise.Exercise)) func(*exercise.Exercise) {
	return func(ex *exercise.Exercise) {
		s := &ex.Seabed
		s.Relief = seabed.Relief{Height: 0.1, Wavelength: 90, Octaves: 2}
		s.Bedforms, s.Patches, s.Objects, s.Base = nil, nil, nil, seabed.MediumSand
		ex.Lines[0].A, ex.Lines[0].B = seabed.Point{X: 150, Y: 150}, seabed.Point{X: 150, Y: 226}
		ex.Plan.RunIn = 30
		ex.Sonar.Channels = ex.Sonar.Channels[:1]
		for _, change := range changes {
			change(ex)
		}
	}
}

// on puts things on the floor.
func on(objects ...seabed.Object) func(*exercise.Exercise) {
	return func(ex *exercise.Exercise) { ex.Seabed.Objects = append(ex.Seabed.Objects, objects...) }
}

// box is an area from corner to corner.
func box(x0, y0, x1, y1, feather float64) seabed.Area {
	return seabed.Area{Polygon: []seabed.Point{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}, Feather: feather}
}

// high takes the high channel for the low one.
func high(ex *exercise.Exercise) {
	ex.Sonar.Channels = ex.Sonar.Channels[1:2]
	ex.Sonar.RangeScale, ex.Plan.CableOut = 30, 20
}

func calm(ex *exercise.Exercise) { ex.Sea.Water.Wind = 0 }

var (
	school           = sonar.School{X: 171, Y: 205, Depth: 14.6, Length: 11, Width: 5, Height: 2.2, Density: 12, Fish: 0.25}
	schoolAndBoulder = on(seabed.Object{Name: "boulder", Kind: "boulder", At: seabed.Point{X: 171, Y: 178}, Length: 4, Width: 3, Height: 1.6})
)

// spanHeight is the clearance of the span, metres.
const spanHeight = 1.2

// pipe lies along the line, with the spans.
func pipe(spans ...seabed.Span) func(*exercise.Exercise) {
	return func(ex *exercise.Exercise) {
		ex.Seabed.Pipelines = []seabed.Pipeline{{
			Name: "pipe", Path: []seabed.Point{{X: 167, Y: 148}, {X: 167, Y: 234}}, Diameter: 0.5, Burial: 0.05, Spans: spans,
		}}
	}
}

func scar(ex *exercise.Exercise) {
	ex.Seabed.Bedforms = []seabed.Bedform{{
		Kind: seabed.Scars, Area: box(166, 180, 174, 196, 0), Height: 0.5, Crest: 10 * deg, Wander: 0.4, Count: 1, Length: 90, Width: 1.6,
	}}
}

func cableOnFloor(ex *exercise.Exercise) {
	ex.Seabed.Pipelines = []seabed.Pipeline{{
		Name: "cable", Path: []seabed.Point{{X: 164, Y: 146}, {X: 168, Y: 170}, {X: 171, Y: 200}, {X: 170, Y: 232}}, Diameter: 0.25,
	}}
}

// trawlSpacing is how far apart the marks of the trawl are, metres.
const trawlSpacing = 12

func trawl(ex *exercise.Exercise) {
	ex.Seabed.Bedforms = []seabed.Bedform{{
		Kind: seabed.Trawl, Area: box(148, 184, 152, 192, 0), Height: 0.35, Crest: 70 * deg, Count: 1, Length: 180, Width: 1.3, Spacing: trawlSpacing,
	}}
}

func pockmarks(ex *exercise.Exercise) {
	ex.Seabed.Bedforms = []seabed.Bedform{{
		Kind: seabed.Pockmarks, Area: box(158, 156, 168, 222, 0), Height: 0.5, Count: 5, Width: 2.6,
	}}
}

// mounds are heaped up by animals, large ones.
func mounds(ex *exercise.Exercise) {
	ex.Seabed.Bedforms = []seabed.Bedform{{
		Kind: seabed.Mounds, Area: box(158, 156, 170, 222, 0), Height: 0.3, Density: 0.012, Width: 2.4,
	}}
}

func dump(ex *exercise.Exercise) {
	ex.Seabed.Patches = []seabed.Patch{{Class: seabed.Rock, Area: box(169.9, 189.9, 170.1, 190.1, 0), Marks: seabed.Marks{
		Kind: seabed.Heaps, Count: 1, Length: 46, Width: 7, Along: 4 * deg, Height: 1.1,
	}}}
}

func spoil(ex *exercise.Exercise) {
	ex.Seabed.Patches = []seabed.Patch{{Class: seabed.Gravel, Area: box(160, 155, 192, 222, 0), Marks: seabed.Marks{
		Kind: seabed.Discs, Count: 16, Length: 10,
	}}}
}

// lagWave is the wavelength of the ripples on gravel, metres.
const lagWave = 1.2

func lag(ex *exercise.Exercise) {
	area := box(158, 150, 194, 226, 10)
	area.Bare, area.Patchiness = 0.4, 22
	ex.Seabed.Patches = []seabed.Patch{{Class: seabed.Gravel, Area: area}}
	ex.Seabed.Bedforms = []seabed.Bedform{{Kind: seabed.Waves, On: seabed.Gravel, Height: 0.14, Wavelength: lagWave, Wander: 0.1}}
}

// holeDepth is how deep the blow-outs lie in the meadow, metres.
const holeDepth = 0.5

func meadow(ex *exercise.Exercise) {
	ex.Seabed.Patches = []seabed.Patch{
		{Class: seabed.Seagrass, Area: box(156, 144, 194, 232, 8)},
		{Class: seabed.MediumSand, Area: box(166, 160, 184, 220, 0), Marks: seabed.Marks{
			Kind: seabed.Depressions, Count: 5, Length: 14, Width: 7, Along: 80 * deg, Depth: holeDepth,
		}},
	}
}

func shells(ex *exercise.Exercise) {
	ex.Seabed.Patches = []seabed.Patch{{Class: seabed.ShellBed, Area: box(158, 152, 194, 226, 0), Marks: seabed.Marks{
		Kind: seabed.Blots, Count: 22, Length: 7,
	}}}
}

func stones(ex *exercise.Exercise) {
	for _, o := range boulders {
		o.Kind, o.Length, o.Width, o.Height = "boulder", 2.6, 2, 0.9
		ex.Seabed.Objects = append(ex.Seabed.Objects, o)
	}
}

var boulders = []seabed.Object{
	{Name: "a", At: seabed.Point{X: 168, Y: 166}}, {Name: "b", At: seabed.Point{X: 172, Y: 196}},
	{Name: "c", At: seabed.Point{X: 134, Y: 172}}, {Name: "d", At: seabed.Point{X: 128, Y: 200}},
}

// trailBearing is where the current sets that leaves them, trailLength how long they are.
const (
	trailBearing = 40 * deg
	trailLength  = 14 // metres
)

func trails(ex *exercise.Exercise) {
	ex.Seabed.Patches = []seabed.Patch{{Class: seabed.Gravel, Marks: seabed.Marks{Kind: seabed.Trails, Length: trailLength, Along: trailBearing}}}
}

func tyres(ex *exercise.Exercise) {
	on(
		seabed.Object{Name: "a", Kind: "tyre", At: seabed.Point{X: 160, Y: 166}},
		seabed.Object{Name: "b", Kind: "tyre", At: seabed.Point{X: 166, Y: 184}},
		seabed.Object{Name: "c", Kind: "tyre", At: seabed.Point{X: 162, Y: 202}},
		seabed.Object{Name: "d", Kind: "tyre", At: seabed.Point{X: 169, Y: 214}},
	)(ex)
}

var container = on(seabed.Object{Name: "container", Kind: "container", At: seabed.Point{X: 172, Y: 190}})

var containerToPort = on(seabed.Object{Name: "other", Kind: "container", At: seabed.Point{X: 128, Y: 190}})

// crossTalk is how far below the one side the other hears it, dB.
const crossTalk = -18

// wideWater has the fish fly high, so that half of the record is water.
func wideWater(ex *exercise.Exercise) {
	ex.Sonar.RangeScale, ex.Plan.CableOut = 25, 9
	ex.Lines[0].B.Y = 190
}

func gas(ex *exercise.Exercise) {
	ex.Sonar.Effects.CurrentX, ex.Sonar.Effects.CurrentY = -0.02, 0.06
	ex.Sonar.Effects.Seeps = []sonar.Seep{{X: 157, Y: 168, Rise: 0.25, Width: 0.4, Strength: -24}}
}

func spring(ex *exercise.Exercise) {
	ex.Sonar.Effects.CurrentX, ex.Sonar.Effects.CurrentY = -0.02, 0.06
	ex.Sonar.Effects.Springs = []sonar.Spring{{X: 157, Y: 168, Rise: 0.3, Width: 1, Strength: -26}}
}

func ripplesAndHum(ex *exercise.Exercise) {
	ex.Seabed.Bedforms = []seabed.Bedform{{Kind: seabed.Waves, Area: box(60, 60, 240, 340, 1), Height: 0.18, Wavelength: 2.6, Crest: 0, Wander: 0.2}}
	ex.Sonar.Effects.Hum = sonar.Hum{Level: 80, Frequency: 60, Sharpness: 4}
}

func turned(ex *exercise.Exercise) {
	ex.Lines[0].A, ex.Lines[0].B = seabed.Point{X: 121, Y: 164}, seabed.Point{X: 179, Y: 213}
}

// speedGradient is by how much sound speeds up a metre all the way down, 1/s.
const speedGradient = 5.5

func bentAway(ex *exercise.Exercise) {
	ex.Plan.CableOut = 15
	ex.Sea.Water.Cast = []sonar.CastPoint{{Depth: 0, SoundSpeed: 1410}, {Depth: 20, SoundSpeed: 1410 + 20*speedGradient}}
	ex.Desk.SoundSpeed = 1490
	ex.Sonar.RangeScale = 75
}

func mudBeyond(ex *exercise.Exercise) {
	ex.Sonar.RangeScale = 75
	ex.Plan.CableOut = 15
	ex.Seabed.Patches = []seabed.Patch{{Class: seabed.Mud, Area: seabed.Area{
		Polygon: []seabed.Point{{X: 176, Y: 120}, {X: 290, Y: 120}, {X: 290, Y: 320}, {X: 216, Y: 260}}, Feather: 1,
	}}}
}

func hulk(ex *exercise.Exercise) {
	on(seabed.Object{Name: "hulk", Kind: "hulk", At: seabed.Point{X: 170, Y: 190}, Heading: 25 * deg})(ex)
}

func outcrop(ex *exercise.Exercise) {
	ex.Seabed.Bedforms = []seabed.Bedform{{Kind: seabed.Outcrop, Area: box(162, 176, 182, 206, 6), Height: 1.6, Wavelength: 8}}
}

// carAt is a car so far to starboard of the line.
func carAt(name string, starboard, north, heading float64) seabed.Object {
	return seabed.Object{Name: name, Kind: "car", At: seabed.Point{X: 150 + starboard, Y: north}, Heading: heading}
}

func carsByRange(ex *exercise.Exercise) {
	// Ground ranges of these shares of the range scale with the fish 7 m up.
	on(carAt("near", 2.7, 168, 0), carAt("middle", 24, 188, 0), carAt("far", 44.4, 208, 0))(ex)
}

func carsByHeading(ex *exercise.Exercise) {
	on(carAt("000", 24, 160, 0), carAt("045", 24, 179, 45*deg), carAt("090", 24, 198, 90*deg), carAt("135", 24, 217, 135*deg))(ex)
}

func tyreInShadow(ex *exercise.Exercise) {
	container(ex)
	on(
		seabed.Object{Name: "open", Kind: "tyre", At: seabed.Point{X: 178, Y: 172}},
		seabed.Object{Name: "hidden", Kind: "tyre", At: seabed.Point{X: 178, Y: 190}},
	)(ex)
}

func blockAtNadir(ex *exercise.Exercise) {
	on(
		seabed.Object{Name: "nadir", Kind: "block", At: seabed.Point{X: 150.3, Y: 190}, Height: 0.4},
		seabed.Object{Name: "abreast", Kind: "block", At: seabed.Point{X: 168, Y: 190}, Height: 0.4},
	)(ex)
}
