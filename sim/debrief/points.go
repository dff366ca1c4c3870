package debrief

import "dryline/sim/mark"

// Score is the sum of its items; what they can give adds up to 100. Low and high are
// the same run under stricter and kinder tolerances and matching: a pass mark between
// them is for the instructor to decide.
type Score struct {
	Rubric  int      `json:"rubric"` // version of it
	Points  float64  `json:"points"`
	Low     float64  `json:"low"`
	High    float64  `json:"high"`
	Pass    float64  `json:"pass_points"`
	Passed  bool     `json:"passed"`  // the whole range is at the pass mark or above it, and every gate is met
	Verdict string   `json:"verdict"` // "passed", "failed", or "instructor" where the pass mark lies in the range
	Gates   []Gate   `json:"gates"`
	Items   []Item   `json:"items"`
	Better  []Cause  `json:"better"` // what cost most, at most three
	Well    []string `json:"well"`
}

// The verdicts of a score.
const (
	VerdictPassed     = "passed"
	VerdictFailed     = "failed"
	VerdictInstructor = "instructor"
)

// Gate is a thing that fails an exercise whatever the points.
type Gate struct {
	ID  string `json:"id"`
	Met bool   `json:"met"`
	Why string `json:"why"`
}

// Item is one thing that counts.
type Item struct {
	ID     mark.ID `json:"id"`
	What   string  `json:"what"`
	Wanted string  `json:"wanted"`
	Got    string  `json:"got"`
	Points float64 `json:"points"`
	Of     float64 `json:"of"`
	Why    string  `json:"why"`
	Causes []Cause `json:"causes"` // of the points lost, the dearest first
}

// Cause is why points were lost, when, and what to do better.
type Cause struct {
	Kind   string  `json:"kind"`
	From   float64 `json:"from_s"`
	To     float64 `json:"to_s"`
	Points float64 `json:"points"` // that it cost
	Says   string  `json:"says"`
}
