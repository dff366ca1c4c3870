package app

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"dryline/scenarios"
	"dryline/sim"
	"dryline/sim/course"
	"dryline/sim/debrief"
	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/survey"
)

// summary says what a session kept is, from its log alone.
type summary struct {
	title  string
	says   []string
	spent  int // seconds of it
	over   bool
	broken bool // it cannot be resumed

	exercise *exercise.Exercise // nil if it is broken
	seed     uint64
	ground   uint64   // its seed
	begun    []string // lines
	toRun    int      // lines
	started  time.Time
	practice bool // tried again from a moment of another
}

// summarise reads a log; err is what reading the file came to.
func summarise(data []byte, err error) *summary {
	bad := func(err error) *summary {
		return &summary{title: "No session", says: []string{"It cannot be resumed: " + shortened(err.Error(), 800) + "."}, broken: true}
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
	s := &summary{title: ex.Title, over: l.Reason == order.ReasonFinished, exercise: ex, seed: l.Seeds.One, ground: l.Seeds.Ground, started: l.Started, practice: l.Parent != nil, toRun: len(ex.Lines)}
	marks, added := 0, 0
	for _, c := range l.Commands {
		switch c.Do {
		case order.LogOn:
			if !slices.Contains(s.begun, c.Line) {
				s.begun = append(s.begun, c.Line)
			}
		case order.Mark:
			marks++
		case order.AddLine:
			added++
		case order.OwnLines:
			s.toRun = added // in place of those given
		}
	}
	s.spent = int(math.Round(float64(l.Ticks) * sim.Tick))
	s.says = []string{ex.Place.Name, fmt.Sprintf("Seed %d; %s of it flown.", l.Seeds.One, minutesIn(s.spent))}
	if p := l.Parent; p != nil {
		s.says = append(s.says, "A practice session, tried again from "+clockAt(ex.Start, float64(p.Tick)*sim.Tick)+": it never counts.")
	}
	s.says = append(s.says, s.linesSay()+".")
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

// shortened is a text of so many letters at most.
func shortened(s string, most int) string {
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + " ..."
	}
	return s
}

// minutesIn is a time of a session in words.
func minutesIn(seconds int) string { return fmt.Sprintf("%d min %02d s", seconds/60, seconds%60) }

// linesSay is which lines were begun.
func (s *summary) linesSay() string {
	if len(s.begun) == 0 {
		return "No line begun"
	}
	if len(s.begun) > 8 {
		return fmt.Sprintf("Lines begun: %d (of %d)", len(s.begun), s.toRun)
	}
	return fmt.Sprintf("Lines begun: %s (of %d)", strings.Join(s.begun, ", "), s.toRun)
}

// far says how far the session went.
func (s *summary) far() string {
	switch {
	case s.broken:
		return "It cannot be read"
	case s.over:
		return "Over after " + minutesIn(s.spent)
	}
	return "Goes on at " + minutesIn(s.spent)
}

// points says what it came to, as far as the person's record tells: of a session of the
// course that is over, flown by the exercise as it stands. ok is false if it tells nothing.
func (s *summary) points(record *course.Record) (says string, ok bool) {
	if !s.over || record == nil || s.practice || builtIn()[s.exercise.Name] != s.exercise.Hash {
		return "", false
	}
	for _, a := range record.Attempts {
		if a.Exercise == s.exercise.Name && a.Seed == s.seed && !s.started.IsZero() && a.When.Equal(s.started) {
			return survey.Percent(a.Points, 0) + " points, " + verdictSays(a.Verdict), true
		}
	}
	return "", false
}

// verdictSays is a verdict of a debrief in words.
func verdictSays(v string) string {
	switch v {
	case debrief.VerdictPassed:
		return "passed"
	case debrief.VerdictFailed:
		return "not passed"
	}
	return "for the instructor to decide"
}

// does names what can be done with it.
func (s *summary) does() string {
	if s.over {
		return "See its debrief"
	}
	return "Resume it"
}
