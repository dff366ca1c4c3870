package report

import (
	"fmt"
	"math"
	"strings"

	"dryline/sim/survey"
	"dryline/sim/survey/coverage"
)

// Survey is the survey report.
type Survey struct {
	Title, Text string // of the exercise, and of the surveyor over the report
	Caution     string
	Metadata    []Fact // what IHO S-44 6.1.0, 6.2 asks a survey to say of itself
	Lacking     []string
	Runs        []Run
	Holidays    []Holiday // the largest
	HolidayArea float64   // m^2
	Area        float64   // m^2
	Once, Twice float64   // percent
	Contacts    []Contact
	Budget      []Term
	BudgetSum   float64 // metres, one standard deviation
	Radius      float64 // metres, 95 percent
	BudgetAt    string
	Layback     []Fact
	System      []Fact
	Changes     []Fact // what the survey was worked up again with
	Entries     []Fact // the surveyor's remarks
	Provenance  []Fact

	WantedLow, WantedHigh float64 // height of the fish, percent of the range scale
}

// Fact is a line of a table.
type Fact struct{ Name, Says string }

// Holiday is one as it is reported.
type Holiday struct {
	coverage.Holiday
	place
	Lines []string // that fill it, in words
	Total float64  // their length, metres
}

// Term is a term of the error budget.
type Term struct {
	Name   string
	Metres float64
	Stated bool
}

// mostHolidays is how many holidays a report lists.
const mostHolidays = 40

// Make draws the survey report up.
func Make(in *Input) (*Survey, error) {
	b, d := in.Brief, in.Desk
	s := &Survey{Title: b.Title, Caution: in.Caution, Runs: in.runs(), Contacts: in.contacts()}
	if d.Report != nil {
		s.Text = d.Report.Text
	}
	low, high := survey.HeightBand(b.Score.AltitudeMin, b.Score.AltitudeMax)
	s.WantedLow, s.WantedHigh = 100*low, 100*high
	m, holidays, err := Covered(b, d)
	if err != nil {
		return nil, err
	}
	s.Area = m.Square()
	if m.Inside > 0 {
		s.Once, s.Twice = 100*float64(m.Once)/float64(m.Inside), 100*float64(m.Twice)/float64(m.Inside)
	}
	for _, h := range holidays {
		s.HolidayArea += h.SquareMetres
		if len(s.Holidays) == mostHolidays {
			continue
		}
		out := Holiday{Holiday: h, place: in.place(h.X, h.Y)}
		for _, l := range h.Fill {
			a, e := in.place(l.A.X, l.A.Y), in.place(l.B.X, l.B.Y)
			out.Lines = append(out.Lines, fmt.Sprintf("E %.0f N %.0f to E %.0f N %.0f", a.Easting, a.Northing, e.Easting, e.Northing))
			out.Total += l.Length()
		}
		s.Holidays = append(s.Holidays, out)
	}
	in.budget(s)
	in.layback(s)
	in.system(s)
	if s.Changes = in.Changes(); d.Worked != nil && len(s.Changes) == 0 {
		s.Changes = []Fact{{"Nothing", "worked up again as in the watch"}}
	}
	for _, e := range d.Remarks {
		at := in.utc(e.Time).Format("15:04:05")
		if e.Line != "" {
			at += ", line " + e.Line
		}
		s.Entries = append(s.Entries, Fact{at, e.Text})
	}
	in.metadata(s, len(holidays))
	s.Lacking = in.lacking(s, len(holidays))
	s.Provenance = []Fact{
		{"Exercise", b.Name}, {"Engine", fmt.Sprint(in.Engine)}, {"Licence", in.Licence},
	}
	return s, nil
}

// budget is that of something at half the range scale with the layback as it was on the
// whole.
func (in *Input) budget(s *Survey) {
	d := in.Desk
	layback, crab, n := 0.0, 0.0, 0.0
	for _, r := range s.Runs {
		layback += r.Layback * float64(r.Pings)
		n += float64(r.Pings)
	}
	logged := 0.0
	for _, p := range d.Track {
		if p.Line != "" {
			crab += p.Crab * p.Crab
			logged++
		}
	}
	layback, crab = layback/max(n, 1), math.Sqrt(crab/max(logged, 1))
	slant := d.Recorder.RangeScale / 2
	b := d.BudgetAt(slant, layback, crab)
	for _, t := range survey.Terms() {
		_, stated := d.Review.Errors[t]
		s.Budget = append(s.Budget, Term{string(t), b[t], stated})
	}
	s.BudgetSum, s.Radius = b.Sum(), b.Radius()
	s.BudgetAt = fmt.Sprintf("at %.0f m of slant range, half the range scale, with %.0f m of layback and a crab of %.1f° rms", slant, layback, crab*180/math.Pi)
}

