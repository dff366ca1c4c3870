package placing

import (
	"errors"
	"fmt"
	"math"

	"dryline/seabed"
)

// Group is a number of objects that are placed by the same bounds.
type Group struct {
	Name         string // its objects are called after it, with -1, -2 and so on
	Fewest, Most int    // how many there are, all numbers alike
	Kinds        []Choice

	Area seabed.Area // where they lie: its polygon; the whole world without one

	// Size is a factor on all the usual measures of the kind, the others on one of
	// them besides; the zero value is 1. Kinds that are round stay round, see
	// [seabed.Proportioned].
	Size, Length, Width, Height Distribution

	Heading Heading
	Burial  Distribution // share of its own height that is in the floor, 0 to [DeepestBurial]
	Scour   Distribution // depth of the pit scoured round it, metres

	Spacing   float64        // between the bodies of any two things, edge to edge, at least, metres
	KeepOff   []KeepOff      // where they do not lie
	Sediments []seabed.Class // that they lie on; none for any
	Steepest  float64        // slope they lie on at most, radians; 0 for any

	Shallowest, Deepest float64 // depth of the water there, metres; 0 for any

	Charted bool // whether the trainee is told of them beforehand
}

// DeepestBurial is the greatest share of its height to which an object is buried:
// of one in the floor altogether nothing would be seen.
const DeepestBurial = 0.95

// Choice is a kind of object among others.
type Choice struct {
	Kind   string       // see [seabed.Kinds]
	Weight float64      // its share of all is its share of the weights
	Class  seabed.Class // what it is made of; Unset is the kind's own
}

// Heading is how objects are turned: every way alike, or about a bearing.
type Heading struct {
	Given     bool    // about a bearing
	About     float64 // grid bearing, radians
	Deviation float64 // standard deviation about it, normally distributed, radians
}

// KeepOff is a path, or a single place, that objects lie well clear of.
type KeepOff struct {
	Path     []seabed.Point
	Distance float64 // from it to the edge of a body, at least, metres
}

// check returns what is wrong with the bounds of a group.
func (g *Group) check() error {
	if g.Name == "" {
		return errors.New("it has no name")
	}
	if g.Fewest < 0 || g.Most < g.Fewest {
		return fmt.Errorf("%d to %d objects: no such number", g.Fewest, g.Most)
	}
	weights := 0.0
	for _, c := range g.Kinds {
		if _, ok := seabed.Kinds[c.Kind]; !ok {
			return fmt.Errorf("%q is no kind of object", c.Kind)
		}
		if !(c.Weight >= 0) || math.IsInf(c.Weight, 0) {
			return fmt.Errorf("%s: a weight of %g", c.Kind, c.Weight)
		}
		weights += c.Weight
	}
	if !(weights > 0) {
		return errors.New("no kind of object has a weight")
	}
	for _, d := range []struct {
		name      string
		of        Distribution
		low, high float64
	}{
		{"size", factor(g.Size), 0.01, 100}, {"length", factor(g.Length), 0.01, 100}, {"width", factor(g.Width), 0.01, 100}, {"height", factor(g.Height), 0.01, 100},
		{"burial", g.Burial, 0, DeepestBurial}, {"scour", g.Scour, 0, 100},
	} {
		if err := d.of.check(); err != nil {
			return fmt.Errorf("%s: %w", d.name, err)
		}
		if d.of.Low < d.low || d.of.High > d.high {
			return fmt.Errorf("%s: %g to %g (want %g to %g)", d.name, d.of.Low, d.of.High, d.low, d.high)
		}
	}
	for _, v := range append([]float64{g.Spacing, g.Steepest, g.Shallowest, g.Deepest, g.Heading.Deviation}, distances(g.KeepOff)...) {
		if !(v >= 0) || math.IsInf(v, 0) {
			return fmt.Errorf("a bound of %g", v)
		}
	}
	if g.Deepest > 0 && g.Deepest < g.Shallowest {
		return fmt.Errorf("%g to %g m of water: the bounds are the wrong way round", g.Shallowest, g.Deepest)
	}
	if n := len(g.Area.Polygon); n == 1 || n == 2 {
		return fmt.Errorf("an area of %d corners", n)
	}
	return nil
}

// factor is the distribution of a factor, 1 where none is given.
func factor(d Distribution) Distribution {
	if d == (Distribution{}) {
		return Fixed(1)
	}
	return d
}

func distances(list []KeepOff) []float64 {
	var d []float64
	for _, k := range list {
		d = append(d, k.Distance)
	}
	return d
}

// choose is the choice at a share u of the weights, 0 to 1.
func (g *Group) choose(u float64) Choice {
	sum := 0.0
	for _, c := range g.Kinds {
		sum += c.Weight
	}
	u *= sum
	last := Choice{}
	for _, c := range g.Kinds {
		if c.Weight <= 0 {
			continue
		}
		if last = c; u < c.Weight {
			break
		}
		u -= c.Weight
	}
	return last
}
