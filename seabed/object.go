package seabed

import (
	"cmp"
	"math"

	"dryline/seabed/chance"
	"dryline/seabed/transport"
)

// Object is one thing lying on the floor.
type Object struct {
	Name     string
	Kind     string  // see Kinds
	At       Point   // its middle
	Heading  float64 // grid bearing of its bow or long axis, radians
	Length   float64 // metres, along the heading
	Width    float64 // metres
	Height   float64 // metres above its own base
	Burial   float64 // how deep its base lies in the floor, metres
	Scour    float64 // depth of the pit scoured round it, metres
	Class    Class   // what most of it is made of
	Strength float64 // of its echo over its material's, dB: rust, growth, hollows
	Charted  bool    // whether the trainee is told of it beforehand
	Settled  bool    // sunk and scoured as flow and grains have it, instead of Burial and Scour

	drift Point // unit vector the scour is drawn out along; none if it is round

	// A length, width or height of 0 and an Unset class take the kind's own.
}

// Radius bounds the plan of the object's body, metres from At. Loose wreckage
// and lines may lie beyond it.
func (o *Object) Radius() float64 { return math.Hypot(o.Length, o.Width) / 2 }

// Whole is the object with the measures and the class of its kind where none are
// given.
func (o Object) Whole() Object {
	kind, ok := Kinds[o.Kind]
	if !ok {
		panic("seabed: unknown object kind")
	}
	o.Length = cmp.Or(o.Length, kind.Length)
	o.Width = cmp.Or(o.Width, kind.Width)
	o.Height = cmp.Or(o.Height, kind.Height)
	o.Class = cmp.Or(o.Class, kind.Class)
	return o
}

// settled is a settled object with the burial and the scour that the flow of its world
// gives it on grains of a diameter; any other as it is.
//
// It sinks by Rennie, Brandt and Friedrichs' law below the floor about it, no deeper
// than leaves a twentieth of it out. The pit is as deep as it sank, at most half its
// height, and is drawn out down the current: depths and slopes of such pits are common
// practice, no source.
func (o Object) settled(flow *Flow, depth, grain float64) Object {
	if !o.Settled {
		return o
	}
	o.Burial, o.Scour = 0, 0
	if grain == 0 {
		return o
	}
	shields := flow.over(depth).Shields(grain)
	if shields < transport.ThresholdShields(grain) {
		return o
	}
	sunk := min(transport.Burial(shields, o.Height), 0.95) * o.Height
	o.Scour = min(sunk, 0.5*o.Height)
	o.Burial = sunk - o.Scour // below the bottom of its pit
	if flow.Current > 0 {
		o.drift = Point{math.Sin(flow.Set), math.Cos(flow.Set)}
	}
	return o
}

// build puts the object's shape together.
func (o *Object) build(seed uint64) shape {
	var s shape
	Kinds[o.Kind].build(&s, o, chance.Stream(seed, "seabed/object/"+o.Name+"/"+o.Kind))
	return s
}

// place sets the object's shape on the floor: the parts and rods go to the
// world's own lists, as the object of that number (index plus one).
func (w *World) place(o *Object, number uint16, seed uint64) {
	s := o.build(seed)
	base := w.floor(o.At.X, o.At.Y) - o.Burial
	sin, cos := math.Sincos(o.Heading)
	toWorld := func(x, y float64) (float64, float64) {
		return o.At.X + x*sin + y*cos, o.At.Y + x*cos - y*sin
	}
	under := func(lies bool, x, y float64) float64 {
		if lies {
			return w.floor(x, y) - o.Burial
		}
		return base
	}
	for _, p := range s.parts {
		x, y := toWorld(p.x, p.y)
		w.put(placedPart{
			solid: p.solid, box: p.solid.bounds(), x: x, y: y, z: under(p.lies, x, y) + p.z,
			tilt: p.tilt, class: p.class, object: number,
		}, o.Heading+p.yaw)
	}
	for _, r := range s.rods {
		r.a.x, r.a.y = toWorld(r.a.x, r.a.y)
		r.b.x, r.b.y = toWorld(r.b.x, r.b.y)
		r.a.z += under(r.lies, r.a.x, r.a.y)
		r.b.z += under(r.lies, r.b.x, r.b.y)
		r.object = number
		w.rods = append(w.rods, r.capsule)
	}
}

// drawnOut is how many times as long a scour is down the current as up it.
const drawnOut = 3.0

// scourInto lowers a tile's floor round the object: a pit deepest at its edge,
// drawn out to nothing at twice its size.
func (o *Object) scourInto(t *tile, x0, y0 float64) {
	if o.Scour <= 0 {
		return
	}
	reach := 2.5 * max(o.Length, o.Width)
	if o.drift != (Point{}) {
		reach *= drawnOut
	}
	if o.At.X+reach < x0-1 || o.At.X-reach > x0+tileSize+1 ||
		o.At.Y+reach < y0-1 || o.At.Y-reach > y0+tileSize+1 {
		return
	}
	sin, cos := math.Sincos(o.Heading)
	eachNode(x0, y0, func(n int, x, y float64) {
		dx, dy := x-o.At.X, y-o.At.Y
		if down := dx*o.drift.X + dy*o.drift.Y; down > 0 {
			// Down the current the pit is that many times as long.
			dx -= (1 - 1/drawnOut) * down * o.drift.X
			dy -= (1 - 1/drawnOut) * down * o.drift.Y
		}
		along, across := dx*sin+dy*cos, dx*cos-dy*sin
		u := math.Hypot(along/(o.Length/2+o.Width/2), across/o.Width)
		if u < 3 {
			t.z[n] -= float32(o.Scour * math.Exp(-1.2*u*u))
		}
	})
}
