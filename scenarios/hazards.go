package scenarios

import (
	"fmt"

	"dryline/sim/exercise"
)

type snagSection struct {
	Name   string     `key:"name" required:"true" runes:"30" doc:"Name of the pot, unlike any other's."`
	At     [2]float64 `key:"at" required:"true" unit:"m" min:"-10000" max:"15000" doc:"Where it lies, east and north."`
	Line   float64    `key:"line_m" unit:"m" above:"0" max:"2000" absent:"a third more than the water is deep" doc:"Length of the line from it to its buoy."`
	Breaks float64    `key:"breaks_n" unit:"N" min:"500" max:"500000" default:"20000" doc:"Pull at which the line breaks or the pot is torn from the floor."`
}

type trafficSection struct {
	Name    string     `key:"name" required:"true" runes:"30" doc:"Name she is called by, unlike any other's."`
	From    float64    `key:"from_s" unit:"s" min:"0" max:"86400" default:"0" doc:"When she comes into sight, from the start of the exercise."`
	At      [2]float64 `key:"at" required:"true" unit:"m" min:"-50000" max:"50000" doc:"Where she is then, east and north."`
	Course  float64    `key:"course_deg" required:"true" unit:"deg" min:"0" max:"360" doc:"Her course, a grid bearing."`
	Speed   float64    `key:"speed_kn" unit:"kn" min:"0" max:"40" default:"8" doc:"Her speed over ground."`
	Draught float64    `key:"draught_m" unit:"m" above:"0" max:"25" default:"3" doc:"Her draught: a cable that is less deep is cut."`
	Gives   bool       `key:"gives_way" default:"true" doc:"Whether her master alters course if he is called early."`
}

func (f *exerciseFile) snags(c *checker) (out []exercise.Snag) {
	var names uniqueNames
	for i, s := range f.Snags {
		path := fmt.Sprintf("snags[%d]", i)
		names.check(c, path+".name", s.Name)
		if c.sound(path+".at", "seabed.east_m", "seabed.north_m") {
			c.inWorld(path+".at", s.At)
		}
		if s.Line == 0 {
			s.Line = f.Seabed.Depth * 4 / 3
		}
		out = append(out, exercise.Snag{Name: s.Name, X: s.At[0], Y: s.At[1], Line: s.Line, Breaks: s.Breaks})
	}
	return out
}

func (f *exerciseFile) traffic(c *checker) (out []exercise.Sail) {
	var names uniqueNames
	for i, s := range f.Traffic {
		names.check(c, fmt.Sprintf("traffic[%d].name", i), s.Name)
		out = append(out, exercise.Sail{
			Name: s.Name, From: s.From, X: s.At[0], Y: s.At[1], Course: s.Course * degree, Speed: knots(s.Speed), Draught: s.Draught, Stands: !s.Gives,
		})
	}
	return out
}
