package debrief

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"dryline/sim"
	"dryline/sim/exercise"
	"dryline/sim/passage"
	"dryline/sim/survey"
)

// Whatever ends up in the logs, a report has only finite numbers, survives
// JSON and makes a page.
func TestReportIsFinite(t *testing.T) {
	ex := small(t)
	ex.Desk.MosaicCell = 1
	s := start(t, ex)
	rapid.Check(t, func(t *rapid.T) {
		value := rapid.OneOf(
			rapid.Float64Range(-300, 300),
			rapid.SampledFrom([]float64{0, math.NaN(), math.Inf(1), math.Inf(-1), 1e300, -1e300, 1e-300}),
		)
		v := func() float64 { return value.Draw(t, "v") }
		changed := *ex
		s.Exercise = &changed
		s.Exercise.Score = exercise.Score{
			Coverage: rapid.Float64Range(0, 1).Draw(t, "coverage"), OffLine: rapid.Float64Range(0, 9).Draw(t, "off"),
			AltitudeMax: rapid.Float64Range(0, 1).Draw(t, "high"), Pass: 50,
			PingsPerMetre: rapid.Float64Range(0, 5).Draw(t, "ppm"),
		}
		s.Desk.Lines, s.Desk.Contacts = nil, nil
		*s.Truth = sim.Witness{Seen: make([][]sim.Sight, 1)}
		for range rapid.IntRange(0, 200).Draw(t, "groundings") {
			s.Truth.Mishaps = append(s.Truth.Mishaps, passage.Mishap{What: passage.Grounded})
		}
		number := uint64(0)
		for n := range rapid.IntRange(0, 3).Draw(t, "lines") {
			planned := ex.Lines[n%2]
			l := &survey.LineRecord{Name: planned.Name, Track: planned.Track(n == 2), RangeScale: 50, Start: math.NaN()}
			for range rapid.IntRange(0, 6).Draw(t, "pings") {
				number++
				l.Pings = append(l.Pings, survey.PingRecord{
					Number: number, Height: v(), Along: v(), Off: v(),
					Fix: survey.Fix{X: v(), Y: v(), Heading: v(), Speed: v()},
				})
				if rapid.Bool().Draw(t, "truth") {
					s.Truth.Pings = append(s.Truth.Pings, sim.TruePing{
						Number: number, X: v(), Y: v(), Z: -8, Altitude: v(),
					})
					s.Truth.Seen[0] = append(s.Truth.Seen[0], sim.Sight{Number: number, Line: n})
				}
			}
			s.Desk.Lines = append(s.Desk.Lines, l)
			s.Desk.Contacts = append(s.Desk.Contacts, survey.Contact{Number: n + 1, X: v(), Y: v(), Length: v(), Height: v(), Shadow: v()})
		}
		r := report(s)
		var out bytes.Buffer
		if err := WriteJSON(&out, r); err != nil {
			t.Fatalf("JSON: %v", err)
		}
		text := out.String()
		if strings.Contains(text, "NaN") || strings.Contains(text, "Inf") || !strings.HasSuffix(text, "}\n") {
			t.Fatalf("JSON: got %s", text)
		}
		var back Report
		if err := json.Unmarshal(out.Bytes(), &back); err != nil {
			t.Fatalf("JSON: %v", err)
		}
		if diff := cmp.Diff(r, back); diff != "" {
			t.Fatalf("JSON does not come back as it went:\n%s", diff)
		}
		if err := checkScore(r.Score); err != nil {
			t.Fatal(err)
		}
		out.Reset()
		if err := WriteHTML(&out, r, nil); err != nil {
			t.Fatalf("HTML: %v", err)
		}
		if text := out.String(); strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
			t.Fatalf("HTML holds a number that is none")
		}
	})
}

// checkScore: the items can give 100, none gives more than it can, and the
// whole is the sum of its parts.
func checkScore(s Score) error {
	of, points := 0.0, 0.0
	for _, it := range s.Items {
		of += it.Of
		points += it.Points
		if it.Points < 0 || it.Points > it.Of || it.Why == "" || it.Wanted == "" || it.Got == "" {
			return fmt.Errorf("item: got %+v, want points within bounds and a reason", it)
		}
	}
	if math.Abs(of-100) > 0.3 { // each is rounded to a tenth
		return fmt.Errorf("items: got %g points to give, want 100", of)
	}
	if math.Abs(points-s.Points) > 0.01 {
		return fmt.Errorf("points: got %g, want the sum %g", s.Points, points)
	}
	met := true
	for _, g := range s.Gates {
		met = met && g.Met
	}
	want := VerdictInstructor
	switch {
	case !met || s.High < s.Pass:
		want = VerdictFailed
	case s.Low >= s.Pass:
		want = VerdictPassed
	}
	if s.Verdict != want || s.Passed != (want == VerdictPassed) || s.Low > s.Points || s.High < s.Points {
		return fmt.Errorf("got %s, passed %v, with %g from %g to %g of %g and gates met %v", s.Verdict, s.Passed, s.Points, s.Low, s.High, s.Pass, met)
	}
	return nil
}
