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

	nodes   []stretchNode
	heights []float32
	places  []lanes.Place
	seams   []seamRun
	ripples []rippleRun
	left    []int // blocks that lanes leave to traceGround, ascending
	rest    Profile
	steps   []float64
}

// stretchNode is what the fine structure needs at a node of a ray, see rayNode.
type stretchNode struct {
	class        Class
	field, share uint8
	phase        int8
}

// seamRun is a block where two reliefs go over into each other.
type seamRun struct {
	block int
	a, b  *lanes.Patch
	seam  [1]lanes.Seam
}

// rippleRun is a block with ripples.
type rippleRun struct {
	block   int
	profile *lanes.Profile
	ripple  [1]lanes.Ripple
}

// looms is what the fine structure of a world is for lanes.
type looms struct {
	grains, tufts *lanes.Patch
	ripples       []*lanes.Profile
}

func (w *World) newLooms() *looms {
	l := new(looms)
	l.grains = lanes.NewPatch((*[lanes.Side * lanes.Side]float32)(w.fabric.grains.patch))
	l.tufts = l.grains
	if w.fabric.tufts.patch != w.fabric.grains.patch {
		l.tufts = lanes.NewPatch((*[lanes.Side * lanes.Side]float32)(w.fabric.tufts.patch))
	}
	for i := range w.ripples {
		l.ripples = append(l.ripples, lanes.NewProfile(&w.ripples[i].profile))
	}
	return l
}

// of is the patch of a sediment.
func (l *looms) of(class Class) *lanes.Patch {
	if class == Seagrass {
		return l.tufts
	}
	return l.grains
}

