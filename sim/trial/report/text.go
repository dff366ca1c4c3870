package report

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"strings"
	"text/tabwriter"

	"dryline/sim/survey"
	"dryline/sim/trial"
)

// Text writes the ranking and the main figures.
func Text(w io.Writer, r *trial.Result) error {
	var b strings.Builder
	partial := ""
	if r.Partial {
		partial = ", stopped early"
	}
	fmt.Fprintf(&b, "%d runs of each plan, %d targets a run over %g km²%s\n", r.Runs, r.Targets, r.Area, partial)
	if r.SureOf != "" {
		fmt.Fprintln(&b, r.SureOf)
	}
	fmt.Fprintln(&b)
	t := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "plan\tfound\t95 %\ttime\tcovered once\ttwice\ttouched\t")
	for _, name := range r.Ranking {
		p := r.Plan(name)
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\t%s\t%s\t\n", p.Name, percent(p.All.P), between(p.All), hours(p.Time.Mean), percent(p.Coverage.Once), percent(p.Coverage.Twice), risk(p.Ground.P))
	}
	if err := t.Flush(); err != nil {
		return err
	}
	fmt.Fprintln(&b)
	fmt.Fprintln(t, "plan\ttarget\tfound\t95 %\tobserver\tlooks\tpings\tbracket\t")
	for _, name := range r.Ranking {
		for _, d := range r.Plan(name).Detected {
			fmt.Fprintf(t, "%s\t%s %g m\t%s\t%s\t%s\t%.1f\t%.1f\t%s to %s\t\n", name, d.Kind, d.Size, percent(d.P), between(d.Interval), percent(d.Observer.Mean), d.Looks.Mean, d.Pings, percent(d.Random), percent(d.Cookie)+rough(d))
		}
	}
	if err := t.Flush(); err != nil {
		return err
	}
	fmt.Fprintf(&b, "\n%s\n", r.Caution)
	_, err := io.WriteString(w, b.String())
	return err
}

// rough says of a bracket that it rests on few looks.
func rough(d trial.Detected) string {
	if d.LookCount < fewLooks {
		return ", rough"
	}
	return ""
}

// fewLooks is how many looks a sweep width wants.
const fewLooks = 500

// percent is a share, never more than it is.
func percent(p float64) string { return survey.Percent(100*p, 1) + " %" }

// risk is a share of what goes wrong, never less than it is.
func risk(p float64) string { return fmt.Sprintf("%.1f %%", max(math.Ceil(1000*p-1e-6), 0)/10) }

// between is an interval, never narrower than it is.
func between(i trial.Interval) string {
	return fmt.Sprintf("%s to %.1f", survey.Percent(100*i.Low, 1), max(math.Ceil(1000*i.High-1e-6), 0)/10)
}

func hours(seconds float64) string {
	m := int(seconds/60 + 0.5)
	return fmt.Sprintf("%d:%02d h", m/60, m%60)
}

// CSV writes a row for each plan and target.
func CSV(w io.Writer, r *trial.Result) error {
	c := csv.NewWriter(w)
	rows := [][]string{{"plan", "kind", "size_m", "runs", "targets", "detected", "detected_low", "detected_high", "observer", "looks", "pings_on_target",
		"sweep_width_m", "cookie_cutter", "random_search", "coverage_once", "coverage_twice", "time_s", "grounding", "position_error_m"}}
	f := func(v float64) string { return fmt.Sprintf("%.6g", v) }
	for i := range r.Plans {
		p := &r.Plans[i]
		for _, d := range p.Detected {
			rows = append(rows, []string{p.Name, d.Kind, f(d.Size), fmt.Sprint(p.Runs), fmt.Sprint(d.N), f(d.P), f(d.Low), f(d.High), f(d.Observer.Mean), f(d.Looks.Mean), f(d.Pings),
				f(d.Sweep), f(d.Cookie), f(d.Random), f(p.Coverage.Once), f(p.Coverage.Twice), f(p.Time.Mean), f(p.Ground.P), f(p.Position.Mean)})
		}
	}
	return c.WriteAll(rows)
}