func (in *Input) layback(s *Survey) {
	l := in.Desk.Calibrated.Layback
	if l == nil {
		return
	}
	say := func(name, format string, values ...any) {
		s.Layback = append(s.Layback, Fact{name, fmt.Sprintf(format, values...)})
	}
	say("Total along the track", "%+.2f ± %.2f m (95 %%): the fish is so much further astern than it was placed", l.Total.Value, l.Total.HalfWidth())
	for _, e := range l.Parts {
		decimals := 2
		if e.Unit == "" {
			decimals = 3
		}
		say(strings.ToUpper(e.Name[:1])+e.Name[1:], "%.*f ± %.*f %s (95 %%)", decimals, e.Value, decimals, e.HalfWidth(), e.Unit)
	}
	for i := range l.Correlation {
		for j := range i {
			say("Correlation", "%s and %s %.3f", l.Parts[i].Name, l.Parts[j].Name, l.Correlation[i][j])
		}
	}
	if l.WhyNot != "" {
		say("Not told apart", "%s", l.WhyNot)
	}
	say("From", "%d sightings of %d objects, chi-square %.1f for %d degrees of freedom", l.Sightings, l.Objects, l.ChiSquare, l.Freedom)
	for _, why := range l.LeftOut {
		say("Left out", "%s", why)
	}
	if l.Suspicious != "" {
		say("Beware", "%s", l.Suspicious)
	}
	if applied := in.Desk.Calibrated.Applied; applied != "" {
		say("Applied", "%s", applied)
	} else {
		say("Applied", "no")
	}
}

func (in *Input) system(s *Survey) {
	c := in.Desk.Calibrated.System
	if c == nil {
		return
	}
	say := func(name, format string, values ...any) {
		s.System = append(s.System, Fact{name, fmt.Sprintf(format, values...)})
	}
	at := in.place(c.X, c.Y)
	say("Object", "contact %d, E %.1f N %.1f on the mean", in.Desk.Calibrated.Object, at.Easting, at.Northing)
	say("Passes", "%d: detected on %d, missed on %d", len(c.Tries), c.Detections, c.Misses)
	for _, t := range c.Tries {
		if !t.Detected {
			say("Missed", "%s, %s, %.0f m out", t.Pass, side(t.Starboard), t.Range)
		}
	}
	if c.Radius > 0 {
		say("95 % radius", "%.1f m (%.1f to %.1f, 95 %%); the limit for a towed system is 10 m", c.Radius, c.RadiusLow, c.RadiusHigh)
		say("Along and across the track", "%+.1f and %+.1f m on the mean; along, a layback that is wrong", c.Along, c.Across)
		say("Swath askew", "%+.1f ± %.1f° (95 %%): a crab the swath was laid without", c.Askew*180/math.Pi, 1.96*c.AskewSigma*180/math.Pi)
	}
	for _, why := range c.Lacking {
		say("Lacking", "%s", why)
	}
	met := "not met"
	if c.Met {
		met = "met"
	}
	say("Calibration", "%s", met)
}

// Changes lists what the survey was worked up again with; none if it was not, or as in the
// watch.
func (in *Input) Changes() (out []Fact) {
	w := in.Desk.Worked
	if w == nil {
		return nil
	}
	say := func(name, format string, values ...any) {
		out = append(out, Fact{name, fmt.Sprintf(format, values...)})
	}
	r := &w.Review
	for _, k := range []struct {
		knob       survey.Knob
		name, unit string
	}{
		{survey.KnobFactor, "Catenary factor", ""}, {survey.KnobSheaveHeight, "Sheave above water", " m"}, {survey.KnobTowOffset, "Antenna to sheave", " m"},
		{survey.KnobTowSide, "Sheave to starboard", " m"}, {survey.KnobCourseTime, "Course over", " s"}, {survey.KnobSoundSpeed, "Sound speed", " m/s"},
		{survey.KnobLatency, "Latency of fixes", " s"}, {survey.KnobCell, "Mosaic cell", " m"},
	} {
		if v, set := r.Knob(k.knob); set {
			say(k.name, "%.5g%s", v, k.unit)
		}
	}
	for _, c := range []Fact{
		{"Fish placed by", string(r.Position)}, {"Swath square to", string(r.Swath)}, {"Looks combined", string(r.Combine)},
		{"Levelled with", string(r.Levelling)}, {"Channel painted", r.Channel},
	} {
		if c.Says != "" {
			out = append(out, c)
		}
	}
	for _, name := range in.Desk.Recorder.Channels {
		if by := r.BottomBy[name]; by != "" {
			say("Bottom of channel "+name, "%s", strings.ReplaceAll(string(by), "_", " "))
		}
	}
	for _, p := range r.Pieces {
		say("Bottom by hand", "pings %d to %d at %.2f to %.2f m of slant range", p.From, p.To, p.Slant, p.SlantB)
	}
	for _, run := range r.Hidden {
		say("Not painted", "run %d", run)
	}
	return out
}
