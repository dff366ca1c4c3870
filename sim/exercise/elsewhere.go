package exercise

import (
	"dryline/seabed"
	"dryline/seabed/placing"
)

// Elsewhere has the uncharted objects of an exercise lie elsewhere with another seed than
// the exercise's own: the same things, in other places and turned another way, so that a
// second attempt is no test of memory.
type Elsewhere struct {
	Area    []seabed.Point
	Spacing float64 // between one and anything else, and from where any was given, metres
	KeepOff []placing.KeepOff
}

// move takes the objects that are to lie elsewhere out of a spec and returns a group for
// each, and what they were.
func (e *Elsewhere) move(spec seabed.Spec) (rest seabed.Spec, groups []placing.Group, were map[string]seabed.Object) {
	were = map[string]seabed.Object{}
	var stay []seabed.Object
	keepOff := append([]placing.KeepOff(nil), e.KeepOff...)
	for _, o := range spec.Objects {
		if !o.Charted {
			keepOff = append(keepOff, placing.KeepOff{Path: []seabed.Point{o.At}, Distance: e.Spacing})
		}
	}
	for _, given := range spec.Objects {
		if given.Charted {
			stay = append(stay, given)
			continue
		}
		o := given.Whole()
		usual := seabed.Kinds[o.Kind]
		groups = append(groups, placing.Group{
			Name: o.Name, Fewest: 1, Most: 1, Kinds: []placing.Choice{{Kind: o.Kind, Weight: 1, Class: o.Class}},
			Area:   seabed.Area{Polygon: e.Area},
			Length: placing.Fixed(o.Length / usual.Length), Width: placing.Fixed(o.Width / usual.Width), Height: placing.Fixed(o.Height / usual.Height),
			Spacing: e.Spacing, KeepOff: keepOff,
		})
		were[o.Name+"-1"] = given
	}
	spec.Objects = stay
	return spec, groups, were
}

// restore gives the objects that were moved everything of theirs but place and heading.
func restore(objects []seabed.Object, were map[string]seabed.Object) {
	for i := range objects {
		if o, ok := were[objects[i].Name]; ok {
			o.At, o.Heading = objects[i].At, objects[i].Heading
			objects[i] = o
		}
	}
}
