package placing

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"

	"dryline/seabed"
	"dryline/seabed/chance"
)

// Ground is the bare floor that objects are placed on, before any lie on it.
// [seabed.World] is one if it was made without them.
type Ground interface {
	HeightAt(x, y float64) float64 // metres, negative below the water
	ClassAt(x, y float64) seabed.Class
}

// tries is how often a place is sought for an object before it is given up.
const tries = 4000

// under is how much water there is at least over an object, metres.
const under = 0.5

// Place draws a group of objects that lie on the ground of a world, clear of its
// edges, its fixed objects and its pipelines. The same group, world and seed give
// the same objects. If there is no room for all, none are returned and the error
// says what stood in the way.
func Place(g *Group, world *seabed.Spec, ground Ground, seed uint64) ([]seabed.Object, error) {
	if err := g.check(); err != nil {
		return nil, err
	}
	streams := func(cause string) *rand.Rand { return chance.Stream(seed, "placing/"+g.Name+"/"+cause) }
	n := g.Fewest + int(streams("count").Float64()*float64(g.Most-g.Fewest+1))
	draw := g.drawn(streams)
	s := newSite(g, world, ground)
	placed := make([]seabed.Object, 0, n)
	for i := range n {
		o := draw()
		o.Name = fmt.Sprintf("%s-%d", g.Name, i+1)
		if why := s.settle(&o, streams(fmt.Sprint("place/", i))); why != "" {
			return nil, fmt.Errorf("no place was found for object %d of %d, a %s, in %d tries: %s", i+1, n, o.Kind, tries, why)
		}
		s.take(&o)
		placed = append(placed, o)
	}
	return placed, nil
}

// drawn returns a function that draws all of an object but its name and place, one
// number from each stream for each object.
func (g *Group) drawn(streams func(cause string) *rand.Rand) func() seabed.Object {
	number := func(cause string, d Distribution) func() float64 {
		rng := streams(cause)
		return func() float64 { return d.Quantile(rng.Float64()) }
	}
	size, length, width, height := number("size", factor(g.Size)), number("length", factor(g.Length)), number("width", factor(g.Width)), number("height", factor(g.Height))
	burial, scour := number("burial", g.Burial), number("scour", g.Scour)
	kinds, turned := streams("kind"), streams("heading")
	return func() seabed.Object {
		c := g.choose(kinds.Float64())
		kind, k := seabed.Kinds[c.Kind], size()
		o := seabed.Object{Kind: c.Kind, Class: c.Class, Charted: g.Charted, Heading: g.Heading.draw(turned)}
		o.Length, o.Width, o.Height = seabed.Proportioned(c.Kind, k*length()*kind.Length, k*width()*kind.Width, k*height()*kind.Height)
		o.Burial, o.Scour = burial()*o.Height, scour()
		return o
	}
}

// draw is a grid bearing, 0 to 2 pi. It takes one draw of each kind whatever is
// asked.
func (h Heading) draw(rng *rand.Rand) float64 {
	anyway, off := 2*math.Pi*rng.Float64(), rng.NormFloat64()
	if !h.Given {
		return anyway
	}
	b := math.Mod(h.About+h.Deviation*off, 2*math.Pi)
	if b < 0 {
		b += 2 * math.Pi
	}
	return b
}

// site is where a group is being placed.
type site struct {
	*Group
	ground         Ground
	x0, y0, x1, y1 float64
	bodies         []body
	paths          []KeepOff // pipelines among them
}

// body is something that lies there, as a circle.
type body struct{ x, y, radius float64 }

func newSite(g *Group, world *seabed.Spec, ground Ground) *site {
	s := &site{Group: g, ground: ground, x1: world.East, y1: world.North, paths: slices.Clone(g.KeepOff)}
	for _, p := range g.Area.Polygon {
		if p == g.Area.Polygon[0] {
			s.x0, s.y0, s.x1, s.y1 = p.X, p.Y, p.X, p.Y
		}
		s.x0, s.x1, s.y0, s.y1 = min(s.x0, p.X), max(s.x1, p.X), min(s.y0, p.Y), max(s.y1, p.Y)
	}
	s.x0, s.y0, s.x1, s.y1 = max(s.x0, 0), max(s.y0, 0), min(s.x1, world.East), min(s.y1, world.North)
	for _, o := range world.Objects {
		whole := o.Whole()
		s.take(&whole)
	}
	for _, p := range world.Pipelines {
		s.paths = append(s.paths, KeepOff{p.Path, p.Diameter/2 + g.Spacing})
	}
	return s
}

// take notes that an object lies there.
func (s *site) take(o *seabed.Object) {
	s.bodies = append(s.bodies, body{o.At.X, o.At.Y, o.Radius()})
}

// settle seeks a place for an object. If it finds none it says what most places
// lacked.
func (s *site) settle(o *seabed.Object, rng *rand.Rand) string {
	lacked := map[string]int{}
	for range tries {
		o.At = seabed.Point{X: s.x0 + rng.Float64()*(s.x1-s.x0), Y: s.y0 + rng.Float64()*(s.y1-s.y0)}
		why := s.refuses(o)
		if why == "" {
			return ""
		}
		lacked[why]++
	}
	most := ""
	for _, why := range reasons {
		if lacked[why] > lacked[most] {
			most = why
		}
	}
	return most
}

// Why a place is refused, the cheap questions first.
const (
	outside  = "most of them lie outside the area or at its edge"
	tooClose = "most of them lie too close to something else"
	keptOff  = "most of them lie where these objects are to keep off"
	wrongBed = "most of them lie on other sediment"
	tooSteep = "most of them lie on too steep a slope"
	notDepth = "most of them lie in other depths of water"
)

var reasons = []string{outside, tooClose, keptOff, wrongBed, tooSteep, notDepth}

// refuses says why an object cannot lie where it is, or nothing.
func (s *site) refuses(o *seabed.Object) string {
	x, y, r := o.At.X, o.At.Y, o.Radius()
	if x-r < s.x0 || x+r > s.x1 || y-r < s.y0 || y+r > s.y1 || s.Area.Margin(o.At) < r {
		return outside
	}
	for _, b := range s.bodies {
		if math.Hypot(b.x-x, b.y-y) < b.radius+r+s.Spacing {
			return tooClose
		}
	}
	for _, k := range s.paths {
		if seabed.PathDistance(k.Path, o.At) < r+k.Distance {
			return keptOff
		}
	}
	// The floor under its middle and its rim.
	reach := max(r, 1)
	rim := [...]seabed.Point{{X: x, Y: y}, {X: x + reach, Y: y}, {X: x - reach, Y: y}, {X: x, Y: y + reach}, {X: x, Y: y - reach}}
	if len(s.Sediments) > 0 {
		for _, p := range rim {
			if !slices.Contains(s.Sediments, s.ground.ClassAt(p.X, p.Y)) {
				return wrongBed
			}
		}
	}
	if s.Steepest > 0 {
		at := func(i int) float64 { return s.ground.HeightAt(rim[i].X, rim[i].Y) }
		if slope := math.Hypot(at(1)-at(2), at(3)-at(4)) / (2 * reach); math.Atan(slope) > s.Steepest {
			return tooSteep
		}
	}
	depth := -s.ground.HeightAt(x, y)
	if depth < s.Shallowest || s.Deepest > 0 && depth > s.Deepest || depth-(o.Height-o.Burial) < under {
		return notDepth
	}
	return ""
}
