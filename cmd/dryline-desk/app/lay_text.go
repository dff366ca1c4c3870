package app

import (
	"fmt"
	"math"
	"strings"

	"dryline/sim/exercise"
	"dryline/sim/plan"
)

var (
	areaSays   = []string{"as the exercise has it", "drawn by corners"}
	spacedSays = []string{"overlap by", "are laid"}
	succession = []string{"as turns are shortest", "one after the other", "two rows apart"}
	edgeSays   = []string{"No line", "A line"}
	sailSays   = []string{"the lines given", "these lines"}
	nadirSays  = map[plan.Nadir]string{plan.GapLeft: "left", plan.Neighbour: "seen from the neighbours", plan.Interleave: "seen by a second set"}
)

// pick is one of two.
func pick(b bool, of []string) string {
	if b {
		return of[1]
	}
	return of[0]
}

// sentences are the page of the lines.
func (s *Laying) sentences() []chapter {
	sh := s.sheet
	say := func(format string, args ...any) piece { return piece{words: fmt.Sprintf(format, args...)} }
	typed := func(e *entered) piece { return piece{figure: e} }
	choose := func(says func() string, all []string, tip string, next func(*Game)) piece {
		return piece{picker: &picker{says, all, tip, next}}
	}
	d := &sh.brief.Depths
	low, high := sh.charted()
	ground := []piece{say("The area is"), choose(func() string { return pick(sh.drawn, areaSays) }, areaSays, "The area of the exercise, or one of your own by its corners (A).", s.nextArea)}
	if sh.drawn {
		ground = append(ground, say("(%s)", some(len(sh.corners), "corner", "corners")))
	}
	if square := (&plan.Part{Outer: sh.area()}).Square(); len(sh.area()) > 2 && high > 0 {
		ground = append(ground, say("and has %.2f ha, charted %.1f to %.1f m deep.", square/1e4, low, high))
	}
	if sh.drawn {
		ground = append(ground, say("A click on the chart sets a corner and a drag moves one; arrows move the cross, Space sets a corner there, Backspace takes the last back."))
	}
	ground = append(ground, say("Soundings lie %.0f m apart and are within %.1f m of the truth (95 %%; IHO S-44, order 1b). What stands on the floor is not in them.", d.Step, math.Ceil(10*exercise.SoundingError(high))/10))

	var every []string
	for _, w := range ways {
		every = append(every, w.says)
	}
	run := []piece{say("Lines run"), choose(func() string { return ways[sh.way].says }, every, "Another direction for the lines (D).", s.nextWay)}
	if sh.way == asTyped {
		run = append(run, say("on"), typed(sh.bearing), say("° grid."))
	} else if s.known {
		run = append(run, say("on %03.0f° grid: %s.", degrees(s.bearing), ways[sh.way].because))
	} else {
		run = append(run, say(": no direction is known for that."))
	}
	run = append(run, say("The current is expected to set to"), typed(sh.set), say("° at"), typed(sh.current), say("kn; crests on the floor run on"), typed(sh.crest), say("°, if any are known of."))
	if s.laid != nil && len(s.laid.Others) > 1 {
		run = append(run, say("%s", s.compared()))
	}

	swath := []piece{say("The range scale is"), typed(sh.scale()), say("m to a side, with the fish"), typed(sh.height), say("m over the floor; the first"), typed(sh.gap), say("m to either side of it are not relied upon. Neighbouring swaths"),
		choose(func() string { return pick(sh.spaced, spacedSays) }, spacedSays, "Lay lines by an overlap or by a distance (S).", s.nextSpacing)}
	if sh.spaced {
		swath = append(swath, typed(sh.spacing), say("m apart."))
	} else {
		swath = append(swath, typed(sh.overlap), say("%% of their width."))
	}
	var nadirs []string
	for _, n := range plan.Nadirs() {
		nadirs = append(nadirs, nadirSays[n])
	}
	swath = append(swath, say("Ground under the fish is"), choose(func() string { return nadirSays[sh.nadir] }, nadirs, "What is done about the ground under the fish (N).", s.nextNadir), say("in this plan."))

	lines := []piece{say("The run-in is"), typed(sh.runIn), say("m and the run-out"), typed(sh.runOut), say("m, besides the layback. Lines are run"),
		choose(func() string { return succession[sh.apart] }, succession, "The order of the lines (O).", s.nextOrder), say("and"),
		choose(func() string { return strings.ToLower(pick(sh.edges, edgeSays)) }, []string{"no line", "a line"}, "A line more outside of each limit, or none (E).", s.nextEdges), say("is run outside of each limit. Cross-lines lie"), typed(sh.cross), say("m apart; 0 is none.")}

	return []chapter{{"The ground", ground}, {"Which way", run}, {"What is seen", swath}, {"The lines", lines}, {"What it comes to", s.comesTo()},
		{"On the water", []piece{say("The watch is to sail"), choose(func() string { return pick(sh.sail, sailSays) }, sailSays, "Sail the lines of the exercise or these (W).", s.nextSail), say("in their order%s", s.sailing())}}}
}

