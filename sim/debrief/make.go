package debrief

import (
	"fmt"

	"dryline/sim"
	"dryline/sim/exercise"
	"dryline/sim/mark"
	"dryline/sim/order"
	"dryline/sim/passage"
	"dryline/sim/provenance"
)

// Make draws up the report of a session, over or still running, from the desk and
// what a witness of it saw. It changes nothing in the session and gives the same report
// every time.
func Make(s *sim.Session, w *sim.Witness) Report {
	m := prepare(s, w)
	r := m.r
	m.matched.tell(s, r, m.things)
	r.place(m.ex)
	r.PartialReason = partial(s, r.LinesNotRun)
	r.Partial = r.PartialReason != ""
	r.Score = makeScore(m)
	r.Timeline = m.timeline()
	return *r
}

// prepare gathers what is measured of a session, before anything is marked.
func prepare(s *sim.Session, w *sim.Witness) *marking {
	ex := s.Exercise
	lines := gather(s, w)
	r := &Report{
		Engine: provenance.Engine, Step: s.Exercise.Sonar.Step.Metres(), Licence: provenance.Licence, Trainee: s.Attempt.Trainee, Another: s.Another,
		Assessed: ex.Help.Assessed,
		Practice: practiceOf(s.Attempt.Parent),
		Exercise: Exercise{
			Name: ex.Name, Title: ex.Title, Hash: ex.Hash, Seed: s.Seeds.One, Start: ex.Start,
			Place: ex.Place.Name, EPSG: ex.Place.Grid.EPSG(),
		},
		Simulated: round(s.Now()), Commands: len(s.Commands), Groundings: w.Count(passage.Grounded),
		Strikes: w.Count(passage.Struck), Mishaps: mishaps(w),
		Aground: round(s.Passage.Aground()),
		Events:  events(s),
		Wanted:  wanted(ex), Lines: []Line{}, LinesNotRun: []string{}, FalseContacts: []FalseContact{},
		Position: makePosition(s, lines),
	}
	pings := judge(s, lines, usual)
	var ground *counted
	r.Coverage, ground = makeCoverage(s, lines, pings)
	if t := s.Attempt.Started; !t.IsZero() {
		r.Started = &t
	}
	for i := range lines {
		r.Lines = append(r.Lines, makeLine(ex, &lines[i]))
	}
	for _, name := range plannedLines(ex) {
		if doneShare(ex, lines, name) == 0 {
			r.LinesNotRun = append(r.LinesNotRun, name)
		}
	}
	var things []lying
	r.Targets, things = everything(s)
	for i := range r.Targets {
		if i < len(w.Seen) {
			r.Targets[i].count(w.Seen[i], lines)
		}
	}
	return &marking{
		s: s, ex: ex, w: w, r: r, lines: lines, things: things, tol: usual, ground: ground,
		pings: pings, matched: match(s, lines, r.Targets, things, ground, usual),
	}
}

// place gives everything found and not found its place in UTM.
func (r *Report) place(ex *exercise.Exercise) {
	utm := func(x, y float64) (east, north float64) {
		east, north = ex.Place.Grid.ToUTM(x, y)
		return round(east), round(north)
	}
	for i := range r.Targets {
		t := &r.Targets[i]
		t.Easting, t.Northing = utm(t.X, t.Y)
	}
	for i := range r.FalseContacts {
		f := &r.FalseContacts[i]
		f.Easting, f.Northing = utm(f.X, f.Y)
	}
}

// mishaps lists what went wrong, in order.
func mishaps(w *sim.Witness) []Mishap {
	list := []Mishap{}
	for _, h := range w.Mishaps {
		list = append(list, Mishap{Time: round(h.Time), What: string(h.What), Object: h.Object, Says: h.String()})
	}
	return list
}

// wanted gathers what an exercise asks for.
func wanted(ex *exercise.Exercise) Wanted {
	low, high := band(ex)
	w := Wanted{Coverage: round(100 * ex.Score.Coverage), AltitudeMin: round(low), AltitudeMax: round(high)}
	if r, ok := mark.RulesOf(ex.Score.Rules); ok {
		w.Rules = r.Name + ", " + r.Edition
	}
	if w.Coverage <= 0 {
		w.Coverage = 100
	}
	if ex.Score.OffLine > 0 {
		w.OffLine = known(ex.Score.OffLine)
	}
	if ex.Score.PingsPerMetre > 0 {
		w.PingsPerMetre = known(ex.Score.PingsPerMetre)
	}
	return w
}

// partial says why a session does not show the whole exercise; empty if it
// does.
func partial(s *sim.Session, notRun []string) string {
	missing := ""
	if len(notRun) > 0 {
		missing = fmt.Sprintf(" with %s not logged", few(notRun))
	}
	switch {
	case !s.Done():
		return fmt.Sprintf("the exercise is still running, %.0f s into it%s", s.Now(), missing)
	case s.Ended() != order.ReasonFinished:
		return fmt.Sprintf("the session was %s %.0f s into the exercise%s", s.Ended(), s.Now(), missing)
	case missing == "":
		return ""
	case s.Now() >= s.Exercise.Plan.TimeLimit:
		return fmt.Sprintf("the time limit of %.0f s ran out%s", s.Exercise.Plan.TimeLimit, missing)
	}
	return "the exercise was ended" + missing
}
