package scenarios

import (
	"embed"
	"fmt"
	"io/fs"
	"reflect"
	"slices"
	"strings"
	"sync"
	"time"

	"dryline/sim/course"
)

//go:embed courses/*.yaml
var courses embed.FS

// courseFile is a whole course; see [rule] for the tags.
type courseFile struct {
	Title    string        `key:"title" required:"true" runes:"80" doc:"Title shown to the trainee."`
	Briefing string        `key:"briefing" required:"true" runes:"4000" prose:"true" doc:"What the course is for and how it is sailed."`
	Steps    []stepSection `key:"steps" required:"true" items:"1,64" doc:"The exercises, in order."`
}

type stepSection struct {
	Exercise  string   `key:"exercise" required:"true" runes:"60" doc:"Name of a built-in exercise."`
	Needs     []string `key:"needs" items:"0,16" runes:"60" absent:"the step before it, or nothing for the first" doc:"Exercises that must be passed before; an empty list opens it at once."`
	Pass      float64  `key:"pass" min:"0" max:"100" absent:"the exercise's own mark" doc:"Points that pass it in this course."`
	Coach     string   `key:"coach" enum:"coaching" default:"always" doc:"When hints are given, so that help fades."`
	Assessed  bool     `key:"assessed" default:"false" doc:"Whether only an assessment passes it, by the debrief that comes of opening its folder."`
	Difficult int      `key:"difficulty" min:"1" max:"5" absent:"it is not said" doc:"How difficult it is for somebody who comes to it by the course, from 1, gentle, to 5, very hard, as the maker of the course judges; set practice has the same five levels."`
	Repeat    float64  `key:"repeat_days" min:"0" max:"3650" default:"0" doc:"Days after which a pass is due to be shown again; 0 is never."`
}

var courseRules = sync.OnceValue(func() *rule {
	r := &rule{form: mapping, doc: "A course: exercises in an order, what opens what, and how help fades."}
	r.shape(reflect.TypeFor[courseFile](), "")
	return r
})

// ParseCourse reads a course from the contents of a file. The error is [Faults].
func ParseCourse(name string, source []byte) (*course.Course, error) {
	file, r, err := read[courseFile](name, source, courseRules(), "a course")
	if err != nil {
		return nil, err
	}
	c := &checker{reader: r}
	out := &course.Course{Name: baseName(name), Title: file.Title, Briefing: file.Briefing}
	known := names()
	for i, s := range file.Steps {
		at := fmt.Sprintf("steps[%d]", i)
		earlier := func(name string) bool {
			return slices.ContainsFunc(out.Steps, func(b course.Step) bool { return b.Exercise == name })
		}
		if c.sound(at + ".exercise") {
			switch {
			case !slices.Contains(known, s.Exercise):
				c.fault(at+".exercise", shorten(s.Exercise), "is no built-in exercise", "one of "+strings.Join(known, ", "))
			case earlier(s.Exercise):
				c.fault(at+".exercise", shorten(s.Exercise), "is a step already", "each exercise once")
			}
		}
		step := course.Step{
			Exercise: s.Exercise, Needs: s.Needs, Pass: s.Pass, Coach: course.Coaching(s.Coach), Assessed: s.Assessed,
			Difficulty: s.Difficult, Repeat: time.Duration(s.Repeat * 24 * float64(time.Hour)),
		}
		switch {
		case !c.given(at+".needs") && i > 0:
			step.Needs = []string{out.Steps[i-1].Exercise}
		default:
			for k, n := range s.Needs {
				if !earlier(n) {
					c.fault(fmt.Sprintf("%s.needs[%d]", at, k), shorten(n), "is no earlier step", "an exercise that comes before")
				}
			}
		}
		if slices.Contains(known, s.Exercise) {
			if ex, err := open(s.Exercise); err == nil {
				step.Outcomes = ex.Trains
			}
		}
		out.Steps = append(out.Steps, step)
	}
	if err := r.err(); err != nil {
		return nil, err
	}
	return out, nil
}

// LoadCourse reads a course file. The error is [Faults] if the file is there but not as it
// should be.
func LoadCourse(path string) (*course.Course, error) {
	source, err := readSource(path)
	if err != nil {
		return nil, err
	}
	return ParseCourse(path, source)
}

// Courses are the names of the courses that come with the program.
func Courses() []string {
	files, err := fs.Glob(courses, "courses/*.yaml")
	if err != nil {
		panic("scenarios: pattern of embedded courses is wrong")
	}
	for i, file := range files {
		files[i] = baseName(file)
	}
	return files
}

// FindCourse reads an embedded course.
func FindCourse(name string) (*course.Course, error) {
	source, err := courses.ReadFile("courses/" + name + ".yaml")
	if err != nil {
		return nil, fmt.Errorf("no course is called %s; there are %s", shorten(name), strings.Join(Courses(), ", "))
	}
	return ParseCourse(name+".yaml", source)
}

// CourseSchema returns the JSON Schema (draft 2020-12) of a course file.
func CourseSchema() []byte { return schema(courseRules(), "Dryline course") }
