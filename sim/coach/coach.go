package coach

import (
	"cmp"
	"slices"

	"dryline/sim/exercise"
	"dryline/sim/passage"
	"dryline/sim/survey"
	"dryline/vessel/nav"
)

// Severity is how much a hint matters.
type Severity int

// The severities.
const (
	Note Severity = iota
	Caution
	Alarm
)

// String names the severity.
func (s Severity) String() string { return [...]string{"note", "caution", "alarm"}[s] }

// Hint is one piece of advice.
type Hint struct {
	ID       string // the same for the same cause
	Severity Severity
	Text     string // one or two short sentences
	Since    float64
}

// View holds all that the coach may see at a moment. What is not known is left zero.
type View struct {
	Reading  nav.Reading
	Fix      survey.Fix
	Settings survey.Settings
	Recorder survey.Recorder
	Bridge   passage.Bridge
	Contacts []survey.Contact
	Lines    []*survey.LineRecord // closed, in the order they were run
	Height   float64              // of the fish by the bottom track, metres; 0 takes the altimeter's

	BottomMisses int // pings in a row in which the bottom track found nothing

	Levels []survey.RecordLevel // of the recorder, by channel; none is not looked at
}

// height is the height of the fish, 0 if nothing tells it.
func (v *View) height() float64 {
	if v.Height > 0 {
		return v.Height
	}
	if v.Reading.Valid.Has(nav.FishAltitude) {
		return v.Fix.Altitude
	}
	return 0
}

// Coach remembers which hints stand.
type Coach struct {
	ex     *exercise.Brief
	hints  map[string]*hintState
	beacon disagreement
	logged logged
}

// hintState is the life of one hint.
type hintState struct {
	hint  Hint
	on    bool
	doubt float64 // since when the cause says otherwise
	inTwo bool    // whether it does
	said  float64 // when its figures were worked out
}

const (
	settling  = 3.0 // seconds a cause stands or is over before its hint comes or goes
	freshness = 5.0 // seconds figures stay as they are
)

// New returns a coach for an exercise.
func New(ex *exercise.Brief) *Coach { return &Coach{ex: ex, hints: map[string]*hintState{}} }

// check is one cause, looked at now.
type check struct {
	id       string
	severity Severity
	begins   bool // bad enough to say so
	stays    bool // not yet good enough to be silent
	text     func() string
}

// Advise returns the hints that stand at a time, the most severe first. Call it
// as time goes on, at least every few seconds.
func (c *Coach) Advise(now float64, v View) []Hint {
	var out []Hint
	c.read(v.Lines)
	s := c.see(&v)
	for _, list := range [][]check{c.towChecks(&s), c.lineChecks(now, &s), c.placeChecks(now, &s), c.recordChecks(&s), c.hazardChecks(&s)} {
		for _, k := range list {
			if h := c.settle(now, k); h != nil {
				out = append(out, *h)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b Hint) int { return cmp.Compare(b.Severity, a.Severity) })
	return out
}

// settle brings a hint up to date and returns it if it stands. Alarms come at
// once.
func (c *Coach) settle(now float64, k check) *Hint {
	st := c.hints[k.id]
	if st == nil {
		st = &hintState{hint: Hint{ID: k.id}}
		c.hints[k.id] = st
	}
	says := k.begins || st.on && k.stays
	switch {
	case says == st.on:
		st.inTwo = false
	case !st.inTwo:
		st.inTwo, st.doubt = true, now
	}
	if st.inTwo && (now-st.doubt >= settling || says && k.severity == Alarm) {
		st.on, st.inTwo = says, false
		st.hint.Since, st.said = now, now-2*freshness
	}
	if !st.on {
		return nil
	}
	st.hint.Severity = k.severity
	if says && now-st.said >= freshness {
		st.hint.Text, st.said = k.text(), now
	}
	return &st.hint
}

// Event is a hint that came or went at a time, seconds.
type Event struct {
	Time float64
	Hint Hint
	Over bool // it went
}
