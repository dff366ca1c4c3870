package debrief

import (
	"math"

	"dryline/seabed"
	"dryline/sim"
)

// enoughPings is how often one pass must light an object of a metre (NOAA
// Hydrographic Surveys Specifications and Deliverables 2021, 6.1.2.2).
const enoughPings = 3

// lying is one thing that truly lies there, as contacts are matched to it.
type lying struct {
	boulder bool                                // a stone, as a natural one is
	at      func(x, y float64) (ax, ay float64) // its point that (x, y) is measured from
}

// everything lists objects, then pipelines: the order in which the pings that
// lit them are kept. An object is met at the point of its plan nearest to a contact, a
// pipeline at that of its path; its middle stands for it where one place must.
func everything(s *sim.Session) ([]Target, []lying) {
	targets, things := []Target{}, []lying{}
	spec := &s.Exercise.Seabed
	for i := range spec.Objects {
		o := &spec.Objects[i]
		targets = append(targets, Target{
			Name: o.Name, Kind: o.Kind, Charted: o.Charted, Contacts: []int{}, Candidates: []int{},
			X: round(o.At.X), Y: round(o.At.Y), Length: round(o.Length), Height: round(max(o.Height-o.Burial, 0)),
		})
		things = append(things, lying{o.Kind == "boulder", func(x, y float64) (float64, float64) { return nearestOfPlan(o, x, y) }})
	}
	for i := range spec.Pipelines {
		p := &spec.Pipelines[i]
		middle := p.Path[len(p.Path)/2]
		targets = append(targets, Target{
			Name: p.Name, Kind: "pipeline", Charted: p.Charted, Contacts: []int{}, Candidates: []int{},
			X: round(middle.X), Y: round(middle.Y), Length: round(p.Length()), Height: round(max(p.Diameter-p.Burial, 0)),
		})
		things = append(things, lying{false, func(x, y float64) (float64, float64) {
			at := p.Nearest(x, y)
			return at.X, at.Y
		}})
	}
	return targets, things
}

// nearestOfPlan is the point of an object's plan, a rectangle along its heading, that
// lies nearest to (x, y).
func nearestOfPlan(o *seabed.Object, x, y float64) (px, py float64) {
	sin, cos := math.Sincos(o.Heading)
	dx, dy := x-o.At.X, y-o.At.Y
	along := min(max(dx*sin+dy*cos, -o.Length/2), o.Length/2)
	across := min(max(dx*cos-dy*sin, -o.Width/2), o.Width/2)
	return o.At.X + along*sin + across*cos, o.At.Y + along*cos - across*sin
}

// count counts the pings that lit the object, each once though both sides saw
// it, in all and on the best line.
func (t *Target) count(seen []sim.Sight, lines []logged) {
	perLine := make([]int, len(lines))
	have := map[uint64]bool{}
	for _, sight := range seen {
		if have[sight.Number] {
			continue
		}
		have[sight.Number] = true
		t.Pings++
		if sight.Line < 0 || sight.Line >= len(lines) {
			continue
		}
		perLine[sight.Line]++
		if n := perLine[sight.Line]; n > t.BestPings {
			t.BestPings = n
		}
	}
	for i, n := range perLine {
		if n > 0 && n == t.BestPings {
			t.BestLine = lines[i].Name
			break
		}
	}
	t.ThreePings = t.BestPings >= enoughPings
}
