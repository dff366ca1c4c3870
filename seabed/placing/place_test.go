package placing

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"dryline/seabed"
)

// outline is the corners of an object's body and points along its sides.
func outline(o seabed.Object) (points []seabed.Point) {
	sin, cos := math.Sincos(o.Heading)
	for i := range 16 {
		t := float64(i%4)/2 - 1
		u, v := t, 1.0
		switch i / 4 {
		case 1:
			u, v = 1, -t
		case 2:
			u, v = -t, -1
		case 3:
			u, v = -1, t
		}
		along, across := u*o.Length/2, v*o.Width/2
		points = append(points, seabed.Point{X: o.At.X + along*sin + across*cos, Y: o.At.Y + along*cos - across*sin})
	}
	return points
}

// inside says whether a point is in a polygon: by the winding number (Hormann and
// Agathos, Comput. Geom. 20, 2001), which is not how the engine does it.
func inside(polygon []seabed.Point, p seabed.Point) bool {
	turned := 0.0
	for i, a := range polygon {
		b := polygon[(i+1)%len(polygon)]
		turned += math.Remainder(math.Atan2(b.Y-p.Y, b.X-p.X)-math.Atan2(a.Y-p.Y, a.X-p.X), 2*math.Pi)
	}
	return math.Abs(turned) > math.Pi
}

// gap is the distance between a point and the nearest of a path, by trying points
// along it at most a metre apart: too much by a centimetre or two, from some metres
// off.
func gap(path []seabed.Point, p seabed.Point) float64 {
	if len(path) == 1 {
		return math.Hypot(path[0].X-p.X, path[0].Y-p.Y)
	}
	least := math.Inf(1)
	for i := 1; i < len(path); i++ {
		a, b := path[i-1], path[i]
		n := math.Ceil(math.Hypot(b.X-a.X, b.Y-a.Y))
		for k := 0.0; k <= n; k++ {
			least = min(least, math.Hypot(a.X+k/n*(b.X-a.X)-p.X, a.Y+k/n*(b.Y-a.Y)-p.Y))
		}
	}
	return least
}

// Over a thousand seeds: as many as asked, none outside the area or the world, none
// inside another or closer than the spacing, none on other ground, steeper, nearer
// to what they keep off or in other depths, and nothing but what may be drawn.
func TestPlacedWithinBounds(t *testing.T) {
	for _, g := range []*Group{mixed(), tall()} {
		placedWithinBounds(t, g)
	}
}

func placedWithinBounds(t *testing.T, g *Group) {
	w := world()
	fixed := []seabed.Object{w.Objects[0].Whole(), w.Objects[1].Whole()}
	counts := map[int]int{}
	for seed := range uint64(1000) {
		objects, err := Place(g, w, bank{}, seed)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		counts[len(objects)]++
		all := append(fixed[:2:2], objects...)
		for i, o := range objects {
			if o.Name != fmt.Sprintf("debris-%d", i+1) || !o.Charted {
				t.Fatalf("seed %d: object %d is %+v", seed, i, o)
			}
			for _, p := range outline(o) {
				if p.X < 0 || p.X > w.East || p.Y < 0 || p.Y > w.North || len(g.Area.Polygon) > 0 && !inside(g.Area.Polygon, p) {
					t.Fatalf("seed %d: %+v reaches out of the area at %v", seed, o, p)
				}
				for _, k := range g.KeepOff {
					if d := gap(k.Path, p); d < k.Distance-0.02 {
						t.Fatalf("seed %d: %+v is %.2f m from what it is to keep off by %g", seed, o, d, k.Distance)
					}
				}
				if d := gap(w.Pipelines[0].Path, p); d < 0.4+g.Spacing-0.02 {
					t.Fatalf("seed %d: %+v is %.2f m from the pipeline", seed, o, d)
				}
				for _, other := range all[:len(fixed)+i] {
					for _, q := range outline(other) {
						if d := math.Hypot(p.X-q.X, p.Y-q.Y); d < g.Spacing {
							t.Fatalf("seed %d: %s and %s are %.2f m apart, want %g", seed, o.Name, other.Name, d, g.Spacing)
						}
					}
				}
			}
			if c := (bank{}).ClassAt(o.At.X, o.At.Y); len(g.Sediments) > 0 && !slices.Contains(g.Sediments, c) {
				t.Fatalf("seed %d: %s lies on %v", seed, o.Name, c)
			}
			if s := (bank{}).slopeAt(o.At.X); g.Steepest > 0 && s > g.Steepest+1e-9 {
				t.Fatalf("seed %d: %s lies on a slope of %.1f deg", seed, o.Name, s*180/math.Pi)
			}
			depth := -bank{}.HeightAt(o.At.X, o.At.Y)
			if depth < g.Shallowest || g.Deepest > 0 && depth > g.Deepest || o.Height-o.Burial > depth-under {
				t.Fatalf("seed %d: %+v lies in %.1f m", seed, o, depth)
			}
			kind := seabed.Kinds[o.Kind]
			if k := o.Length / kind.Length; k < g.Size.Low*factor(g.Length).Low-1e-9 || k > g.Size.High*factor(g.Length).High+1e-9 {
				t.Fatalf("seed %d: %+v is %.2f times as long as usual", seed, o, k)
			}
			if o.Burial < 0 || o.Burial > g.Burial.High*o.Height || o.Scour < 0 || o.Scour > g.Scour.High || o.Heading < 0 || o.Heading >= 2*math.Pi {
				t.Fatalf("seed %d: %+v", seed, o)
			}
			l, b, h := seabed.Proportioned(o.Kind, o.Length, o.Width, o.Height)
			if l != o.Length || b != o.Width || h != o.Height || o.Kind == "pipe" {
				t.Fatalf("seed %d: %+v is no shape of its kind, or no kind asked for", seed, o)
			}
		}
	}
	for n := range counts {
		if n < g.Fewest || n > g.Most {
			t.Errorf("%d objects, want %d to %d", n, g.Fewest, g.Most)
		}
	}
}

