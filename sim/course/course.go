package course

import (
	"slices"
	"time"
)

// Course is exercises in an order.
type Course struct {
	Name     string
	Title    string
	Briefing string
	Steps    []Step
}

// Step is one exercise of a course.
type Step struct {
	Exercise   string        // its name
	Needs      []string      // exercises that must be passed before
	Pass       float64       // points that pass it here; 0 is the exercise's own mark
	Coach      Coaching      // when hints are given
	Repeat     time.Duration // after which a pass is due to be shown again; 0 is never
	Assessed   bool          // only an assessment passes it
	Difficulty int           // by who made the course, 1 to [Hardest]; 0 is not said
	Outcomes   []string      // that a pass supports, of a published standard
}

// Hardest is the greatest difficulty of a step; the least is 1.
const Hardest = 5

// Coaching is when a trainee is given hints, so that help fades.
type Coaching string

// The ways of coaching.
const (
	CoachAlways      Coaching = "always"
	CoachUntilPassed Coaching = "until_passed"
	CoachFirst       Coaching = "first_attempt"
	CoachNever       Coaching = "never"
)

// Coachings are the ways of coaching.
func Coachings() []Coaching { return []Coaching{CoachAlways, CoachUntilPassed, CoachFirst, CoachNever} }

// Attempt is one run of an exercise, by its debrief.
type Attempt struct {
	Exercise string    `json:"exercise"`
	When     time.Time `json:"begun_utc"`
	Seed     uint64    `json:"seed"`
	Points   float64   `json:"points"`
	Low      float64   `json:"low"`
	High     float64   `json:"high"`
	Verdict  string    `json:"verdict"`
	Gates    []string  `json:"gates_missed"`           // ids
	Causes   []string  `json:"causes"`                 // kinds, each once
	Assessed bool      `json:"assessed,omitempty"`     // flown as an assessment
	Marked   bool      `json:"flown_again"`            // its log was flown again and marked, not its debrief believed
	Session  string    `json:"session_hash,omitempty"` // what tells it from the same file twice
}

// Record lists what one trainee has done.
type Record struct {
	Trainee  string    `json:"trainee"`
	Attempts []Attempt `json:"attempts"`
}

// Add adds an attempt in the order of time, each session once.
func (r *Record) Add(a Attempt) {
	if slices.ContainsFunc(r.Attempts, func(b Attempt) bool { return b.Session != "" && b.Session == a.Session }) {
		return
	}
	at, _ := slices.BinarySearchFunc(r.Attempts, a, func(x, y Attempt) int { return x.When.Compare(y.When) })
	r.Attempts = slices.Insert(r.Attempts, at, a)
}

// State is how a step stands.
type State string

// The states.
const (
	Locked  State = "locked" // what it needs is not passed
	Open    State = "open"   // to be tried
	Decide  State = "decide" // its best attempt is for the instructor to decide
	Passed  State = "passed" // and not due again
	DueOnce State = "due"    // passed so long ago that it is to be shown again
)

// Standing is how far a trainee is with one step.
type Standing struct {
	Step     Step      `json:"-"`
	Exercise string    `json:"exercise"`
	State    State     `json:"state"`
	Attempts int       `json:"attempts"`
	Best     float64   `json:"best_points"` // of the attempts that missed no gate, if there is one
	Last     time.Time `json:"last_passed_utc,omitzero"`
	Coached  bool      `json:"coached"` // the next attempt is

	clean bool // Best is of an attempt that missed no gate
}

// passes reports whether an attempt passes a step. A step's own pass mark stands
// above the exercise's, and never below a gate.
func (s *Step) passes(a *Attempt) (passed, decide bool) {
	switch {
	case len(a.Gates) > 0 || a.Verdict == "failed" || s.Assessed && !a.Assessed:
		return false, false
	case s.Pass > 0:
		return a.Low >= s.Pass, a.Low < s.Pass && a.High >= s.Pass
	}
	return a.Verdict == "passed", a.Verdict == "instructor"
}

// Standings are how far a trainee is at a time, step by step.
func (c *Course) Standings(r *Record, now time.Time) []Standing {
	passed := map[string]bool{}
	out := make([]Standing, len(c.Steps))
	for i := range c.Steps {
		s := &c.Steps[i]
		at := Standing{Step: *s, Exercise: s.Exercise}
		decide := false
		for k := range r.Attempts {
			a := &r.Attempts[k]
			if a.Exercise != s.Exercise {
				continue
			}
			at.Attempts++
			if clean := len(a.Gates) == 0; clean == at.clean {
				at.Best = max(at.Best, a.Points)
			} else if clean {
				at.Best, at.clean = a.Points, true
			}
			yes, maybe := s.passes(a)
			if yes {
				at.Last, passed[s.Exercise] = a.When, true
			}
			decide = decide || maybe
		}
		locked := slices.ContainsFunc(s.Needs, func(n string) bool { return !passed[n] })
		switch {
		case passed[s.Exercise] && s.Repeat > 0 && now.Sub(at.Last) > s.Repeat:
			at.State = DueOnce
		case passed[s.Exercise]:
			at.State = Passed
		case locked:
			at.State = Locked
		case decide:
			at.State = Decide
		default:
			at.State = Open
		}
		switch s.Coach {
		case CoachNever:
		case CoachFirst:
			at.Coached = at.Attempts == 0
		case CoachUntilPassed:
			at.Coached = !passed[s.Exercise]
		default:
			at.Coached = true
		}
		out[i] = at
	}
	return out
}

// Recurring are the kinds of causes that cost points in two attempts or more, the most
// frequent first, with how many attempts each cost.
func (r *Record) Recurring() []Count {
	n := map[string]int{}
	var order []string
	for _, a := range r.Attempts {
		for _, c := range a.Causes {
			if n[c] == 0 {
				order = append(order, c)
			}
			n[c]++
		}
	}
	var out []Count
	for _, c := range order {
		if n[c] > 1 {
			out = append(out, Count{c, n[c]})
		}
	}
	slices.SortStableFunc(out, func(a, b Count) int { return b.Attempts - a.Attempts })
	return out
}

// Count is how many attempts something cost points.
type Count struct {
	Cause    string `json:"cause"`
	Attempts int    `json:"attempts"`
}

// Reached are the outcomes that passed steps support, in the order of the course.
func (c *Course) Reached(standings []Standing) []string {
	var out []string
	for _, s := range standings {
		if s.State != Passed && s.State != DueOnce {
			continue
		}
		for _, o := range s.Step.Outcomes {
			if !slices.Contains(out, o) {
				out = append(out, o)
			}
		}
	}
	return out
}
