package seabed

import (
	"math"

	"dryline/seabed/lanes"
)

// Furniture is what stands along a ray, at the even steps of package lanes: sample k at the
// ground range (k+1)/64 m, whatever the ground is read at. It is kept for the next ray, with
// the memory it has.
type Furniture struct {
	First  int       // the sample that the lists begin with
	Top    []float32 // height over the datum asked for, metres; less than any where nothing stands
	Class  []uint8   // the [Class] it is made of
	Object []uint16  // as in Profile.Object, 0 where nothing stands
	met

	by                  []int32 // of what is crossed, whose it is, plus one; 0 where nothing stands
	world               *World
	x, y, ux, uy, datum float64 // the ray
}

// met is what a ray meets.
type met struct {
	Raised []Raised // parts clear of the floor, in no order

	crossed []crossing // by range
}

// Furnish fills f with those of things that the ray from (x, y) along the unit vector (ux, uy)
// meets within n samples, from the sample before the first of them to the one after the last;
// no samples if it meets none.
//
// A thing is as high at a sample as it is there. What lies between two samples raises the nearer
// one, so that nothing is too thin to be met; an edge is where the next sample is, half a step
// from its place at most, and right on the mean.
func (w *World) Furnish(f *Furniture, things []Standing, x, y, ux, uy float64, n int, datum float64) {
	f.Raised, f.crossed = f.Raised[:0], f.crossed[:0]
	f.world, f.x, f.y, f.ux, f.uy, f.datum = w, x, y, ux, uy, datum
	for i := range things {
		w.meet(&f.met, things[i].thing, x, y, ux, uy, evenStep, float64(n)*evenStep)
	}
	f.stretch(n)
	for k := range f.crossed {
		f.raise(k)
	}
}

// stretch lays out the samples.
func (f *Furniture) stretch(n int) {
	near, far := math.Inf(1), math.Inf(-1)
	for _, c := range f.crossed {
		near, far = min(near, c.from), max(far, c.to)
	}
	for i := range f.Raised {
		r := &f.Raised[i]
		near, far = min(near, r.G-r.Length/2), max(far, r.G+r.Length/2)
	}
	size := 0
	if near <= far {
		f.First = min(max(sampleFrom(near)-1, 0), n-1)
		size = min(max(sampleFrom(far)+1, f.First+1), n-1) + 1 - f.First
	}
	if cap(f.Top) < size {
		f.Top, f.Class, f.Object, f.by = make([]float32, size*3/2), make([]uint8, size*3/2), make([]uint16, size*3/2), make([]int32, size*3/2)
	}
	f.Top, f.Class, f.Object, f.by = f.Top[:size], f.Class[:size], f.Object[:size], f.by[:size]
	for i := range f.Top {
		f.Top[i] = nothing
	}
	clear(f.Object)
	clear(f.by)
}

// evenStep is from one sample to the next, metres.
const evenStep = 1.0 / lanes.PerMetre

// nothing is lower than anything.
const nothing = -math.MaxFloat32

// sampleFrom is the first sample at a ground range or beyond.
func sampleFrom(g float64) int { return int(math.Ceil(g*lanes.PerMetre)) - 1 }

// raise sets the samples over a part that is crossed.
func (f *Furniture) raise(k int) {
	c := f.crossed[k]
	s := &f.world.parts[c.part]
	p, step := onPart(s, f.x, f.y, f.ux, f.uy, f.datum)
	first, end := max(sampleFrom(c.from)-f.First, 0), min(sampleFrom(c.to)-f.First, len(f.Top))
	if first >= end { // between two samples
		at := (c.from + c.to) / 2
		if z, ok := p.after(step, at).top(s); ok {
			i := int(math.Round(at*lanes.PerMetre)) - 1 - f.First
			f.put(k, s, min(max(i, 0), len(f.Top)-1), z)
		}
		return
	}
	if body, ok := s.solid.(tabled); ok {
		f.raiseTabled(k, s, body.table(), p, step, first, end)
		return
	}
	for i := first; i < end; i++ {
		if z, ok := p.after(step, float64(f.First+i+1)*evenStep).top(s); ok {
			f.put(k, s, i, z)
		}
	}
}

func (f *Furniture) put(k int, s *placedPart, i int, z float64) {
	if top := float32(z); top > f.Top[i] {
		f.Top[i], f.Class[i], f.Object[i] = top, uint8(s.class), s.object
		f.by[i] = int32(k + 1)
	}
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
