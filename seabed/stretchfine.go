package seabed

import (
	"math"

	"dryline/seabed/lanes"
)

// looms hold the fine structure of a world for lanes.
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

// onQuilt is a ray in the coordinates of the micro-relief, in nodes, as traceGround has it.
type onQuilt struct{ x, y, ux, uy, u0, v0, du, dv float64 }

func rayOn(x, y, ux, uy float64) onQuilt {
	const turnC, turnS = 0.8572, 0.5150
	return onQuilt{x, y, ux, uy,
		(turnC*x+turnS*y)/microStep + quiltOrigin, (turnC*y-turnS*x)/microStep + quiltOrigin,
		(turnC*ux + turnS*uy) / microStep, (turnC*uy - turnS*ux) / microStep}
}

// layRun lays blocks of one sediment as far as they lie on one piece and ripples do not
// begin or end, and says which is the next.
func (w *World) layRun(s *Stretch, r *onQuilt, sewn *[sediments]piece, loom *looms, k, n int) int {
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
		field := s.nodes[k+1].field
		if next := s.nodes[k+2]; next.class != class || next.field != field {
			break
		}
		if field != 0 {
			w.layRipples(s, r, loom, k)
		}
		s.classes(k)
		from := float64(k) * nodeStep
		s.places[k].Set(r.u0+r.du*from+sheet.du, r.v0+r.dv*from+sheet.dv, gain)
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
		s.places[k].Set(u0+sheet.du, v0+sheet.dv, float32(w.rms[node.class]))
	} else if !w.laySeam(s, sewn, loom, k, u0, v0, u1, v1) {
		s.leave(k)
		return
	}
	if node.field != 0 {
		w.layRipples(s, r, loom, k)
	}
}

// layRipples lays the ripples of a block, which both its nodes have.
func (w *World) layRipples(s *Stretch, r *onQuilt, loom *looms, k int) {
	node, next := s.nodes[k+1], s.nodes[k+2]
	waves, profile, from := &w.ripples[node.field-1], loom.ripples[node.field-1], float64(k)*nodeStep
	turn := (float64(next.phase) - float64(node.phase)) / 256 // the short way round
	if turn > 0.5 {
		turn--
	} else if turn < -0.5 {
		turn++
	}
	phase := waves.kx*(r.x+r.ux*from) + waves.ky*(r.y+r.uy*from) + float64(node.phase)/256
	more := (waves.kx*r.ux+waves.ky*r.uy)*nodeStep + turn
	s.addRipple(k, profile, lanes.RippleAt(phase, phase+more, float64(node.share)/255, float64(next.share)/255))
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
		m := s.addSeam(k, loom.of(node.class), loom.of(next.class))
		m.A.Set(u0+a.du, v0+a.dv, gain)
		m.B.Set(u0+b.du, v0+b.dv, float32(w.rms[next.class]))
		m.X, m.DX, m.Smooth = 0, 1./lanes.Width, 0
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
		s.places[k].Set(u0+a.du, v0+a.dv, gain)
		return true
	}
	x := (u0-seam.u0)*seam.seamU + (v0-seam.v0)*seam.seamV
	more := (u1-u0)*seam.seamU + (v1-v0)*seam.seamV
	m := s.addSeam(k, loom.of(node.class), loom.of(node.class))
	m.A.Set(u0+seam.du, v0+seam.dv, gain)
	m.B.Set(u0+seam.eu, v0+seam.ev, gain)
	m.X, m.DX, m.Smooth = float32(x), float32(more/lanes.Width), 1
	return true
}

// addSeam adds a seam of two reliefs on a block, to be said.
func (s *Stretch) addSeam(k int, a, b *lanes.Patch) *lanes.Seam {
	s.places[k] = noRelief
	s.seams = append(s.seams, lanes.Seam{})
	seam := &s.seams[len(s.seams)-1]
	if n := len(s.seamRuns); n > 0 {
		if last := &s.seamRuns[n-1]; last.block+last.n == k && last.a == a && last.b == b {
			last.n++
			return seam
		}
	}
	s.seamRuns = append(s.seamRuns, seamRun{k, 1, a, b})
	return seam
}

func (s *Stretch) addRipple(k int, profile *lanes.Profile, ripple lanes.Ripple) {
	s.ripples = append(s.ripples, ripple)
	if n := len(s.rippleRuns); n > 0 {
		if last := &s.rippleRuns[n-1]; last.block+last.n == k && last.profile == profile {
			last.n++
			return
		}
	}
	s.rippleRuns = append(s.rippleRuns, rippleRun{k, 1, profile})
}
