package app

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"dryline/sim/order"
	"dryline/sim/survey"
)

// endAgain is how long the end waits to be asked for again.
const endAgain = 5 * time.Second

// end ends the exercise when it is asked for twice.
func (w *Watch) end(g *Game) {
	if w.ending > 0 {
		w.give(order.Command{Do: order.Finish})
		return
	}
	w.ending = endAgain
	says := "Once more (F9) ends the exercise for good."
	if left := w.linesLeft(); len(left) > 0 {
		says = "Not logged yet: " + strings.Join(left, ", ") + ". " + says
	}
	g.sayWhile(says, func() bool { return w.ending > 0 })
}

// linesLeft are the lines of the exercise that were not logged whole, and how
// much of those begun was.
func (w *Watch) linesLeft() []string {
	var left []string
	for _, l := range w.exercise.Lines {
		switch share := w.view.Shares[l.Name]; {
		case share >= survey.Whole:
		case w.begun(l.Name):
			left = append(left, fmt.Sprintf("%s (%s logged)", l.Name, logged(share)))
		default:
			left = append(left, l.Name)
		}
	}
	return left
}

// begun reports a line of which something is logged.
func (w *Watch) begun(line string) bool {
	return w.view.Shares[line] > 0 || w.view.Bridge.Logging == line || slices.Contains(w.view.Lines, line)
}

// logged is a share in whole hundredths, never more than it is.
func logged(share float64) string { return survey.Percent(100*share, 0) + " %" }
