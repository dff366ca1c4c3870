package report_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"

	"dryline/sim"
	"dryline/sim/order"
	"dryline/sim/record"
	"dryline/sim/report"
	"dryline/sim/simtest"
	"dryline/sim/survey"
)

// worked is the small exercise, its second line broken off, worked up at the desk.
func worked(t *testing.T) *report.Input {
	t.Helper()
	s, err := sim.New(simtest.Small(t), 1)
	if err != nil {
		t.Fatal(err)
	}
	store := record.New(record.InMemory())
	t.Cleanup(func() { store.Close() })
	sim.KeepLogged(s, store)
	s.AttachMate()
	off := false
	for !s.Done() {
		s.Advance(50)
		if line := s.Desk.OpenLine(); !off && line != nil && line.Name == "L2" {
			simtest.Give(t, s, order.Command{Do: order.Remark, Text: "line broken off for a <fishing> boat"}, order.Command{Do: order.LogOff})
			off = true
		}
	}
	p := &s.Desk.Lines[0].Pings[400]
	x, y, ok := p.GroundAt(true, 25)
	if !ok {
		t.Fatal("no ground at 25 m")
	}
	simtest.Give(t, s, order.Command{Do: order.Mark, X: x, Y: y, Ping: p.Number})
	n := s.Desk.LastContact()
	simtest.Give(t, s,
		order.Command{Do: order.Measure, Number: n, Text: "shadow", X: x, Y: y, X2: x + 3, Y2: y, Ping: p.Number},
		order.Command{Do: order.Measure, Number: n, Text: "length", X: x, Y: y - 1, X2: x, Y2: y + 1, Ping: p.Number},
		order.Command{Do: order.DescribeContact, Number: n, Text: `a "square" block, <bright>`},
		order.Command{Do: order.RateContact, Number: n, Value: 0.75},
		order.Command{Do: order.ContactAction, Number: n, Text: "dismiss", Reason: "charted, a sinker"},
		order.Command{Do: order.SeaState, Number: 3},
		order.Command{Do: order.ReworkFactor, Value: 0.9}, order.Command{Do: order.Rework},
		order.Command{Do: order.CheckSystem, Number: n},
		order.Command{Do: order.RejectLine, Number: 1, Reason: "too low"},
		order.Command{Do: order.DrawUp, Text: "Two lines & no more"})
	return &report.Input{Brief: s.Brief, Desk: s.Desk, Now: s.Now(), Ended: s.Ended(), Licence: "CC0-1.0", Caution: "Synthetic training data, not for navigation", Cell: 0.25}
}

// The survey report tells the metadata that IHO S-44 6.1.0, 6.2 lists, what was not
// achieved, the lines rejected with the reason, the holidays, the calibration and the
// uncertainty, and never that anything is clear.
func TestSurveyReport(t *testing.T) {
	in := worked(t)
	s, err := report.Make(in)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := report.WriteSurvey(&b, s); err != nil {
		t.Fatal(err)
	}
	page := b.String()
	for _, want := range []string{
		"Survey type", "Technique", "Order achieved", "Horizontal datum", "Vertical datum", "Vertical uncertainty", "Horizontal uncertainty", "Feature detection",
		"Feature search", "Bathymetric coverage", "Dates", "Surveyor", "Data owner", "Grid", "Density", "Constraints",
		"none claimed", "EPSG:326", "2031-05-01 08:00",
		"Run 1, line L1 counts for nothing: too low", "Lines not logged in whole: L2", "Two lines &amp; no more", "&lt;fishing&gt;",
		"line L1 passed", "Calibration of the system", "want 10", "Catenary factor", "not for navigation", "free of hazards",
	} {
		if !strings.Contains(page, want) {
			t.Errorf("the report does not say %q", want)
		}
	}
	for _, never := range []string{"<fishing>", "area clear", "is clear", "NaN", "Inf", "%!"} {
		if strings.Contains(page, never) {
			t.Errorf("the report says %q", never)
		}
	}
	if len(s.Holidays) == 0 || s.Once > 60 {
		t.Errorf("with one line rejected and one broken off %.1f %% are covered, %d holidays", s.Once, len(s.Holidays))
	}
	var places bytes.Buffer
	if err := report.WriteHolidays(&places, in, s, nil); err != nil {
		t.Fatal(err)
	}
	var collection struct {
		Features []struct {
			Geometry   struct{ Type string }
			Properties map[string]any
		}
	}
	if err := json.Unmarshal(places.Bytes(), &collection); err != nil {
		t.Fatal(err)
	}
	kinds := map[string]int{}
	for _, f := range collection.Features {
		kinds[f.Geometry.Type]++
	}
	if kinds["Point"] != len(s.Holidays) || kinds["LineString"] < len(s.Holidays) {
		t.Errorf("%d holidays are %v", len(s.Holidays), kinds)
	}
	again, err := report.Make(in)
	if err != nil {
		t.Fatal(err)
	}
	var c bytes.Buffer
	report.WriteSurvey(&c, again)
	if !bytes.Equal(b.Bytes(), c.Bytes()) {
		t.Error("drawn up again it is another")
	}
}

