package assess

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"strings"
	"time"

	"dryline/sim"
	"dryline/sim/debrief"
	"dryline/sim/order"
	"dryline/sim/product"
)

// Statement says how an assessment stands.
type Statement struct {
	Session  string `json:"session"`
	Exercise string `json:"exercise"`
	Trainee  string `json:"trainee"`
	Begun    string `json:"begun_utc"`
	HandedIn bool   `json:"handed_in"`
	Nth      int    `json:"nth_begun"` // on that installation, as it says

	// Holds says that the orders flown again gave the survey that the log says. Why says why
	// not, or why nobody can say.
	Holds bool   `json:"holds"`
	Why   string `json:"why,omitempty"`

	Sailed float64 `json:"sailed_s"` // of the exercise, seconds
	Passed float64 `json:"passed_s"` // on the wall meanwhile
	AtDesk float64 `json:"at_desk_s"`
	Gaps   []Gap   `json:"gaps"`

	Files []Compared `json:"files"` // in which anything differs

	Points  float64 `json:"points"`
	Pass    float64 `json:"pass"`
	Verdict string  `json:"verdict"`

	Limits []string `json:"does_not_protect_against"`
}

// Compared is a file that differs.
type Compared struct {
	Name string `json:"name"`
	Says string `json:"says"`
}

// limits say what an assessment does not protect against.
var limits = []string{
	"The session ran on the trainee's machine: the memory of a program can be read, and the program can be changed.",
	"The key of the installation lies on that machine. Anyone who can read it can open exercise, seeds and truth, also while the session is under way.",
	"Anyone who has the instructor's public key can make an assessment anew, with seeds of their own or of one they opened and hours as they like, or fly several and hand in the best.",
	"The hours are that machine's own and can be set; a copy that was flown ahead and thrown away shows as a gap at most.",
	"The evidence is the order log flown again here. It says which survey these orders give, and not who gave them: an invigilator does.",
}

// Why there is no evidence.
const (
	whyDiffers = "flown again the orders do not give what the log says they gave: it was not flown by this program as it is, or the log's end was made up"
	whyNoEnd   = "it was not handed in: the log does not say what the session gave, so that there is nothing to hold the flight against"
)

// state says how what was flown again stands to what was handed in.
func (o *Opened) state(s *sim.Session, r *debrief.Report, again product.Sink) (*Statement, error) {
	l := o.Log
	out := &Statement{
		Session: l.Head.Session, Exercise: l.Head.Exercise, Trainee: l.Head.Trainee, Begun: l.Head.Begun, HandedIn: l.HandedIn != nil, Nth: l.Head.Nth,
		Gaps: Gaps(l.Moments), Files: []Compared{}, Limits: limits,
		Points: r.Score.Points, Pass: r.Score.Pass, Verdict: string(r.Score.Verdict),
	}
	out.Sailed, out.Passed, out.AtDesk = spent(l.Moments)
	end := l.HandedIn
	if end == nil {
		out.Why = whyNoEnd
		return out, nil
	}
	out.Holds = end.Digest == s.Digest()
	if !out.Holds {
		out.Why = whyDiffers
		if foreign := (&order.Head{Engine: l.Head.Engine, Platform: l.Head.Platform}).Foreign(); foreign != "" {
			out.Why = "it was " + foreign + ": what is here is not the same survey, and shows nothing"
		}
	}
	flown := map[string]string{}
	for _, e := range again.Files() {
		flown[e.Name] = e.Hash
	}
	for _, e := range end.Products {
		content, err := readFile(o.files, e.Name, longestFindings)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			out.tell(e.Name, "it is missing from the folder")
		case err != nil:
			return nil, err
		case hashOf(content) != e.Hash:
			out.tell(e.Name, "it was changed since it was handed in")
		}
		if flown[e.Name] != e.Hash {
			out.tell(e.Name, "flown again it is not what was handed in")
		}
	}
	for _, name := range []string{"debrief.json", "debrief.html", "truth.geojson", product.SessionFile} {
		content, there := o.Findings[name]
		if !there {
			out.tell(name, "it is not among what was sealed")
		} else if hashOf(content) != flown[name] {
			out.tell(name, "flown again it is not what was sealed")
		}
	}
	return out, nil
}

