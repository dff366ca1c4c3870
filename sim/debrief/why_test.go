package debrief

import (
	"strings"
	"testing"
)

// What was never lit, what was lit too little and what was not marked have
// different causes.
func TestWhyObjects(t *testing.T) {
	one := 1
	lit := func(best int, contact *int) Target {
		return Target{Name: "block", BestPings: best, ThreePings: best >= enoughPings, Contact: contact}
	}
	for _, test := range []struct {
		name    string
		targets []Target
		want    string
	}{
		{"never lit", []Target{lit(0, nil), lit(2, nil)}, "No ping of a logged line lit block"},
		{"lit twice", []Target{lit(2, nil), lit(5, &one)}, "Too few pings on block"},
		{"not marked", []Target{lit(3, nil)}, "block was not marked"},
		{"found", []Target{lit(3, &one)}, "lit often enough"},
	} {
		t.Run(test.name, func(t *testing.T) {
			if got := whyObjects(&Report{Targets: test.targets}); !strings.Contains(got, test.want) {
				t.Errorf("got %q, want %q in it", got, test.want)
			}
		})
	}
}

// Half for what was lit, half for what was marked: with both of two objects lit
// and one marked three quarters.
func TestObjectsCountLitAndMarked(t *testing.T) {
	one := 1
	r := &Report{Targets: []Target{{Name: "block", BestPings: 5, ThreePings: true, Contact: &one}, {Name: "pipe", BestPings: 4, ThreePings: true}}}
	if got := scoreObjects(r).Points; got != 0.75 {
		t.Errorf("got %g, want 0.75", got)
	}
}
