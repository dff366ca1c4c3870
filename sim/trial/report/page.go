package report

import (
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"math"
	"strings"

	"dryline/sim/trial"
)

//go:embed trial.html.tmpl
var pageText string

var page = template.Must(template.New("trial").Funcs(template.FuncMap{
	"percent": percent, "risk": risk, "between": between, "hours": hours,
	"figure": figure,
	"given":  func(v *float64) string { return fmt.Sprintf("%.3g", *v) },
	"whole":  func(v *float64) string { return fmt.Sprintf("%.0f", *v) },
	"points": func(v float64) string { return fmt.Sprintf("%+.1f", 100*v) },
	"clock":  func(v float64) string { return fmt.Sprintf("%+.1f", v/60) },
	"span":   func(p *trial.Range) string { return fmt.Sprintf("%g to %g", p.Low, p.High) },
	"curve":  curve, "spread": spread, "short": func(s string) string { return s[:min(len(s), 12)] },
	"km2": func(v float64) string { return fmt.Sprintf("%.3g", v) },
}).Parse(pageText))

// figure is a value of three figures, written out.
func figure(v float64) string {
	if v >= 1000 {
		return fmt.Sprintf("%.0f", v)
	}
	return fmt.Sprintf("%.3g", v)
}

// HTML writes the page: it needs nothing else and has no script.
func HTML(w io.Writer, r *trial.Result, t *trial.Trial) error {
	var ranked []*trial.Judged
	for _, name := range r.Ranking {
		ranked = append(ranked, r.Plan(name))
	}
	return page.Execute(w, struct {
		*trial.Result
		Ranked []*trial.Judged
		Spec   *trial.Spec
	}{r, ranked, t.Spec})
}

// spread draws the detection of the plans with their intervals over time.
func spread(plans []*trial.Judged) template.HTML {
	const wide, tall, left, foot = 640.0, 260.0, 46.0, 34.0
	most, low, high := 0.0, 1.0, 0.0
	for _, p := range plans {
		most, low, high = max(most, p.Time.High/3600), min(low, p.All.Low), max(high, p.All.High)
	}
	low, high = math.Floor(10*low)/10, math.Min(math.Ceil(10*high)/10, 1)
	if high <= low {
		high = low + 0.1
	}
	most = max(most*1.1, 1e-3)
	x := func(h float64) float64 { return left + (wide-left-90)*h/most }
	y := func(p float64) float64 { return 10 + (tall-foot-10)*(high-p)/(high-low) }
	var b strings.Builder
	fmt.Fprintf(&b, `<svg viewBox="0 0 %g %g" role="img" aria-label="Found against time">`, wide, tall)
	for p := low; p <= high+1e-9; p += 0.1 {
		fmt.Fprintf(&b, `<line class="grid" x1="%g" x2="%g" y1="%.1f" y2="%.1f"/><text class="axis" x="%g" y="%.1f" text-anchor="end">%.0f %%</text>`, left, wide-80, y(p), y(p), left-6, y(p)+4, 100*p)
	}
	fmt.Fprintf(&b, `<text class="axis" x="%g" y="%g">hours of the plan as flown: 0 to %.2g</text>`, left, tall-6, most)
	used := []float64{}
	for _, p := range plans {
		cx, cy := x(p.Time.Mean/3600), y(p.All.P)
		fmt.Fprintf(&b, `<line class="bar" x1="%.1f" x2="%.1f" y1="%.1f" y2="%.1f"/>`, cx, cx, y(p.All.Low), y(p.All.High))
		fmt.Fprintf(&b, `<line class="bar" x1="%.1f" x2="%.1f" y1="%.1f" y2="%.1f"/>`, x(p.Time.Low/3600), x(p.Time.High/3600), cy, cy)
		fmt.Fprintf(&b, `<circle class="dot" cx="%.1f" cy="%.1f" r="4"/>`, cx, cy)
		ly := cy - 8
		for _, u := range used { // names do not lie on each other
			if math.Abs(u-ly) < 15 {
				ly = u + 16
			}
		}
		used = append(used, ly)
		fmt.Fprintf(&b, `<text class="name" x="%.1f" y="%.1f">%s</text>`, cx+8, ly, template.HTMLEscapeString(p.Name))
	}
	b.WriteString(`</svg>`)
	return template.HTML(b.String())
}

// curve draws a lateral range curve with its intervals.
func curve(bins []trial.LateralBin, unit string) template.HTML {
	const wide, tall, left, foot = 300.0, 150.0, 34.0, 26.0
	if len(bins) == 0 {
		return ""
	}
	far := bins[len(bins)-1].To
	x := func(v float64) float64 { return left + (wide-left-8)*v/far }
	y := func(p float64) float64 { return 8 + (tall-foot-8)*(1-p) }
	var b strings.Builder
	fmt.Fprintf(&b, `<svg viewBox="0 0 %g %g" role="img" aria-label="Share of looks that found it">`, wide, tall)
	for _, p := range []float64{0, 0.5, 1} {
		fmt.Fprintf(&b, `<line class="grid" x1="%g" x2="%g" y1="%.1f" y2="%.1f"/><text class="axis" x="%g" y="%.1f" text-anchor="end">%.0f</text>`, left, wide-8, y(p), y(p), left-4, y(p)+4, 100*p)
	}
	for _, k := range bins {
		if k.Looks == 0 {
			continue
		}
		fmt.Fprintf(&b, `<rect class="band" x="%.1f" y="%.1f" width="%.1f" height="%.1f"><title>%g to %g %s: %s of %d looks, %s</title></rect>`,
			x(k.From), y(k.High), x(k.To)-x(k.From)-1, max(y(k.Low)-y(k.High), 1), k.From, k.To, unit, percent(k.P), k.Looks, between(k.Interval))
		fmt.Fprintf(&b, `<line class="bar" x1="%.1f" x2="%.1f" y1="%.1f" y2="%.1f"/>`, x(k.From), x(k.To)-1, y(k.P), y(k.P))
	}
	fmt.Fprintf(&b, `<text class="axis" x="%g" y="%g">0 to %g %s</text></svg>`, left, tall-6, far, unit)
	return template.HTML(b.String())
}
