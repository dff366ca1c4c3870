package look

import "image/color"

// Theme is a set of colours. Meaning never rests on one of them alone: what is
// urgent also says so in words or by shape.
type Theme struct {
	Name string

	Desk   color.RGBA // behind everything
	Panel  color.RGBA // of panels and controls
	Raised color.RGBA // of a control
	Warm   color.RGBA // of a control under the pointer
	Sunk   color.RGBA // of a control held down, and of fields
	Ink    color.RGBA
	Soft   color.RGBA // lesser lettering
	Rule   color.RGBA // lines between things

	Accent  color.RGBA // what is chosen or on
	OnIt    color.RGBA // lettering on Accent and Alarm
	Caution color.RGBA
	Alarm   color.RGBA

	Sky, Air, Sea, Deep, Ground color.RGBA // of the side view
	Dull                        color.RGBA // of a floor that gives little back
	Foam                        color.RGBA // white water
	Hull, Fish, Cable           color.RGBA
	Band                        color.RGBA // wanted height
	Truth                       color.RGBA // what only the truth knows
	Plan, Track, Wake           color.RGBA // planned line, vessel's track, fish's track
	Mark                        color.RGBA // contacts
	Void                        color.RGBA // no data
}

func rgb(v uint32) color.RGBA {
	return color.RGBA{uint8(v >> 16), uint8(v >> 8), uint8(v), 0xff}
}

// Day is for a bright wheelhouse.
var Day = Theme{
	Name: "day",
	Desk: rgb(0xd9d7cf), Panel: rgb(0xf4f3ee), Raised: rgb(0xe6e4da), Warm: rgb(0xdcd9c9), Sunk: rgb(0xcfccbc),
	Ink: rgb(0x1d252b), Soft: rgb(0x55605f), Rule: rgb(0xbdbbb0),
	Accent: rgb(0x1f6f6b), OnIt: rgb(0xffffff), Caution: rgb(0x8a5a00), Alarm: rgb(0xa4262c),
	Sky: rgb(0xdfe9ec), Air: rgb(0xf3f4ee), Sea: rgb(0xc3e0de), Deep: rgb(0x6fa5af), Ground: rgb(0xa39a7e), Dull: rgb(0x4a4738), Foam: rgb(0xffffff),
	Hull: rgb(0x26343c), Fish: rgb(0x7a2f12), Cable: rgb(0x2d2d2d), Band: rgb(0x4f8f5b), Truth: rgb(0x7b3f9d),
	Plan: rgb(0x39454b), Track: rgb(0xb87400), Wake: rgb(0x1c66a6), Mark: rgb(0xc2451e), Void: rgb(0xe3e6e4),
}

// Night spares eyes that must also look out of the window.
var Night = Theme{
	Name: "night",
	Desk: rgb(0x0b1012), Panel: rgb(0x151c1f), Raised: rgb(0x222c30), Warm: rgb(0x2d3a3f), Sunk: rgb(0x0f1517),
	Ink: rgb(0xd6d9d2), Soft: rgb(0x98a3a1), Rule: rgb(0x38444a),
	Accent: rgb(0x3f9c92), OnIt: rgb(0x04100f), Caution: rgb(0xe0aa4a), Alarm: rgb(0xf0736a),
	Sky: rgb(0x0f1519), Air: rgb(0x182126), Sea: rgb(0x1b3d43), Deep: rgb(0x0a1b21), Ground: rgb(0x4f4a39), Dull: rgb(0x1c1a12), Foam: rgb(0x8fa9ab),
	Hull: rgb(0xb9c4c6), Fish: rgb(0xe8a27c), Cable: rgb(0xa9b0ae), Band: rgb(0x5fae72), Truth: rgb(0xbf93dd),
	Plan: rgb(0xaab4b6), Track: rgb(0xe0a33c), Wake: rgb(0x6fb2ea), Mark: rgb(0xf08b62), Void: rgb(0x10171a),
}

// Themes are the themes by name.
var Themes = map[string]*Theme{Day.Name: &Day, Night.Name: &Night}

// Fade is a colour at a share of its weight, for laying over others.
func Fade(c color.RGBA, share float64) color.RGBA {
	f := func(v uint8) uint8 { return uint8(float64(v)*share + 0.5) }
	return color.RGBA{f(c.R), f(c.G), f(c.B), f(c.A)}
}
