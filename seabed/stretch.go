package seabed

import (
	"encoding/binary"
	"math"

	"dryline/seabed/lanes"
)

// Stretch is the open ground along a ray at the even steps of package lanes: sample k at
// the ground range (k+1)/64 m. It is kept for the next ray, with the memory it has.
type Stretch struct {
	Z     []float32 // height over the datum asked for, metres
	Slope []float32 // rise along the ray of the ground without micro-relief and ripples
	Class []uint8   // the [Class] it is made of
	Drawn bool      // the sediments' roughness is in Z

	nodes   []surface // at the nodes of the ray
	heights []float32
	places  []lanes.Place
	seams   []lanes.Seam   // of all runs of them, block by block
	ripples []lanes.Ripple // likewise
	left    []int          // blocks that lanes leave to traceGround, ascending
	rest    Profile
	steps   []float64

	seamRuns   []seamRun
	rippleRuns []rippleRun
}

// seamRun is so many blocks, one after another, where the same two reliefs go over into each other.
type seamRun struct {
	block, n int
	a, b     *lanes.Patch
}

// rippleRun is so many, one after another, with ripples of one field.
type rippleRun struct {
	block, n int
	profile  *lanes.Profile
}

func (s *Stretch) grow(n int) {
	if samples := n * lanes.Width; cap(s.Z) < samples {
		s.Z, s.Slope, s.Class = make([]float32, samples), make([]float32, samples), make([]uint8, samples)
		s.nodes, s.heights, s.places, s.left = make([]surface, n+3), make([]float32, n+3), make([]lanes.Place, n), make([]int, 0, n)
	}
	s.Z, s.Slope, s.Class = s.Z[:n*lanes.Width], s.Slope[:n*lanes.Width], s.Class[:n*lanes.Width]
	s.nodes, s.heights, s.places, s.left = s.nodes[:n+3], s.heights[:n+3], s.places[:n], s.left[:0]
	s.seamRuns, s.seams, s.rippleRuns, s.ripples = s.seamRuns[:0], s.seams[:0], s.rippleRuns[:0], s.ripples[:0]
}

// TraceStretch fills s with the ground under the ray from (x, y) in the direction of the
// unit vector (ux, uy), n nodes of a quarter metre far and over a datum: what
// [World.TraceGround] answers at its steps, to some micrometres.
func (w *World) TraceStretch(s *Stretch, x, y, ux, uy float64, n int, datum float64) {
	s.Drawn = !w.spec.Featureless
	s.grow(n)
	if n == 0 {
		return
	}
	w.readStretch(s, x, y, ux, uy, datum)
	loom := w.looms()
	r := rayOn(x, y, ux, uy)
	var sewn [sediments]piece // by sediment, that the ray was last on
	for k := 0; k < n; {
		if next := w.layRun(s, &r, &sewn, loom, k, n); next > k {
			k = next
			continue
		}
		w.layBlock(s, &r, &sewn, loom, k)
		k++
	}

	du, dv := float32(r.du/lanes.PerMetre), float32(r.dv/lanes.PerMetre)
	for from := 0; from < n; { // as far as the patch is one
		patch, to := loom.of(s.nodes[from+1].class), n
		if loom.tufts != loom.grains {
			for to = from + 1; to < n && loom.of(s.nodes[to+1].class) == patch; {
				to++
			}
		}
		lanes.Floor(s.Z[from*lanes.Width:], s.Slope[from*lanes.Width:], s.heights[from:to+3], s.places[from:to], patch, du, dv)
		from = to
	}
	seams, ripples := s.seams, s.ripples
	for _, run := range s.seamRuns {
		lanes.AddSeams(s.Z[run.block*lanes.Width:], seams[:run.n], run.a, run.b, du, dv)
		seams = seams[run.n:]
	}
	for _, run := range s.rippleRuns {
		lanes.AddRipples(s.Z[run.block*lanes.Width:], ripples[:run.n], run.profile)
		ripples = ripples[run.n:]
	}
	w.traceLeft(s, x, y, ux, uy, datum)
}

