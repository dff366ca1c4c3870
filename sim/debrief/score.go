package debrief

import (
	"fmt"
	"math"

	"dryline/sim/exercise"
	"dryline/sim/survey"
)

// What each item can give. They add up to 100; what an exercise does not ask
// for goes to coverage, which every exercise does.
const (
	ofCoverage = 30
	ofLines    = 10
	ofOffLine  = 15
	ofAltitude = 15
	ofPings    = 10
	ofObjects  = 10
	ofPosition = 5
	ofBottom   = 5
)

// positionLimit is the 95 % radius allowed to a towed system, metres (NOAA
// Field Procedures Manual, from memory).
const positionLimit = 10.0

// wholeLine is how much of the planned lines is to be logged for the way they
// were run to count whole: our own choice.
const wholeLine = 0.95

// makeScore turns the report into points. Every item is met or missed in
// proportion: 80 % of the wanted share gives 80 % of its points. How lines were
// run counts by how much of the plan was run: one line run well is not a survey
// run well.
func makeScore(ex *exercise.Exercise, r *Report, lines []logged) Score {
	spare := 0.0
	var rest []Item
	item := func(asked bool, of float64, make func() Item) *Item {
		if !asked {
			spare += of
			return new(Item)
		}
		it := make()
		it.Of = of
		it.Points *= of
		rest = append(rest, it)
		return &rest[len(rest)-1]
	}
	done := planShare(ex, lines)
	counts := min(done/wholeLine, 1)
	byPlan := func(it *Item) {
		it.Points *= counts
		if counts < 1 && done > 0 && it.What != "" {
			it.Got += ", over " + survey.Percent(100*done, 0) + " % of the plan"
		}
	}
	item(true, ofLines, func() Item { return scoreLines(ex, r, lines) })
	byPlan(item(r.Wanted.OffLine != nil, ofOffLine, func() Item { return scoreOffLine(r, lines) }))
	byPlan(item(true, ofAltitude, func() Item { return scoreAltitude(r) }))
	byPlan(item(r.Wanted.PingsPerMetre != nil, ofPings, func() Item { return scorePings(r) }))
	item(len(r.Targets) > 0, ofObjects, func() Item { return scoreObjects(r) })
	byPlan(item(true, ofPosition, func() Item { return scorePosition(r) }))
	item(true, ofBottom, func() Item { return scoreBottom(r) })
	coverage := scoreCoverage(r)
	coverage.Of = ofCoverage + spare
	coverage.Points *= coverage.Of

	out := Score{Pass: ex.Score.Pass, Items: append([]Item{coverage}, rest...)}
	for i := range out.Items {
		it := &out.Items[i]
		it.Points = math.Round(it.Points*10) / 10
		out.Points += it.Points
	}
	out.Points = math.Round(out.Points*10) / 10
	out.Passed = out.Points >= out.Pass && !r.Partial // a part of an exercise is not passed, however good
	return out
}

// toward is how much of what was wanted was got, 0..1.
func toward(got, wanted float64) float64 {
	if !(wanted > 0) {
		return 1
	}
	return min(max(got/wanted, 0), 1)
}

const nothingLogged = "Nothing was logged: open a line before the fish reaches its start."

func scoreCoverage(r *Report) Item {
	c, wanted := &r.Coverage, r.Wanted.Coverage
	return Item{
		What: "Area covered", Wanted: fmt.Sprintf("at least %g %%", wanted),
		Got:    fmt.Sprintf("%s %% once, %s %% twice", shareOf(c.Once), shareOf(c.Twice)),
		Points: toward(c.Once, wanted), Why: whyCoverage(r, wanted),
	}
}

// planShare is the share of the planned lines that was logged, 0..1.
func planShare(ex *exercise.Exercise, lines []logged) float64 {
	names, sum := plannedLines(ex), 0.0
	for _, name := range names {
		sum += doneShare(ex, lines, name)
	}
	return sum / float64(len(names))
}

func scoreLines(ex *exercise.Exercise, r *Report, lines []logged) Item {
	names := plannedLines(ex)
	worst, short := 1.0, ""
	for _, name := range names {
		if share := doneShare(ex, lines, name); share < worst {
			worst, short = share, name
		}
	}
	share := planShare(ex, lines)
	return Item{
		What: "Lines logged", Wanted: "every planned line, end to end",
		Got: shareOf(100*share) + " % of " + count(len(names), "line"), Points: share,
		Why: whyLines(r, short, worst),
	}
}

