package scenarios

import (
	"errors"
	"strings"
	"testing"

	"dryline/sim/course"
)

// Every course that comes with the program reads, from an empty record to its end.
func TestEmbeddedCourses(t *testing.T) {
	if len(Courses()) == 0 {
		t.Fatal("there is none")
	}
	for _, name := range Courses() {
		c, err := FindCourse(name)
		if err != nil {
			t.Fatal(err)
		}
		if c.Title == "" || len(c.Steps) < 16 {
			t.Errorf("%s: %d steps", name, len(c.Steps))
		}
		hard := map[string]int{}
		for i, s := range c.Steps {
			hard[s.Exercise] = s.Difficulty
			if s.Difficulty < 1 || s.Difficulty > course.Hardest {
				t.Errorf("%s: how difficult %s is, is not said", name, s.Exercise)
			}
			for _, n := range s.Needs {
				if hard[n] > s.Difficulty {
					t.Errorf("%s: %s, said to be %d, needs %s, said to be %d", name, s.Exercise, s.Difficulty, n, hard[n])
				}
			}
			if i > 0 && len(s.Needs) == 0 {
				t.Errorf("%s: %s is open from the start", name, s.Exercise)
			}
		}
	}
}

// Every fault at once, each at its key.
func TestCourseFaults(t *testing.T) {
	_, err := ParseCourse("c.yaml", []byte(`title: A course
briefing: B.
steps:
  - { exercise: first-line, coach: sometimes }
  - { exercise: first-line, difficulty: 6 }
  - { exercise: nowhere, needs: [clutter], pass: 101 }
  - { exercise: clutter, repeat_days: -1, extra: 1 }
`))
	fs, ok := errors.AsType[Faults](err)
	if !ok {
		t.Fatalf("%v", err)
	}
	all := fs.Error()
	for _, want := range []string{"steps[0].coach", "steps[1].exercise", "steps[1].difficulty", "steps[2].exercise", "steps[2].needs[0]", "steps[2].pass", "steps[3].repeat_days", "steps[3].extra"} {
		if !strings.Contains(all, want) {
			t.Errorf("no fault at %s in\n%s", want, all)
		}
	}
}

// Whatever is in the file, it is a course or a list of faults.
func FuzzCourse(f *testing.F) {
	f.Add("title: a\nbriefing: b\nsteps: [{exercise: first-line}]\n")
	f.Add("title: a\nbriefing: b\nsteps: [{exercise: clutter, needs: []}, {exercise: first-line, pass: 3, coach: never}]\n")
	f.Add("steps: [[]]\n")
	f.Fuzz(func(t *testing.T, source string) {
		c, err := ParseCourse("fuzz.yaml", []byte(source))
		if err != nil {
			if fs, ok := errors.AsType[Faults](err); !ok || len(fs) == 0 {
				t.Fatalf("%T: %v, want faults", err, err)
			}
			return
		}
		if c.Title == "" || len(c.Steps) == 0 {
			t.Errorf("passed without what every course has: %+v", c)
		}
	})
}
