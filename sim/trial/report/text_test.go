package report

import (
	"testing"

	"dryline/sim/trial"
)

// Shares fall short downwards, risks upwards, and an interval is never told narrower than it is.
func TestHowSharesAreTold(t *testing.T) {
	for share, want := range map[float64]string{1: "100.0 %", 0.99999: "99.9 %", 0.417778: "41.7 %", 0.29: "29.0 %", 0: "0.0 %"} {
		if got := percent(share); got != want {
			t.Errorf("%g found: %s, want %s", share, got, want)
		}
	}
	for share, want := range map[float64]string{0: "0.0 %", 0.0004: "0.1 %", 0.25: "25.0 %"} {
		if got := risk(share); got != want {
			t.Errorf("%g touched something: %s, want %s", share, got, want)
		}
	}
	var i trial.Interval
	i.Low, i.High = 0.40339, 0.97362
	if got := between(i); got != "40.3 to 97.4" {
		t.Errorf("from 40.339 to 97.362 %%: %s", got)
	}
}
