package sonar

import (
	"math"
	"slices"
)

// water holds the things that hang in the water and hide the floor behind them.
type water struct {
	schools []school
	kelp    []forest
}

func newWater(fx *Effects, seed uint64) water {
	var w water
	for i := range fx.Schools {
		w.schools = append(w.schools, newSchool(&fx.Schools[i], seed, i))
	}
	for i := range fx.Kelp {
		w.kelp = append(w.kelp, newForest(&fx.Kelp[i], seed, i))
	}
	return w
}

// veil is how much of the echo of each facet along a ray comes through what
// hangs in the water before it.
//
// The vertical plane of the ray cuts each thing into pieces: upright strips at
// a ground range, between two heights, of some optical depth. Walking outwards,
// a ladder of elevations gathers what the pieces passed so far take out; a
// facet is seen through the rung it lies on. Left out: schools
// hidden by each other, and anything hidden by the floor.
type veil struct {
	through []float64 // of each facet's echo, there and back
	pieces  []piece
	ladder  []float32
}

// piece is a strip of something that lets part of the sound through.
type piece struct {
	g, z0, z1 float64
	through   float32 // there and back
	plant     float64 // height, if it grows from the floor; z0 and z1 are then not yet known
}

// rungs of the ladder run from straight up to straight down, each spanning an
// equal step of drop/(g + |drop|): some hundredths of a degree near the
// horizontal.
const rungs = 1 << 11

func rungOf(g, drop float64) int {
	return min(max(int((drop/(g+math.Abs(drop))+1)*(rungs/2)), 0), rungs-1)
}

// veils reports whether anything hangs in the water.
func (w *water) veils() bool { return len(w.schools) > 0 || len(w.kelp) > 0 }

// veil works out what comes through of the echo of each facet of the ray traced
// last, from (x, y) in the direction (ux, uy), nil for all, and adds the echoes of
// the plants on it.
func (w *water) veil(ws *Workspace, binLength float64, x, y, z, ux, uy float64) []float64 {
	if gs := ws.section.G; w.veils() && w.hangs(ws, x, y, ux, uy, gs[len(gs)-1]) {
		return ws.veil.gather(ws, binLength, z)
	}
	return nil
}

// hangs reports whether a ray meets anything that hangs in the water up to a ground range, and
// notes what, for gather.
func (w *water) hangs(ws *Workspace, x, y, ux, uy, end float64) bool {
	v := &ws.veil
	v.pieces = v.pieces[:0]
	for i := range w.schools {
		v.pieces = w.schools[i].cut(v.pieces, x, y, ux, uy, end)
	}
	for i := range w.kelp {
		v.pieces = w.kelp[i].cut(v.pieces, x, y, ux, uy, end)
	}
	slices.SortFunc(v.pieces, func(a, b piece) int {
		switch {
		case a.g < b.g:
			return -1
		case a.g > b.g:
			return 1
		}
		return 0
	})
	return len(v.pieces) > 0
}

// gather does the work of [water.veil] for the pieces that were found.
func (v *veil) gather(ws *Workspace, binLength, z float64) []float64 {
	s := &ws.section
	if len(v.ladder) == 0 {
		v.ladder = make([]float32, rungs)
		for i := range v.ladder {
			v.ladder[i] = 1
		}
	}
	if cap(v.through) < len(s.G) {
		v.through = make([]float64, len(s.G)+len(s.G)/2)
	}
	v.through = v.through[:len(s.G)]
	next := 0
	top, bottom := math.Inf(1), math.Inf(-1) // of the pieces passed: drop over range
	low, high := rungs, 0                    // rungs touched
	for i, g := range s.G {
		for next < len(v.pieces) && v.pieces[next].g < g {
			b := &v.pieces[next]
			next++
			if b.plant > 0 {
				b.z0, b.z1 = s.Z[i], s.Z[i]+b.plant
				ws.plant(b, float64(v.ladder[rungOf(b.g, z-(b.z0+b.z1)/2)]), binLength, z)
			}
			top, bottom = min(top, (z-b.z1)/b.g), max(bottom, (z-b.z0)/b.g)
			from, to := rungOf(b.g, z-b.z1), rungOf(b.g, z-b.z0)
			low, high = min(low, from), max(high, to)
			for rung := from; rung <= to; rung++ {
				v.ladder[rung] *= b.through
			}
		}
		drop := z - s.Z[i]
		if drop < top*g || drop > bottom*g { // most facets, without a division
			v.through[i] = 1
			continue
		}
		v.through[i] = float64(v.ladder[rungOf(g, drop)])
	}
	for rung := low; rung <= high; rung++ {
		v.ladder[rung] = 1
	}
	return v.through
}
