package debrief

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"dryline/seabed"
	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/survey"
)

// five is an exercise of some five minutes with a few things to find.
func five(t testing.TB) *exercise.Exercise {
	ex := small(t)
	ex.Seabed.Objects = []seabed.Object{
		{Name: "block", Kind: "block", At: seabed.Point{X: 130, Y: 300}, Length: 2, Width: 2, Height: 1.2},
		{Name: "box", Kind: "container", At: seabed.Point{X: 142, Y: 250}, Length: 6, Width: 2.4, Height: 2.4},
		{Name: "second block", Kind: "block", At: seabed.Point{X: 190, Y: 270}, Length: 1.5, Width: 1.5, Height: 1},
	}
	ex.Seabed.Patches = []seabed.Patch{{Class: seabed.Cobble, Area: seabed.Area{Polygon: []seabed.Point{{X: 70, Y: 320}, {X: 95, Y: 320}, {X: 95, Y: 350}, {X: 70, Y: 350}}}}}
	ex.Score.Gates.Report = true
	ex.Plan.TimeLimit = 420
	return ex
}

// Whoever games the marking fails, and stands below a plain honest run.
func TestBotsStandBelowAnHonestRun(t *testing.T) {
	if testing.Short() {
		t.Skip("flies a dozen sessions")
	}
	flown := run(t, five(t))
	with := func(marks []survey.Contact) Report {
		s := *flown.Session
		desk := *s.Desk
		desk.Contacts = marks
		s.Desk = &desk
		return report(&session{&s, flown.Truth})
	}
	takeUp(flown)
	honest := report(flown)
	if honest.Score.Verdict != VerdictPassed {
		t.Fatalf("the honest run: %+v", honest.Score)
	}
	grid := func(step float64, class survey.Class) []survey.Contact {
		var out []survey.Contact
		for x := 60.0; x < 210; x += step {
			for y := 215.0; y < 365; y += step {
				out = append(out, survey.Contact{Number: len(out) + 1, X: x, Y: y, ByHand: true, Class: class, Length: 2, Height: 1, Shadow: 2})
			}
		}
		return out
	}
	var huge []survey.Contact
	for i, o := range flown.Exercise.Seabed.Objects {
		huge = append(huge, survey.Contact{Number: i + 1, X: o.At.X + 40, Y: o.At.Y, ByHand: true, Class: "debris", Length: 100, Width: 100, Height: 30, Shadow: 50})
	}
	bots := map[string]Report{
		"marks on a grid":               with(grid(9, survey.Unclassified)),
		"marks on a grid, called rocks": with(grid(9, "rock")),
		"no mark":                       with(nil),
		"rock only":                     with([]survey.Contact{{Number: 1, X: 80, Y: 335, ByHand: true, Class: "rock"}, {Number: 2, X: 88, Y: 340, ByHand: true, Class: "boulder"}}),
		"marks as large as the survey":  with(huge),
	}
	orders := flown.Commands
	keep := func(drop func(order.Command) bool, add ...order.Command) []order.Command {
		return append(add, slices.DeleteFunc(slices.Clone(orders), drop)...)
	}
	for name, list := range map[string][]order.Command{
		"sit still":     {{Tick: 1, Do: order.Speed}, {Tick: 1, Do: order.LogOn, Line: "L1"}},
		"do nothing":    {{Tick: 1, Do: order.LogOn, Line: "L1"}},
		"run for ever":  {{Tick: 1, Do: order.Speed, Value: 2.1}, {Tick: 1, Do: order.SteerHeading, Value: 0.3}, {Tick: 2, Do: order.LogOn, Line: "L1"}},
		"log always":    keep(func(c order.Command) bool { return c.Do == order.LogOff || c.Do == order.LogOn }, order.Command{Tick: 1, Do: order.LogOn, Line: "L1"}),
		"full gain":     append([]order.Command{{Tick: 0, Do: order.Gain, Text: "450", Value: 40}}, orders...),
		"hug the floor": append(keep(func(c order.Command) bool { return c.Do == order.Cable }), order.Command{Tick: 5, Do: order.Cable, Value: 60}),
		"longest scale": append([]order.Command{{Tick: 0, Do: order.Range, Value: 300}}, orders...),
	} {
		s := follow(t, five(t), slices.Clone(list))
		takeUp(s)
		bots[name] = report(s)
	}
	for name, r := range bots {
		if r.Score.Verdict == VerdictPassed || r.Score.Passed || r.Score.High >= honest.Score.Low {
			t.Errorf("%s: %s with %g (to %g), want a fail below the honest %g (from %g): %+v", name, r.Score.Verdict, r.Score.Points, r.Score.High, honest.Score.Points, honest.Score.Low, r.Score.Gates)
		}
		if r.Score.Verdict != VerdictFailed {
			t.Errorf("%s: %s, want it failed", name, r.Score.Verdict)
		}
	}
}

