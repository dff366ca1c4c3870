package trial

import (
	"fmt"
	"math"

	"dryline/seabed"
	"dryline/seabed/chance"
)

// apart is how far targets of one run lie from each other at least, so that no shadow
// falls on another: our own choice, metres.
const apart = 30.0

// Draw draws a run: each thing from a stream of its own, so that one target more or less
// moves no other. It fails where the area has no room for the targets.
func Draw(spec *Spec, area []seabed.Point, seed uint64, number int) (*Run, error) {
	r := &Run{Number: number, Seed: seedOf(seed, number)}
	drawn := func(what string, from *Range, turn bool) *float64 {
		if from == nil {
			return nil
		}
		span := from.High - from.Low
		if turn && span < 0 {
			span += 360
		}
		v := from.Low + span*chance.Stream(r.Seed, "trial/"+what).Float64()
		if turn {
			v = math.Mod(v, 360)
		}
		return &v
	}
	w := &spec.Weather
	r.Wind, r.WindFrom = drawn("wind", w.Wind, false), drawn("wind from", w.WindFrom, true)
	r.Current, r.Set = drawn("current", w.Current, false), drawn("set", w.Set, true)
	x0, y0, x1, y1 := box(area)
	for i, t := range spec.Targets {
		for k := range t.Count {
			rng := chance.Stream(r.Seed, fmt.Sprintf("trial/target/%d/%d", i, k))
			o := seabed.Object{
				Name: fmt.Sprintf("target %d-%d", i+1, k+1), Kind: t.Kind, Length: t.Length, Width: t.Width, Height: t.Height,
				Burial: t.Burial * t.Height, Heading: 2 * math.Pi * rng.Float64(),
			}
			tries := 0
			for ; tries < 2000; tries++ {
				o.At = seabed.Point{X: x0 + (x1-x0)*rng.Float64(), Y: y0 + (y1-y0)*rng.Float64()}
				if within(area, o.At.X, o.At.Y) && clear(r.Objects, o.At) {
					break
				}
			}
			if tries == 2000 {
				return nil, fmt.Errorf("the area has no room for %d targets %g m apart", total(spec.Targets), apart)
			}
			r.Objects, r.Of = append(r.Objects, o), append(r.Of, i)
		}
	}
	return r, nil
}

// seedOf is the seed of a run.
func seedOf(seed uint64, number int) uint64 {
	return chance.Seed(seed, fmt.Sprintf("trial/run/%d", number)) >> 12
}

func total(targets []Target) (n int) {
	for _, t := range targets {
		n += t.Count
	}
	return n
}

func clear(objects []seabed.Object, at seabed.Point) bool {
	for i := range objects {
		if math.Hypot(objects[i].At.X-at.X, objects[i].At.Y-at.Y) < apart {
			return false
		}
	}
	return true
}

func box(corners []seabed.Point) (x0, y0, x1, y1 float64) {
	x0, y0, x1, y1 = math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, p := range corners {
		x0, y0, x1, y1 = min(x0, p.X), min(y0, p.Y), max(x1, p.X), max(y1, p.Y)
	}
	return x0, y0, x1, y1
}

// within reports whether a point lies in a polygon, by the even-odd rule.
func within(corners []seabed.Point, x, y float64) bool {
	in := false
	for i, j := 0, len(corners)-1; i < len(corners); j, i = i, i+1 {
		a, b := corners[i], corners[j]
		if (a.Y > y) != (b.Y > y) && x < a.X+(y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}
