package sonar

import (
	"math"

	"dryline/sonar/lanes"
)

// stretchBlocks is how many blocks of a ray lie between two places at which its horizon is kept: what
// strips want to know of it lies in one of those stretches.
const stretchBlocks = 8

// walkMarking is walk over all of a ray, keeping its horizon.
func (v *even) walkMarking(ws *Workspace, p *evenPair) {
	s := &v.strip
	s.horizon, s.lowest = s.horizon[:0], s.lowest[:0]
	from := lanes.Below(v.ground.Z[0])
	for k := 0; k < len(p.blocks); k += stretchBlocks {
		v.walk(ws, p.blocks[k:min(k+stretchBlocks, len(p.blocks))], p, k*lanes.Width, &from)
		s.horizon, s.lowest = append(s.horizon, from.Horizon), append(s.lowest, 0)
	}
}

// horizonAt is the highest tangent of the ground as far as a sample.
func (v *even) horizonAt(ws *Workspace, i int) float32 {
	const long = stretchBlocks * lanes.Width
	highest := float32(math.Inf(-1))
	if i >= long {
		highest = v.strip.horizon[i/long-1]
	}
	first := i / long * long
	if ws.refraction == nil { // a loop that asks nothing but that
		z, inverse := v.ground.Z[first:i+1], v.inverse[first:i+1]
		for k, h := range z {
			if t := float32(h * inverse[k]); t > highest {
				highest = t
			}
		}
		return highest
	}
	for k := first; k <= i; k++ {
		if t := v.tangent(ws, k); t > highest {
			highest = t
		}
	}
	return highest
}

// rises is the first sample, from one on, as far as which the ground rises to a tangent; the last
// if it does not.
func (v *even) rises(ws *Workspace, from int, tangent float32) int {
	if v.horizonAt(ws, from) >= tangent {
		return from
	}
	const long = stretchBlocks * lanes.Width
	last := len(v.ground.Z) - 1
	for i := from + 1; i <= last; i++ {
		if i%long == 0 && v.strip.horizon[i/long] < tangent {
			i += long - 1
			continue
		}
		if v.tangent(ws, i) >= tangent {
			return i
		}
	}
	return last
}

// progressAt is how far the walk of the ground had come at a sample.
func (v *even) progressAt(ws *Workspace, i int) lanes.Progress {
	g, z := float32(i+1)*lanes.Step, v.ground.Z[i]
	p := lanes.Progress{Z: z, R: float32(math.Sqrt(float64(float32(g*g) + float32(z*z)))), Tangent: v.tangent(ws, i), Horizon: v.horizonAt(ws, i)}
	if ws.refraction != nil {
		p.R += v.bent.Excess[i]
	}
	return p
}

// segments are the first and last of the range that what ends at samples of the ground, or stands there,
// can answer in.
func (v *even) segments(ws *Workspace, from, to int) (first, last int) {
	all := ws.segments - 1
	if ws.refraction != nil {
		return 0, all
	}
	lowest := float32(0)
	const long = stretchBlocks * lanes.Width
	for k := from / long; k <= min(to/long, len(v.strip.lowest)-1); k++ {
		lowest = min(lowest, v.lowestIn(k))
	}
	near, far := float64(from)*lanes.Step, math.Hypot(float64(to+1)*lanes.Step, float64(lowest))
	const more = 1.0 // metres: rods reach into the ground, and a short echo is spread over a bin
	segment := func(r float64) int {
		return min(max(int(r*float64(v.perBin)), 0)>>segmentShift, all)
	}
	return segment(near - more), segment(far + more)
}

// lowestIn is the lowest height over the fish in a stretch of the ray.
func (v *even) lowestIn(k int) float32 {
	if v.strip.lowest[k] == 0 {
		const long = stretchBlocks * lanes.Width
		v.strip.lowest[k] = lanes.Lowest(v.ground.Z[k*long : min((k+1)*long, len(v.ground.Z))])
	}
	return v.strip.lowest[k]
}