// Whatever a contact is, the CSV, the GeoJSON and the page say the same of it, and
// readers of their own read them.
func TestContactReport(t *testing.T) {
	in := worked(t)
	var table, features, page bytes.Buffer
	s, err := report.Make(in)
	if err != nil {
		t.Fatal(err)
	}
	for _, err := range []error{report.WriteContactsCSV(&table, in), report.WriteContactsGeoJSON(&features, in, nil), report.WriteContacts(&page, s)} {
		if err != nil {
			t.Fatal(err)
		}
	}
	rows, err := csv.NewReader(&table).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var collection struct {
		Features []struct {
			Properties map[string]any
		}
	}
	if err := json.Unmarshal(features.Bytes(), &collection); err != nil {
		t.Fatal(err)
	}
	contacts := in.Desk.Contacts
	if len(rows) != len(contacts)+1 || len(collection.Features) != len(contacts) {
		t.Fatalf("%d rows and %d features for %d contacts", len(rows), len(collection.Features), len(contacts))
	}
	last := contacts[len(contacts)-1]
	get := func(column string) string { return rows[len(rows)-1][slices.Index(rows[0], column)] }
	p := collection.Features[len(contacts)-1].Properties
	for column, want := range map[string]string{
		"description": last.Description, "confidence": "0.75", "action": "dismiss", "reason": "charted, a sinker", "class": "unclassified", "side": "starboard", "record_run": "1",
		"length_m": "2.00", "shadow_m": "3.00",
	} {
		if got := get(column); got != want {
			t.Errorf("%s is %q, want %q", column, got, want)
		}
	}
	if p["confidence"] != 0.75 || p["action"] != "dismiss" || p["description"] != last.Description || p["length_m"] != 2.0 {
		t.Errorf("the feature has %v", p)
	}
	passes, measures := p["passes"].([]any), p["measures"].([]any)
	if len(passes) != 1 || len(measures) != 2 {
		t.Errorf("%d passes, %d measures", len(passes), len(measures))
	}
	// The slant range was picked at 25 m; the estimate of depth is fish depth + height -
	// height of the contact, by the ping itself.
	if got := get("slant_range_m"); got != "25.00" {
		t.Errorf("slant range %s, want 25.00", got)
	}
	ping := in.Desk.LatestLines()[0].Pings[400]
	if got, want := in.Desk.DepthOver(&last).Metres, ping.Fix.Depth+ping.Height-last.Height; math.Abs(got-want) > 1e-9 || !strings.Contains(page.String(), "an estimate, below the water as it stood") {
		t.Errorf("depth %.2f, want %.2f", got, want)
	}
	for _, want := range []string{"a &#34;square&#34; block, &lt;bright&gt;", "dismiss", "charted, a sinker", "never least depths"} {
		if !strings.Contains(page.String(), want) {
			t.Errorf("the page does not say %q", want)
		}
	}
}

// The line log has the fields of IHO C-13, chapter 4, 2.4.1.2, in the order of time,
// with every line's beginning and end and what the surveyor remarked.
func TestLineLog(t *testing.T) {
	in := worked(t)
	var b bytes.Buffer
	if err := report.WriteLineLog(&b, in); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	head := rows[0]
	column := func(row []string, name string) string { return row[slices.Index(head, name)] }
	events := map[string]int{}
	for i, row := range rows[1:] {
		events[column(row, "event")]++
		if i > 0 && column(row, "utc") < column(rows[i], "utc") {
			t.Errorf("row %d runs back", i)
		}
		if column(row, "event") == "line on" && column(row, "line") == "L1" {
			// Due north on the grid; true by the convergence there.
			convergence := in.Brief.Place.Grid.ConvergenceAt(100, 220) * 180 / math.Pi
			if got, want := column(row, "base_course_true_deg"), math.Mod(convergence+360, 360); math.Abs(parse(t, got)-want) > 0.06 {
				t.Errorf("base course %s, want %.1f", got, want)
			}
			if kn := parse(t, column(row, "speed_over_ground_kn")); math.Abs(kn-2.1/0.514444) > 0.3 {
				t.Errorf("speed %.2f kn, want %.2f", kn, 2.1/0.514444)
			}
			if parse(t, column(row, "wire_out_m")) != 20 {
				t.Errorf("wire out %s, want 20", column(row, "wire_out_m"))
			}
		}
	}
	if events["line on"] != 2 || events["line off"] != 2 || events["minute"] < 1 || events["remark"] != 2 {
		t.Errorf("events %v", events)
	}
	final := rows[len(rows)-1]
	if column(final, "sea_state") != "3" {
		t.Errorf("the last row has sea state %q", column(final, "sea_state"))
	}
	if !strings.Contains(b.String(), "rejected: too low") && !slices.ContainsFunc(rows, func(r []string) bool { return column(r, "remarks") == "rejected: too low" }) {
		t.Error("the rejected line is not told")
	}
}

func parse(t *testing.T, s string) float64 {
	t.Helper()
	var v float64
	if err := json.Unmarshal([]byte(s), &v); err != nil {
		t.Fatalf("%q: %v", s, err)
	}
	return v
}

// The area of a brief without one is the strip its lines span, widened by half their
// spacing: 140 m by 70 + 2 x 35 m.
func TestAreaOfLines(t *testing.T) {
	m, holidays, err := report.Covered(simtest.Small(t).Brief(), new(survey.Desk))
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(m.Square()-140*140) > 150 || m.Once != 0 || len(holidays) != 1 {
		t.Errorf("%.0f m2, %d cells seen, %d holidays; want 19600, 0, 1", m.Square(), m.Once, len(holidays))
	}
}
