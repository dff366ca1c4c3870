package app

import (
	"fmt"
	"math"
	"strings"

	"dryline/sim/survey"
	"dryline/sim/survey/calibrate"
)

func (s *placingStation) foundPasses(t *sheet) {
	found := s.opposed()
	if len(found) == 0 {
		t.paragraph("No contact was seen on passes in opposite directions. Go to the record (R), mark it on one run, and on another show that it was seen there too.", t.l.Ink)
	}
	for _, c := range found {
		t.paragraph(contactName(*c)+": "+s.passesSay(c), t.l.Ink)
	}
}

// passesSay are the passes of a contact, with the way, the cable and the speed of each.
func (s *placingStation) passesSay(c *survey.Contact) string {
	standing := s.desk.papers.Desk.LatestLines()
	var out []string
	for _, q := range c.Passes {
		if q.Run < 1 || q.Run > len(standing) {
			continue
		}
		if i := indexOf(standing[q.Run-1], q.Ping); i >= 0 {
			f := &standing[q.Run-1].Pings[i].Fix
			out = append(out, fmt.Sprintf("run %d on %03.0f° grid, %.0f m of cable, %.1f kn", q.Run, degrees(f.Course), f.CableOut, f.Speed/knot))
		}
	}
	return strings.Join(out, "; ") + "."
}

func (s *placingStation) foundAccuracy(t *sheet) {
	t.paragraph(fmt.Sprintf("Marks are taken to be good to %g m along the track and %g m across it.", s.along, s.across), t.l.Ink)
}

// estimate is an estimate in words.
func estimate(e *calibrate.Estimate) string {
	decimals := 2
	if e.Unit == "" {
		decimals = 3
	}
	return strings.TrimSpace(fmt.Sprintf("%.*f ± %.*f %s", decimals, e.Value, decimals, e.HalfWidth(), e.Unit)) + " (95 %)"
}

func (s *placingStation) foundLayback(t *sheet) {
	r := s.desk.papers.Desk.Calibrated.Layback
	if r == nil {
		t.paragraph("Nothing yet.", t.l.Ink)
		return
	}
	way := "further astern"
	if r.Total.Value < 0 {
		way = "less far astern"
	}
	t.paragraph(fmt.Sprintf("In all, the fish is %.2f ± %.2f m (95 %%) %s than it was placed.", math.Abs(r.Total.Value), r.Total.HalfWidth(), way), t.l.Ink)
	if math.Abs(r.Total.Value) < r.Total.HalfWidth() {
		t.paragraph("That is no more than the marks leave open: it may be nothing.", t.l.Ink)
	}
	for i := range r.Parts {
		t.paragraph(strings.ToUpper(r.Parts[i].Name[:1])+r.Parts[i].Name[1:]+" "+estimate(&r.Parts[i])+".", t.l.Ink)
	}
	if r.WhyNot != "" {
		t.paragraph(sentence(r.WhyNot), t.l.Ink)
	}
	t.paragraph(fmt.Sprintf("From %s of %s.", some(r.Sightings, "sighting", "sightings"), some(r.Objects, "thing", "things")), t.l.Soft)
	for _, why := range r.LeftOut {
		t.paragraph("Left out: "+why+".", t.l.Soft)
	}
	if r.Suspicious != "" {
		t.paragraph("Beware: "+r.Suspicious+".", t.l.Caution)
	}
}

func (s *placingStation) foundUse(t *sheet) {
	c := &s.desk.papers.Desk.Calibrated
	switch {
	case c.Layback == nil:
		t.paragraph("Nothing is worked out yet: step 3 first.", t.l.Ink)
	case c.Applied == "" && len(c.Layback.Parts) > 0:
		t.paragraph("It would be used by its parts: factor, offset and latency.", t.l.Ink)
	case c.Applied == "":
		t.paragraph("It would be used as a whole, as an offset: right for the cable length and the speed it was found at, and for no other.", t.l.Ink)
	default:
		t.paragraph("It was used: "+c.Applied+".", t.l.Ink)
	}
}

func (s *placingStation) foundAgain(t *sheet) {
	p := s.desk.papers.Desk
	switch {
	case p.Calibrated.Applied == "":
		t.paragraph("Nothing is used yet: step 4 first.", t.l.Ink)
	case p.Worked != nil && sameReview(&p.Worked.Review, &p.Review):
		t.paragraph("The survey stands so. Work the layback out once more (step 3) to see what is left of it.", t.l.Ink)
	default:
		t.paragraph("The survey does not stand so yet.", t.l.Ink)
	}
}

func (s *placingStation) foundTries(t *sheet) {
	c := s.desk.contact(s.number)
	if c == nil {
		t.paragraph("No contact is chosen: choose the one that was passed on purpose (O).", t.l.Ink)
		return
	}
	t.paragraph(fmt.Sprintf("%s was shown on %s: %s", contactName(*c), some(len(c.Passes), "pass", "passes"), s.passesSay(c)), t.l.Ink)
	for run, l := range s.desk.papers.Desk.LatestLines() {
		if _, reached := l.Sighting(c.X, c.Y); !reached {
			continue
		}
		shown := false
		for _, q := range c.Passes {
			shown = shown || q.Run == run+1
		}
		if !shown {
			t.paragraph(fmt.Sprintf("Run %d, line %s, reached it and it was not shown there: as it stands that pass missed it.", run+1, l.Name), t.l.Ink)
		}
	}
}

func (s *placingStation) foundSystem(t *sheet) {
	c := s.desk.papers.Desk.Calibrated.System
	if c == nil {
		t.paragraph("Nothing yet.", t.l.Ink)
		return
	}
	t.paragraph(fmt.Sprintf("%s: found on %d, missed on %d.", some(len(c.Tries), "pass", "passes"), c.Detections, c.Misses), t.l.Ink)
	if c.Radius > 0 {
		t.paragraph(fmt.Sprintf("95 of 100 places lie within %.1f m (%.1f to %.1f m, 95 %%); a towed system is allowed %g m.", c.Radius, c.RadiusLow, c.RadiusHigh, calibrate.RadiusTowed), t.l.Ink)
		t.paragraph(fmt.Sprintf("On the mean they lie %+.1f m along the track, which a layback that is wrong shows in, and %+.1f m across it.", c.Along, c.Across), t.l.Ink)
		t.paragraph(fmt.Sprintf("The swath was laid %+.1f ± %.1f° (95 %%) askew. If that is not nothing, lay it square to the ship's or the fish's heading, at the mosaic, and check again.", c.Askew*180/math.Pi, 1.96*c.AskewSigma*180/math.Pi), t.l.Ink)
	}
	for _, why := range c.Lacking {
		t.paragraph("Lacking: "+why+".", t.l.Ink)
	}
	met := "It is no calibration yet: what is lacking, or missed, or too far apart, says why."
	if c.Met {
		met = "It is a calibration, and it is met. The report says so."
	}
	t.paragraph(met, t.l.Ink)
}
