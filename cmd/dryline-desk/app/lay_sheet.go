package app

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"dryline/seabed/units"
	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/plan"
	"dryline/sim/report"
	"dryline/sim/survey"
	"dryline/vessel"
)

// lineSheet holds what lines are to be laid by: the brief and its charted depths, what was typed and chosen. It
// knows no more of the ground than is charted.
type lineSheet struct {
	brief *exercise.Brief
	desk  *mobilisation // of which it has the range scale and where the fish is towed from

	height, gap, overlap, spacing, runIn, runOut, cross *entered
	bearing, set, current, crest, low, object           *entered

	way    way
	spaced bool // by a distance and not by an overlap
	nadir  plan.Nadir
	apart  int  // rows between lines that follow one another, 0 for whatever is shortest
	edges  bool // a line outside of each limit
	sail   bool // these lines are to be sailed, and not those given

	drawn   bool // the area is
	corners []plan.Point
}

// way is why lines run as they do.
type way int

// The ways.
const (
	longestSide way = iota
	alongCurrent
	alongCrests
	acrossCrests
	alongContours
	acrossContours
	asTyped
)

// ways tell what the sheet says of each, what [plan.Choice] calls it, and why one would.
var ways = [...]struct{ says, called, because string }{
	longestSide:    {"along the longest side", plan.WhyFewest, "that asks for fewest turns"},
	alongCurrent:   {"along the current", plan.WhyStream, "abeam it would carry the fish off the line (IHO C-13, chapter 4, 2.3.4.12)"},
	alongCrests:    {"along the crests", plan.WhyCrest, "the floor stays as deep along a line, and the winch has little to do"},
	acrossCrests:   {"across the crests", plan.WhyCrossed, "seen along the crests, no lee side lies in shadow"},
	alongContours:  {"along the contours", plan.WhyContour, "the water stays as deep along a line (IHO C-13, chapter 4, 2.3.4.12)"},
	acrossContours: {"across the contours", plan.WhySlope, "every line goes from shoal to deep (NOAA Field Procedures Manual, 2.5.3.1.2)"},
	asTyped:        {"as typed", "", "you said so"},
}

func newLineSheet(b *exercise.Brief, desk *mobilisation) *lineSheet {
	s := &lineSheet{brief: b, desk: desk, nadir: plan.GapLeft}
	scale := b.Sonar.RangeScale
	add := func(name, unit string, decimals int, step, given, low, high float64) *entered {
		e := &entered{name: name, unit: unit, decimals: decimals, step: step, given: given, low: low, high: high}
		e.text = e.write(given)
		return e
	}
	least, most := s.band()
	degree := 180 / math.Pi
	track := b.Lines[0].Track(false)
	s.bearing = add("Direction of the lines", "°", 0, 5, math.Mod(track.Bearing()*degree+360, 360), 0, 360)
	s.set = add("The current sets to", "°", 0, 5, 0, 0, 360)
	s.current = add("Current", "kn", 1, 0.1, 0, 0, 6)
	s.crest = add("Direction of the crests", "°", 0, 5, 0, 0, 360)
	s.crest.may, s.crest.text = true, ""
	s.height = add("Height of the fish", "m", 1, 0.5, cmp.Or(b.Plan.Altitude, scale*(least+min(most, 2*least))/2), 0.5, 200)
	s.gap = add("Not relied upon next to the fish", "m", 1, 0.5, scale*plan.GapShare, 0.5, 500)
	s.overlap = add("Overlap", "%", 0, 5, 20, 0, 95)
	s.spacing = add("Distance between lines", "m", 0, 5, plan.SpacingFor(scale, 0.2, scale*plan.GapShare, plan.GapLeft), 1, 2000)
	s.cross = add("Distance between cross-lines", "m", 0, 10, 0, 0, 5000)
	s.runIn = add("Run-in", "m", 0, 5, b.Plan.RunIn, 0, order.LongestRunIn)
	s.runOut = add("Run-out", "m", 0, 5, b.Plan.RunOut, 0, order.LongestRunIn)
	s.object = add("Smallest object wanted", "m", 1, 0.1, 1, 0.1, 50)
	s.low = add("Low water", "m", 1, 0.1, 0, 0, 8)
	return s
}