func (s *Stretch) grow(n int) {
	if samples := n * lanes.Width; cap(s.Z) < samples {
		s.Z, s.Slope, s.Class = make([]float32, samples), make([]float32, samples), make([]uint8, samples)
		s.nodes, s.heights, s.places, s.left = make([]stretchNode, n+3), make([]float32, n+3), make([]lanes.Place, n), make([]int, 0, n)
	}
	s.Z, s.Slope, s.Class = s.Z[:n*lanes.Width], s.Slope[:n*lanes.Width], s.Class[:n*lanes.Width]
	s.nodes, s.heights, s.places, s.left = s.nodes[:n+3], s.heights[:n+3], s.places[:n], s.left[:0]
	s.seams, s.ripples = s.seams[:0], s.ripples[:0]
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
		if next := w.layRun(s, &r, &sewn, k, n); next > k {
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
	for i := range s.seams {
		m := &s.seams[i]
		lanes.AddSeams(s.Z[m.block*lanes.Width:], m.seam[:], m.a, m.b, du, dv)
	}
	for i := range s.ripples {
		m := &s.ripples[i]
		lanes.AddRipples(s.Z[m.block*lanes.Width:], m.ripple[:], m.profile)
	}
	w.traceLeft(s, x, y, ux, uy, datum)
}

// onQuilt is a ray in the coordinates of the micro-relief, in nodes, as traceGround has it.
type onQuilt struct{ x, y, ux, uy, u0, v0, du, dv float64 }

func rayOn(x, y, ux, uy float64) onQuilt {
	const turnC, turnS = 0.8572, 0.5150
	return onQuilt{x, y, ux, uy,
		(turnC*x+turnS*y)/microStep + quiltOrigin, (turnC*y-turnS*x)/microStep + quiltOrigin,
		(turnC*ux + turnS*uy) / microStep, (turnC*uy - turnS*ux) / microStep}
}

// readStretch reads the tiles along the ray, from the node before it on.
func (w *World) readStretch(s *Stretch, x, y, ux, uy, datum float64) {
	var c cursor
	for k := range s.nodes {
		g := float64(k-1) * nodeStep
		z, at := c.bilinear(w, x+ux*g, y+uy*g)
		s.heights[k] = float32(z - datum)
		s.nodes[k] = stretchNode{c.tile.class[at], c.tile.field[at], c.tile.share[at], c.tile.phase[at]}
	}
}

// classes says what a block is made of: as the nearer node is, the one before at half way.
func (s *Stretch) classes(k int) {
	const all = 0x0101010101010101
	at := s.Class[k*lanes.Width : (k+1)*lanes.Width]
	binary.LittleEndian.PutUint64(at, all*uint64(s.nodes[k+1].class))
	binary.LittleEndian.PutUint64(at[8:], all*uint64(s.nodes[k+2].class))
}

// layRun lays blocks of one sediment without ripples as far as they lie on one piece, and says
// which is the next.
func (w *World) layRun(s *Stretch, r *onQuilt, sewn *[sediments]piece, k, n int) int {
	class := s.nodes[k+1].class
	sheet := &sewn[class]
	u, v := r.u0+r.du*(float64(k)*nodeStep), r.v0+r.dv*(float64(k)*nodeStep)
	if !sheet.plain || !sheet.holds(class, u, v) {
		return k
	}
	last := min(stepsIn(u, r.du*nodeStep, sheet.u0, sheet.u1), stepsIn(v, r.dv*nodeStep, sheet.v0, sheet.v1), float64(n-k))
	end := k + int(last) // of what lies on the piece whole
	gain := float32(w.rms[class])
	for ; k < end; k++ {
		if next := s.nodes[k+2]; next.class != class || next.field != 0 || s.nodes[k+1].field != 0 {
			break
		}
		s.classes(k)
		from := float64(k) * nodeStep
		s.places[k] = lanes.PlaceAt(r.u0+r.du*from+sheet.du, r.v0+r.dv*from+sheet.dv, gain)
	}
	return k
}

// stepsIn is how many whole steps lead from a place to no further than the ends of where it
// lies, less a hair.
func stepsIn(u, step, from, to float64) float64 {
	const hair = 1e-6
	switch {
	case step > hair:
		return (to-u)/step - hair
	case step < -hair:
		return (from-u)/step - hair
	}
	return math.MaxInt32
}

// layBlock says what lies on a block besides the smooth floor.
func (w *World) layBlock(s *Stretch, r *onQuilt, sewn *[sediments]piece, loom *looms, k int) {
	node, next := s.nodes[k+1], s.nodes[k+2]
	s.classes(k)
	if node.field != next.field {
		s.leave(k)
		return
	}
	from, to := float64(k)*nodeStep, float64(k+1)*nodeStep
	u0, v0, u1, v1 := r.u0+r.du*from, r.v0+r.dv*from, r.u0+r.du*to, r.v0+r.dv*to
	sheet := &sewn[node.class]
	if node.class == next.class && sheet.plain && sheet.holds(node.class, u0, v0) && sheet.holds(node.class, u1, v1) {
		s.places[k] = lanes.PlaceAt(u0+sheet.du, v0+sheet.dv, float32(w.rms[node.class]))
	} else if !w.laySeam(s, sewn, loom, k, u0, v0, u1, v1) {
		s.leave(k)
		return
	}
	if node.field == 0 {
		return
	}
	waves := &w.ripples[node.field-1]
	turn := (float64(next.phase) - float64(node.phase)) / 256 // the short way round
	if turn > 0.5 {
		turn--
	} else if turn < -0.5 {
		turn++
	}
	phase := waves.kx*(r.x+r.ux*from) + waves.ky*(r.y+r.uy*from) + float64(node.phase)/256
	more := (waves.kx*r.ux+waves.ky*r.uy)*nodeStep + turn
	s.ripples = append(s.ripples, rippleRun{k, loom.ripples[node.field-1], [1]lanes.Ripple{lanes.RippleAt(phase, phase+more, float64(node.share)/255, float64(next.share)/255)}})
}

// noRelief is a place for a block that has no relief of its patch alone.
var noRelief = lanes.PlaceAt(0.5, 0.5, 0)

// leave leaves a block to traceLeft.
func (s *Stretch) leave(k int) { s.left, s.places[k] = append(s.left, k), noRelief }

// laySeam lays a block that goes on to another piece or sediment, and says whether it is one
// that lanes can. The piece that it ends on is kept for the next.
func (w *World) laySeam(s *Stretch, sewn *[sediments]piece, loom *looms, k int, u0, v0, u1, v1 float64) bool {
	node, next := s.nodes[k+1], s.nodes[k+2]
	gain := float32(w.rms[node.class])
	a := &sewn[node.class]
	q := w.fabric.of(node.class)
	if !a.holds(node.class, u0, v0) && !q.find(a, node.class, u0, v0) {
		return false
	}
	if node.class != next.class {
		b := &sewn[next.class]
		if !a.plain || !a.holds(node.class, u1, v1) ||
			!b.holds(next.class, u0, v0) && !w.fabric.of(next.class).find(b, next.class, u0, v0) ||
			!b.plain || !b.holds(next.class, u1, v1) {
			return false
		}
		s.addSeam(k, loom.of(node.class), loom.of(next.class), lanes.Seam{
			A:  lanes.PlaceAt(u0+a.du, v0+a.dv, gain),
			B:  lanes.PlaceAt(u0+b.du, v0+b.dv, float32(w.rms[next.class])),
			DX: 1. / lanes.Width,
		})
		return true
	}
	seam := a
	if !a.holds(node.class, u1, v1) {
		before := *a
		if !q.find(a, node.class, u1, v1) || before.plain == a.plain {
			return false // four meet, or two seams
		}
		if a.plain {
			seam = &before
		}
	} else if a.plain {
		s.places[k] = lanes.PlaceAt(u0+a.du, v0+a.dv, gain)
		return true
	}
	x := (u0-seam.u0)*seam.seamU + (v0-seam.v0)*seam.seamV
	more := (u1-u0)*seam.seamU + (v1-v0)*seam.seamV
	s.addSeam(k, loom.of(node.class), loom.of(node.class), lanes.Seam{
		A: lanes.PlaceAt(u0+seam.du, v0+seam.dv, gain),
		B: lanes.PlaceAt(u0+seam.eu, v0+seam.ev, gain),
		X: float32(x), DX: float32(more / lanes.Width), Smooth: 1,
	})
	return true
}

func (s *Stretch) addSeam(k int, a, b *lanes.Patch, seam lanes.Seam) {
	s.places[k] = noRelief
	s.seams = append(s.seams, seamRun{k, a, b, [1]lanes.Seam{seam}})
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