// sailing says what comes of the choice.
func (s *Laying) sailing() string {
	if s.sheet.sail {
		return "; those given are set aside, and what is to be covered stays as it is. She lies at the run-in of the first line given, and turns for yours at once."
	}
	return "."
}

// compared says what the other directions would take.
func (s *Laying) compared() string {
	var all []string
	for _, c := range s.laid.Others {
		for _, w := range ways {
			if w.called == c.Why && c.Lines > 0 {
				all = append(all, fmt.Sprintf("%s, %03.0f°, %s and %s", w.says, degrees(c.Bearing), some(c.Lines, "line", "lines"), roughly(c.Time)))
			}
		}
	}
	return "At a glance: " + strings.Join(all, "; ") + "."
}

// roughly is a time in whole minutes.
func roughly(seconds float64) string { return fmt.Sprintf("%.0f min", math.Ceil(seconds/60)) }

// comesTo says what the lines come to.
func (s *Laying) comesTo() []piece {
	say := func(format string, args ...any) piece { return piece{words: fmt.Sprintf(format, args...)} }
	typed := func(e *entered) piece { return piece{figure: e} }
	sh := s.sheet
	object, low := []piece{say("The smallest object wanted is"), typed(sh.object), say("m long")}, []piece{say("Low water stands"), typed(sh.low), say("m under the charted level.")}
	if s.laid == nil {
		why := "The lines are being laid."
		if s.refused != "" {
			why = "No line is laid. " + s.refused
		}
		return append(append([]piece{say("%s", why)}, append(object, say("."))...), low...)
	}
	p := s.laid.Plan
	c := &p.Covered
	out := []piece{say("%s, %.1f km on them and %.1f km between: %s with turns at %.1f kn, of the %s there are%s.", some(len(p.Lines), "line", "lines"), p.LineLength/1000, p.Between/1000, roughly(p.Time), p.Spec.Speed/knot, roughly(s.sheet.brief.Plan.TimeLimit), s.late()),
		say("Of the area %s is seen once at least, %s twice, %s lies under the fish alone and %s is seen from no line.", shareSays(c.Once, false), shareSays(c.Twice, false), shareSays(c.Gap, true), shareSays(c.Lost, true))}
	size, _ := sh.object.value()
	perMetre := p.Spec.Sound / (2 * p.Spec.Range) / p.Spec.Speed
	out = append(append(out, object...), say("and gets %s on a pass (%.1f to a metre).", some(int(perMetre*size), "ping", "pings"), perMetre))
	out = append(append(out, low...), say("%s", s.fishSays()))
	for _, check := range p.Checks {
		if check.State == plan.Fails && check.ID != "sink" && check.ID != "position" {
			out = append(out, say("%s.", strings.TrimSuffix(check.Says, ".")))
		}
	}
	return out
}