// band is the height wanted of the fish, shares of the range scale.
func (s *lineSheet) band() (low, high float64) {
	return survey.HeightBand(s.brief.Score.AltitudeMin, s.brief.Score.AltitudeMax)
}

// scale is the figure of the range scale, which is the mobilisation sheet's.
func (s *lineSheet) scale() *entered { return s.desk.of(order.Range, "") }

// standing are the figures that stand in the sentences as they are, in their order.
func (s *lineSheet) standing() (out []*entered) {
	if s.way == asTyped {
		out = append(out, s.bearing)
	}
	out = append(out, s.set, s.current, s.crest, s.scale(), s.height, s.gap)
	if s.spaced {
		out = append(out, s.spacing)
	} else {
		out = append(out, s.overlap)
	}
	return append(out, s.runIn, s.runOut, s.cross, s.object, s.low)
}

func (s *lineSheet) empty(e *entered) bool { return e.may && strings.TrimSpace(e.text) == "" }

// fault says in a line why a figure will not do, or nothing.
func (s *lineSheet) fault(e *entered) string {
	if e.do != "" {
		return s.desk.fault(e)
	}
	v, ok := e.value()
	switch {
	case s.empty(e):
		return ""
	case !ok:
		return fmt.Sprintf("%s: %q is no number; %s are allowed.", e.name, strings.TrimSpace(e.text), s.desk.allowed(e))
	case v < e.low || v > e.high:
		return fmt.Sprintf("%s: %g %s is out of range; %s are allowed.", e.name, v, e.unit, s.desk.allowed(e))
	}
	return ""
}

// faults are why no lines can be laid, a line each.
func (s *lineSheet) faults() (all []string) {
	for _, e := range append(s.standing(), s.desk.of(order.SheaveHeight, ""), s.desk.of(order.TowOffset, "")) {
		if says := s.fault(e); says != "" {
			all = append(all, says)
		}
	}
	if s.drawn && len(s.corners) < 3 {
		all = append(all, "An area needs three corners.")
	} else if crossed(s.area()) {
		all = append(all, "The sides of the area cross each other: move or take back a corner.")
	}
	if len(all) > 0 {
		return all
	}
	spec := s.spec()
	for _, says := range spec.Check() {
		all = append(all, sentence(says)+".")
	}
	if _, ok := s.direction(); !ok && len(all) == 0 {
		all = append(all, s.lacks())
	}
	return all
}

// lacks is why there is no direction of the way chosen.
func (s *lineSheet) lacks() string {
	switch s.way {
	case alongCurrent:
		return "Type what the current is expected to be, or choose another direction."
	case alongCrests, acrossCrests:
		return "Type the direction of the crests, if any are known of, or choose another."
	}
	return "The charted depths are too even to have a direction: choose another."
}

// area is the ring that is to be surveyed.
func (s *lineSheet) area() (ring []plan.Point) {
	if s.drawn {
		return s.corners
	}
	for _, p := range report.AreaOf(s.brief) {
		ring = append(ring, plan.Point(p))
	}
	return ring
}

// charted are the least and the greatest depth charted in the area, metres.
func (s *lineSheet) charted() (least, most float64) {
	part := plan.Part{Outer: s.area()}
	d := &s.brief.Depths
	least, most = math.Inf(1), math.Inf(-1)
	take := func(p plan.Point) {
		if z, known := d.DepthAt(p.X, p.Y); known {
			least, most = min(least, z), max(most, z)
		}
	}
	for _, p := range part.Outer {
		take(p)
	}
	for j := range d.NY {
		for i := range d.NX {
			x, y, _ := d.At(i, j)
			if p := (plan.Point{X: x, Y: y}); len(part.Outer) > 2 && part.Contains(p) {
				take(p)
			}
		}
	}
	if most < least {
		return 0, 0
	}
	return least, most
}

