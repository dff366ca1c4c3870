package seabed

import (
	"math"
	"slices"
)

// Pipeline is a pipe or cable laid along a line: in places in the floor, in
// places on it, and over its spans clear of it.
type Pipeline struct {
	Name     string
	Path     []Point // at least two, no two in turn the same
	Diameter float64 // outside, metres
	Burial   float64 // mean depth of its underside in the floor outside spans, metres
	Spans    []Span
	Class    Class // Unset is steel
	Charted  bool  // whether the trainee is told of it beforehand
}

// Span is a stretch where a pipeline hangs clear of the floor.
type Span struct {
	From, To float64 // along the path, metres
	Height   float64 // of its underside above the floor at mid-span, metres
}

// Length is the length of the path, metres.
func (p *Pipeline) Length() float64 {
	sum := 0.0
	for i := 1; i < len(p.Path); i++ {
		sum += math.Hypot(p.Path[i].X-p.Path[i-1].X, p.Path[i].Y-p.Path[i-1].Y)
	}
	return sum
}

// Nearest is the point of the path nearest to (x, y).
func (p *Pipeline) Nearest(x, y float64) Point {
	best, least := p.Path[0], math.Inf(1)
	for i := 1; i < len(p.Path); i++ {
		a, b := p.Path[i-1], p.Path[i]
		dx, dy := b.X-a.X, b.Y-a.Y
		t := 0.0
		if n := dx*dx + dy*dy; n > 0 {
			t = min(max(((x-a.X)*dx+(y-a.Y)*dy)/n, 0), 1)
		}
		at := Point{a.X + t*dx, a.Y + t*dy}
		if d := math.Hypot(x-at.X, y-at.Y); d < least {
			best, least = at, d
		}
	}
	return best
}

const (
	pipeStep    = 1.5  // longest piece, metres: it follows the floor so closely
	burialScale = 40.0 // metres: burial varies with twice this wavelength
	landing     = 8.0  // metres over which burial ends before a span
	thinCover   = 0.15 // metres: deeper pieces show nothing and are left out
)

// gapAt is the height of the underside above the floor, metres; negative where
// it is buried. Burial varies between 0 and twice its mean, so a pipe buried to
// half its diameter is bare here and covered there. noise is in -1..1.
func (p *Pipeline) gapAt(s, noise float64) float64 {
	away := math.Inf(1) // distance to the nearest span
	for _, span := range p.Spans {
		if s > span.From && s < span.To {
			u := math.Sin(math.Pi * (s - span.From) / (span.To - span.From))
			return span.Height * u * u
		}
		away = min(away, max(span.From-s, s-span.To))
	}
	return -p.Burial * (1 + noise) * ramp(away/landing)
}

// stations are the distances along the path at which pieces join: corners,
// ends of spans, and points between them.
func (p *Pipeline) stations() []float64 {
	s, stops := 0.0, []float64{0}
	for i := 1; i < len(p.Path); i++ {
		s += math.Hypot(p.Path[i].X-p.Path[i-1].X, p.Path[i].Y-p.Path[i-1].Y)
		stops = append(stops, s)
	}
	for _, span := range p.Spans {
		stops = append(stops, min(max(span.From, 0), s), min(max(span.To, 0), s))
	}
	slices.Sort(stops)
	var out []float64
	for i, from := range stops[:len(stops)-1] {
		length := stops[i+1] - from
		if length < 1e-6 {
			continue
		}
		n := math.Ceil(length / pipeStep)
		for k := range int(n) {
			out = append(out, from+length*float64(k)/n)
		}
	}
	return append(out, s)
}

// at is the point s metres along the path.
func (p *Pipeline) at(s float64) Point {
	last := len(p.Path) - 1
	for i := 1; ; i++ {
		a, b := p.Path[i-1], p.Path[i]
		length := math.Hypot(b.X-a.X, b.Y-a.Y)
		if s <= length || i == last {
			t := min(s/length, 1)
			return Point{a.X + t*(b.X-a.X), a.Y + t*(b.Y-a.Y)}
		}
		s -= length
	}
}

// lay sets the pipeline on the floor as short straight pieces: cylinders
// where it lies, rods where it hangs.
func (w *World) lay(p *Pipeline, number uint16, seed uint64) {
	class := p.Class
	if class == Unset {
		class = Steel
	}
	noise := noiseFor(seed, "pipeline/"+p.Name)
	radius := p.Diameter / 2
	type station struct {
		at     Point
		z, gap float64 // of its underside, and that above the floor
	}
	var last station
	for i, s := range p.stations() {
		next := station{at: p.at(s)}
		// Two noises with a share over 1 that is cut off: bare and covered lengths
		// are as common as those between.
		depth := 1.6 * (noise.Eval2(s/burialScale, 0) + 0.4*noise.Eval2(3*s/burialScale, 9))
		next.gap = p.gapAt(s, min(max(depth, -1), 1))
		next.z = w.floor(next.at.X, next.at.Y) + next.gap
		if i == 0 {
			last = next
			continue
		}
		a, b := last, next
		last = next
		dx, dy := b.at.X-a.at.X, b.at.Y-a.at.Y
		length := math.Hypot(dx, dy)
		switch {
		case max(a.gap, b.gap) > 0.01:
			w.rods = append(w.rods, capsule{
				a: vec{a.at.X, a.at.Y, a.z + radius}, b: vec{b.at.X, b.at.Y, b.z + radius},
				joinA: true, joinB: true, radius: radius, class: class, object: number,
			})
		case max(a.gap, b.gap) > -p.Diameter-thinCover:
			body := roller{length/2 + radius/4, radius} // a little over the joint, for bends
			w.put(placedPart{
				solid: body, box: body.bounds(), x: (a.at.X + b.at.X) / 2, y: (a.at.Y + b.at.Y) / 2,
				z: (a.z + b.z) / 2, tilt: (b.z - a.z) / length, class: class, object: number,
			}, math.Atan2(dx, dy))
		}
	}
}
