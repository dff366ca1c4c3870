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

// makeTargets judges every object, and lists the contacts that are none of
// them. A contact goes to the nearest object that lies within reach of it; an
// object may have several, and is measured by the nearest.
func makeTargets(s *sim.Session, lines []logged) ([]Target, []FalseContact) {
	targets, falses := []Target{}, []FalseContact{}
	objects := s.Exercise.Seabed.Objects
	for i := range objects {
		o := &objects[i]
		t := Target{
			Name: o.Name, Kind: o.Kind, Charted: o.Charted, Contacts: []int{},
			X: round(o.At.X), Y: round(o.At.Y), Length: round(o.Length), Height: round(max(o.Height-o.Burial, 0)),
		}
		if i < len(s.Truth.Seen) {
			t.count(s.Truth.Seen[i], lines)
		}
		targets = append(targets, t)
	}
	nearest := make([]float64, len(objects))
	for _, c := range s.Desk.Contacts {
		if !within(c.X, c.Y, c.Length, c.Height) {
			continue
		}
		best, at := math.Inf(1), -1
		for i := range objects {
			d := math.Hypot(c.X-objects[i].At.X, c.Y-objects[i].At.Y)
			if d <= max(matchRadius, objects[i].Length) && d < best {
				best, at = d, i
			}
		}
		if at < 0 {
			falses = append(falses, FalseContact{
				Number: c.Number, X: round(c.X), Y: round(c.Y), Length: round(c.Length), Lines: append([]string{}, c.Lines...),
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
		t.Contact, t.Distance = &number, known(best)
		t.East, t.North = known(c.X-objects[at].At.X), known(c.Y-objects[at].At.Y)
		t.LengthByDesk, t.HeightByDesk = known(c.Length), nil
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
