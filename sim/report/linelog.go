package report

import (
	"cmp"
	"encoding/csv"
	"io"
	"math"
	"slices"
	"strconv"

	"dryline/seabed/units"
	"dryline/sim/survey"
	"dryline/vessel/nav/geodesy"
)

// Run is a line as it was run.
type Run struct {
	Number     int
	Line       string
	Start, End string // UTC
	Metres     float64
	BaseCourse float64 // of the line, true, degrees
	Course     float64 // made good, mean, true, degrees
	Head       float64 // ship's, mean, true, degrees
	Speed      float64 // over ground, mean, m/s
	WireFrom   float64 // out at its beginning, metres
	WireTo     float64
	Layback    float64 // mean, metres
	Height     float64 // of the fish by the bottom track, mean, metres
	InBand     float64 // share of pings with it in the band wanted, percent
	OffLine    float64 // of the vessel, rms, metres
	RangeScale float64 // metres
	Pings      int
	Density    float64 // pings a metre
	Faulted    int     // pings whose position cannot be trusted
	Locked     float64 // share of pings with a bottom, percent
	Corrected  int     // pings whose bottom was put right by hand
	Bottom     float64 // mean grade of it, 0 to 1; NaN if it was not graded
	Shown      bool    // in the mosaic
	Rejected   string  // why it counts for nothing; empty if it counts
	Remarks    []string
}

// runs are all lines logged, in order.
func (in *Input) runs() []Run {
	var out []Run
	low, high := survey.HeightBand(in.Brief.Score.AltitudeMin, in.Brief.Score.AltitudeMax)
	review := in.review()
	for i, l := range in.Desk.LatestLines() {
		r := Run{Number: i + 1, Line: l.Name, RangeScale: l.RangeScale, Pings: len(l.Pings), Bottom: math.NaN(), Shown: review.Paints(i + 1)}
		r.Rejected = in.Desk.Review.Rejected[i+1]
		for _, e := range in.Desk.Remarks {
			if e.Line == l.Name && e.Time >= l.Start-1 && e.Time <= l.End+1 {
				r.Remarks = append(r.Remarks, e.Text)
			}
		}
		if r.Pings > 0 {
			in.sum(&r, l, low, high)
		}
		out = append(out, r)
	}
	return out
}

// review is the one the survey stands by.
func (in *Input) review() *survey.Review {
	if w := in.Desk.Worked; w != nil {
		return &w.Review
	}
	return &survey.Review{Rejected: in.Desk.Review.Rejected}
}

func (in *Input) sum(r *Run, l *survey.LineRecord, low, high float64) {
	n := float64(len(l.Pings))
	first, last := &l.Pings[0], &l.Pings[len(l.Pings)-1]
	from, to := l.Span()
	r.Metres = to - from
	r.Start, r.End = in.utc(l.Start).Format(stamp), in.utc(l.End).Format(stamp)
	r.BaseCourse = in.trueBearing(l.Track.Bearing(), first.Fix.X, first.Fix.Y)
	r.WireFrom, r.WireTo = first.Fix.CableOut, last.Fix.CableOut
	var course meanBearing
	convergence := in.Brief.Place.Grid.ConvergenceAt(first.Fix.X, first.Fix.Y)
	squares := 0.0
	for i := range l.Pings {
		p := &l.Pings[i]
		course.add(geodesy.TrueBearing(p.Fix.Course + convergence))
		r.Speed += p.Fix.Speed / n
		r.Layback += p.Fix.Layback / n
		r.Height += p.Height / n
		squares += p.Off * p.Off / n
		if share := p.Height / l.RangeScale; share >= low && share <= high {
			r.InBand++
		}
		if p.Fix.Fault != "" {
			r.Faulted++
		}
		if p.Locked {
			r.Locked++
		}
	}
	r.InBand, r.Locked = 100*r.InBand/n, 100*r.Locked/n // not summed up in parts: all of them is 100
	if l.Bottom != nil {
		r.Bottom = 0
		for _, b := range l.Bottom {
			r.Bottom += b.Quality / n
			if b.By == survey.BottomHand {
				r.Corrected++
			}
		}
	}
	r.OffLine, r.Course = math.Sqrt(squares), course.degrees()
	if way := math.Hypot(last.Fix.X-first.Fix.X, last.Fix.Y-first.Fix.Y); way > 1 {
		r.Density = (n - 1) / way
	}
	var head meanBearing
	for _, p := range in.Desk.Track {
		if p.Fix.Time >= l.Start && p.Fix.Time <= l.End {
			head.add(p.Heading)
		}
	}
	r.Head = head.degrees()
}

