package app

import (
	"strings"

	"dryline/sim/coach"
)

// stripHint is the most severe hint while the page of hints is turned away, and
// how severe it is.
func (w *Watch) stripHint() (says string, severity coach.Severity) {
	if w.side.tab == tabCoach || len(w.view.Hints) == 0 {
		return "", 0
	}
	h := w.view.Hints[0]
	name := h.Severity.String()
	return strings.ToUpper(name[:1]) + name[1:] + ": " + h.Text, h.Severity
}
