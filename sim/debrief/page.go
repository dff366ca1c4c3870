package debrief

import (
	_ "embed"
	"encoding/base64"
	"fmt"
	"html/template"
	"io"
	"math"
	"strconv"
	"strings"

	"dryline/seabed/units"
	"dryline/sim/survey"
)

// Picture is an image shown in the report page.
type Picture struct {
	Title   string
	Caption string
	PNG     []byte
	Small   bool // one of the objects, shown side by side
}

//go:embed report.html.tmpl
var pageText string

//go:embed report.css
var pageStyle string

var pageTemplate = template.Must(template.New("report").Funcs(template.FuncMap{
	"number":     number,
	"maybe":      maybe,
	"signed":     signed,
	"duration":   duration,
	"join":       func(names []string) string { return strings.Join(names, ", ") },
	"words":      words,
	"reason":     reasonInWords,
	"clock":      clockOf,
	"timeline":   drawTimeline,
	"sub":        func(a, b int) int { return a - b },
	"short":      short,
	"share":      shareOf,
	"maybeShare": maybeShare,
	"percent":    func(part, of float64) string { return strconv.FormatFloat(tenth(100*part/max(of, 1)), 'f', -1, 64) },
	"knots":      func(v float64) float64 { return v / units.Knot },
}).Parse(pageText))

// WriteHTML writes the report as one page that needs nothing else: pictures,
// plots and style are in it, there is no script, and it asks nothing of any
// network. It reads on a screen, light or dark, and prints.
func WriteHTML(w io.Writer, r Report, pictures []Picture) error {
	type shown struct {
		Title, Caption string
		Source         template.URL
	}
	page := struct {
		Report
		Style      template.CSS
		Plots      []linePlots
		Pictures   []shown
		Evidence   []shown // of the objects
		Errors     []namedErrors
		MostListed int

		AnyReversed bool
	}{Report: r, Style: template.CSS(pageStyle), MostListed: maxHolidays}
	for i := range r.Lines {
		page.AnyReversed = page.AnyReversed || r.Lines[i].Reversed
	}
	for _, p := range pictures {
		picture := shown{p.Title, p.Caption, template.URL("data:image/png;base64," + base64.StdEncoding.EncodeToString(p.PNG))}
		if p.Small {
			page.Evidence = append(page.Evidence, picture)
		} else {
			page.Pictures = append(page.Pictures, picture)
		}
	}
	for i := range r.Lines {
		if len(r.Lines[i].Series.Along) > 1 {
			page.Plots = append(page.Plots, plotLine(&r, &r.Lines[i]))
		}
	}
	p := &r.Position
	for _, e := range []namedErrors{
		{"Fish", p.Fish},
		{"Port, half range", p.PortHalf}, {"Starboard, half range", p.StarboardHalf},
		{"Port, full range", p.PortFull}, {"Starboard, full range", p.StarboardFull},
		{"Ground at half range, both sides", p.GroundHalf},
	} {
		if e.Errors != nil {
			page.Errors = append(page.Errors, e)
		}
	}
	return pageTemplate.Execute(w, page)
}

type namedErrors struct {
	Name string
	*Errors
}

// number writes a value with that many decimals and a true minus sign.
func number(decimals int, v float64) string {
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if digits, ok := strings.CutPrefix(s, "-"); ok {
		if strings.Trim(digits, "0.") == "" {
			return digits
		}
		return "−" + digits
	}
	return s
}

// maybe is number for a value that may be unknown.
func maybe(decimals int, v *float64) string {
	if v == nil {
		return "–"
	}
	return number(decimals, *v)
}

// signed is maybe with a plus sign.
func signed(decimals int, v *float64) string {
	s := maybe(decimals, v)
	if v != nil && *v > 0 && strings.Trim(s, "0.") != "" {
		return "+" + s
	}
	return s
}

// maybeShare writes a share that may be unknown.
func maybeShare(percent *float64) string {
	if percent == nil {
		return "–"
	}
	return shareOf(*percent)
}

// shareOf writes a share in percent to a decimal.
func shareOf(percent float64) string { return survey.Percent(percent, 1) }

func duration(seconds float64) string {
	n := int(math.Round(seconds))
	if n < 3600 {
		return fmt.Sprintf("%d min %02d s", n/60, n%60)
	}
	return fmt.Sprintf("%d h %02d min", n/3600, n%3600/60)
}

// short is the beginning of a hash, enough to tell two files apart.
func short(hash string) string { return hash[:min(len(hash), 12)] }