// A true find more, a false mark less, a smaller error: never worse, whatever the rest
// of the list is.
func TestContactsAreMarkedMonotonely(t *testing.T) {
	flown := run(t, oneLine(five(t)))
	objects := flown.Exercise.Seabed.Objects
	ready := prepare(flown.Session, flown.Truth)
	f := func(marks []survey.Contact) (share, sizes float64) {
		s := *flown.Session
		desk := *s.Desk
		desk.Contacts = marks
		s.Desk = &desk
		m := *ready
		m.s, m.matched = &s, match(&s, m.lines, m.r.Targets, m.things, m.ground, usual)
		return m.contacts().share, m.dimensions().share
	}
	rapid.Check(t, func(t *rapid.T) {
		var marks []survey.Contact
		mark := func(x, y, length float64) survey.Contact {
			return survey.Contact{Number: len(marks) + 1, X: x, Y: y, ByHand: true, Class: "debris", Length: length, Height: 1, Shadow: 2}
		}
		found := map[int]bool{}
		for i, o := range objects {
			if rapid.Bool().Draw(t, "found") {
				found[i] = true
				off := rapid.Float64Range(-4, 4)
				marks = append(marks, mark(o.At.X+off.Draw(t, "x"), o.At.Y+off.Draw(t, "y"), rapid.Float64Range(0.5, 9).Draw(t, "length")))
			}
		}
		for range rapid.IntRange(0, 4).Draw(t, "false") {
			marks = append(marks, mark(rapid.Float64Range(60, 90).Draw(t, "x"), rapid.Float64Range(215, 300).Draw(t, "y"), 2))
		}
		share, sizes := f(marks)
		for i, o := range objects {
			if !found[i] {
				if a, b := f(append(slices.Clone(marks), mark(o.At.X, o.At.Y, o.Length))); a < share || b < sizes {
					t.Fatalf("a find more: %g and %g, before %g and %g", a, b, share, sizes)
				}
			}
		}
		if n := len(marks); n > len(found) {
			if a, b := f(marks[:n-1]); a < share || b < sizes {
				t.Fatalf("a false mark less: %g and %g, before %g and %g", a, b, share, sizes)
			}
		}
		for k := range marks {
			for i, o := range objects {
				if math.Hypot(marks[k].X-o.At.X, marks[k].Y-o.At.Y) > 6 {
					continue
				}
				better := slices.Clone(marks)
				better[k].Length = (better[k].Length + objects[i].Length) / 2
				if _, b := f(better); b < sizes {
					t.Fatalf("a length nearer the truth: %g, before %g", b, sizes)
				}
			}
		}
	})
}

// A scene and its mirror image, port for starboard, get the same marks: chance alone
// differs, so the same run's contacts are mirrored about the line with the truth.
func TestMarksDoNotKnowPortFromStarboard(t *testing.T) {
	s := run(t, oneLine(five(t)))
	takeUp(s)
	here := report(s)
	mirrored := *s.Session
	ex := *s.Exercise
	ex.Seabed.Objects = slices.Clone(ex.Seabed.Objects)
	for i := range ex.Seabed.Objects {
		ex.Seabed.Objects[i].At.X = 200 - ex.Seabed.Objects[i].At.X
	}
	desk := *s.Desk
	desk.Contacts = slices.Clone(desk.Contacts)
	for i := range desk.Contacts {
		c := &desk.Contacts[i]
		c.X = 200 - c.X
		c.Side = map[string]string{"port": "starboard", "starboard": "port"}[c.Side]
	}
	mirrored.Exercise, mirrored.Desk = &ex, &desk
	there := report(&session{&mirrored, s.Truth})
	if here.Contacts != there.Contacts {
		t.Errorf("to one side %+v, to the other %+v", here.Contacts, there.Contacts)
	}
}
