package nmea

import (
	"math"

	"dryline/seabed/units"
	"dryline/vessel/nav"
)

const (
	foot   = 0.3048     // metres, exact
	fathom = 6 * 0.3048 // metres, exact
)

// AppendHDT appends the heading from true north.
func AppendHDT(dst []byte, r *nav.Reading) []byte {
	start := len(dst)
	dst = begin(dst, "HEHDT")
	dst = angle(dst, float64(r.Heading), 2, r.Valid.Has(nav.Heading))
	dst = letter(dst, 'T')
	return end(dst, start)
}

// AppendROT appends the rate of turn in degrees a minute, negative when the
// bow goes to port.
func AppendROT(dst []byte, r *nav.Reading) []byte {
	start := len(dst)
	ok := r.Valid.Has(nav.RateOfTurn)
	dst = begin(dst, "HEROT")
	dst = number(dst, r.RateOfTurn*180/math.Pi*60, 1, ok)
	dst = letter(dst, status(ok))
	return end(dst, start)
}

// Depth is the depth of water as known on board, metres below the surface, and
// whether it is known. There is no sounder in the hull: it is the depth of the
// fish and its altitude, so it is the depth at the fish, well astern, and needs
// both.
func Depth(r *nav.Reading) (metres float64, ok bool) {
	return r.FishDepth + r.FishAltitude, r.Valid.Has(nav.FishDepth | nav.FishAltitude)
}

// AppendDPT appends the [Depth]. It is from the surface, so the offset of the
// transducer is 0.
func AppendDPT(dst []byte, r *nav.Reading) []byte {
	start := len(dst)
	depth, ok := Depth(r)
	dst = begin(dst, "IIDPT")
	dst = number(dst, depth, 2, ok)
	dst = number(dst, 0, 1, ok)
	dst = append(dst, ',') // range scale
	return end(dst, start)
}

// AppendDBT appends the [Depth] in feet, metres and fathoms, as if of a
// transducer at the surface.
func AppendDBT(dst []byte, r *nav.Reading) []byte {
	start := len(dst)
	depth, ok := Depth(r)
	dst = begin(dst, "IIDBT")
	dst = number(dst, depth/foot, 1, ok)
	dst = letter(dst, 'f')
	dst = number(dst, depth, 2, ok)
	dst = letter(dst, 'M')
	dst = number(dst, depth/fathom, 2, ok)
	dst = letter(dst, 'F')
	return end(dst, start)
}

// AppendMWV appends two sentences, of the apparent wind (R) and of the true
// wind (T), each with the angle it comes from off the bow and its speed in
// knots. The true wind is over ground.
func AppendMWV(dst []byte, r *nav.Reading) []byte {
	dst = wind(dst, 'R', r.WindFrom, r.WindSpeed, r.Valid.Has(nav.Wind))
	off := float64(r.TrueWindFrom) - float64(r.Heading)
	return wind(dst, 'T', off, r.TrueWindSpeed, r.Valid.Has(nav.TrueWind|nav.Heading))
}

func wind(dst []byte, reference byte, from, speed float64, ok bool) []byte {
	start := len(dst)
	dst = begin(dst, "WIMWV")
	dst = angle(dst, from, 1, ok)
	dst = letter(dst, reference)
	dst = number(dst, speed/units.Knot, 1, ok)
	dst = letter(dst, 'N')
	dst = letter(dst, status(ok))
	return end(dst, start)
}
