package course

import (
	"bytes"
	"encoding/csv"
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"
	"time"
)

func day(n int) time.Time { return time.Date(2031, 6, n, 9, 0, 0, 0, time.UTC) }

var invented = &Course{Name: "week", Title: "A week", Steps: []Step{
	{Exercise: "one", Coach: CoachFirst, Outcomes: []string{"A"}},
	{Exercise: "two", Needs: []string{"one"}, Pass: 80, Coach: CoachUntilPassed, Repeat: 3 * 24 * time.Hour, Outcomes: []string{"A", "B"}},
	{Exercise: "three", Needs: []string{"one", "two"}, Coach: CoachNever},
}}

func states(s []Standing) string {
	var out []string
	for _, at := range s {
		out = append(out, string(at.State))
	}
	return strings.Join(out, " ")
}

// What is open, passed, due again and coached, as attempts come in.
func TestStandings(t *testing.T) {
	var r Record
	check := func(now time.Time, want string) []Standing {
		t.Helper()
		s := invented.Standings(&r, now)
		if got := states(s); got != want {
			t.Errorf("%s, want %s", got, want)
		}
		return s
	}
	if s := check(day(1), "open locked locked"); !s[0].Coached || s[2].Coached {
		t.Errorf("coached: %+v", s)
	}
	r.Add(Attempt{Exercise: "one", When: day(1), Points: 50, Low: 45, High: 55, Verdict: "failed", Causes: []string{"too_low"}, Session: "a"})
	r.Add(Attempt{Exercise: "one", When: day(1), Session: "a"}) // the same file again
	if s := check(day(1), "open locked locked"); s[0].Coached || s[0].Attempts != 1 {
		t.Errorf("after the first attempt: %+v", s[0])
	}
	r.Add(Attempt{Exercise: "one", When: day(2), Points: 90, Low: 88, High: 92, Verdict: "passed", Session: "b"})
	r.Add(Attempt{Exercise: "two", When: day(2).Add(time.Hour), Points: 82, Low: 78, High: 84, Verdict: "passed", Causes: []string{"too_low", "gain"}, Session: "c"})
	check(day(2), "passed decide locked") // the course asks for 80, and its range holds it
	r.Add(Attempt{Exercise: "two", When: day(3), Points: 99, Low: 99, High: 99, Verdict: "failed", Gates: []string{"fish_aground"}, Session: "d"})
	check(day(3), "passed decide locked")
	r.Add(Attempt{Exercise: "two", When: day(4), Points: 85, Low: 81, High: 87, Verdict: "passed", Session: "e"})
	check(day(4), "passed passed open")
	s := check(day(8), "passed due open")
	if got := strings.Join(invented.Reached(s), " "); got != "A B" {
		t.Errorf("reached %s", got)
	}
	sealed := &Course{Steps: []Step{{Exercise: "one", Assessed: true}}}
	if got := states(sealed.Standings(&r, day(8))); got != "open" {
		t.Errorf("a step that asks for an assessment is %s after a run of one's own", got)
	}
	r.Add(Attempt{Exercise: "one", When: day(8), Points: 90, Low: 88, High: 92, Verdict: "passed", Assessed: true, Session: "f"})
	if got := states(sealed.Standings(&r, day(8))); got != "passed" {
		t.Errorf("after an assessment it is %s", got)
	}
	if got := r.Recurring(); len(got) != 1 || got[0] != (Count{"too_low", 2}) {
		t.Errorf("recurring %+v", got)
	}
}

// What is exported is read by other readers; a name is no formula and no markup.
func TestExports(t *testing.T) {
	r := Record{Trainee: "=1+<b>A</b>"}
	r.Add(Attempt{Exercise: "one", When: day(2), Points: 90, Low: 88, High: 92, Verdict: "passed", Session: "b"})
	var out bytes.Buffer
	if err := WriteCSV(&out, &r); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&out).ReadAll()
	if err != nil || len(rows) != 2 || rows[1][0] != "'=1+<b>A</b>" || rows[1][1] != "2031-06-02T09:00:00Z" {
		t.Errorf("%v %v", rows, err)
	}
	out.Reset()
	if err := WriteSheet(&out, invented, &r, day(3)); err != nil {
		t.Fatal(err)
	}
	d := xml.NewDecoder(&out)
	d.Entity = xml.HTMLEntity
	words := ""
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		if text, ok := token.(xml.CharData); ok {
			words += string(text)
		}
	}
	for _, want := range []string{"=1+<b>A</b>", "replaces no field time", "Instructor, date", "88.0–92.0"} {
		if !strings.Contains(words, want) {
			t.Errorf("the sheet has no %q", want)
		}
	}
}
