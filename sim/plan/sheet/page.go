package sheet

import (
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"math"

	"dryline/seabed/units"
)

//go:embed plan.html.tmpl
var source string

var page = template.Must(template.New("plan").Funcs(template.FuncMap{
	"hours":   hours,
	"percent": Percent,
	"lack":    Lack,
	"km":      func(m float64) string { return fmt.Sprintf("%.2f km", m/1000) },
	"m":       func(v float64) string { return fmt.Sprintf("%.4g m", v) },
	"kn":      func(v float64) string { return fmt.Sprintf("%.1f kn", units.InKnots(v)) },
	"km2":     func(m2 float64) float64 { return m2 / 1e6 },
}).Parse(source))

// Percent is a share of what is good, never more than it is.
func Percent(share float64) string {
	down := math.Floor(1000*share+1e-6) / 10
	if share < 1 {
		down = min(down, 99.9)
	}
	return fmt.Sprintf("%.1f %%", down)
}

// Lack is a share of what is missed, never less than it is.
func Lack(share float64) string { return fmt.Sprintf("%.1f %%", max(math.Ceil(1000*share-1e-6), 0)/10) }

// WritePage writes the page: HTML that stands alone, and prints on a sheet.
func WritePage(w io.Writer, in Input) error {
	data := struct {
		Figures
		Chart    template.HTML
		Notes    []string
		Frame    string
		Trade    *Trade
		Picture  template.HTML
		Of       string
		KeepOuts int
	}{Figures: FiguresOf(in), Chart: template.HTML(Chart(in)), Notes: in.Notes, Frame: in.Frame, Trade: in.Trade, KeepOuts: len(in.Plan.Spec.KeepOuts)}
	if in.Trade != nil {
		data.Picture = template.HTML(in.Trade.Picture())
		if len(in.Trade.All) > 0 {
			data.Of = in.Trade.All[0].Worth.Of
		}
	}
	return page.Execute(w, data)
}
