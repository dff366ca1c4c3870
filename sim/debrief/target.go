package debrief

import (
	"math"

	"dryline/sim"
)

// enoughPings is how often one pass must light an object of a metre (NOAA
// Hydrographic Surveys Specifications and Deliverables 2021, 6.1.2.2).
const enoughPings = 3

// matchRadius is how far from an object a contact may lie and still be taken
// for it, metres (common practice, no source).
const matchRadius = 8.0

// lying is one thing that truly lies there, as contacts are matched to it.
type lying struct {
	reach float64                             // how far off a contact may be, metres
	at    func(x, y float64) (ax, ay float64) // its point that (x, y) is measured from
}

// everything lists objects, then pipelines: the order in which the pings that
// lit them are kept. A pipeline is met at the point of its path nearest to a
// contact; its middle stands for it where one place must.
func everything(s *sim.Session) ([]Target, []lying) {
	targets, things := []Target{}, []lying{}
	spec := &s.Exercise.Seabed
	for i := range spec.Objects {
		o := &spec.Objects[i]
		targets = append(targets, Target{
			Name: o.Name, Kind: o.Kind, Charted: o.Charted, Contacts: []int{},
			X: round(o.At.X), Y: round(o.At.Y), Length: round(o.Length), Height: round(max(o.Height-o.Burial, 0)),
		})
		things = append(things, lying{max(matchRadius, o.Length), func(_, _ float64) (float64, float64) { return o.At.X, o.At.Y }})
	}
	for i := range spec.Pipelines {
		p := &spec.Pipelines[i]
		middle := p.Path[len(p.Path)/2]
		targets = append(targets, Target{
			Name: p.Name, Kind: "pipeline", Charted: p.Charted, Contacts: []int{},
			X: round(middle.X), Y: round(middle.Y), Length: round(p.Length()), Height: round(max(p.Diameter-p.Burial, 0)),
		})
		things = append(things, lying{matchRadius, func(x, y float64) (float64, float64) {
			at := p.Nearest(x, y)
			return at.X, at.Y
		}})
	}
	return targets, things
}

// makeTargets judges everything that lies there, and lists the contacts that
// are none of it. A contact goes to the nearest thing that lies within reach of
// it, or of what its echo truly came from: a desk that lays the swath askew takes no
// find from who marked it rightly on the record. A thing may have several, and is
// measured by the nearest.
func makeTargets(s *sim.Session, w *sim.Witness, lines []logged) ([]Target, []FalseContact) {
	falses := []FalseContact{}
	targets, things := everything(s)
	for i := range targets {
		if i < len(w.Seen) {
			targets[i].count(w.Seen[i], lines)
		}
	}
	nearest := make([]float64, len(things))
	marks := newMarks(s, lines)
	for _, c := range s.Desk.Contacts {
		if !within(c.X, c.Y, c.Length, c.Height) {
			continue
		}
		best, at, east, north := math.Inf(1), -1, 0.0, 0.0
		markX, markY, onRecord := marks.place(&c)
		for i := range things {
			x, y := things[i].at(c.X, c.Y)
			d := math.Hypot(c.X-x, c.Y-y)
			if onRecord {
				ax, ay := things[i].at(markX, markY)
				d = min(d, math.Hypot(markX-ax, markY-ay))
			}
			if d <= things[i].reach && d < best {
				best, at, east, north = d, i, c.X-x, c.Y-y
			}
		}
		if at < 0 {
			falses = append(falses, FalseContact{
				Number: c.Number, Name: c.Name, Class: string(c.Class), ByHand: c.ByHand, X: round(c.X), Y: round(c.Y), Length: round(c.Length), Lines: append([]string{}, c.Lines...),
				Ground: groundAt(s.World(), c.X, c.Y).String(),
			})
			continue
		}
		t := &targets[at]
		t.Contacts = append(t.Contacts, c.Number)
		if t.Contact != nil && best >= nearest[at] {
			continue
		}
		nearest[at] = best
		number := c.Number
		t.Contact, t.Distance = &number, known(math.Hypot(east, north))
		t.ContactName, t.ContactClass = c.Name, string(c.Class)
		t.East, t.North = known(east), known(north)
		t.LengthByDesk, t.HeightByDesk = nil, nil
		if c.Length > 0 { // a mark that nobody measured has none
			t.LengthByDesk = known(c.Length)
		}
		if c.Shadow > 0 {
			t.HeightByDesk = known(c.Height)
		}
	}
	return targets, falses
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
