package trial

import (
	"math"

	"dryline/seabed"
	"dryline/sim"
	"dryline/sim/debrief"
	"dryline/sim/exercise"
	"dryline/sim/survey"
)

// track is a logged line as the pings fell, true unless said.
type track struct {
	line    string
	bearing float64 // of the line as it was run, radians
	pings   []fall
}

// fall is one ping: where the fish was and where the desk believed it.
type fall struct {
	time, x, y, heading float64
	altitude            float64 // over the floor
	run                 float64 // of the fish so far, metres
	off                 float64 // how far off the desk has it, metres
	faulty              bool    // its fix is not to be trusted
}

// coverCell is the side of the cells that ground is counted in, metres.
const coverCell = 1.0

// cover counts cells of an area by the lines that looked at them.
type cover struct {
	x0, y0     float64
	nx, ny     int
	inside     []bool
	looks      []uint8
	last       []uint16 // the line that looked last, by number from 1
	insideOnes int
}

func newCover(area []seabed.Point) *cover {
	x0, y0, x1, y1 := box(area)
	c := &cover{x0: x0, y0: y0, nx: int(math.Ceil((x1 - x0) / coverCell)), ny: int(math.Ceil((y1 - y0) / coverCell))}
	n := c.nx * c.ny
	c.inside, c.looks, c.last = make([]bool, n), make([]uint8, n), make([]uint16, n)
	for j := range c.ny {
		for i := range c.nx {
			if within(area, x0+(float64(i)+0.5)*coverCell, y0+(float64(j)+0.5)*coverCell) {
				c.inside[j*c.nx+i] = true
				c.insideOnes++
			}
		}
	}
	return c
}

// shares are the parts of the area looked at by one line or more, and by two.
func (c *cover) shares() (once, twice float64) {
	if c.insideOnes == 0 {
		return 0, 0
	}
	n1, n2 := 0, 0
	for i, in := range c.inside {
		if in && c.looks[i] > 0 {
			n1++
			if c.looks[i] > 1 {
				n2++
			}
		}
	}
	return float64(n1) / float64(c.insideOnes), float64(n2) / float64(c.insideOnes)
}

// reach is how far out ground counts at a height, slant range in metres: as far as the
// height carries and, by the marking's own limit, sand stands over the noise.
type reach struct {
	scale float64
	noise func(height float64) float64
}

func newReach(s *sim.Session, channel int) *reach {
	return &reach{s.Exercise.Sonar.RangeScale, debrief.NoiseLimits(s.Engine(), channel)}
}

func (r *reach) at(height float64) float64 {
	return min(r.noise(height), survey.UsableRange(r.scale, height))
}

// lay lays a line's swath over the cells.
func (c *cover) lay(number int, t *track, ex *exercise.Exercise, r *reach) {
	lower := ex.Sonar.Depression + ex.Sonar.VerticalBeam/2
	way := t.ways()
	for i := range t.pings {
		p := &t.pings[i]
		if p.faulty || !(p.altitude > 0) || math.Abs(math.Remainder(way[i]-t.bearing, 2*math.Pi)) > debrief.TurnedOff {
			continue
		}
		if wanted := ex.Score.PingsPerMetre; wanted > 0 && t.density(i) < debrief.EnoughShare*wanted {
			continue
		}
		gap := 0.0
		if ex.Score.Nadir && lower < math.Pi/2 {
			gap = p.altitude / math.Tan(lower)
		}
		slant := r.at(p.altitude)
		out := math.Sqrt(max(slant*slant-p.altitude*p.altitude, 0))
		next := p
		if i+1 < len(t.pings) && math.Hypot(t.pings[i+1].x-p.x, t.pings[i+1].y-p.y) < debrief.Bridged {
			next = &t.pings[i+1]
		}
		steps := max(int(math.Ceil(math.Hypot(next.x-p.x, next.y-p.y)/(coverCell/2))), 1)
		if steps == 1 && i%2 == 1 && len(t.pings) > i+1 && t.dense(i) {
			continue // the pings about it lie within a cell
		}
		for k := range steps {
			f := float64(k) / float64(steps)
			turn := math.Remainder(next.heading-p.heading, 2*math.Pi)
			c.sweep(number, p.x+f*(next.x-p.x), p.y+f*(next.y-p.y), p.heading+f*turn, gap, out)
		}
	}
}

// dense reports whether the pings on either side of one are so near that it adds nothing.
func (t *track) dense(i int) bool {
	if i == 0 || i+1 >= len(t.pings) {
		return false
	}
	a, b := &t.pings[i-1], &t.pings[i+1]
	return math.Hypot(b.x-a.x, b.y-a.y) < coverCell/2
}

func (c *cover) sweep(number int, x, y, heading, gap, out float64) {
	sin, cos := math.Sincos(heading)
	for _, side := range [2]float64{-1, 1} {
		// A cell counts whose middle is reached, on the average: half a cell is left at the ends.
		for d := gap + coverCell/2; d <= out-coverCell/2; d += coverCell / 2 {
			i, j := int(math.Floor((x+side*d*cos-c.x0)/coverCell)), int(math.Floor((y-side*d*sin-c.y0)/coverCell))
			if i < 0 || j < 0 || i >= c.nx || j >= c.ny {
				continue
			}
			n := j*c.nx + i
			if c.inside[n] && c.last[n] != uint16(number) {
				c.last[n] = uint16(number)
				if c.looks[n] < 255 {
					c.looks[n]++
				}
			}
		}
	}
}

// ways are the bearings that the fish made good about each ping.
func (t *track) ways() []float64 {
	out := make([]float64, len(t.pings))
	for i := range t.pings {
		a, b := &t.pings[max(i-debrief.AcrossPings, 0)], &t.pings[min(i+debrief.AcrossPings, len(t.pings)-1)]
		out[i] = t.bearing
		if math.Hypot(b.x-a.x, b.y-a.y) >= 0.5 {
			out[i] = math.Atan2(b.x-a.x, b.y-a.y)
		}
	}
	return out
}

// density is the pings to a metre about one.
func (t *track) density(i int) float64 {
	a, b := max(i-debrief.AcrossPings, 0), min(i+debrief.AcrossPings, len(t.pings)-1)
	if way := t.pings[b].run - t.pings[a].run; way > 0 {
		return float64(b-a) / way
	}
	return math.Inf(1)
}
