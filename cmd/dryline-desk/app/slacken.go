package app

import (
	"fmt"
	"math"

	"dryline/sim/coach"
)

// slacken lets time pass as on the water again, when it was hurried, at what wants a hand:
// the fish at the start of the line that is steered or past its end, something gone wrong,
// an alarm of the coach, another vessel in sight. It does so once for each: whoever wants
// time to run on hurries it again.
type slacken struct {
	line     string // that is steered
	reversed bool
	ahead    float64 // how far along it the fish has been to come in a few seconds, metres
	known    bool    // the above
	alarms   int
	ships    int
	alarm    string // of the coach, that stood
}

// leadSeconds is how long before the fish comes to a line's start or end time slackens:
// our own choice, enough to lay a hand on the log.
const leadSeconds = 6.0

// turnedBack is how far back along a line, metres, is another run at it.
const turnedBack = 20.0

// look says why time has to slacken now, empty if it has not.
func (s *slacken) look(w *Watch, hints []coach.Hint) (why string) {
	b := &w.view.Bridge
	if n := len(b.Alarms); n > s.alarms {
		why = b.Alarms[n-1].Says
	}
	s.alarms = len(b.Alarms)
	if n := len(b.Traffic); n > s.ships {
		why = b.Traffic[n-1].Name + " is in sight"
	}
	s.ships = len(b.Traffic)
	alarm := ""
	if len(hints) > 0 && hints[0].Severity == coach.Alarm {
		alarm = hints[0].ID
	}
	if alarm != "" && alarm != s.alarm {
		why = "the coach has an alarm"
	}
	s.alarm = alarm
	if says := s.ends(w); says != "" {
		why = says
	}
	return why
}

// ends tells of the start and the end of the line that is steered.
func (s *slacken) ends(w *Watch) (says string) {
	line, reversed := w.helm.chosen(), w.helm.reversed
	track := line.Track(reversed)
	f := &w.view.Fix
	along, off := track.Offset(f.X, f.Y)
	ahead := along + leadSeconds*max(f.Speed, 0)
	same := s.known && s.line == line.Name && s.reversed == reversed
	if same && math.Abs(off) < w.brief.Plan.TurnRadius {
		logging := w.view.Bridge.Logging == line.Name
		crossed := func(at float64) bool { return s.ahead < at && ahead >= at }
		switch {
		case crossed(0) && !logging:
			says = fmt.Sprintf("the fish comes to the start of %s", line.Name)
		case crossed(track.Length()) && logging:
			says = fmt.Sprintf("the fish comes to the end of %s", line.Name)
		}
	}
	// Place and speed are measured, and go to and fro: what the fish was to come to once it comes to once, unless
	// she turns back.
	if same && ahead > s.ahead-turnedBack {
		ahead = max(ahead, s.ahead)
	}
	s.line, s.reversed, s.ahead, s.known = line.Name, reversed, ahead, true
	return says
}

// slackenTime looks, and lets time pass as on the water.
func (w *Watch) slackenTime(g *Game, hints []coach.Hint) {
	why := w.slacken.look(w, hints)
	if why == "" || w.pace.rate <= 1 || w.pace.paused {
		return
	}
	w.pace.set(1, false)
	g.sayWhile("Time passes as on the water again: "+why+".", func() bool { return w.pace.rate <= 1 })
}
