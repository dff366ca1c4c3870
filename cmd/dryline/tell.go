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

// tell prints what a flight came to, for people.
func tell(w io.Writer, s *sim.Session, folder string, r debrief.Report, flown time.Duration) error {
	var b strings.Builder
	fmt.Fprintf(&b, "%s (%s, seed %d)\n", s.Exercise.Title, s.Exercise.Name, s.Seeds.One)
	if s.Ended() != order.ReasonFinished {
		fmt.Fprintf(&b, "PARTIAL: the session was %s after %s of the exercise\n", s.Ended(), clock(s.Now()))
	}
	fmt.Fprintf(&b, "%s simulated in %.1f s (%.0f times real time), %s, %s\n",
		clock(s.Now()), flown.Seconds(), s.Now()/max(flown.Seconds(), 1e-3),
		plural(len(s.Desk.Lines), "line logged", "lines logged"), plural(len(s.Desk.Contacts), "contact marked", "contacts marked"))
	fmt.Fprintf(&b, "Coverage %s %% of the area; %d of %d objects found", survey.Percent(r.Coverage.Once, 1), found(r), len(r.Targets))
	if r.Natural > 0 {
		fmt.Fprintf(&b, ", %s on natural rock", plural(r.Natural, "mark", "marks"))
	}
	if n := len(r.FalseContacts) - r.Natural; n > 0 {
		fmt.Fprintf(&b, ", %s with nothing there", plural(n, "mark", "marks"))
	}
	verdict := "not passed"
	if r.Score.Passed {
		verdict = "passed"
	}
	fmt.Fprintf(&b, "\nScore %.4g of 100, %s (%.0f needed)\n", r.Score.Points, verdict, r.Score.Pass)
	fmt.Fprintf(&b, "Products in %s; begin with debrief.html\n", folder)
	fmt.Fprintf(&b, "Training aid with synthetic data. Not for navigation; never evidence that an area is clear of hazards.\n")
	_, err := io.WriteString(w, b.String())
	return err
}

// clock is a time as minutes and seconds.
func clock(seconds float64) string {
	return fmt.Sprintf("%d min %02d s", int(seconds)/60, int(seconds)%60)
}
