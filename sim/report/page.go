package report

import (
	_ "embed"
	"encoding/base64"
	"html/template"
	"io"
	"math"
	"strings"

	"dryline/seabed/units"
	"dryline/sim/survey"
)

//go:embed report.css
var style string

//go:embed survey.html.tmpl
var surveyText string

//go:embed contacts.html.tmpl
var contactsText string

var functions = template.FuncMap{
	"number": func(decimals int, v float64) string {
		if math.IsNaN(v) {
			return "–"
		}
		return strings.Replace(number(v, decimals), "-", "−", 1)
	},
	"knots": func(v float64) float64 { return v / units.Knot },
	"sized": func(s survey.Sized) string {
		if !s.Known {
			return "–"
		}
		return number(s.Metres, 2) + " ± " + number(s.Sigma, 2)
	},
	"share":  func(v float64) string { return survey.Percent(v, 1) },
	"whole":  func(v float64) string { return survey.Percent(v, 0) },
	"action": action,
	"sure": func(c *float64) string {
		if c == nil {
			return "–"
		}
		return confidence(c)
	},
	"words": func(name any) string { return strings.ReplaceAll(toString(name), "_", " ") },
	"picture": func(png []byte) template.URL {
		return template.URL("data:image/png;base64," + base64.StdEncoding.EncodeToString(png))
	},
	"style":   func() template.CSS { return template.CSS(style) },
	"clock":   func(utc string) string { return clock(utc) },
	"decided": func(a survey.Action) bool { return a != "" },
	"sub":     func(a, b int) int { return a - b },
}

func toString(v any) string {
	switch v := v.(type) {
	case survey.Class:
		return string(v)
	case string:
		return v
	}
	return ""
}

// clock is the time of day of a time that was written whole.
func clock(utc string) string {
	_, day, ok := strings.Cut(strings.TrimSuffix(utc, "Z"), "T")
	if !ok {
		return "–"
	}
	return day
}

var (
	surveyPage   = template.Must(template.New("survey").Funcs(functions).Parse(surveyText))
	contactsPage = template.Must(template.New("contacts").Funcs(functions).Parse(contactsText))
)

// WriteSurvey writes the survey report as one page that needs nothing else and prints.
func WriteSurvey(w io.Writer, s *Survey) error { return surveyPage.Execute(w, s) }

// WriteContacts writes the contact report as one page that needs nothing else and
// prints.
func WriteContacts(w io.Writer, s *Survey) error { return contactsPage.Execute(w, s) }