// shareSays is a share in hundredths, of what is good never more than it is and of what is not never less.
func shareSays(share float64, up bool) string {
	v := math.Floor(100*share + 1e-9)
	if up {
		v = max(math.Ceil(100*share-1e-9), 0)
	}
	return fmt.Sprintf("%.0f %%", v)
}

// summary says in short what the lines come to, for under the chart.
func (s *Laying) summary() [summedUp]string {
	if s.laid == nil {
		return [summedUp]string{}
	}
	p, c := s.laid.Plan, &s.laid.Plan.Covered
	least, risky := math.Inf(1), 0
	for _, q := range p.Places {
		least = min(least, q.Height)
		if q.Risk != plan.NoRisk {
			risky++
		}
	}
	size, _ := s.sheet.object.value()
	risk := "at risk nowhere by the chart"
	if risky > 0 {
		risk = "at risk where it is marked"
	}
	fish := fmt.Sprintf("fish %.1f m up at least", math.Floor(10*least)/10)
	if least <= 0 {
		fish = "the fish would strike"
	}
	return [summedUp]string{
		fmt.Sprintf("%s, %s of %s; seen once %s, twice %s", some(len(p.Lines), "line", "lines"), roughly(p.Time), roughly(s.sheet.brief.Plan.TimeLimit)+s.late(), shareSays(c.Once, false), shareSays(c.Twice, false)),
		fmt.Sprintf("%s on %.3g m; %s, %s", some(int(p.Spec.Sound/(2*p.Spec.Range)/p.Spec.Speed*size), "ping", "pings"), size, fish, risk),
	}
}

// late says that the lines take more time than there is.
func (s *Laying) late() string {
	if s.laid.Plan.Time > s.sheet.brief.Plan.TimeLimit {
		return ", which is too long"
	}
	return ""
}

// fishSays is how high the fish goes over the charted depths and where it would be at risk.
func (s *Laying) fishSays() string {
	p := s.laid.Plan
	least, deepest := math.Inf(1), 0.0
	at := map[plan.Risk]map[string]bool{}
	for _, q := range p.Places {
		least, deepest = min(least, q.Height), max(deepest, q.Depth)
		if q.Risk != plan.NoRisk {
			if at[q.Risk] == nil {
				at[q.Risk] = map[string]bool{}
			}
			at[q.Risk][p.Lines[q.Line].Name] = true
		}
	}
	if math.IsInf(least, 1) {
		return "Nothing is known of the depths along the lines."
	}
	says := fmt.Sprintf("Over the charted depths the fish keeps %.1f m at least, and the soundings may be wrong by %.1f m.", max(math.Floor(10*least)/10, 0), math.Ceil(10*exercise.SoundingError(deepest))/10)
	if least <= 0 {
		says = "By the charted depths the fish would strike the floor."
	}
	if on := at[plan.Rising]; len(on) > 0 {
		says += fmt.Sprintf(" On %s the floor rises faster than the winch hauls: there the fish is at risk.", some(len(on), "line", "lines"))
	}
	if on := at[plan.Sinking]; len(on) > 0 {
		says += fmt.Sprintf(" In %s the fish sinks to under half its height and is at risk.", some(len(on), "turn", "turns"))
	}
	if p.TurnHaul > 0 {
		says += fmt.Sprintf(" For that %.0f %% of the cable is hauled in before every turn.", 100*p.TurnHaul)
	}
	if len(at) == 0 {
		says += " Nowhere is it at risk by them; that is no finding about the ground."
	}
	return says
}

// hint explains a figure.
func (s *Laying) hint(e *entered) string {
	if e.may {
		return fmt.Sprintf("%s: %s are allowed, or nothing. Up and Down step it.", e.name, s.sheet.desk.allowed(e))
	}
	return fmt.Sprintf("%s: %s are allowed; it was %s %s. Up and Down step it.", e.name, s.sheet.desk.allowed(e), e.write(e.given), e.unit)
}
