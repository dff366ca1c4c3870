package main

import (
	"fmt"
	"io"
	"strings"
	"time"

	"dryline/sim"
	"dryline/sim/debrief"
	"dryline/sim/order"
	"dryline/sim/survey"
)

// summariseInWords prints what a flight came to, for people.
func summariseInWords(w io.Writer, s *sim.Session, folder string, r debrief.Report, flown time.Duration) error {
	var b strings.Builder
	fmt.Fprintf(&b, "%s (%s, seed %d)\n", s.Exercise.Title, s.Exercise.Name, s.Seeds.One)
	if s.Ended() != order.ReasonFinished {
		fmt.Fprintf(&b, "PARTIAL: the session was %s after %s of the exercise\n", s.Ended(), clock(s.Now()))
	}
	fmt.Fprintf(&b, "%s simulated in %.1f s (%.0f times real time), %s, %s\n",
		clock(s.Now()), flown.Seconds(), s.Now()/max(flown.Seconds(), 1e-3),
		plural(len(s.Desk.Lines), "line logged", "lines logged"), plural(len(s.Desk.Contacts), "contact marked", "contacts marked"))
	k := &r.Contacts
	fmt.Fprintf(&b, "%s %% of the area looked at in a way that counts; %d of %d objects reported", survey.Percent(r.Coverage.Counted, 1), k.True, len(r.Targets))
	if k.False > 0 {
		fmt.Fprintf(&b, ", %s with nothing there", plural(k.False, "contact", "contacts"))
	}
	if k.Candidates > 0 {
		fmt.Fprintf(&b, ", %s of the lookout that nobody took up", plural(k.Candidates, "candidate", "candidates"))
	}
	fmt.Fprintf(&b, "\nScore %.4g of 100 (%.4g to %.4g), %s (%.0f needed)\n", r.Score.Points, r.Score.Low, r.Score.High, verdictInWords(&r.Score), r.Score.Pass)
	for _, g := range r.Score.Gates {
		if !g.Met {
			fmt.Fprintf(&b, "  Fails it whatever the points: %s\n", g.Why)
		}
	}
	fmt.Fprintf(&b, "Products in %s; begin with debrief.html\n", folder)
	fmt.Fprintf(&b, "Training aid with synthetic data. Not for navigation; never evidence that an area is clear of hazards.\n")
	_, err := io.WriteString(w, b.String())
	return err
}

// clock is a time as minutes and seconds.
func clock(seconds float64) string {
	return fmt.Sprintf("%d min %02d s", int(seconds)/60, int(seconds)%60)
}

// verdictInWords says whether the exercise was passed.
func verdictInWords(s *debrief.Score) string {
	switch s.Verdict {
	case debrief.VerdictPassed:
		return "passed"
	case debrief.VerdictInstructor:
		return "for the instructor to decide"
	}
	return "not passed"
}
