package sonar

import (
	"math"
)

// fan is the rays along which a ping reads the ground, and the cells of the beam
// they stand for. Ray m runs at a place of place[m], in units of a width that
// grows along a straight line from the array to the end of the record; its cell
// reaches half way to its neighbours, the outermost cells take all that lies
// beyond. What a channel hears of a cell is the share of its own beam there, so
// the cells together return exactly what the sonar equation says, however narrow
// the beam.
type fan struct {
	place []float64 // ahead of the axis, in widths
	edges []float64 // of the cells, one more than rays; the outermost infinite
	near  float64   // width at the array, metres
	grow  float64   // and how much wider it is for each metre of ground range
	side  float64   // how far any beam goes on each side anywhere, metres
	last  float64   // and in widths
}

// reach is how far the inner edges of a fan's outermost cells would have them go
// on each side if all were alike, in widths.
const reach = 1.0

// Unless asked for, a fan has as many rays as keep them this close at the end of the
// record, metres, so that ripples askew to them are not taken for longer ones. What
// stands on the ground has strips of its own.
const (
	fewestRays = 3
	widestGap  = 0.3
)

// extent is about the width between half-power points of a channel's two-way
// beam: what the array's own length and its diffraction make of it.
func (t *tuned) extent(r float64) float64 {
	const ofArray = 0.6 // of the length of the array, close to it
	far := max(r*t.halfPower, t.wavelength/2)
	switch focus := t.spec.Focus; {
	case focus == Dynamic:
		return far
	case focus > 0:
		return math.Hypot(far, ofArray*t.array.Length*(1-r/focus))
	}
	return math.Hypot(far, ofArray*t.array.Length)
}

func (e *Engine) newFan() fan {
	end := float64(e.spec.Samples) * e.bin
	widest := e.channels[0]
	for _, t := range e.channels[1:] {
		if t.extent(end/2) > widest.extent(end/2) {
			widest = t
		}
	}
	f := fan{near: widest.extent(0)}
	f.grow = (widest.extent(end) - f.near) / end
	rays := e.spec.Rays
	if rays == 0 {
		rays = max(fewestRays, int(math.Ceil(2*reach*f.width(end)/widestGap)))
	}
	step := 2 * reach / float64(rays)
	f.edges = append(f.edges, math.Inf(-1))
	for m := range rays {
		place := (float64(m) - float64(rays-1)/2) * step
		if m > 0 {
			f.edges = append(f.edges, place-step/2)
		}
		f.place = append(f.place, place)
	}
	f.edges = append(f.edges, math.Inf(1))
	for _, t := range e.channels {
		for s, at := range t.beam.segments {
			far := beamSteps / at.perMetre
			f.side = max(f.side, far)
			f.last = max(f.last, far/f.width(t.beam.middle+float64(s)*t.beam.step))
		}
	}
	return f
}

// line is how far a ray of that place runs ahead of the beam axis: off metres at
// the array and slope more for each metre of ground range.
func (f *fan) line(place float64) (off, slope float64) {
	return place * f.near, place * f.grow
}

// width is the unit of places at a ground range, metres.
func (f *fan) width(g float64) float64 { return f.near + f.grow*g }

// weigh fills dst, by segment, with how much of a channel's beam lies between two
// places, over a level floor at an altitude: its equivalent rectangular two-way
// width in radians times the share there.
func (e *Engine) weigh(dst []float64, t *tuned, from, to, altitude float64, first, last int) {
	for s := first; s <= last; s++ {
		at := t.beam.segments[s]
		r := t.beam.middle + float64(s)*t.beam.step
		width := e.fan.width(math.Sqrt(max(r*r-altitude*altitude, 0)))
		dst[s] = t.width * (at.within(to*width) - at.within(from*width))
	}
}

// bearingAcross is the bearing from the fish of a ray that drifts slope metres
// ahead of the beam axis for each metre of range.
func bearingAcross(heading, slope float64, side Side) float64 {
	angle := math.Atan(slope)
	if side == Port {
		return heading - math.Pi/2 + angle
	}
	return heading + math.Pi/2 - angle
}
