package scenarios

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"dryline/seabed/grid"
	"dryline/sim/exercise"
)

// checker looks at a file as a whole, after the rules have had their say on
// every value by itself. Its checks stand with the sections they belong to; each
// first asks whether the values it rests on are sound.
type checker struct {
	*reader
	file *exerciseFile

	depths *grid.Grid      // measured, under the world; nil for none
	files  []exercise.File // named by the exercise
}

// fault reports a fault at the line of the path or of what encloses it.
func (c *checker) fault(path, value, problem, want string) {
	at := path
	line, ok := c.lines[at]
	for !ok && at != "" {
		at = at[:max(strings.LastIndexAny(at, ".["), 0)]
		line, ok = c.lines[at]
	}
	c.add(Fault{Line: line, Path: path, Value: value, Problem: problem, Want: want})
}

// given reports whether the file itself has the key.
func (c *checker) given(path string) bool {
	_, ok := c.lines[path]
	return ok
}

// number writes a number for people.
func (c *checker) number(v float64) string {
	return strconv.FormatFloat(math.Round(v*1e6)/1e6, 'f', -1, 64)
}

// inWorld refuses a point outside the world, whose size must be sound.
func (c *checker) inWorld(path string, p [2]float64) {
	s := c.file.Seabed
	if p[0] < 0 || p[0] > s.East || p[1] < 0 || p[1] > s.North {
		c.fault(path, fmt.Sprintf("[%s, %s]", c.number(p[0]), c.number(p[1])), "lies outside the world",
			fmt.Sprintf("0 to %s east, 0 to %s north", c.number(s.East), c.number(s.North)))
	}
}
