package seabed

import (
	"encoding/binary"

	"dryline/seabed/lanes"
)

// Stretch is the open ground along a ray at the even steps of package lanes: sample k at
// the ground range (k+1)/64 m. It is kept for the next ray, with the memory it has.
type Stretch struct {
	Z     []float32 // height over the datum asked for, metres
	Slope []float32 // rise along the ray of the ground without micro-relief and ripples
	Class []uint8   // the [Class] it is made of
	Drawn bool      // the sediments' roughness is in Z

	nodes   []rayNode
	heights []float32
	places  []lanes.Place
	seams   []seamRun
	ripples []rippleRun
	left    []bool // blocks that lanes leave to traceGround
	rest    Profile
	steps   []float64
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
		s.nodes, s.heights, s.places, s.left = make([]rayNode, n+3), make([]float32, n+3), make([]lanes.Place, n), make([]bool, n)
	}
	s.Z, s.Slope, s.Class = s.Z[:n*lanes.Width], s.Slope[:n*lanes.Width], s.Class[:n*lanes.Width]
	s.nodes, s.heights, s.places, s.left = s.nodes[:n+3], s.heights[:n+3], s.places[:n], s.left[:n]
	s.seams, s.ripples = s.seams[:0], s.ripples[:0]
	clear(s.left)
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
	w.readNodes(s.nodes, x, y, ux, uy, -1)
	for k := range s.nodes {
		s.heights[k] = float32(s.nodes[k].z - datum)
	}
	loom := w.looms()
	r := rayOn(x, y, ux, uy)
	var sewn [sediments]piece // by sediment, that the ray was last on
	for k := range s.places {
		w.layBlock(s, &r, &sewn, loom, k)
	}

	du, dv := float32(r.du/lanes.PerMetre), float32(r.dv/lanes.PerMetre)
	for from := 0; from < n; { // as far as the patch is one
		patch, to := loom.of(s.nodes[from+1].class), from+1
		for to < n && loom.of(s.nodes[to+1].class) == patch {
			to++
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

// layBlock says what lies on a block besides the smooth floor.
func (w *World) layBlock(s *Stretch, r *onQuilt, sewn *[sediments]piece, loom *looms, k int) {
	node, next := &s.nodes[k+1], &s.nodes[k+2]
	// Class is that of the nearer node, the one before at half way.
	const all = 0x0101010101010101
	at := s.Class[k*lanes.Width : (k+1)*lanes.Width]
	binary.LittleEndian.PutUint64(at, all*uint64(node.class))
	binary.LittleEndian.PutUint64(at[8:], all*uint64(next.class))

	if node.field != next.field {
		s.leave(k)
		return
	}
	from, to := float64(k)*nodeStep, float64(k+1)*nodeStep
	u0, v0, u1, v1 := r.u0+r.du*from, r.v0+r.dv*from, r.u0+r.du*to, r.v0+r.dv*to
	sheet := &sewn[node.class]
	if node.class == next.class && sheet.plain && sheet.holds(node.class, u0, v0) && sheet.holds(node.class, u1, v1) {
		s.places[k] = lanes.PlaceAt(u0+sheet.du, v0+sheet.dv, float32(node.rms))
	} else if !w.laySeam(s, sewn, loom, k, u0, v0, u1, v1) {
		s.leave(k)
		return
	}
	if node.field == 0 {
		return
	}
	waves := &w.ripples[node.field-1]
	turn := next.phase - node.phase // the short way round
	if turn > 0.5 {
		turn--
	} else if turn < -0.5 {
		turn++
	}
	phase := waves.kx*(r.x+r.ux*from) + waves.ky*(r.y+r.uy*from) + node.phase
	more := (waves.kx*r.ux+waves.ky*r.uy)*nodeStep + turn
	s.ripples = append(s.ripples, rippleRun{k, loom.ripples[node.field-1], [1]lanes.Ripple{lanes.RippleAt(phase, phase+more, node.share, next.share)}})
}

// noRelief is a place for a block that has no relief of its patch alone.
var noRelief = lanes.PlaceAt(0.5, 0.5, 0)

// leave leaves a block to traceLeft.
func (s *Stretch) leave(k int) { s.left[k], s.places[k] = true, noRelief }

// laySeam lays a block that goes on to another piece or sediment, and says whether it is one
// that lanes can. The piece that it ends on is kept for the next.
func (w *World) laySeam(s *Stretch, sewn *[sediments]piece, loom *looms, k int, u0, v0, u1, v1 float64) bool {
	node, next := &s.nodes[k+1], &s.nodes[k+2]
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
			A:  lanes.PlaceAt(u0+a.du, v0+a.dv, float32(node.rms)),
			B:  lanes.PlaceAt(u0+b.du, v0+b.dv, float32(next.rms)),
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
		s.places[k] = lanes.PlaceAt(u0+a.du, v0+a.dv, float32(node.rms))
		return true
	}
	x := (u0-seam.u0)*seam.seamU + (v0-seam.v0)*seam.seamV
	more := (u1-u0)*seam.seamU + (v1-v0)*seam.seamV
	s.addSeam(k, loom.of(node.class), loom.of(node.class), lanes.Seam{
		A: lanes.PlaceAt(u0+seam.du, v0+seam.dv, float32(node.rms)),
		B: lanes.PlaceAt(u0+seam.eu, v0+seam.ev, float32(node.rms)),
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
	for from := 0; from < len(s.left); from++ {
		if !s.left[from] {
			continue
		}
		to := from + 1
		for to < len(s.left) && s.left[to] {
			to++
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
		from = to
	}
}
