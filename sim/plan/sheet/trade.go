package sheet

import (
	"fmt"
	"html"
	"math"
	"strings"

	"dryline/seabed/units"
	"dryline/sim/plan"
)

// Trade sets plans side by side by cost and worth.
type Trade struct {
	All   []plan.Alternative
	Files map[int]string // exercise of a plan, by its place in All
}

type point struct {
	Range     float64 `json:"range_m"`
	Height    float64 `json:"height_m"`
	Spacing   float64 `json:"spacing_m"`
	Nadir     string  `json:"nadir"`
	Speed     float64 `json:"speed_m_s"`
	Direction float64 `json:"direction_deg"`
	Lines     int     `json:"line_count"`
	Time      float64 `json:"time_s"`
	Worth     float64 `json:"worth"`
	Low       float64 `json:"worth_low"`
	High      float64 `json:"worth_high"`
	Works     bool    `json:"works"`
	Not       string  `json:"fails,omitempty"`
	Best      bool    `json:"unbeaten"`
	Chosen    bool    `json:"as_asked"`
	File      string  `json:"exercise,omitempty"`
}

func (t *Trade) points() (out []point) {
	for i, a := range t.All {
		p := a.Plan
		out = append(out, point{p.Spec.Range, round(p.Spec.Height, 2), round(p.Spacing, 2), string(p.Spec.Nadir), round(p.Spec.Speed, 4), degrees(p.Bearing), len(p.Lines),
			round(p.Time, 1), share(a.Worth.Value), share(a.Worth.Low), share(a.Worth.High), a.Works, a.Not, a.Best, a.Chosen, t.Files[i]})
	}
	return out
}

// Unbeaten are those that nothing beats, and the plan as asked.
func (t *Trade) Unbeaten() (out []point) {
	for _, p := range t.points() {
		if p.Best || p.Chosen {
			out = append(out, p)
		}
	}
	return out
}

// Hours and the others are for the page.
func (p point) Hours() string { return hours(p.Time) }

// Knots is the speed.
func (p point) Knots() string { return fmt.Sprintf("%.1f", units.InKnots(p.Speed)) }

// Share is the worth with its margins.
func (p point) Share() string {
	return fmt.Sprintf("%.0f %% (%.0f to %.0f)", math.Floor(100*p.Worth), math.Floor(100*p.Low), math.Floor(100*p.High))
}

// Picture is time against worth, with margins, as SVG.
func (t *Trade) Picture() string {
	const w, h, left, bottom, top, right = 720.0, 360.0, 62.0, 48.0, 16.0, 16.0
	all := t.points()
	longest, least := 0.0, 1.0
	for _, p := range all {
		if p.Works || p.Chosen {
			longest, least = max(longest, p.Time), min(least, p.Low)
		}
	}
	least = math.Floor(least*10) / 10
	x := func(s float64) float64 { return left + s/(longest*1.05)*(w-left-right) }
	y := func(v float64) float64 { return h - bottom - (v-least)/(1-least)*(h-bottom-top) }
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %g %g" width="%g" height="%g" role="img" aria-label="Time against worth" font-family="sans-serif" font-size="12">`, w, h, w, h)
	for v := least; v <= 1.0001; v += 0.1 {
		fmt.Fprintf(&b, `<path d="M%g %.1fH%g" stroke="#d6dde0"/><text x="%g" y="%.1f" text-anchor="end" fill="#44535b">%.0f %%</text>`, left, y(v), w-right, left-6, y(v)+4, 100*v)
	}
	every := 900.0
	for longest/every > 9 {
		every *= 2
	}
	for s := 0.0; s <= longest*1.05; s += every {
		fmt.Fprintf(&b, `<path d="M%.1f %gV%g" stroke="#d6dde0"/><text x="%.1f" y="%g" text-anchor="middle" fill="#44535b">%s</text>`, x(s), top, h-bottom, x(s), h-bottom+16, hours(s))
	}
	fmt.Fprintf(&b, `<text x="%g" y="%g" text-anchor="middle" fill="#1d2b34">time, hours and minutes</text>`, (left+w-right)/2, h-10)
	var front []string
	for _, p := range all {
		px, py := x(p.Time), y(p.Worth)
		title := html.EscapeString(fmt.Sprintf("%g m scale, %g m high, %g m apart, %s, %s kn: %s, %s", p.Range, p.Height, p.Spacing, p.Nadir, p.Knots(), p.Hours(), p.Share()))
		if !p.Works && !p.Chosen {
			continue
		}
		colour := "#9aa9b0"
		if p.Best {
			colour = "#0b3a53"
			front = append(front, fmt.Sprintf("%.1f %.1f", px, py))
			fmt.Fprintf(&b, `<path d="M%.1f %.1fV%.1fM%.1f %.1fh6M%.1f %.1fh6" stroke="%s"/>`, px, y(p.Low), y(p.High), px-3, y(p.Low), px-3, y(p.High), colour)
		}
		switch {
		case p.Chosen:
			fmt.Fprintf(&b, `<path d="M%.1f %.1fl7 7l-7 7l-7 -7Z" fill="#fff" stroke="#b3541e" stroke-width="2.4"><title>as asked: %s</title></path>`, px, py-7, title)
		default:
			fmt.Fprintf(&b, `<circle cx="%.1f" cy="%.1f" r="%g" fill="%s"><title>%s</title></circle>`, px, py, map[bool]float64{true: 4.5, false: 2.5}[p.Best], colour, title)
		}
	}
	if len(front) > 1 {
		fmt.Fprintf(&b, `<path d="M%s" fill="none" stroke="#0b3a53" stroke-dasharray="4 3"/>`, strings.Join(front, "L"))
	}
	b.WriteString(`</svg>`)
	return b.String()
}

func hours(seconds float64) string {
	m := int(math.Round(seconds / 60))
	return fmt.Sprintf("%d:%02d", m/60, m%60)
}
