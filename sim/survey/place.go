package survey

import (
	"math"

	"dryline/sonar/mosaic"
)

// GroundAt is the point on the ground that a slant range R of a ping is taken
// for, metres: on a flat floor at the height of the fish, square to the bearing of
// the swath. The fix is where the fish was as the ping was sent. What comes back is
// heard 2R/c later, from where it has run to by then, and answers for the ground
// abreast of where it was half-way, at R/c.
// In the water column, and where the fix is not to be trusted, there is none.
func GroundAt(f Fix, height float64, starboard bool, slant float64) (x, y float64, ok bool) {
	if f.Fault != "" || height <= 0 || !(slant > height) {
		return 0, 0, false
	}
	across := math.Sqrt(slant*slant - height*height)
	if !starboard {
		across = -across
	}
	sin, cos := math.Sincos(f.Heading)
	east, north := f.leadAt(slant)
	return f.X + east + across*cos, f.Y + north - across*sin, true
}

// leadAt is how far the fish has run by R/c, metres east and north.
func (f *Fix) leadAt(slant float64) (east, north float64) {
	sin, cos := math.Sincos(f.Course)
	return f.Lead * slant * sin, f.Lead * slant * cos
}

// Swath is a ping as it is laid on the ground: from where the fish is believed to be,
// at its height, with both sides levelled.
func Swath(f Fix, height float64, r Recorder, port, starboard []float32) mosaic.Swath {
	east, north := f.leadAt(1)
	return mosaic.Swath{
		LeadX: east, LeadY: north,
		X: f.X, Y: f.Y, Heading: f.Heading, Altitude: height, Bin: r.Bin(),
		Port: port, Starboard: starboard, Reach: GroundReach(r.RangeScale, height),
	}
}

// GroundAt is the point on the ground that a slant range of the ping is taken
// for; see [GroundAt].
func (p *PingRecord) GroundAt(starboard bool, slant float64) (x, y float64, ok bool) {
	return GroundAt(p.Fix, p.Height, starboard, slant)
}

// offset is how far ahead of a ping's swath and how far to the fish's right a point
// lies, metres.
func (p *PingRecord) offset(x, y float64) (along, across float64) {
	sin, cos := math.Sincos(p.Fix.Heading)
	east, north := p.Fix.leadAt(math.Hypot(math.Hypot(x-p.Fix.X, y-p.Fix.Y), p.Height))
	dx, dy := x-p.Fix.X-east, y-p.Fix.Y-north
	return dx*sin + dy*cos, dx*cos - dy*sin
}

// Sighting is where a point on the ground is on the record of a line.
type Sighting struct {
	Line      *LineRecord
	Index     int // of the ping in Line.Pings, and of its row in Line.Rows
	Starboard bool
	Range     float64 // over the ground, metres
	Slant     float64 // metres
}

// abeam is how far ahead or astern of a ping's own plane a point may lie and
// still be in its swath, metres: a few pings.
const abeam = 2.0

// Sighting finds a point on the ground on the record of the line: the ping it
// is most nearly abeam of, if the swath reaches it.
func (l *LineRecord) Sighting(x, y float64) (s Sighting, ok bool) {
	best := abeam
	for i := range l.Pings {
		p := &l.Pings[i]
		if p.Fix.Fault != "" || p.Height <= 0 {
			continue
		}
		along, across := p.offset(x, y)
		if math.Abs(along) < best && math.Abs(across) <= GroundReach(l.RangeScale, p.Height) {
			best, ok = math.Abs(along), true
			s = Sighting{l, i, across > 0, math.Abs(across), math.Hypot(across, p.Height)}
		}
	}
	return s, ok
}

// Sightings finds a point on the ground on every line whose swath reaches it,
// in the order they were run, the open line last.
func (d *Desk) Sightings(x, y float64) []Sighting {
	var out []Sighting
	d.eachLine(func(l *LineRecord) bool {
		if s, ok := l.Sighting(x, y); ok {
			out = append(out, s)
		}
		return true
	})
	return out
}

// logged is the logged ping of a number and its line, nil if none has it.
func (d *Desk) logged(number uint64) (line *LineRecord, p *PingRecord) {
	d.eachLine(func(l *LineRecord) bool {
		n := len(l.Pings)
		if n == 0 || number < l.Pings[0].Number || number > l.Pings[n-1].Number {
			return true
		}
		if found := l.ping(number); found != nil {
			line, p = l, found
		}
		return p == nil
	})
	return line, p
}

// eachLine calls f with every line on the log, as it stands, until it returns false.
func (d *Desk) eachLine(f func(*LineRecord) bool) {
	for run := range d.Lines {
		if !f(d.run(d.Worked, run+1)) {
			return
		}
	}
	if d.line != nil {
		f(d.line)
	}
}
