package app

import (
	"fmt"
	"math"
	"slices"

	"dryline/sim/coach"
	"dryline/sim/order"
	"dryline/sim/survey"
)

// nextStep says what comes next, in one line: it is always the same kind of thing, so that whoever looks for it
// knows what to expect. Empty in an assessment.
func (w *Watch) nextStep() string {
	v, b := w.view, &w.view.Bridge
	if w.brief.Help.Assessed || v.Done {
		return ""
	}
	l, reversed := w.helm.measured()
	track := l.Track(reversed)
	fish, _ := track.Offset(v.Fix.X, v.Fix.Y)
	if b.Logging != "" {
		if left := track.Length() - fish; left > 0 {
			return fmt.Sprintf("Next: log off when the fish is past the end of %s, %.0f m on (L).", b.Logging, left)
		}
		return fmt.Sprintf("Next: log off, the fish is past the end of %s (L).", b.Logging)
	}
	steered := b.Steering.Do == order.SteerLine || b.Steering.Do == order.Turn
	if steered && v.Shares[b.Steering.Line] < survey.Whole && b.Steering.Line == l.Name && fish < track.Length() {
		switch {
		case b.Steering.Do == order.Turn:
			return fmt.Sprintf("Next: the run-in of %s, after the turn; then log on when the fish comes to it.", l.Name)
		case fish < 0:
			return fmt.Sprintf("Next: log on when the fish comes to %s, %.0f m on (L).", l.Name, -fish)
		}
		return fmt.Sprintf("Next: log on, the fish is on %s (L).", l.Name)
	}
	name, fromB := w.nextRun()
	if name == "" {
		return "Next: every line is logged. Look through the contacts, then end the exercise (F9 twice)."
	}
	from := w.endOf(name, fromB)
	if w.helm.chosen().Name == name && w.helm.reversed == fromB {
		return fmt.Sprintf("Next: line %s from its %s end: steer to it (Enter).", name, from)
	}
	return fmt.Sprintf("Next: line %s from its %s end: choose it (N, R), then steer to it (Enter).", name, from)
}

// nextRun is the line to run next and whether from its B end: the first to be run that is not
// logged whole, from the end that is nearer to her.
func (w *Watch) nextRun() (name string, fromB bool) {
	for _, l := range w.toRun() {
		if w.view.Shares[l.Name] >= survey.Whole {
			continue
		}
		r := &w.view.Reading
		return l.Name, math.Hypot(l.B.X-r.X, l.B.Y-r.Y) < math.Hypot(l.A.X-r.X, l.A.Y-r.Y)
	}
	return "", false
}

// endOf names the end of a line by the quarter it lies in, seen from the other.
func (w *Watch) endOf(name string, b bool) string {
	for _, l := range w.lines() {
		if l.Name == name {
			return quarter(degrees(l.Track(!b).Bearing()))
		}
	}
	return "near"
}

// quarter is the name of a bearing in degrees, to an eighth of the circle.
func quarter(bearing float64) string {
	names := [...]string{"north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"}
	return names[int(math.Round(bearing/45))%len(names)]
}

// Hints of the coach that what was done since has made void: they stand for some seconds yet, and beside
// what the log says would be wrong.
var (
	voidLogging = []string{"log_not_started", "log_soon", "line_missed", "line_done"}
	voidLogOff  = []string{"log_in_turn", "fish_not_past_end", "log_still_on"}
)

// standing are the hints less those that are void.
func standingHints(hints []coach.Hint, logging bool) []coach.Hint {
	void := voidLogOff
	if logging {
		void = voidLogging
	}
	if !slices.ContainsFunc(hints, func(h coach.Hint) bool { return slices.Contains(void, h.ID) }) {
		return hints
	}
	return slices.DeleteFunc(slices.Clone(hints), func(h coach.Hint) bool { return slices.Contains(void, h.ID) })
}
