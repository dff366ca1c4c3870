package course

import (
	_ "embed"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"html/template"
	"io"
	"strconv"
	"strings"
	"time"
)

//go:embed sheet.html.tmpl
var sheetText string

var sheet = template.Must(template.New("sheet").Funcs(template.FuncMap{
	"word":    func(s State) string { return string(s) },
	"cause":   func(s string) string { return strings.ReplaceAll(s, "_", " ") },
	"verdict": verdictInWords,
}).Parse(sheetText))

// verdictInWords says how an attempt came out.
func verdictInWords(a Attempt) string {
	switch {
	case len(a.Gates) > 0:
		return "not passed: " + strings.ReplaceAll(strings.Join(a.Gates, ", "), "_", " ")
	case a.Verdict == "instructor":
		return "for the instructor to decide"
	case a.Verdict == "passed":
		return "passed"
	}
	return "not passed"
}

// WriteJSON writes a record and how it stands to the course.
func WriteJSON(w io.Writer, c *Course, r *Record, now time.Time) error {
	standings := c.Standings(r, now)
	enc := json.NewEncoder(w)
	enc.SetIndent("", "  ")
	return enc.Encode(struct {
		Course    string     `json:"course"`
		Trainee   string     `json:"trainee"`
		Now       time.Time  `json:"as_of_utc"`
		Steps     []Standing `json:"steps"`
		Outcomes  []string   `json:"outcomes_reached"`
		Recurring []Count    `json:"recurring_causes"`
		Attempts  []Attempt  `json:"attempts"`
	}{c.Name, r.Trainee, now.UTC(), standings, c.Reached(standings), r.Recurring(), r.Attempts})
}

// WriteCSV writes the attempts, a row each (RFC 4180).
func WriteCSV(w io.Writer, r *Record) error {
	out := csv.NewWriter(w)
	if err := out.Write([]string{"trainee", "begun_utc", "exercise", "seed", "points", "low", "high", "verdict", "gates_missed", "causes", "flown_again"}); err != nil {
		return err
	}
	for _, a := range r.Attempts {
		when := ""
		if !a.When.IsZero() {
			when = a.When.UTC().Format(time.RFC3339)
		}
		if err := out.Write([]string{
			plainCell(r.Trainee), when, plainCell(a.Exercise), strconv.FormatUint(a.Seed, 10), fmt.Sprint(a.Points), fmt.Sprint(a.Low), fmt.Sprint(a.High), a.Verdict,
			strings.Join(a.Gates, " "), strings.Join(a.Causes, " "), strconv.FormatBool(a.Marked),
		}); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// plainCell keeps a spreadsheet from taking a name for a formula.
func plainCell(s string) string {
	if s != "" && strings.ContainsRune("=+-@\t\r", rune(s[0])) {
		return "'" + s
	}
	return s
}

// WriteSheet writes a record as a page to print and sign. It needs nothing else.
func WriteSheet(w io.Writer, c *Course, r *Record, now time.Time) error {
	standings := c.Standings(r, now)
	return sheet.Execute(w, struct {
		Course    *Course
		Record    *Record
		Now       time.Time
		Standings []Standing
		Reached   []string
		Recurring []Count
	}{c, r, now, standings, c.Reached(standings), r.Recurring()})
}