// WriteLineLog writes the line log as CSV, with the fields of IHO C-13, chapter 4,
// 2.4.1.2: time, speed over ground, base course, course over ground, ship's head, wire
// out, remarks and sea state. There is a row for each line that is opened and closed, for
// every minute of it, and for every remark.
func WriteLineLog(w io.Writer, in *Input) error {
	c := csv.NewWriter(w)
	c.Write([]string{"utc", "event", "run", "line", "speed_over_ground_kn", "base_course_true_deg", "course_over_ground_true_deg", "ship_head_true_deg",
		"wire_out_m", "layback_m", "fish_depth_m", "fish_altitude_m", "range_scale_m", "sea_state", "remarks"})
	rows := logRows(in)
	for i := range rows {
		c.Write(in.logRow(&rows[i]))
	}
	c.Flush()
	return c.Error()
}

// logged is a moment of the line log.
type logged struct {
	time  float64
	event string
	run   int // index of the line, -1 for none
	text  string
	sea   *int
}

// logRows are the moments of the line log, in order.
func logRows(in *Input) []logged {
	var rows []logged
	for i, l := range in.Desk.Lines {
		if len(l.Pings) == 0 {
			continue
		}
		rows = append(rows, logged{time: l.Start, event: "line on", run: i})
		for t := math.Floor(l.Start/60)*60 + 60; t < l.End; t += 60 {
			rows = append(rows, logged{time: t, event: "minute", run: i})
		}
		off := logged{time: l.End, event: "line off", run: i}
		if why := in.Desk.Review.Rejected[i+1]; why != "" {
			off.text = "rejected: " + why
		}
		rows = append(rows, off)
	}
	for _, e := range in.Desk.Remarks {
		run := -1
		for i, l := range in.Desk.Lines {
			if l.Name == e.Line && e.Time >= l.Start-1 && e.Time <= l.End+1 {
				run = i
			}
		}
		rows = append(rows, logged{time: e.Time, event: "remark", run: run, text: e.Text, sea: e.Sea})
	}
	sortStable(rows)
	return rows
}

// logRow is a moment as it is written: by the watch log, which is kept every second.
func (in *Input) logRow(row *logged) []string {
	var at survey.TrackPoint
	for _, p := range in.Desk.Track {
		if p.Fix.Time > row.time+0.5 {
			break
		}
		at = p
	}
	f := &at.Fix
	run, line, base, scale := "", "", "", ""
	if row.run >= 0 {
		l := in.Desk.Lines[row.run]
		run, line, scale = strconv.Itoa(row.run+1), l.Name, number(l.RangeScale, 0)
		base = number(in.trueBearing(l.Track.Bearing(), f.VesselX, f.VesselY), 1)
	}
	sea := ""
	for _, e := range in.Desk.Remarks {
		if e.Sea != nil && e.Time <= row.time {
			sea = strconv.Itoa(*e.Sea)
		}
	}
	return []string{
		in.utc(row.time).Format(stamp), row.event, run, line, number(f.Speed/units.Knot, 2), base,
		number(in.trueBearing(f.Course, f.VesselX, f.VesselY), 1), number(at.Heading.Degrees(), 1),
		number(f.CableOut, 1), number(f.Layback, 1), number(f.Depth, 2), number(f.Altitude, 2), scale, sea, row.text,
	}
}

func number(v float64, decimals int) string { return strconv.FormatFloat(v, 'f', decimals, 64) }

func sortStable(rows []logged) {
	slices.SortStableFunc(rows, func(a, b logged) int { return cmp.Compare(a.time, b.time) })
}
