package scenarios

import (
	"fmt"

	"dryline/seabed/placing"
	"dryline/sim/exercise"
)

type elsewhereSection struct {
	Area    [][2]float64 `key:"area" items:"3,200" unit:"m" min:"-10000" max:"15000" absent:"the section does nothing" doc:"Corners of the area they lie in then, east and north."`
	Spacing float64      `key:"spacing_m" unit:"m" min:"0" max:"1000" default:"15" doc:"Least distance between one and anything else, edge to edge, and from where the file puts any of them."`
	OffLine float64      `key:"off_lines_m" unit:"m" min:"0" max:"2000" default:"0" doc:"How far from every survey line they lie at least."`
}

// elsewhere is where uncharted objects lie with another seed than the exercise's own.
func (s seabedSection) elsewhere(c *checker) *exercise.Elsewhere {
	const path = "seabed.elsewhere"
	if !c.given(path) {
		return nil
	}
	if len(s.Elsewhere.Area) == 0 {
		if c.sound(path + ".area") {
			c.fault(path, "", "does not say where", "area")
		}
		return nil
	}
	c.polygon(path+".area", s.Elsewhere.Area)
	uncharted := 0
	for _, o := range s.Objects {
		if !o.Charted {
			uncharted++
		}
	}
	if uncharted == 0 && c.sound("seabed.objects") {
		c.fault(path, "", "has nothing to place", fmt.Sprintf("an object of seabed.objects that is not charted; all %d are", len(s.Objects)))
	}
	e := &exercise.Elsewhere{Area: points(s.Elsewhere.Area), Spacing: s.Elsewhere.Spacing}
	for _, l := range c.file.Lines {
		if s.Elsewhere.OffLine > 0 {
			e.KeepOff = append(e.KeepOff, placing.KeepOff{Path: points([][2]float64{l.From, l.To}), Distance: s.Elsewhere.OffLine})
		}
	}
	return e
}