func TestSameSeedSameObjects(t *testing.T) {
	a, err := Place(mixed(), world(), bank{}, 5)
	if err != nil {
		t.Fatal(err)
	}
	b, _ := Place(mixed(), world(), bank{}, 5)
	if c, _ := Place(mixed(), world(), bank{}, 6); !reflect.DeepEqual(a, b) || reflect.DeepEqual(a, c) {
		t.Error("the objects are not those of the seed")
	}
}

// Another distribution moves nothing but what it is the distribution of: where there
// is room every object stays where it was.
func TestOneDistributionMovesNothingElse(t *testing.T) {
	sparse := func(change func(g *Group)) []seabed.Object {
		g := &Group{
			Name: "stones", Fewest: 5, Most: 8, Kinds: []Choice{{Kind: "boulder", Weight: 1}, {Kind: "block", Weight: 1}},
		}
		change(g)
		objects, err := Place(g, &seabed.Spec{East: 3000, North: 3000}, bank{}, 11)
		if err != nil {
			t.Fatal(err)
		}
		return objects
	}
	before := sparse(func(*Group) {})
	for _, row := range []struct {
		name   string
		change func(g *Group)
		forget func(o *seabed.Object)
	}{
		{"count", func(g *Group) { g.Most = 40 }, func(*seabed.Object) {}},
		{"kind", func(g *Group) { g.Kinds[0].Weight = 9 }, func(o *seabed.Object) { o.Kind, o.Length, o.Width, o.Height = "", 0, 0, 0 }},
		{"size", func(g *Group) { g.Size = Distribution{Law: LogUniform, Low: 0.5, High: 2} }, func(o *seabed.Object) { o.Length, o.Width, o.Height = 0, 0, 0 }},
		{"length", func(g *Group) { g.Length = Distribution{Low: 0.5, High: 2} }, func(o *seabed.Object) { o.Length = 0 }},
		{"width", func(g *Group) { g.Width = Distribution{Low: 0.5, High: 2} }, func(o *seabed.Object) { o.Width = 0 }},
		{"height", func(g *Group) { g.Height = Distribution{Low: 0.5, High: 2} }, func(o *seabed.Object) { o.Height = 0 }},
		{"heading", func(g *Group) { g.Heading = Heading{Given: true, About: 1} }, func(o *seabed.Object) { o.Heading = 0 }},
		{"burial", func(g *Group) { g.Burial = Distribution{Low: 0, High: 0.5} }, func(o *seabed.Object) { o.Burial = 0 }},
		{"scour", func(g *Group) { g.Scour = Fixed(0.2) }, func(o *seabed.Object) { o.Scour = 0 }},
		{"bounds that all keep", func(g *Group) { g.Spacing, g.Steepest, g.Deepest = 3, 1.5, 1e4 }, func(*seabed.Object) {}},
	} {
		after := sparse(row.change)
		changed := false
		for i := range min(len(before), len(after)) {
			a, b := before[i], after[i]
			changed = changed || a != b
			row.forget(&a)
			row.forget(&b)
			if a != b {
				t.Errorf("%s: object %d was %+v and is %+v", row.name, i, a, b)
			}
		}
		if same := row.name == "count" || row.name == "bounds that all keep"; same == changed {
			t.Errorf("%s: changed %v", row.name, changed)
		}
	}
}

