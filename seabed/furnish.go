package seabed

import (
	"math"
	"slices"

	"dryline/seabed/lanes"
)

// Furniture holds what stands along a ray, at the even steps of package lanes: sample k at the
// ground range (k+1)/64 m, whatever the ground is read at. It is kept for the next ray, with
// the memory it has.
//
// [World.Furnish] finds what the ray meets and lays out the samples; the caller fills in the ground
// there; and [Furniture.Raise] raises it.
type Furniture struct {
	First int       // the sample that the lists begin with
	Z     []float32 // height over the datum asked for, metres
	Class []uint8   // the [Class] that the surface is made of
	met

	by                  []int32  // of what is crossed, whose the surface is, plus one; 0 for the ground's
	owners              []uint16 // of what is crossed, by number plus one; none for the ground
	turns               []turn
	found               []lanes.Found // by block, of a body
	world               *World
	x, y, ux, uy, datum float64 // the ray
}

// turn is a sample of the lists before which the surface of something crossed may turn.
type turn struct{ sample, crossed int32 }

// met is a thing that a ray meets.
type met struct {
	Raised []Raised // parts clear of the floor, in no order

	crossed []crossing // by range
}

// Furnish makes f the furniture of a ray from (x, y) along the unit vector (ux, uy), as far as n
// samples: those of things that it meets, from the sample before the first of them to one after the last;
// no samples if it meets none.
func (w *World) Furnish(f *Furniture, things []Footprint, x, y, ux, uy float64, n int, datum float64) {
	f.Raised, f.crossed, f.turns = f.Raised[:0], f.crossed[:0], f.turns[:0]
	f.world, f.x, f.y, f.ux, f.uy, f.datum = w, x, y, ux, uy, datum
	for i := range things {
		w.meet(&f.met, things[i].thing, x, y, ux, uy, evenStep, float64(n)*evenStep)
	}
	f.owners = append(f.owners[:0], 0)
	near, far := math.Inf(1), math.Inf(-1)
	for _, c := range f.crossed {
		f.owners = append(f.owners, w.parts[c.part].object)
		near, far = min(near, c.from), max(far, c.to)
	}
	for i := range f.Raised {
		r := &f.Raised[i]
		near, far = min(near, r.G-r.Length/2), max(far, r.G+r.Length/2)
	}
	f.Z, f.Class, f.by = f.Z[:0], f.Class[:0], f.by[:0]
	if near > far {
		return
	}
	// Blocks of the ray are walked again, from the beginning of one to the end of one.
	const block = lanes.Width
	first := sampleFrom(near) - 1
	f.First = min(max((first+1)/block*block-1, 0), n-1)
	last := min((max(sampleFrom(far)+1, f.First+1)/block+1)*block-1, n-1)
	f.grow(last + 1 - f.First)
}

func (f *Furniture) grow(n int) {
	if cap(f.Z) < n {
		f.Z, f.Class, f.by = make([]float32, n*3/2), make([]uint8, n*3/2), make([]int32, n*3/2)
		f.found = make([]lanes.Found, lanes.Blocks(n*3/2))
	}
	f.Z, f.Class, f.by = f.Z[:n], f.Class[:n], f.by[:n]
	clear(f.by)
}

// Raise raises the ground filled in where things are higher, and says how high the highest of what
// is seen of them is, and whether there is anything.
//
// A thing is as high at a sample as it is there. What lies between two samples raises the nearer
// one, so that nothing is too thin to be met; an edge is where the next sample is, half a step
// from its place at most, and right on the mean.
func (f *Furniture) Raise() (highest float32, stands bool) {
	highest = nothing
	for k := range f.crossed {
		highest = max(highest, f.raise(k))
	}
	return highest, highest > nothing
}

// Object is whose the surface at a sample of the lists is, as in Profile.Object: 0 for the ground's.
func (f *Furniture) Object(i int) uint16 {
	return f.owners[f.by[i]]
}

// All reports whether every object that is crossed is in a list.
func (f *Furniture) All(objects []uint16) bool {
	for _, o := range f.owners {
		if o != 0 && !slices.Contains(objects, o) {
			return false
		}
	}
	return true
}

// evenStep is from one sample to the next, metres.
const evenStep = 1.0 / lanes.PerMetre

// nothing is lower than anything.
const nothing = -math.MaxFloat32

// sampleFrom is the first sample at a ground range or beyond.
func sampleFrom(g float64) int { return int(math.Ceil(g*lanes.PerMetre)) - 1 }

// raise raises the samples over a part that is crossed, and says how high at most.
func (f *Furniture) raise(k int) (highest float32) {
	c := f.crossed[k]
	s := &f.world.parts[c.part]
	p, step := onPart(s, f.x, f.y, f.ux, f.uy, f.datum)
	first, end := max(sampleFrom(c.from)-f.First, 0), min(sampleFrom(c.to)-f.First, len(f.Z))
	if first >= end { // between two samples
		at := (c.from + c.to) / 2
		first = min(max(int(math.Round(at*lanes.PerMetre))-1-f.First, 0), len(f.Z)-1)
		f.mayTurn(k, first)
		if z, ok := p.after(step, at).top(s); ok {
			return f.put(k, s, first, z, nothing)
		}
		return nothing
	}
	round := f.round(k)
	f.mayTurn(k, first)
	if body, ok := s.solid.(tabled); ok {
		if round {
			for i := first; i < end; i++ {
				f.mayTurn(k, i)
			}
		}
		return f.raiseTabled(k, s, body.table(), p, step, first, end)
	}
	highest = nothing
	there := false
	for i := first; i < end; i++ {
		z, ok := p.after(step, float64(f.First+i+1)*evenStep).top(s)
		if ok {
			highest = f.put(k, s, i, z, highest)
		}
		if round || ok && !there {
			f.mayTurn(k, i)
		}
		there = ok
	}
	return highest
}

// put raises a sample, and says which is higher, it or what was the highest before.
func (f *Furniture) put(k int, s *placedPart, i int, z float64, highest float32) float32 {
	top := float32(z)
	if top <= f.Z[i] {
		return highest
	}
	f.Z[i], f.Class[i], f.by[i] = top, uint8(s.class), int32(k+1)
	return max(highest, top)
}

// partPlace is a place in the frame of a part and the height over a datum of what is at 0 there,
// its tilt included.
type partPlace struct{ x, y, z float64 }

// onPart is a ray in the frame of a part: where it begins, and what a metre adds.
func onPart(s *placedPart, x, y, ux, uy, datum float64) (p, step partPlace) {
	p.x, p.y = s.local(x-s.x, y-s.y)
	p.z = s.z + s.tilt*p.x - datum
	step.x, step.y = s.local(ux, uy)
	step.z = s.tilt * step.x
	return p, step
}

func (p partPlace) after(step partPlace, g float64) partPlace {
	return partPlace{p.x + g*step.x, p.y + g*step.y, p.z + g*step.z}
}

// top is the height of the part there, over the datum.
func (p partPlace) top(s *placedPart) (float64, bool) {
	z, ok := s.top(p.x, p.y)
	return p.z + z, ok
}
