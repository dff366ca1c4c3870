package app

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strings"

	"dryline/scenarios"
	"dryline/sim"
	"dryline/sim/order"
)

// summary says what a session kept is, from its log alone.
type summary struct {
	title  string
	says   []string
	spent  int // seconds of it
	over   bool
	broken bool // it cannot be resumed
}

// summarise reads a log; err is what reading the file came to.
func summarise(data []byte, err error) *summary {
	bad := func(err error) *summary {
		return &summary{title: "No session", says: []string{"It cannot be resumed: " + err.Error() + "."}, broken: true}
	}
	if err != nil {
		return bad(err)
	}
	l, err := order.ReadLog(bytes.NewReader(data))
	if err != nil {
		return bad(err)
	}
	ex, err := scenarios.FromLog(l)
	if err != nil {
		return bad(err)
	}
	s := &summary{title: ex.Title, over: l.Reason == order.ReasonFinished}
	var lines []string
	marks, added, of := 0, 0, len(ex.Lines)
	for _, c := range l.Commands {
		switch c.Do {
		case order.LogOn:
			if !slices.Contains(lines, c.Line) {
				lines = append(lines, c.Line)
			}
		case order.Mark:
			marks++
		case order.AddLine:
			added++
		case order.OwnLines:
			of = added // in place of those given
		}
	}
	s.spent = int(math.Round(float64(l.Ticks) * sim.Tick))
	s.says = []string{ex.Place.Name, fmt.Sprintf("Seed %d; %s of it flown.", l.Seeds.One, minutesIn(s.spent))}
	if p := l.Parent; p != nil {
		s.says = append(s.says, "A practice session, tried again from "+clockAt(ex.Start, float64(p.Tick)*sim.Tick)+": it never counts.")
	}
	if len(lines) > 0 {
		s.says = append(s.says, fmt.Sprintf("Lines begun: %s (of %d).", strings.Join(lines, ", "), of))
	} else {
		s.says = append(s.says, "No line begun.")
	}
	if marks > 0 {
		s.says = append(s.says, fmt.Sprintf("Contacts marked: %d.", marks))
	}
	if s.over {
		s.says = append(s.says, "It is over. It will be flown again, and its debrief opens.")
	} else {
		s.says = append(s.says, "It was left half way. Its orders are carried out again up to that point, and you take over.")
	}
	return s
}

// minutesIn is a time of a session in words.
func minutesIn(seconds int) string { return fmt.Sprintf("%d min %02d s", seconds/60, seconds%60) }

// label is the line of the session in a list: which exercise, how far it went
// and when that was.
func (s *summary) label(of SavedSession) string {
	says := s.title + ", left at " + minutesIn(s.spent)
	switch {
	case s.broken:
		says = shortName(of.Name) + ", cannot be read"
	case s.over:
		says = s.title + ", over after " + minutesIn(s.spent)
	}
	if of.When.IsZero() {
		return says
	}
	return says + ", " + of.When.Local().Format("2 Jan 15:04")
}

// does names what can be done with it.
func (s *summary) does() string {
	if s.over {
		return "See its debrief"
	}
	return "Resume it"
}
