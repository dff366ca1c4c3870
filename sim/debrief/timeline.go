package debrief

import (
	"fmt"
	"time"

	"dryline/sim/coach"
	"dryline/sim/order"
)

// Timeline tells what happened when, for one bar of the watch. Times are seconds of the
// session.
type Timeline struct {
	Lines  []Stretch `json:"lines"`  // as they were logged
	Hints  []Stretch `json:"hints"`  // of the coach, whether or not they were shown
	Orders []Moment  `json:"orders"` // to the sonar and the desk
	Marks  []Moment  `json:"marks"`  // contacts of the report
	Time   []float64 `json:"height_time_s"`
	Height []float64 `json:"height_percent_of_range_scale"` // true, at those times
}

// Stretch is something that lasted.
type Stretch struct {
	What string  `json:"what"`
	Kind string  `json:"kind,omitempty"`
	From float64 `json:"from_s"`
	To   float64 `json:"to_s"`
	Says string  `json:"says,omitempty"`
}

// Moment is something that happened.
type Moment struct {
	At   float64 `json:"at_s"`
	What string  `json:"what"`
	Says string  `json:"says"`
}

// MaxHeights is how many heights a timeline keeps.
const MaxHeights = 600

// timeline gathers what happened.
func (m *marking) timeline() Timeline {
	t := Timeline{Lines: []Stretch{}, Hints: []Stretch{}, Orders: []Moment{}, Marks: []Moment{}, Time: []float64{}, Height: []float64{}}
	for i := range m.lines {
		l := &m.lines[i]
		if len(l.Pings) == 0 {
			continue
		}
		t.Lines = append(t.Lines, Stretch{What: l.Name, From: round(l.Pings[0].Fix.Time), To: round(l.Pings[len(l.Pings)-1].Fix.Time)})
	}
	open := map[string]coach.Event{}
	close := func(e coach.Event, to float64) {
		t.Hints = append(t.Hints, Stretch{What: e.Hint.ID, Kind: e.Hint.Severity.String(), From: round(e.Time), To: round(to), Says: e.Hint.Text})
	}
	for _, e := range m.w.Advice {
		before, stands := open[e.Hint.ID]
		if stands {
			close(before, e.Time)
			delete(open, e.Hint.ID)
		}
		if !e.Over {
			open[e.Hint.ID] = e
		}
	}
	for _, e := range m.w.Advice { // in the order they came: those that stand at the end
		if o, ok := open[e.Hint.ID]; ok && o.Time == e.Time && !e.Over {
			close(o, m.s.Now())
			delete(open, e.Hint.ID)
		}
	}
	for _, c := range m.s.Commands {
		if says := orderInWords(&c); says != "" {
			t.Orders = append(t.Orders, Moment{At: round(float64(c.Tick) / ticksPerSecond), What: string(c.Do), Says: says})
		}
	}
	for k := range m.s.Desk.Contacts {
		c := &m.s.Desk.Contacts[k]
		v := m.matched.verdicts[k]
		if v == "" || v == candidate || !within(c.Time) {
			continue
		}
		t.Marks = append(t.Marks, Moment{At: round(c.Time), What: string(v), Says: fmt.Sprintf("%s: %s", contactName(c), v)})
	}
	n := len(m.pings)
	for k := range min(n, MaxHeights) {
		j := &m.pings[k*n/min(n, MaxHeights)]
		if scale := m.lines[j.line].RangeScale; scale > 0 {
			t.Time = append(t.Time, round(j.time))
			t.Height = append(t.Height, round(100*j.truth.Altitude/scale))
		}
	}
	return t
}

// orderInWords says an order that a debrief tells of; of the others nothing.
func orderInWords(c *order.Command) string {
	switch c.Do {
	case order.Range:
		return fmt.Sprintf("range scale %g m", c.Value)
	case order.Gain:
		return fmt.Sprintf("gain %g dB", c.Value)
	case order.TVG:
		return "time-varied gain set"
	case order.Factor:
		return fmt.Sprintf("catenary factor %g", c.Value)
	case order.TowOffset:
		return fmt.Sprintf("antenna to sheave %g m", c.Value)
	}
	return ""
}

// clockOf is the time on board's clock so many seconds into an exercise.
func clockOf(start time.Time, seconds float64) string {
	return start.Add(time.Duration(seconds * float64(time.Second))).UTC().Format("15:04:05")
}
