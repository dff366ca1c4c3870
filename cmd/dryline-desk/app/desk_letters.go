package app

import (
	"fmt"
	"strings"

	"dryline/sim/report"
	"dryline/sim/survey"
)

// part letters facts under a heading; nothing if there are none.
func (t *sheet) part(title string, facts []report.Fact) {
	if len(facts) == 0 {
		return
	}
	t.gap(8)
	t.line(title, t.l.Strong, t.l.Ink)
	t.gap(3)
	for _, f := range facts {
		t.fact(f.Name, f.Says)
	}
}

// survey letters the survey report.
func (s *reportStation) survey(t *sheet, r *report.Survey) {
	l := t.l
	t.line(r.Title, l.Title, l.Ink)
	t.paragraph(r.Caution+". What is not listed may still lie there.", l.Caution)
	t.gap(4)
	if r.Text != "" {
		t.paragraph(r.Text, l.Ink)
	}
	if len(r.Lacking) > 0 {
		t.gap(6)
		t.line("What this survey lacks", l.Strong, l.Ink)
		for _, why := range r.Lacking {
			t.paragraph(sentence(why), l.Ink)
		}
	}
	t.part("What the survey says of itself", r.Metadata)
	t.gap(8)
	t.line("Lines run", l.Strong, l.Ink)
	for i := range r.Runs {
		t.fact(fmt.Sprintf("Run %d, line %s", r.Runs[i].Number, r.Runs[i].Line), lineRunSays(&r.Runs[i]))
	}
	t.gap(8)
	t.line("Coverage", l.Strong, l.Ink)
	t.paragraph(fmt.Sprintf("%s %% of %.0f m² seen once, %s %% on two lines or more; %s, %.0f m² in all.", survey.Percent(r.Once, 1), r.Area, survey.Percent(r.Twice, 1), some(len(r.Holidays), "holiday", "holidays"), r.HolidayArea), l.Ink)
	for i := range r.Holidays {
		h := &r.Holidays[i]
		t.fact(fmt.Sprintf("Holiday %d, %.0f m², E %.0f N %.0f", i+1, h.SquareMetres, h.Easting, h.Northing), sentence(h.Reason))
	}
	t.gap(8)
	t.line("How well positions hold", l.Strong, l.Ink)
	t.paragraph(fmt.Sprintf("Within %.1f m at 95 %%, %s.", r.Radius, r.BudgetAt), l.Ink)
	for _, b := range r.Budget {
		says := fmt.Sprintf("%.2f m, one standard deviation", b.Metres)
		if b.Stated {
			says += ", as stated"
		}
		t.fact("Error by "+b.Name, says)
	}
	t.part("Layback", r.Layback)
	t.part("System", r.System)
	t.part("Worked up again with", r.Changes)
	t.part("Remarks", r.Entries)
	t.part("Where it comes from", r.Provenance)
}

// lineRunSays is a run of a line as it is reported.
func lineRunSays(r *report.Run) string {
	if r.Pings == 0 {
		return "no pings"
	}
	says := fmt.Sprintf("%.0f m on %03.0f° true at %.1f kn, %.0f to %.0f m of cable, layback %.1f m, fish %.1f m up and %s %% in the band, %.1f m off the line (rms), %.1f pings a metre, bottom found in %s %%",
		r.Metres, r.Course, r.Speed/knot, r.WireFrom, r.WireTo, r.Layback, r.Height, survey.Percent(r.InBand, 0), r.OffLine, r.Density, survey.Percent(r.Locked, 0))
	if r.Faulted > 0 {
		says += fmt.Sprintf(", %s with a position not to be trusted", some(r.Faulted, "ping", "pings"))
	}
	if r.Corrected > 0 {
		says += fmt.Sprintf(", bottom put right by hand in %d", r.Corrected)
	}
	if r.Rejected != "" {
		says += "; rejected: " + r.Rejected
	}
	return says + "."
}

// contacts letters the contact report.
func (s *reportStation) contacts(t *sheet, r *report.Survey) {
	l := t.l
	t.line("Contacts", l.Title, l.Ink)
	t.paragraph("Depths are estimates and never least depths. What is not listed may still lie there.", l.Caution)
	t.gap(6)
	if len(r.Contacts) == 0 {
		t.paragraph("No contact was marked. That is no finding about the ground.", l.Ink)
	}
	for i := range r.Contacts {
		c := &r.Contacts[i]
		action := "undecided"
		if c.Action != "" {
			action = string(c.Action)
		}
		t.line(fmt.Sprintf("%d. %s: %s, %s", c.Number, c.Name, strings.ReplaceAll(string(c.Class), "_", " "), action), l.Strong, l.Ink)
		for _, says := range []string{c.Description, c.Reason, c.Remarks} {
			if says != "" {
				t.paragraph(says, l.Ink)
			}
		}
		t.fact("Position", fmt.Sprintf("E %.1f N %.1f", c.Easting, c.Northing)+within95(c.Radius))
		t.fact("Length, width; shadow, height", sized(c.Dimensions.Length)+", "+sized(c.Dimensions.Width)+"; "+sized(c.Dimensions.Shadow)+", "+sized(c.Dimensions.Height))
		if c.PassList != "" {
			t.fact("Passes", c.PassList)
		}
		t.gap(6)
	}
}

func within95(radius float64) string {
	if radius > 0 {
		return fmt.Sprintf(", within %.1f m at 95 %%", radius)
	}
	return ""
}

// lineLog letters the line log: of each row what it says.
func (s *reportStation) lineLog(t *sheet) {
	l := t.l
	t.line("Line log", l.Title, l.Ink)
	t.gap(4)
	if len(s.log) < 2 {
		t.paragraph("Nothing was logged.", l.Ink)
		return
	}
	names := s.log[0]
	for _, row := range s.log[1:] {
		var says []string
		head := ""
		for k, v := range row {
			switch {
			case v == "":
			case k == 0:
				head = clockOf(v)
			case k == 1:
				head += "  " + v
			default:
				name, unit := logColumn(names[k])
				says = append(says, name+" "+v+unit)
			}
		}
		t.line(head, l.Strong, l.Ink)
		t.paragraph(strings.Join(says, ", "), l.Soft)
		t.gap(3)
	}
}

// clockOf is the time of day of a time that was written whole.
func clockOf(utc string) string {
	if _, day, ok := strings.Cut(strings.TrimSuffix(utc, "Z"), "T"); ok {
		return day
	}
	return utc
}

// logColumn is a column of the line log in words, and the unit that goes behind its values.
func logColumn(column string) (name, unit string) {
	for _, u := range []struct{ end, unit string }{{"_true_deg", "° true"}, {"_kn", " kn"}, {"_m", " m"}} {
		if cut, ok := strings.CutSuffix(column, u.end); ok {
			return strings.ReplaceAll(cut, "_", " "), u.unit
		}
	}
	return strings.ReplaceAll(column, "_", " "), ""
}