// Who asks for more than there is room for is told, on one line, what stood in the
// way.
func TestNoRoomIsSaid(t *testing.T) {
	for _, row := range []struct {
		name   string
		change func(g *Group)
		want   string
	}{
		{"crowded", func(g *Group) { g.Fewest, g.Most, g.Spacing = 60, 60, 60 }, "too close to something else"},
		{"no such ground", func(g *Group) { g.Sediments = []seabed.Class{seabed.Rock} }, "on other sediment"},
		{"no such slope", func(g *Group) { g.Steepest = 1e-4; g.KeepOff, g.Sediments = nil, nil }, "too steep a slope"},
		{"no such depth", func(g *Group) { g.Shallowest, g.Deepest, g.Sediments, g.Steepest = 400, 500, nil, 0 }, "in other depths"},
		{"an area too small", func(g *Group) { g.Area.Polygon = []seabed.Point{{X: 9, Y: 9}, {X: 9.1, Y: 9}, {X: 9, Y: 9.1}} }, "outside the area"},
		{"an area off the map", func(g *Group) {
			g.Area.Polygon = []seabed.Point{{X: 900, Y: 900}, {X: 990, Y: 900}, {X: 900, Y: 990}}
		}, "outside the area"},
		{"nowhere to go", func(g *Group) { g.KeepOff[1].Distance = 900 }, "to keep off"},
	} {
		g := mixed()
		row.change(g)
		objects, err := Place(g, world(), bank{}, 1)
		if err == nil || len(objects) > 0 || !strings.Contains(err.Error(), row.want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: got %d objects and %v, want an error with %q", row.name, len(objects), err, row.want)
		}
	}
}

func TestBadGroups(t *testing.T) {
	for _, row := range []struct {
		name   string
		change func(g *Group)
	}{
		{"no name", func(g *Group) { g.Name = "" }},
		{"fewest over most", func(g *Group) { g.Fewest = 10 }},
		{"less than none", func(g *Group) { g.Fewest = -1 }},
		{"no kinds", func(g *Group) { g.Kinds = nil }},
		{"unknown kind", func(g *Group) { g.Kinds[0].Kind = "submarine" }},
		{"weight below none", func(g *Group) { g.Kinds[0].Weight = -1 }},
		{"weight no number", func(g *Group) { g.Kinds[0].Weight = math.NaN() }},
		{"bounds turned round", func(g *Group) { g.Length = Distribution{Low: 2, High: 1} }},
		{"not finite", func(g *Group) { g.Scour = Distribution{High: math.Inf(1)} }},
		{"no logarithm", func(g *Group) { g.Burial = Distribution{Law: LogUniform, High: 0.5} }},
		{"mean out of bounds", func(g *Group) { g.Height.Mean = 9 }},
		{"no deviation", func(g *Group) { g.Height.Deviation = 0 }},
		{"unknown law", func(g *Group) { g.Size.Law = "zipf" }},
		{"no size", func(g *Group) { g.Size = Fixed(-1) }},
		{"buried whole", func(g *Group) { g.Burial = Fixed(1) }},
		{"spacing below none", func(g *Group) { g.Spacing = -1 }},
		{"depths turned round", func(g *Group) { g.Shallowest, g.Deepest = 30, 20 }},
		{"two corners", func(g *Group) { g.Area.Polygon = g.Area.Polygon[:2] }},
		{"keep off by less than none", func(g *Group) { g.KeepOff[0].Distance = math.Inf(-1) }},
	} {
		g := mixed()
		row.change(g)
		if objects, err := Place(g, world(), bank{}, 1); err == nil || objects != nil {
			t.Errorf("%s was accepted", row.name)
		}
	}
}
