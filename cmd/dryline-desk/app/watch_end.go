package app

import (
	"strings"
	"time"

	"dryline/sim/order"
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