func scoreOffLine(r *Report, lines []logged) Item {
	limit := *r.Wanted.OffLine
	var off sample
	for i := range lines {
		for _, p := range lines[i].Pings {
			off.add(p.Off)
		}
	}
	it := Item{What: "Off line", Wanted: fmt.Sprintf("vessel within %g m", limit), Got: "nothing", Why: nothingLogged}
	if len(off.values) == 0 {
		return it
	}
	share := off.share(func(v float64) bool { return math.Abs(v) <= limit })
	it.Got = fmt.Sprintf("%s %% of pings, %.1f m at worst", shareOf(share), off.worst())
	it.Points, it.Why = share/100, whyOffLine(r, limit)
	return it
}

func scoreAltitude(r *Report) Item {
	low, high := r.Wanted.AltitudeMin, r.Wanted.AltitudeMax
	it := Item{What: "Height of the fish", Wanted: fmt.Sprintf("%g to %g %% of range scale", low, high), Got: "nothing", Why: nothingLogged}
	sum, n := 0.0, 0.0
	for _, l := range r.Lines {
		if l.InBand != nil {
			sum += *l.InBand * float64(l.Pings)
			n += float64(l.Pings)
		}
	}
	if n == 0 {
		return it
	}
	it.Got = shareOf(sum/n) + " % of pings"
	it.Points, it.Why = sum/n/100, whyAltitude(r, low, high)
	return it
}

func scorePings(r *Report) Item {
	wanted := *r.Wanted.PingsPerMetre
	it := Item{What: "Pings per metre", Wanted: fmt.Sprintf("at least %g on every line", wanted), Got: "nothing", Why: nothingLogged}
	sum, way, least := 0.0, 0.0, math.Inf(1)
	for _, l := range r.Lines {
		if l.PingsPerMetre != nil {
			sum += l.Run * toward(*l.PingsPerMetre, wanted)
			way += l.Run
			least = min(least, *l.PingsPerMetre)
		}
	}
	if way == 0 {
		return it
	}
	it.Got = fmt.Sprintf("%.2f on the worst line", least)
	it.Points, it.Why = sum/way, whyPings(r, wanted)
	return it
}

// scoreObjects gives half for what the survey brought on the record and half for
// what was seen there.
func scoreObjects(r *Report) Item {
	lit, marked := 0, 0
	for _, t := range r.Targets {
		if t.ThreePings {
			lit++
		}
		if t.Contact != nil {
			marked++
		}
	}
	return Item{
		What: "Objects lit and marked", Wanted: fmt.Sprintf("all %d lit by %d pings of one line, and marked", len(r.Targets), enoughPings),
		Got: fmt.Sprintf("%d lit, %d marked", lit, marked), Points: float64(lit+marked) / float64(2*len(r.Targets)),
		Why: whyObjects(r),
	}
}

func scorePosition(r *Report) Item {
	it := Item{
		What: "Position of the ground", Wanted: fmt.Sprintf("95 %% within %g m", positionLimit),
		Got: "nothing", Why: nothingLogged,
	}
	if g := r.Position.GroundHalf; g != nil {
		it.Got = fmt.Sprintf("95 %% within %.1f m", g.Distance.P95)
		it.Points = toward(positionLimit, g.Distance.P95)
		it.Why = whyPosition(r)
	}
	return it
}

// scoreBottom halves its points with every grounding and every object struck.
func scoreBottom(r *Report) Item {
	knocks := r.Groundings + r.Strikes
	it := Item{
		What: "Fish clear of everything", Wanted: "no groundings and no strikes",
		Got:    count(r.Groundings, "grounding") + ", " + count(r.Strikes, "strike"),
		Points: math.Pow(0.5, float64(knocks)), Why: "The fish never touched anything.",
	}
	switch {
	case r.Strikes > 0:
		it.Why = "The fish struck something that stands up from the floor: look for shadows ahead and keep the height for them."
	case r.Groundings > 0:
		it.Why = "The fish struck the floor: haul in before you slow down or turn, and before the floor rises."
	}
	return it
}

// count says how many there are of something.
func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
