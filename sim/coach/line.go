package coach

import (
	"fmt"
	"maps"
	"math"

	"dryline/seabed/units"
	"dryline/sim/order"
	"dryline/sim/survey"
)

// lineChecks are about steering, the log and the time.
func (c *Coach) lineChecks(now float64, s *sight) []check {
	checks := append([]check{c.offLine(s)}, c.logOnChecks(s)...)
	checks = append(checks, c.logOffChecks(s)...)
	return append(checks, c.offChart(s), c.timeShort(now, s))
}

// offLine is the vessel beside the line, which matters more with the log on.
func (c *Coach) offLine(s *sight) check {
	off, limit := math.Abs(s.vesselOff), c.ex.Score.OffLine
	watched := limit > 0 && s.within
	return check{"off_line", severityOf(s.logging), watched && off > limit, watched && off > 0.8*limit, func() string {
		if s.Bridge.Steering.Do == order.SteerLine && s.Bridge.Steering.Line == s.line {
			return fmt.Sprintf("%.0f m to the %s of line %s, and %.3g m is the limit: the autopilot is still finding her crab angle. A longer run-in gives it time.", off, side(s.vesselOff), s.line, limit)
		}
		to := "port"
		if s.vesselOff < 0 {
			to = "starboard"
		}
		return fmt.Sprintf("%.0f m to the %s of line %s, and %.3g m is the limit: steer to %s, and small.", off, side(s.vesselOff), s.line, limit, to)
	}}
}

func (c *Coach) offChart(s *sight) check {
	gone := c.outside(s.Fix.VesselX, s.Fix.VesselY)
	return check{"off_chart", Caution, gone, gone, func() string {
		return "She has left the area of the exercise: turn back to the lines."
	}}
}

func (c *Coach) timeShort(now float64, s *sight) check {
	need, left := c.timeNeeded(now, s)
	short := left < need && s.Bridge.Speed > 0
	return check{"time_short", Caution, short, left < 1.1*need, func() string {
		return fmt.Sprintf("%.0f min are left and the lines still to run take about %.0f at %s.", math.Floor(left/60), math.Ceil(need/60), knots(s.Bridge.Speed))
	}}
}

// logOnChecks are about a log that is on where it should not be, or may not be
// stopped yet.
func (c *Coach) logOnChecks(s *sight) []check {
	const degree = units.Degree
	length := s.track.Length()
	over := s.logging && s.fish > length
	astern := s.logging && s.vessel > length && s.fish < length
	return []check{
		{"log_in_turn", Caution, s.logging && s.turned > 20*degree, s.logging && s.turned > 12*degree, func() string {
			return fmt.Sprintf("The log is on and the fish is %.0f degrees off the line: what is logged in a turn is no use. Stop the log.", s.turned/degree)
		}},
		{"fish_not_past_end", Note, astern, astern, func() string {
			return fmt.Sprintf("The vessel is past the end of line %s and the fish is not: hold course for %.0f m more.", s.line, length-s.fish)
		}},
		{"log_still_on", Note, over && s.fish > length+15, over, func() string {
			return fmt.Sprintf("The fish is %.0f m past the end of line %s: stop the log.", s.fish-length, s.line)
		}},
	}
}

