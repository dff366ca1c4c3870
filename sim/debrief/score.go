package debrief

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"dryline/sim"
	"dryline/sim/exercise"
	"dryline/sim/mark"
	"dryline/sim/survey"
)

// positionLimit is the 95 % radius allowed to a towed system, metres (NOAA Field
// Procedures Manual 2014, 1.5.7.1.2, from memory): where the ground, and a mark on it,
// may lie if an exercise states no uncertainty of its own.
const positionLimit = 10.0

// wholeLine is how much of the planned lines is to be logged for the way they
// were run to count whole: our own choice.
const wholeLine = 0.95

// marking is a session about to be marked.
type marking struct {
	s       *sim.Session
	ex      *exercise.Exercise
	w       *sim.Witness
	r       *Report
	lines   []logged
	things  []lying
	tol     tolerances
	ground  *counted
	pings   []judged
	matched *matched
	index   map[uint64]int // of pings by number, when somebody asked
}

// under is the same session under other tolerances.
func (m *marking) under(tol tolerances) *marking {
	n := *m
	n.tol, n.index = tol, nil
	corners, _ := toCover(m.ex, m.lines)
	n.pings = judge(m.s, m.lines, tol)
	if m.ground == nil || m.ex.Score.Nadir || tol.believe != m.tol.believe {
		n.ground = count(corners, m.s.Desk.Mosaic.CellSize(), n.pings)
	}
	n.matched = match(m.s, m.lines, m.r.Targets, m.things, n.ground, tol)
	return &n
}

// outcome is how an item came out: the share of its points, and what to say of it.
type outcome struct {
	share            float64 // 0..1
	wanted, got, why string
	causes           []Cause // their points are shares of what was lost, of any sum
}

// items lists what an exercise asks for, each with what it came to.
func (m *marking) items() map[mark.ID]outcome {
	out := map[mark.ID]outcome{
		mark.Coverage: m.coverage(), mark.Lines: m.logged(), mark.Height: m.height(),
		mark.Position: m.position(), mark.Clear: m.clear(),
	}
	if m.r.Wanted.OffLine != nil {
		out[mark.OffLine] = m.offLine()
	}
	if m.r.Wanted.PingsPerMetre != nil {
		out[mark.Pings] = m.density()
	}
	if len(m.r.Targets) > 0 {
		out[mark.Contacts], out[mark.Dimensions] = m.contacts(), m.dimensions()
	}
	return out
}

// names has the items by the names they go by.
var names = map[mark.ID]string{
	mark.Coverage: "Ground looked at", mark.Lines: "Lines logged", mark.OffLine: "Fish on the line",
	mark.Height: "Height of the fish", mark.Pings: "Pings to a metre", mark.Contacts: "Contacts reported",
	mark.Dimensions: "Contacts measured", mark.Position: "Position of the ground", mark.Clear: "Fish clear of everything",
}

// byPlan are the items of how lines were run. They count by how much of the plan
// was run: one line run well is not a survey run well.
var byPlan = []mark.ID{mark.OffLine, mark.Height, mark.Pings, mark.Position}

// weights are the points of the items that are asked for.
func (m *marking) weights(items map[mark.ID]outcome) mark.Weights {
	w := m.ex.Score.Weights
	if w == nil {
		w = mark.Default(len(m.r.Targets) > 0)
	}
	return w.Over(func(id mark.ID) bool { _, ok := items[id]; return ok && w[id] > 0 })
}

// score marks the session: 80 % of what was wanted gives 80 % of the points.
func (m *marking) score() []Item {
	items := m.items()
	weights := m.weights(items)
	done := planShare(m.ex, m.lines)
	counts := min(done/wholeLine, 1)
	list := []Item{}
	for _, id := range mark.IDs() {
		o, ok := items[id]
		if !ok || weights[id] == 0 {
			continue
		}
		it := Item{ID: id, What: names[id], Wanted: o.wanted, Got: o.got, Of: tenth(weights[id]), Why: o.why, Causes: []Cause{}}
		share := min(max(o.share, 0), 1)
		if slices.Contains(byPlan, id) {
			if counts < 1 && done > 0 {
				it.Got += ", over " + survey.Percent(100*done, 0) + " % of the plan"
			}
			share *= counts
		}
		it.Points = math.Floor(10*share*weights[id]+1e-6) / 10
		it.Causes = shareOut(o.causes, it.Of-it.Points)
		list = append(list, it)
	}
	return list
}

// shareOut gives causes their part of the points lost, the dearest first.
func shareOut(causes []Cause, lost float64) []Cause {
	sum := 0.0
	for _, c := range causes {
		sum += c.Points
	}
	out := []Cause{}
	for _, c := range causes {
		if !(c.Points > 0) || !(lost > 0.04) {
			continue
		}
		c.Points, c.From, c.To = math.Round(lost*c.Points/sum*100)/100, round(c.From), round(c.To)
		out = append(out, c)
	}
	slices.SortStableFunc(out, func(a, b Cause) int { return cmp.Compare(b.Points, a.Points) })
	return out
}

func sumOf(items []Item) float64 {
	sum := 0.0
	for _, it := range items {
		sum += it.Points
	}
	return math.Round(sum*10) / 10
}

// makeScore marks the session as it is, and as stricter and kinder tolerances would.
func makeScore(m *marking) Score {
	items := m.score()
	points := sumOf(items)
	out := Score{Rubric: mark.Version, Points: points, Low: points, High: points, Pass: m.ex.Score.Pass, Items: items}
	for _, tol := range []tolerances{strict, kind} {
		other := sumOf(m.under(tol).score())
		out.Low, out.High = min(out.Low, other), max(out.High, other)
	}
	out.Gates = m.gates()
	met := !slices.ContainsFunc(out.Gates, func(g Gate) bool { return !g.Met })
	switch {
	case !met || out.High < out.Pass:
		out.Verdict = VerdictFailed
	case out.Low >= out.Pass:
		out.Verdict, out.Passed = VerdictPassed, true
	default:
		out.Verdict = VerdictInstructor
	}
	out.Better, out.Well = better(items), well(items)
	return out
}

// better are the causes that cost most, one of a kind, three at most.
func better(items []Item) []Cause {
	const most = 3
	var all []Cause
	for _, it := range items {
		for _, c := range it.Causes {
			if i := slices.IndexFunc(all, func(a Cause) bool { return a.Kind == c.Kind }); i >= 0 {
				c.Points += all[i].Points // one cause may cost several items
				if all[i].Points >= c.Points-all[i].Points {
					points := c.Points
					c = all[i]
					c.Points = points
				}
				all[i] = c
				continue
			}
			all = append(all, c)
		}
	}
	slices.SortStableFunc(all, func(a, b Cause) int { return cmp.Compare(b.Points, a.Points) })
	const worth = 0.5 // points, of a word
	all = slices.DeleteFunc(all, func(c Cause) bool { return c.Points < worth })
	return append([]Cause{}, all[:min(len(all), most)]...)
}

// well are the sentences of items that came out well.
func well(items []Item) []string {
	out := []string{}
	for _, it := range items {
		if it.Points >= 0.95*it.Of && len(it.Causes) == 0 && it.Why != "" {
			out = append(out, it.Why)
		}
	}
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

// planShare is the share of the planned lines that was logged, 0..1.
func planShare(ex *exercise.Exercise, lines []logged) float64 {
	names, sum := plannedLines(ex), 0.0
	for _, name := range names {
		sum += doneShare(ex, lines, name)
	}
	return sum / float64(len(names))
}

// quantity says how many there are of something.
func quantity(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
