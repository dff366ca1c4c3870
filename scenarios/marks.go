package scenarios

import (
	"slices"
	"strings"

	"dryline/seabed"
)

type marksSection struct {
	Kind   string  `key:"kind" enum:"mark" absent:"there are no marks" doc:"Discs overlap, as loads of spoil fall, without relief; comets trail from a head down the current; depressions are scoured, with a sharp edge and a soft one."`
	Count  int     `key:"count" min:"1" max:"2000" absent:"marks need it" doc:"How many."`
	Length float64 `key:"length_m" unit:"m" min:"2" max:"500" absent:"marks need it" doc:"Mean length, or diameter of discs."`
	Width  float64 `key:"width_m" unit:"m" min:"1" max:"200" absent:"only discs can" doc:"Mean width of comets and depressions."`
	Along  float64 `key:"along_deg" unit:"deg" min:"0" max:"360" default:"0" doc:"Grid bearing that comets trail to and depressions are long along."`
	Depth  float64 `key:"depth_m" unit:"m" min:"0.05" max:"5" absent:"only discs and comets can" doc:"Depth of depressions."`
}

func markKinds() []string {
	return namesOf([]seabed.MarkKind{seabed.Discs, seabed.Comets, seabed.Depressions})
}

// markKeys are the keys each kind must have and may have, besides those of all kinds.
var markKeys = map[seabed.MarkKind]struct{ must, may []string }{
	seabed.Discs:       {must: []string{"count", "length_m"}},
	seabed.Comets:      {must: []string{"count", "length_m", "width_m"}, may: []string{"along_deg"}},
	seabed.Depressions: {must: []string{"count", "length_m", "width_m", "depth_m"}, may: []string{"along_deg"}},
}

func (m marksSection) marks(c *checker, path string) seabed.Marks {
	kind := seabed.MarkKind(m.Kind)
	list := []string{"count", "length_m", "width_m", "along_deg", "depth_m"}
	switch {
	case m.Kind == "" && c.sound(path+".kind"):
		if slices.ContainsFunc(list, func(k string) bool { return c.given(path + "." + k) }) {
			c.fault(path+".kind", "", "is missing", "one of "+strings.Join(markKinds(), ", "))
		}
	case c.sound(path + ".kind"):
		keys := markKeys[kind]
		for _, k := range list {
			at, must := path+"."+k, slices.Contains(keys.must, k)
			switch {
			case must && !c.given(at) && c.sound(at):
				c.fault(at, "", "is missing", m.Kind+" need "+strings.Join(keys.must, ", "))
			case !must && !slices.Contains(keys.may, k) && c.given(at):
				c.fault(at, "", "is not used by "+m.Kind, "")
			}
		}
	}
	return seabed.Marks{Kind: kind, Count: m.Count, Length: m.Length, Width: m.Width, Along: m.Along * degree, Depth: m.Depth}
}