// logOffChecks are about a log that is off: too late at the start of a line, or
// past its end with the line run well or not.
func (c *Coach) logOffChecks(s *sight) []check {
	length, got, next := s.track.Length(), c.logged.share[s.line], c.nextLine(s)
	off := !s.logging && s.onLine
	missed := off && s.fish < length && math.Abs(s.fishOff) < alongside && !c.loggedTo(s, s.fish-10)
	past := off && s.fish > length+c.ex.Plan.RunOut+30
	return []check{
		{"log_not_started", Caution, missed && s.fish > 3, missed && s.fish > 0, func() string {
			return fmt.Sprintf("The fish is %.0f m past the start of line %s and nothing is logged: start the log.", s.fish, s.line)
		}},
		{"log_soon", Note, missed && s.fish < 0 && s.fish > -40, missed && s.fish < 3 && s.fish > -45, func() string {
			return fmt.Sprintf("The fish comes to line %s in %.0f m: start the log when it is there, whatever the vessel does.", s.line, max(-s.fish, 0))
		}},
		{"line_missed", Caution, past && got < wellLogged, past && got < wellLogged, func() string {
			if got == 0 {
				return fmt.Sprintf("Line %s is %.0f m astern of the fish and was not logged: turn and run it again.", s.line, s.fish-length)
			}
			return fmt.Sprintf("Line %s is %.0f m astern of the fish with %s %% of it logged: turn and run the rest.", s.line, s.fish-length, survey.Percent(100*got, 0))
		}},
		{"line_done", severityOf(next != ""), past && got >= wellLogged, past && got >= wellLogged, func() string {
			if next == "" {
				return "Every line of the plan is logged: look through the contacts, then end the exercise."
			}
			return fmt.Sprintf("Line %s is %.0f m astern of the fish and she runs on: choose line %s and steer to it.", s.line, s.fish-length, next)
		}},
	}
}

// severityOf is a caution for what wants doing, else a note.
func severityOf(wanted bool) Severity {
	if wanted {
		return Caution
	}
	return Note
}

// wellLogged is the share of a line from which nobody is told to run it again:
// our own choice.
const wellLogged = 0.9

// logged holds what follows from the lines closed. It changes only with their
// number, and goes through every ping of them.
type logged struct {
	lines int
	share map[string]float64 // of each line of the exercise, 0..1
	runs  map[string]int     // by name, those that were well logged
}

func (c *Coach) read(lines []*survey.LineRecord) {
	if c.logged.share != nil && c.logged.lines == len(lines) {
		return
	}
	c.logged = logged{len(lines), map[string]float64{}, map[string]int{}}
	for _, l := range c.ex.All() {
		c.logged.share[l.Name] = survey.Share(lines, l.Name, l.Track(false))
	}
	for _, l := range lines {
		if from, to := l.Span(); to-from >= wellLogged*l.Track.Length() {
			c.logged.runs[l.Name]++
		}
	}
}

// nextLine is the first line to be run that is not well logged, empty if all are.
func (c *Coach) nextLine(s *sight) string {
	for _, l := range c.ex.ToRun() {
		if l.Name != s.Bridge.Logging && c.logged.share[l.Name] < wellLogged {
			return l.Name
		}
	}
	return ""
}

// outside reports a place further off the ground of the exercise than a run-in
// and a turn may lead.
func (c *Coach) outside(x, y float64) bool {
	world, room := c.ex, c.ex.Plan.RunIn+2*c.ex.Plan.TurnRadius
	return world.East > 0 && (x < -room || y < -room || x > world.East+room || y > world.North+room)
}

// loggedTo reports whether the log of this line already goes as far along it.
func (c *Coach) loggedTo(s *sight, along float64) bool {
	for _, l := range s.Lines {
		if l.Name == s.line && l.Track == s.track && len(l.Pings) > 0 && l.Pings[len(l.Pings)-1].Along > along {
			return true
		}
	}
	return false
}

// timeNeeded is about what the planned lines not yet run take, with half a
// circle and the run-in to each, and the time left, seconds.
func (c *Coach) timeNeeded(now float64, s *sight) (need, left float64) {
	plan := &c.ex.Plan
	done := maps.Clone(c.logged.runs)
	way, current := 0.0, s.line
	all := c.ex.All()
	for _, run := range plan.Order {
		l := &all[run.Line]
		length := l.Track(run.Reversed).Length()
		switch {
		case done[l.Name] > 0:
			done[l.Name]--
		case current == l.Name:
			way += max(length-max(s.fish, -plan.RunIn), 0)
			current = "" // the next of that name is a run of its own
		default:
			way += math.Pi*plan.TurnRadius + plan.RunIn + length
		}
	}
	return way / max(s.Bridge.Speed, 0.1), plan.TimeLimit - now
}
