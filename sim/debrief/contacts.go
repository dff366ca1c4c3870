package debrief

import (
	"math"
	"slices"

	"dryline/sim"
	"dryline/sim/mark"
	"dryline/sim/survey"
)

// verdict says what became of a contact.
type verdict string

// The verdicts.
const (
	trueMark  verdict = "true"      // the object's own
	duplicate verdict = "duplicate" // on an object that another mark was counted for
	natural   verdict = "natural"   // a natural feature, named as one
	falseMark verdict = "false"     // nothing that was to be reported lies there
	candidate verdict = "candidate" // the lookout's, which nobody took up
	dismissed verdict = "dismissed" // looked at and put aside
)

// reported reports whether a contact is part of what was handed in: marked by a person
// or, found by the lookout, taken up by one. What nobody looked at is a candidate.
func reported(c *survey.Contact) bool {
	classed := c.Class != "" && c.Class != survey.Unclassified
	return c.Action != survey.Dismiss &&
		(c.ByHand || c.Measured || classed || c.Description != "" || c.Action != "" || c.Confidence != nil)
}

// namedNatural reports a contact that is said to be what nature left.
func namedNatural(c *survey.Contact) bool { return c.Class == "rock" || c.Class == "boulder" }

// matched is how the contacts go to what truly lies there.
type matched struct {
	verdicts []verdict // by contact; empty for one that holds no numbers
	of       []int     // by object, the index of its contact, -1 for none
	objects  []int     // by contact, the object it is near to, -1 for none
	excused  []bool    // by object: nothing logged could have shown it, though its ground counts
	near     []mark.Edge

	found, wrong, twice, missed, natural int
}

// precision, recall and f are of what was reported.
func (m *matched) precision() float64 { return mark.Precision(m.found, m.wrong) }
func (m *matched) recall() float64    { return mark.Recall(m.found, m.missed) }
func (m *matched) f(beta float64) float64 {
	if beta <= 0 {
		beta = 1
	}
	return mark.F(beta, m.precision(), m.recall())
}

// match gives objects their contacts: one each, the most pairs and then the nearest. A
// contact is measured from where it was put or from where its echo truly came from,
// whichever is nearer: a desk that lays the swath askew takes no find from anyone who marked
// it rightly on the record; where things are is another item.
func match(s *sim.Session, lines []logged, targets []Target, things []lying, ground *counted, tol tolerances) *matched {
	contacts := s.Desk.Contacts
	m := &matched{
		verdicts: make([]verdict, len(contacts)), objects: make([]int, len(contacts)), excused: make([]bool, len(targets)),
	}
	radius := s.Exercise.Score.ContactWithin
	if radius <= 0 {
		radius = positionLimit
	}
	radius *= tol.radius
	edges := m.lookAbout(contacts, things, newMarks(s, lines), radius)
	m.of = mark.Pair(len(things), len(contacts), edges)
	counted := map[int]bool{} // near enough to be of an object, as a second mark too
	for _, e := range edges {
		counted[e.Mark] = true
	}
	for k := range contacts {
		m.judge(s, k, counted[k])
	}
	for i := range targets {
		t := &targets[i]
		at := ground.at(t.X, t.Y)
		m.excused[i] = m.of[i] < 0 && !t.ThreePings && (at == seen || at == seenTwice || at == underFish)
		if m.of[i] < 0 && !m.excused[i] {
			m.missed++
		}
	}
	return m
}

// lookAbout takes down which things lie within a radius of each contact, and the nearest. It
// returns those that a contact may be of.
func (m *matched) lookAbout(contacts []survey.Contact, things []lying, marks *marks, radius float64) (edges []mark.Edge) {
	for k := range contacts {
		c := &contacts[k]
		m.objects[k] = -1
		if !within(c.X, c.Y, c.Length, c.Height) {
			continue
		}
		best := math.Inf(1)
		markX, markY, onRecord := marks.place(c)
		for i := range things {
			x, y := things[i].at(c.X, c.Y)
			d := math.Hypot(c.X-x, c.Y-y)
			if onRecord {
				ax, ay := things[i].at(markX, markY)
				d = min(d, math.Hypot(markX-ax, markY-ay))
			}
			if !(d <= radius) {
				continue
			}
			e := mark.Edge{Object: i, Mark: k, Distance: d}
			m.near = append(m.near, e)
			if d < best {
				best, m.objects[k] = d, i
			}
			if reported(c) && (things[i].boulder || !namedNatural(c)) {
				edges = append(edges, e)
			}
		}
	}
	return edges
}

