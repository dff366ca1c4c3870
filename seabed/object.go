package seabed

import (
	"math"

	"dryline/sim/chance"
)

// Object is one thing lying on the floor.
type Object struct {
	Name    string
	Kind    string  // see Kinds
	At      Point   // its middle
	Heading float64 // grid bearing of its bow or long axis, radians
	Length  float64 // metres, along the heading
	Width   float64 // metres
	Height  float64 // metres above its own base
	Burial  float64 // how deep its base lies in the floor, metres
	Scour   float64 // depth of the pit scoured round it, metres
	Class   Class   // material; 0 takes the kind's own
	Charted bool    // whether the trainee is told of it beforehand
}

// Radius bounds the object's plan, metres from At.
func (o *Object) Radius() float64 { return math.Hypot(o.Length, o.Width) / 2 }

// solid has a height field in an object's own frame (x towards the bow, y to
// starboard, z up from its base, metres): the height of its top at (x, y).
type solid interface {
	top(x, y float64) (z float64, ok bool)
}

// part is a solid with its own place, turn and material within a shape.
type part struct {
	solid
	x, y, z  float64
	cos, sin float64
	class    Class
	reach    float64 // bounds the solid's plan around (x, y)
}

// capsule is a rod with round ends that clears the floor.
type capsule struct {
	ax, ay, az, bx, by, bz float64
	radius                 float64
	class                  Class
}

// placed is an object in the world.
type placed struct {
	Object
	at       Point
	cos, sin float64 // of the heading
	base     float64 // z of its base
	reach    float64 // bounds everything it holds, metres from at
	parts    []part
	rods     []capsule // own frame until settle, then world frame
}

// place builds the object's shape. Its base is set later, by New.
func place(o Object, seed uint64) placed {
	rng := chance.Stream(seed, "seabed/object/"+o.Name+"/"+o.Kind)
	kind, ok := Kinds[o.Kind]
	if !ok {
		panic("seabed: unknown object kind")
	}
	if o.Class == 0 {
		o.Class = kind.Class
	}
	p := placed{Object: o, at: o.At, cos: math.Cos(o.Heading), sin: math.Sin(o.Heading)}
	p.parts, p.rods = kind.build(&o, rng)
	for i := range p.parts {
		q := &p.parts[i]
		p.reach = max(p.reach, math.Hypot(q.x, q.y)+q.reach)
	}
	return p
}

// settle moves the rods into the world, now that the base is known.
func (p *placed) settle() {
	for i := range p.rods {
		r := &p.rods[i]
		r.ax, r.ay = p.toWorld(r.ax, r.ay)
		r.bx, r.by = p.toWorld(r.bx, r.by)
		r.az += p.base
		r.bz += p.base
	}
}

func (p *placed) toWorld(x, y float64) (float64, float64) {
	return p.at.X + x*p.sin + y*p.cos, p.at.Y + x*p.cos - y*p.sin
}

// topAt returns the height of the object's top at a world point, and its
// material.
func (p *placed) topAt(x, y float64) (z float64, class Class, ok bool) {
	dx, dy := x-p.at.X, y-p.at.Y
	if dx*dx+dy*dy > p.reach*p.reach {
		return 0, 0, false
	}
	ox, oy := dx*p.sin+dy*p.cos, dx*p.cos-dy*p.sin
	z = math.Inf(-1)
	for i := range p.parts {
		q := &p.parts[i]
		px, py := ox-q.x, oy-q.y
		if px*px+py*py > q.reach*q.reach {
			continue
		}
		if h, hit := q.top(px*q.cos+py*q.sin, py*q.cos-px*q.sin); hit && q.z+h > z {
			z, class, ok = q.z+h, q.class, true
		}
	}
	return z + p.base, class, ok
}

// scourInto lowers a tile's floor round the object: a pit deepest at its edge,
// drawn out to nothing at twice its size.
func (p *placed) scourInto(t *tile, x0, y0 float64) {
	if p.Scour <= 0 {
		return
	}
	reach := 2.5 * max(p.Length, p.Width)
	if p.at.X+reach < x0-1 || p.at.X-reach > x0+tileSize+1 ||
		p.at.Y+reach < y0-1 || p.at.Y-reach > y0+tileSize+1 {
		return
	}
	eachNode(x0, y0, func(n int, x, y float64) {
		dx, dy := x-p.at.X, y-p.at.Y
		along, across := dx*p.sin+dy*p.cos, dx*p.cos-dy*p.sin
		u := math.Hypot(along/(p.Length/2+p.Width/2), across/p.Width)
		if u < 3 {
			t.z[n] -= float32(p.Scour * math.Exp(-1.2*u*u))
		}
	})
}

// findCrossings lists the objects the ray crosses and the rods it cuts.
func (w *World) findCrossings(p *Profile, x, y, ux, uy float64) {
	p.crossed = p.crossed[:0]
	g0, g1 := p.Steps[0], p.Steps[len(p.Steps)-1]
	for k := range w.objects {
		o := &w.objects[k]
		rx, ry := o.at.X-x, o.at.Y-y
		along, off := rx*ux+ry*uy, rx*uy-ry*ux
		if math.Abs(off) < o.reach && along+o.reach > g0 && along-o.reach < g1 {
			half := math.Sqrt(o.reach*o.reach - off*off)
			p.crossed = append(p.crossed, crossing{k, along - half, along + half})
		}
		for i := range o.rods {
			p.Raised = o.rods[i].cut(p.Raised, x, y, ux, uy, g0, g1, uint16(k+1))
		}
	}
}

// traceObjects raises the profile over the objects crossed.
func (w *World) traceObjects(p *Profile, x, y, ux, uy float64) {
	clear(p.Object)
	for _, c := range p.crossed {
		o := &w.objects[c.object]
		for i := searchUp(p.G, c.from); i < len(p.G) && p.G[i] <= c.to; i++ {
			g := p.G[i]
			if z, class, ok := o.topAt(x+ux*g, y+uy*g); ok && z > p.Z[i] {
				p.Z[i], p.Class[i], p.Object[i] = z, class, uint16(c.object+1)
			}
		}
	}
}

// searchUp returns the first index whose value is at least g.
func searchUp(gs []float64, g float64) int {
	lo, hi := 0, len(gs)
	for lo < hi {
		mid := int(uint(lo+hi) >> 1)
		if gs[mid] < g {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	return lo
}
