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

// Words do not round up either: only what is whole is said to be.
func TestWordsOfWhatIsNotWhole(t *testing.T) {
	in := func(percent float64) *Report {
		return &Report{Lines: []Line{{Name: "L1", InBand: &percent, Altitude: &Spread{Mean: 10, Min: 7, Max: 12}}}}
	}
	for _, row := range []struct{ name, got, want string }{
		{"lines whole", whyLines(new(Report), "L1", 1), "Every planned line was logged from end to end."},
		{"lines nearly whole", whyLines(new(Report), "L1", 0.9996), "Every planned line was logged but for a metre or two."},
		{"lines short", whyLines(new(Report), "L1", 0.949), "Only 94 % of L1 is on the log"},
		{"height always", whyAltitude(in(100), 8, 20), "at the height wanted on every line."},
		{"height nearly always", whyAltitude(in(99.9), 8, 20), "but for a few pings on L1."},
		{"area whole", whyCoverage(&Report{Coverage: Coverage{Once: 100}}, 95), "The mosaic shows the area without a gap."},
		{"area as asked", whyCoverage(&Report{Coverage: Coverage{Once: 99.999}}, 95), "Covered as asked; no gap that is left"},
	} {
		if !strings.Contains(row.got, row.want) {
			t.Errorf("%s: got %q, want %q", row.name, row.got, row.want)
		}
	}
}
