package scenarios

import (
	"strings"
	"testing"

	"dryline/sim/mark"
)

// Published rules stand for what the file does not say, weights and gates for
// themselves. Figures as in the standards named beside them in sim/mark.
func TestScoreSection(t *testing.T) {
	with := func(score string) string { return small(t) + "score:\n" + score }
	read := func(score string) (string, error) {
		_, err := Parse("small", []byte(with(score)))
		if err == nil {
			return "", nil
		}
		return err.Error(), err
	}
	ex, err := Parse("small", []byte(with("  rules: noaa_2021\n  pings_per_metre: 4\n")))
	if err != nil {
		t.Fatal(err)
	}
	if s := ex.Score; s.AltitudeMin != 0.08 || s.AltitudeMax != 0.2 || s.PingsPerMetre != 4 || s.Coverage != 1 || s.ContactWithin != 10 || s.Nadir {
		t.Errorf("by NOAA's rules: %+v", s)
	}
	ex, err = Parse("small", []byte(with("  rules: c13_2005\n  weights: {coverage: 3, contacts: 1}\n  gates: {aground_s: 7, contact_report: false}\n")))
	if err != nil {
		t.Fatal(err)
	}
	if s := ex.Score; s.PingsPerMetre != 5 || !s.Nadir || s.ContactWithin != 27.8 || s.Weights[mark.Coverage] != 3 || s.Weights[mark.Lines] != 0 || s.Gates.Aground != 7 || s.Gates.Report {
		t.Errorf("by C-13: %+v", s)
	}
	for score, says := range map[string]string{
		"  rules: none_2020\n":                                              "score.rules",
		"  weights: {lines: 0}\n":                                           "score.weights",
		"  weights: {linez: 3}\n":                                           "score.weights.linez",
		"  weights: {lines: -1}\n":                                          "score.weights.lines",
		"  coverage_percent: 80\n  gates: {coverage_percent: 90}\n":         "score.gates.coverage_percent",
		"  beta: 0\n  contact_within_m: 0\n  gates: {turn_percent: 1000}\n": "score.beta",
	} {
		if got, err := read(score); err == nil || !strings.Contains(got, says) {
			t.Errorf("%q: %q, want a fault at %s", score, got, says)
		}
	}
}
