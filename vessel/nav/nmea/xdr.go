package nmea

import (
	"math"

	"dryline/vessel/nav"
)

// measurement is a group of four fields of XDR.
type measurement struct {
	kind, unit byte // D displacement in M metres, A angle in D degrees
	name       string
	value      float64
	decimals   int
	ok         bool
}

// AppendXDR appends what has no sentence of its own, in as many sentences as
// it takes: cable out (CABLEOUT), the fish's depth, altitude, pitch, roll and
// true heading (FISHDEPTH, FISHALT, FISHPITCH, FISHROLL, FISHHDG), and the
// vessel's pitch, roll and heave (PITCH, ROLL, HEAVE). Metres and degrees; nose
// up, starboard down and up are positive. The names are our own; the standard
// leaves them free.
func AppendXDR(dst []byte, r *nav.Reading) []byte {
	const degree = 180 / math.Pi
	heading := math.Mod(float64(r.FishHeading)*degree, 360)
	if heading < 0 {
		heading += 360
	}
	attitude, motion := r.Valid.Has(nav.FishAttitude), r.Valid.Has(nav.Motion)
	all := [...]measurement{
		{'D', 'M', "CABLEOUT", r.CableOut, 1, r.Valid.Has(nav.CableCounter)},
		{'D', 'M', "FISHDEPTH", r.FishDepth, 2, r.Valid.Has(nav.FishDepth)},
		{'D', 'M', "FISHALT", r.FishAltitude, 2, r.Valid.Has(nav.FishAltitude)},
		{'A', 'D', "FISHPITCH", r.FishPitch * degree, 1, attitude},
		{'A', 'D', "FISHROLL", r.FishRoll * degree, 1, attitude},
		{'A', 'D', "FISHHDG", heading, 1, attitude},
		{'A', 'D', "PITCH", r.Pitch * degree, 1, motion},
		{'A', 'D', "ROLL", r.Roll * degree, 1, motion},
		{'D', 'M', "HEAVE", r.Heave, 2, motion},
	}
	start := len(dst)
	dst = begin(dst, "YXXDR")
	for i := range all {
		before := len(dst)
		dst = all[i].append(dst)
		if len(dst)+tail-start > MaxLength {
			dst = end(dst[:before], start)
			start = len(dst)
			dst = begin(dst, "YXXDR")
			dst = all[i].append(dst)
		}
	}
	return end(dst, start)
}

func (m *measurement) append(dst []byte) []byte {
	dst = letter(dst, m.kind)
	dst = number(dst, m.value, m.decimals, m.ok)
	dst = letter(dst, m.unit)
	dst = append(dst, ',')
	return append(dst, m.name...)
}