// readStretch reads the tiles along the ray, from the node before it on.
func (w *World) readStretch(s *Stretch, x, y, ux, uy, datum float64) {
	var c cursor
	for k := 0; k < len(s.nodes); {
		g := float64(k-1) * nodeStep
		z, at := c.bilinear(w, x+ux*g, y+uy*g)
		s.heights[k], s.nodes[k] = float32(z-datum), c.tile.surface[at]
		k++
		far := k + int(min(c.stays(w, x+ux*g, y+uy*g, ux, uy), float64(len(s.nodes)-k)))
		c.readOn(s, x, y, ux, uy, datum, k, far)
		k = far
	}
}

// readOn reads the nodes of a ray from one to before another, all of which lie on the
// tile: what bilinear gives there.
func (c *cursor) readOn(s *Stretch, x, y, ux, uy, datum float64, from, to int) {
	zs, surfaces, x0, y0 := &c.tile.z, &c.tile.surface, c.x0, c.y0
	heights, nodes := s.heights[from:to], s.nodes[from:to]
	for k := range heights {
		g := float64(from+k-1) * nodeStep
		u, v := (x+ux*g-x0)*nodesPerM+tileMargin, (y+uy*g-y0)*nodesPerM+tileMargin
		i, j := int(u), int(v)
		fu, fv := u-float64(i), v-float64(j)
		at := j*tileSide + i
		low, high := zs[at], zs[at+tileSide]
		a := float64(low) + fu*float64(zs[at+1]-low)
		b := float64(high) + fu*float64(zs[at+tileSide+1]-high)
		heights[k] = float32(a + fv*(b-a) - datum)
		nodes[k] = surfaces[nearest(i, j, fu, fv)]
	}
}

// stays is how many steps of a node from (x, y) surely end on the cursor's tile; 0 where
// the point itself may not.
func (c *cursor) stays(w *World, x, y, ux, uy float64) float64 {
	const hair = 1e-6 // nodes, far more than a place is rounded by
	steps := func(u, step, end float64) float64 {
		switch {
		case u < hair || u > end-hair:
			return 0
		case step > 0:
			return (end - hair - u) / step
		case step < 0:
			return (u - hair) / -step
		}
		return math.Inf(1)
	}
	east, north := min((w.spec.East-c.x0)*nodesPerM, float64(tileNodes)), min((w.spec.North-c.y0)*nodesPerM, float64(tileNodes))
	return min(steps((x-c.x0)*nodesPerM, ux, east), steps((y-c.y0)*nodesPerM, uy, north))
}

// classes says what a block is made of: as the nearer node is, the one before at half way.
func (s *Stretch) classes(k int) {
	const all = 0x0101010101010101
	at := s.Class[k*lanes.Width : (k+1)*lanes.Width]
	binary.LittleEndian.PutUint64(at, all*uint64(s.nodes[k+1].class))
	binary.LittleEndian.PutUint64(at[8:], all*uint64(s.nodes[k+2].class))
}

// traceLeft traces the blocks that lanes left, each run of them at once.
func (w *World) traceLeft(s *Stretch, x, y, ux, uy, datum float64) {
	for i := 0; i < len(s.left); {
		from := s.left[i]
		to := from
		for i < len(s.left) && s.left[i] == to {
			i, to = i+1, to+1
		}
		s.steps = s.steps[:0]
		for i := from * lanes.Width; i < to*lanes.Width; i++ {
			s.steps = append(s.steps, float64(i+1)/lanes.PerMetre)
		}
		s.rest.Steps = s.steps
		w.TraceGround(&s.rest, x, y, ux, uy)
		z := s.Z[from*lanes.Width:]
		for i, v := range s.rest.Z {
			z[i] = float32(v - datum)
		}
	}
}
