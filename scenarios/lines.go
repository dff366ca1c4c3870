package scenarios

import (
	"fmt"
	"math"
	"strings"

	"dryline/sim/exercise"
)

type lineSection struct {
	Name string     `key:"name" required:"true" runes:"20" filed:"true" doc:"Name of the line, unlike any other, not beginning with '-'; part of file names."`
	From [2]float64 `key:"from" required:"true" unit:"m" min:"-10000" max:"15000" doc:"Its start, east and north."`
	To   [2]float64 `key:"to" required:"true" unit:"m" min:"-10000" max:"15000" doc:"Its end, east and north."`
}

// shortestLine is the least length worth running, metres.
const shortestLine = 10

func (l lineSection) length() float64 { return math.Hypot(l.To[0]-l.From[0], l.To[1]-l.From[1]) }

// beyond is the point that far before the start, or beyond the end.
func (l lineSection) beyond(before, after float64) [2]float64 {
	n := l.length()
	ux, uy := (l.To[0]-l.From[0])/n, (l.To[1]-l.From[1])/n
	if before > 0 {
		return [2]float64{l.From[0] - before*ux, l.From[1] - before*uy}
	}
	return [2]float64{l.To[0] + after*ux, l.To[1] + after*uy}
}

func lines(c *checker) []exercise.Line {
	names := uniqueNames{fold: true}
	var out []exercise.Line
	for i, l := range c.file.Lines {
		path := fmt.Sprintf("lines[%d]", i)
		names.check(c, path+".name", l.Name)
		if c.sound(path+".name") && strings.HasPrefix(l.Name, "-") {
			c.fault(path+".name", shorten(l.Name), "begins with '-', which means reversed in plan.order", "another name")
		}
		for _, end := range []struct {
			path string
			at   [2]float64
		}{{path + ".from", l.From}, {path + ".to", l.To}} {
			if c.sound(end.path, "seabed.east_m", "seabed.north_m") {
				c.inWorld(end.path, end.at)
			}
		}
		if c.sound(path+".from", path+".to") && l.length() < shortestLine {
			c.fault(path, "", "is a line of "+c.number(math.Round(l.length()*100)/100)+" m", fmt.Sprintf("at least %d m", shortestLine))
		}
		out = append(out, exercise.Line{Name: l.Name, A: point(l.From), B: point(l.To)})
	}
	return out
}