// crossed reports whether sides of a ring cross.
func crossed(ring []plan.Point) bool {
	side := func(a, b, c plan.Point) float64 { return (b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*(c.X-a.X) }
	n := len(ring)
	for i := range n {
		a, b := ring[i], ring[(i+1)%n]
		for k := i + 2; k < n; k++ {
			if i == 0 && k == n-1 {
				continue
			}
			c, d := ring[k], ring[(k+1)%n]
			if side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0 {
				return true
			}
		}
	}
	return false
}

// spec returns all that the plan is made by, less its direction. All figures have to do.
func (s *lineSheet) spec() plan.Spec {
	b := s.brief
	value := func(e *entered) float64 { v, _ := e.value(); return v }
	least, most := s.band()
	_, deepest := s.charted()
	sounding := exercise.SoundingError(deepest)
	out := plan.Spec{
		Parts: []plan.Part{{Outer: slices.Clone(s.area())}}, Ground: &b.Depths, LowWater: value(s.low),
		Range: value(s.scale()), Height: value(s.height), Gap: value(s.gap), Overlap: value(s.overlap) / 100, Nadir: s.nadir,
		Edges: s.edges, Cross: value(s.cross), LeastLow: least, MostHigh: most,
		Speed: b.Plan.Speed, TurnRadius: b.Plan.TurnRadius, Turns: []vessel.Turn{b.Plan.Turn}, RunIn: value(s.runIn), RunOut: value(s.runOut),
		Tolerance: b.Score.OffLine, Stream: value(s.current) * units.Knot, StreamSet: value(s.set) * math.Pi / 180,
		Gear: b.Tow, SheaveUp: value(s.desk.of(order.SheaveHeight, "")), SheaveAft: max(value(s.desk.of(order.TowOffset, "")), 0),
		Draft: b.Vessel.Draft, UnderKeel: waterUnder, UnderWake: waterUnder, Apart: s.apart,
		Pings: b.Score.PingsPerMetre, Sound: value(s.desk.of(order.SoundSpeed, "")),
		// Soundings that err on their own make slopes by themselves: the rms of both parts of the gradient of what goes
		// evenly between four is sqrt(8/3) of their deviation over their distance.
		Rough: sounding / 1.96 / max(b.Depths.Step, 1) * math.Sqrt(8.0/3),
	}
	if s.spaced {
		out.Spacing = value(s.spacing)
	}
	if !s.empty(s.crest) {
		crest := value(s.crest) * math.Pi / 180
		out.Crest = &crest
	}
	return out
}

// waterUnder is the water wanted under the keel, and between it and the fish, metres: common practice, no source.
const waterUnder = 2.0

// direction is the grid bearing of the lines, radians; ok is false where the way chosen has none.
func (s *lineSheet) direction() (bearing float64, ok bool) {
	if s.way == asTyped {
		v, ok := s.bearing.value()
		return v * math.Pi / 180, ok
	}
	spec := s.spec()
	for _, d := range spec.Directions() {
		if d.Why == ways[s.way].called {
			return d.Bearing, true
		}
	}
	return 0, false
}

// whole is the spec with its direction.
func (s *lineSheet) whole() plan.Spec {
	spec := s.spec()
	spec.Bearing, _ = s.direction()
	return spec
}

// nudge steps a figure up or down.
func (s *lineSheet) nudge(e *entered, by float64) {
	if s.empty(e) {
		e.text = e.write(e.given)
		return
	}
	s.desk.nudge(e, by)
}

// orders have the watch sail lines, and why they cannot be given, in a line.
func (s *lineSheet) orders(p *plan.Plan) (all []order.Command, err error) {
	b := *s.brief
	b.Added = slices.Clone(b.Added)
	give := func(c order.Command) error {
		if err := c.Check(&b); err != nil {
			return err
		}
		all = append(all, c)
		return nil
	}
	first := ""
	for _, l := range p.Lines {
		name := l.Name
		for _, had := range b.All() {
			if strings.EqualFold(had.Name, name) {
				name = "own " + name
			}
		}
		c := order.Command{Do: order.AddLine, Line: name, X: round3(l.A.X), Y: round3(l.A.Y), X2: round3(l.B.X), Y2: round3(l.B.Y)}
		if err := give(c); err != nil {
			return nil, err
		}
		b.Added = append(b.Added, exercise.Line{Name: name})
		first = cmp.Or(first, name)
	}
	if first == "" {
		return nil, errors.New("there is no line")
	}
	if err := give(order.Command{Do: order.OwnLines, Value: round3(p.RunIn), Value2: round3(p.RunOut)}); err != nil {
		return nil, err
	}
	err = give(order.Command{Do: order.Turn, Line: first, Pattern: b.Plan.Turn})
	return all, err
}