func (s *Statement) tell(name, says string) { s.Files = append(s.Files, Compared{name, says}) }

// spent is how long a watch took by the exercise and on the wall, and the desk after it, seconds.
func spent(moments []Moment) (sailed, passed, atDesk float64) {
	for i := 1; i < len(moments); i++ {
		a, b := moments[i-1], moments[i]
		took := b.At.Sub(a.At).Seconds()
		if a.Over {
			atDesk += took
			continue
		}
		sailed += float64(b.Tick-a.Tick) / 10
		passed += took
	}
	return sailed, passed, atDesk
}

// Write writes the statement for people.
func (s *Statement) Write(w io.Writer) error {
	var b strings.Builder
	fmt.Fprintf(&b, "Assessment %s\n%s", s.Session, s.Exercise)
	if s.Trainee != "" {
		fmt.Fprintf(&b, ", flown by %s", s.Trainee)
	}
	fmt.Fprintf(&b, ", begun %s\n\n", s.Begun)
	fmt.Fprintf(&b, "Seals        every record has the HMAC of the session's key, the chain holds, the sealed files are its own\n")
	fmt.Fprintf(&b, "Begun there  as number %d of the assessments of that installation, as it says: ask for the others\n", s.Nth)
	switch {
	case s.Holds:
		fmt.Fprintf(&b, "Flown again  the orders give the survey that the log says they gave: this is the evidence\n")
	default:
		fmt.Fprintf(&b, "Flown again  NO EVIDENCE: %s\n", s.Why)
	}
	fmt.Fprintf(&b, "Score        %.4g of 100, %.0f needed: %s. An instructor's judgement stands above it\n", s.Points, s.Pass, strings.ReplaceAll(s.Verdict, "_", " "))
	fmt.Fprintf(&b, "Time         %s sailed in %s by the clock of that machine; %s at the desk afterwards\n", took(s.Sailed), took(s.Passed), took(s.AtDesk))
	if len(s.Gaps) == 0 {
		fmt.Fprintf(&b, "Gaps         none: nowhere was the clock more than %.0f s off between two records\n", tolerated)
	}
	for _, g := range s.Gaps {
		what := "stood still, or went slower"
		switch {
		case g.Passed < 0:
			what = "THE CLOCK WAS SET BACK"
		case g.Resumed:
			what = "left, and taken up again"
		case g.Passed < g.Sailed:
			what = "went faster than on the water"
		}
		fmt.Fprintf(&b, "Gap          at %s of the exercise, %s: %s sailed in %s (%s)\n", took(float64(g.Tick)/10), g.From.Format(time.RFC3339), took(g.Sailed), took(g.Passed), what)
	}
	if len(s.Files) == 0 && s.HandedIn {
		fmt.Fprintf(&b, "Files        every product in the folder is what was handed in, and what the orders give again\n")
	}
	for _, f := range s.Files {
		fmt.Fprintf(&b, "File         %s: %s\n", f.Name, f.Says)
	}
	fmt.Fprintf(&b, "\nWhat this does not protect against\n")
	for _, l := range s.Limits {
		fmt.Fprintf(&b, "  - %s\n", l)
	}
	fmt.Fprintf(&b, "\nTraining aid with synthetic data. Not for navigation; never evidence that an area is clear of hazards.\n")
	_, err := io.WriteString(w, b.String())
	return err
}

// took is a time in words.
func took(seconds float64) string {
	d := time.Duration(seconds * float64(time.Second)).Round(time.Second / 10)
	return d.String()
}
