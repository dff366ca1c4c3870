package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"dryline/seabed/units"
)

// direction is one that lines may run in.
type direction struct {
	why     string
	bearing float64
	rank    int // of two, the higher is taken whatever the time
}

// Why a direction is looked at.
const (
	WhyAsked   = "as asked"
	WhyRoute   = "along the route"
	WhyFewest  = "fewest turns: along the side of least width"
	WhyStream  = "along the stream (IHO C-13, 2.3.4.12)"
	WhyContour = "along the contours (IHO C-13, 2.3.4.12)"
	WhyCrest   = "along the crests"
	WhyCrossed = "across the crests"
	WhySlope   = "across the contours (NOAA Field Procedures Manual 2.5.3.1.2)"
)

// directions are those worth looking at.
func (s *Spec) directions() []direction {
	if len(s.Parts) == 0 {
		return []direction{{WhyRoute, s.routeBearing(), 0}}
	}
	if !s.Auto {
		return []direction{{WhyAsked, half(s.Bearing), 0}}
	}
	_, narrow := s.narrowest()
	out := []direction{{WhyFewest, narrow, 0}}
	if s.Stream > 0.05 {
		// A stream abeam carries the fish off the line by a share of its layback. Where that is more than
		// what is allowed, C-13 has the lines along the stream.
		rank := 0
		if d := out[0].bearing - s.StreamSet; math.Abs(Offset(50, s.Speed, s.Stream, d)) > 2*s.tolerance() {
			rank = 1
		}
		out = append(out, direction{WhyStream, half(s.StreamSet), rank})
	}
	if s.Crest != nil {
		out = append(out, direction{WhyCrest, half(*s.Crest), 0}, direction{WhyCrossed, half(*s.Crest + math.Pi/2), -1})
	}
	if bearing, slope := s.contours(); slope > max(leastSlope, 1.5*s.Rough) {
		out = append(out, direction{WhyContour, bearing, 0}, direction{WhySlope, half(bearing + math.Pi/2), -1})
	}
	return out
}

// Directions are those that [Make] would look at if the direction were its choice, and why.
func (s *Spec) Directions() (out []Choice) {
	if len(s.Parts) > 0 && len(s.Check()) == 0 {
		t := *s
		t.Auto = true
		for _, d := range t.directions() {
			out = append(out, Choice{Why: d.why, Bearing: half(d.bearing)})
		}
	}
	return out
}

func (s *Spec) tolerance() float64 {
	if s.Tolerance > 0 {
		return s.Tolerance
	}
	return 4
}

// narrowest is the bearing for which the widths of all parts across it are least in
// sum: of the sides of the hulls of all (W. H. Huang, "Optimal line-sweep-based
// decompositions", ICRA 2001). One part is held by its narrowest calipers.
func (s *Spec) narrowest() (sum, bearing float64) {
	sum = math.Inf(1)
	for i := range s.Parts {
		h := hull(s.Parts[i].Outer)
		for k := range h {
			a, b := h[k], h[(k+1)%len(h)]
			if w := s.widths(math.Atan2(b.X-a.X, b.Y-a.Y)); w < sum-1e-6 {
				sum, bearing = w, half(math.Atan2(b.X-a.X, b.Y-a.Y))
			}
		}
		if _, b := Width(s.Parts[i].Outer); s.widths(b) < sum-1e-6 {
			sum, bearing = s.widths(b), b
		}
	}
	return sum, bearing
}

func (s *Spec) widths(bearing float64) (sum float64) {
	f := along(bearing)
	for i := range s.Parts {
		low, high := s.Parts[i].across(f)
		sum += high - low
	}
	return sum
}

// leastSlope is where contours begin to mean something: half a metre in a hundred.
const leastSlope = 0.005

// contours is the bearing that the contours run on, on the whole, and the rms slope: by
// the mean of the products of the gradient over the area.
func (s *Spec) contours() (bearing, slope float64) {
	var xx, xy, yy float64
	n := 0
	const step = 10.0
	for i := range s.Parts {
		x0, y0, x1, y1 := box(s.Parts[i].Outer)
		d := max(step, math.Sqrt((x1-x0)*(y1-y0))/100)
		for y := y0; y < y1; y += d {
			for x := x0; x < x1; x += d {
				if !s.Parts[i].Contains(Point{x, y}) {
					continue
				}
				e, ok1 := s.Ground.DepthAt(x+step, y)
				w, ok2 := s.Ground.DepthAt(x-step, y)
				a, ok3 := s.Ground.DepthAt(x, y+step)
				b, ok4 := s.Ground.DepthAt(x, y-step)
				if !(ok1 && ok2 && ok3 && ok4) {
					continue
				}
				gx, gy := (e-w)/(2*step), (a-b)/(2*step)
				xx, xy, yy, n = xx+gx*gx, xy+gx*gy, yy+gy*gy, n+1
			}
		}
	}
	if n == 0 {
		return 0, 0
	}
	steepest := math.Atan2(2*xy, xx-yy) / 2 // from east towards north
	return half(-steepest), math.Sqrt((xx + yy) / float64(n))
}

func box(ring []Point) (x0, y0, x1, y1 float64) {
	x0, y0, x1, y1 = math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, p := range ring {
		x0, x1, y0, y1 = min(x0, p.X), max(x1, p.X), min(y0, p.Y), max(y1, p.Y)
	}
	return
}

// because says why a direction was taken.
func (s *Spec) because(p *Plan, choices []Choice) string {
	if len(choices) < 2 {
		return p.Because
	}
	text := p.Because
	quickest := slices.MinFunc(choices, func(a, b Choice) int { return cmp.Compare(a.Time, b.Time) })
	switch {
	case p.Because == WhyStream && quickest.Why != WhyStream:
		text += fmt.Sprintf("; on other bearings %.1f kn would carry the fish off the line", s.Stream/units.Knot)
	default:
		text += "; of those looked at it takes least time"
	}
	return text + ". Contours speak for both: C-13 has lines along them, NOAA's manual across; both are listed."
}

func (s *Spec) routeBearing() float64 {
	best, bearing := 0.0, 0.0
	for i := 1; i < len(s.Route); i++ {
		a, b := s.Route[i-1], s.Route[i]
		if l := math.Hypot(b.X-a.X, b.Y-a.Y); l > best {
			best, bearing = l, half(math.Atan2(b.X-a.X, b.Y-a.Y))
		}
	}
	return bearing
}