// judge gives a contact its verdict and counts it; near is set if it is near enough to be of an
// object.
func (m *matched) judge(s *sim.Session, k int, near bool) {
	c := &s.Desk.Contacts[k]
	switch {
	case !within(c.X, c.Y, c.Length, c.Height):
	case c.Action == survey.Dismiss:
		m.verdicts[k] = dismissed
	case !reported(c):
		m.verdicts[k] = candidate
	case slices.Contains(m.of, k):
		m.verdicts[k] = trueMark
		m.found++
	case near:
		m.verdicts[k] = duplicate
		m.twice++
	case namedNatural(c) && isStony(groundAt(s.World(), c.X, c.Y)):
		m.verdicts[k] = natural
		m.natural++
	default:
		m.verdicts[k] = falseMark
		m.wrong++
	}
}

// tell writes what became of contacts and objects into the report.
func (m *matched) tell(s *sim.Session, r *Report, things []lying) {
	contacts := s.Desk.Contacts
	for _, e := range m.near {
		t := &r.Targets[e.Object]
		n := contacts[e.Mark].Number
		if m.verdicts[e.Mark] == candidate {
			t.Candidates = append(t.Candidates, n)
		} else if m.verdicts[e.Mark] != dismissed {
			t.Contacts = append(t.Contacts, n)
		}
	}
	for i, k := range m.of {
		t := &r.Targets[i]
		t.Excused = m.excused[i]
		if k < 0 {
			continue
		}
		c := &contacts[k]
		x, y := things[i].at(c.X, c.Y)
		number := c.Number
		t.Contact, t.Distance = &number, known(math.Hypot(c.X-x, c.Y-y))
		t.ContactName, t.ContactClass = c.Name, string(c.Class)
		t.East, t.North = known(c.X-x), known(c.Y-y)
		if c.Length > 0 { // a mark that nobody measured has none
			t.LengthByDesk = known(c.Length)
		}
		if c.Shadow > 0 {
			t.HeightByDesk = known(c.Height)
		}
	}
	for k := range contacts {
		c := &contacts[k]
		v := m.verdicts[k]
		if v != falseMark && v != natural && (v != candidate || m.objects[k] >= 0) {
			continue
		}
		r.FalseContacts = append(r.FalseContacts, FalseContact{
			Number: c.Number, Name: c.Name, Class: string(c.Class), ByHand: c.ByHand, Verdict: string(v),
			X: round(c.X), Y: round(c.Y), Length: round(c.Length), Lines: append([]string{}, c.Lines...),
			Ground: groundAt(s.World(), c.X, c.Y).String(),
		})
	}
	beta := s.Exercise.Score.Beta
	r.Contacts = Contacts{
		True: m.found, False: m.wrong, Duplicate: m.twice, Missed: m.missed, Natural: m.natural,
		Precision: round(m.precision()), Recall: round(m.recall()), F: round(m.f(beta)),
	}
	for k := range m.verdicts {
		if m.verdicts[k] == candidate {
			r.Contacts.Candidates++
		}
	}
	low, high := mark.Wilson(float64(m.found), float64(m.found+m.missed), 1.96)
	if m.found+m.missed > 0 {
		r.Contacts.RecallLow, r.Contacts.RecallHigh = round(low), round(high)
	}
	var sure []mark.Forecast
	for k := range contacts {
		if c := &contacts[k]; c.Confidence != nil && reported(c) {
			sure = append(sure, mark.Forecast{Confidence: *c.Confidence, So: m.verdicts[k] == trueMark || m.verdicts[k] == natural || m.verdicts[k] == duplicate})
		}
	}
	if len(sure) > 0 {
		score, _, _, _ := mark.Brier(sure)
		r.Contacts.Brier = known(score)
	}
}
