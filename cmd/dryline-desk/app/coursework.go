package app

import (
	"fmt"
	"slices"
	"strings"
	"sync"
	"time"

	"dryline/scenarios"
	"dryline/sim/course"
	"dryline/sim/debrief"
	"dryline/sim/exercise"
	"dryline/sim/survey"
)

// mostAttempts is how many attempts the window remembers.
const mostAttempts = 500

// taught is the course whose help fades in the window.
var taught = sync.OnceValue(func() *course.Course {
	c, err := scenarios.FindCourse("first-week")
	if err != nil {
		panic("app: the course that comes with the program is faulty")
	}
	return c
})

// inCourse is which step of the course an exercise is; others come after all of them.
func inCourse(name string) int {
	steps := taught().Steps
	if i := slices.IndexFunc(steps, func(s course.Step) bool { return s.Exercise == name }); i >= 0 {
		return i
	}
	return len(steps)
}

// difficulty is how difficult the course says that an exercise is, 0 if it does not say.
func difficulty(name string) int {
	if i := inCourse(name); i < len(taught().Steps) {
		return taught().Steps[i].Difficulty
	}
	return 0
}

// builtIn are the hashes of the exercises as they come with the program.
var builtIn = sync.OnceValue(func() map[string]string {
	hashes := map[string]string{}
	for _, info := range scenarios.Embedded() {
		if ex, err := scenarios.Find(info.Name); err == nil {
			hashes[info.Name] = ex.Hash
		}
	}
	return hashes
})

// standing is how far the person is with a step of the course; ok is false for what is
// none of it, such as an exercise whose values were changed.
func (g *Game) standing(name, hash string) (s course.Standing, ok bool) {
	if builtIn()[name] != hash {
		return s, false
	}
	record := g.Settings.Record
	if record == nil {
		record = &course.Record{}
	}
	all := taught().Standings(record, g.today())
	i := slices.IndexFunc(all, func(s course.Standing) bool { return s.Exercise == name })
	if i < 0 {
		return s, false
	}
	return all[i], true
}

func (g *Game) today() time.Time { return time.Now() }

// faded is a brief with the coach taken out where the course has its help fade. Hints
// change no result.
func (g *Game) faded(b *exercise.Brief, hash string) *exercise.Brief {
	s, ok := g.standing(b.Name, hash)
	if !ok || s.Coached || !b.Help.Coach {
		return b
	}
	alone := *b
	alone.Help.Coach = false
	return &alone
}

// remember counts an attempt that was run as the exercise stands.
func (g *Game) remember(r *debrief.Report) {
	if r.Practice != nil || builtIn()[r.Exercise.Name] != r.Exercise.Hash {
		return
	}
	a := course.Of(r)
	if a.When.IsZero() {
		a.When = g.today().UTC()
	}
	record := course.Record{}
	if had := g.Settings.Record; had != nil {
		record.Attempts = slices.Clone(had.Attempts)
	}
	record.Add(a)
	if n := len(record.Attempts); n > mostAttempts {
		record.Attempts = record.Attempts[n-mostAttempts:]
	}
	g.Settings.Record = &record
	g.keepSettings()
}

// standingSays is how the person stands to a step of the course.
func standingSays(s course.Standing) string {
	var says string
	switch s.State {
	case course.Locked:
		var titles []string
		for _, info := range scenarios.Embedded() {
			if slices.Contains(s.Step.Needs, info.Name) {
				titles = append(titles, "“"+info.Title+"”")
			}
		}
		says = "Of the course: to come after " + strings.Join(titles, " and ")
	case course.Open:
		says = "Of the course: open"
	case course.Decide:
		says = "Of the course: for the instructor to decide"
	case course.Passed:
		says = "Of the course: passed"
	case course.DueOnce:
		says = "Of the course: passed, and to be shown again"
	}
	if s.Attempts > 0 {
		says += fmt.Sprintf("; %s, best %s points", attempts(s.Attempts), survey.Percent(s.Best, 0))
	}
	if !s.Coached {
		says += "; now without the coach"
	}
	return says + "."
}

func attempts(n int) string {
	if n == 1 {
		return "one attempt"
	}
	return fmt.Sprintf("%d attempts", n)
}
