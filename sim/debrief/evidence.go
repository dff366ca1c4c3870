package debrief

import (
	"fmt"
	"math"

	"dryline/seabed"
	"dryline/sim"
	"dryline/sim/survey"
)

// Evidence is where on the record an object, or what was taken for one, can be looked at,
// in the desk's own frame: a picture of it can be cut out there.
type Evidence struct {
	Title   string
	Caption string
	Line    int          // index of the run among the desk's lines
	Ping    uint64       // that it is abreast of; 0 for what is no object
	Target  int          // index among the report's targets; -1 for what is none
	X, Y    float64      // the middle, metres, where the desk lays it
	Half    float64      // of the side of the picture, metres
	Outline [][2]float64 // of the object, laid where the desk lays its echo; nil for what is none
	Mark    *[2]float64  // where the contact was put; nil if there is none
}

// mostFalse is how many contacts that are nothing are shown.
const mostFalse = 8

// Evidences are the places to look at: every object at its best pass, then what was
// reported and is nothing.
func Evidences(s *sim.Session, w *sim.Witness, r *Report) []Evidence {
	m := prepare(s, w)
	var out []Evidence
	for i := range r.Targets {
		if e, ok := m.sightOf(i, &r.Targets[i]); ok {
			out = append(out, e)
		}
	}
	wrong := 0
	for k := range s.Desk.Contacts {
		c := &s.Desk.Contacts[k]
		if v := m.matched.verdicts[k]; v != falseMark && v != natural || wrong == mostFalse {
			continue
		}
		if at := s.Desk.Sightings(c.X, c.Y); len(at) > 0 {
			wrong++
			out = append(out, Evidence{
				Title: contactName(c), Line: m.indexOf(at[0].Line), Target: -1, X: c.X, Y: c.Y, Half: 10, Mark: &[2]float64{c.X, c.Y},
				Caption: fmt.Sprintf("%s: nothing that was to be reported lies there, on %s. Line %s.", m.matched.verdicts[k], words(groundAt(s.World(), c.X, c.Y).String()), at[0].Line.Name),
			})
		}
	}
	return out
}

func (m *marking) indexOf(l *survey.LineRecord) int {
	for i := range m.lines {
		if m.lines[i].LineRecord == l {
			return i
		}
	}
	return -1
}

// sightOf is where an object lies on the run that lit it most often.
func (m *marking) sightOf(i int, t *Target) (Evidence, bool) {
	if i >= len(m.w.Seen) || t.BestPings == 0 {
		return Evidence{}, false
	}
	perLine := map[int][]sim.Sight{}
	best := -1
	for _, s := range m.w.Seen[i] {
		perLine[s.Line] = append(perLine[s.Line], s)
		if best < 0 || len(perLine[s.Line]) > len(perLine[best]) {
			best = s.Line
		}
	}
	if best < 0 || best >= len(m.lines) {
		return Evidence{}, false
	}
	l := &m.lines[best]
	middle := perLine[best][len(perLine[best])/2]
	for k := range l.Pings {
		p, truth := &l.Pings[k], l.truth[k]
		if p.Number != middle.Number || truth == nil {
			continue
		}
		sin, cos := math.Sincos(truth.Heading)
		starboard := (t.X-truth.X)*cos-(t.Y-truth.Y)*sin > 0
		x, y, ok := p.GroundAt(starboard, math.Hypot(middle.Range, truth.Altitude))
		if !ok {
			return Evidence{}, false
		}
		e := Evidence{Title: t.Name, Line: best, Ping: p.Number, Target: i, X: x, Y: y, Half: min(max(8, 0.75*t.Length+3), 30), Caption: m.caption(i, t, l, middle, starboard)}
		e.Outline = m.outline(i, x-t.X, y-t.Y)
		if n := m.matched.of[i]; n >= 0 {
			c := &m.s.Desk.Contacts[n]
			e.Mark = &[2]float64{c.X, c.Y}
		}
		return e, true
	}
	return Evidence{}, false
}

// Off says how far from the plan of an object its contact lies.
func (t *Target) Off() string {
	if *t.Distance < 0.05 {
		return "on it"
	}
	return fmt.Sprintf("%.1f m off", *t.Distance)
}

// caption says what became of an object and where it was to be seen.
func (m *marking) caption(i int, t *Target, l *logged, at sim.Sight, starboard bool) string {
	side := "port"
	if starboard {
		side = "starboard"
	}
	became := "missed"
	switch {
	case t.Contact != nil:
		became = "reported as " + t.ContactName
		if t.Distance != nil {
			became += ", " + t.Off()
		}
	case m.matched.excused[i]:
		became = "not asked for: no line showed it well"
	case len(t.Candidates) > 0:
		became = "a candidate of the lookout that nobody took up"
	}
	return fmt.Sprintf("%s. Best seen on %s, %.0f m to %s, by %d pings.", capital(became), l.Name, at.Range, side, t.BestPings)
}

// outline is the plan of an object, moved by what the desk is off.
func (m *marking) outline(i int, dx, dy float64) [][2]float64 {
	objects := m.ex.Seabed.Objects
	if i >= len(objects) {
		return nil // a pipeline needs none
	}
	o := objects[i].Whole()
	sin, cos := math.Sincos(o.Heading)
	var out [][2]float64
	for _, k := range [][2]float64{{1, 1}, {1, -1}, {-1, -1}, {-1, 1}} {
		a, b := k[0]*o.Length/2, k[1]*o.Width/2
		p := seabed.Point{X: o.At.X + a*sin + b*cos, Y: o.At.Y + a*cos - b*sin}
		out = append(out, [2]float64{p.X + dx, p.Y + dy})
	}
	return out
}
