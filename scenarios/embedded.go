package scenarios

import (
	"embed"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"sync"

	"dryline/sim/exercise"
)

// Default is the name of the exercise to run when none is asked for.
const Default = "disused-anchorage"

//go:embed exercises/*.yaml
var exercises embed.FS

// Info introduces an embedded exercise.
type Info struct {
	Name     string // to give to [Find]
	Title    string
	Briefing string // its first sentence
}

// Embedded introduces the exercises that come with the program, by name.
func Embedded() []Info { return slices.Clone(introductions()) }

var introductions = sync.OnceValue(func() []Info {
	var infos []Info
	for _, name := range names() {
		e, err := open(name)
		if err != nil {
			panic("scenarios: an embedded exercise is faulty")
		}
		infos = append(infos, Info{Name: e.Name, Title: e.Title, Briefing: firstSentence(e.Briefing)})
	}
	return infos
})

func names() []string {
	files, err := fs.Glob(exercises, "exercises/*.yaml")
	if err != nil {
		panic("scenarios: pattern of embedded exercises is wrong")
	}
	for i, file := range files {
		files[i] = baseName(file)
	}
	return files
}

func open(name string) (*exercise.Exercise, error) {
	source, err := exercises.ReadFile("exercises/" + name + ".yaml")
	if err != nil {
		return nil, err
	}
	return Parse(name+".yaml", source)
}

// Find reads an embedded exercise.
func Find(name string) (*exercise.Exercise, error) {
	names := names()
	if slices.Contains(names, name) {
		return open(name)
	}
	if near := nearest(name, names); near != "" {
		return nil, fmt.Errorf("no exercise is called %s; did you mean %s?", shorten(name), near)
	}
	return nil, fmt.Errorf("no exercise is called %s; there are %s", shorten(name), strings.Join(names, ", "))
}

// firstSentence is the text up to its first full stop, on one line.
func firstSentence(s string) string {
	s = strings.Join(strings.Fields(s), " ")
	if i := strings.Index(s, ". "); i >= 0 {
		return s[:i+1]
	}
	return s
}
