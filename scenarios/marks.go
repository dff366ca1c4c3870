package scenarios

import (
	"slices"
	"strings"

	"dryline/seabed"
)

type marksSection struct {
	Kind   string  `key:"kind" enum:"mark" absent:"there are no marks" doc:"Discs overlap, as loads of spoil fall, without relief; comets trail from a head down the current, trails do from every object on the area; depressions are scoured, with a sharp edge and a soft one, as blow-outs in seagrass are; blots are ragged, as shells lie; heaps are dumped stones, with relief."`
	Count  int     `key:"count" min:"1" max:"2000" absent:"only trails can" doc:"How many."`
	Length float64 `key:"length_m" unit:"m" min:"2" max:"500" absent:"marks need it" doc:"Mean length, or diameter of discs and blots."`
	Width  float64 `key:"width_m" unit:"m" min:"1" max:"200" absent:"discs, blots and trails can" doc:"Width of heaps, mean width of comets and depressions."`
	Along  float64 `key:"along_deg" unit:"deg" min:"0" max:"360" absent:"where the flow's current sets to" doc:"Grid bearing that comets and trails lead to, and depressions and heaps are long along."`
	Depth  float64 `key:"depth_m" unit:"m" min:"0.05" max:"5" absent:"all but depressions can" doc:"Depth of depressions."`
	Height float64 `key:"height_m" unit:"m" min:"0.1" max:"10" absent:"all but heaps can" doc:"Height of heaps."`
}

func markKinds() []string {
	return namesOf([]seabed.MarkKind{seabed.Discs, seabed.Comets, seabed.Trails, seabed.Depressions, seabed.Blots, seabed.Heaps})
}

// markKeys are the keys each kind must have and may have, besides those of all kinds.
var markKeys = map[seabed.MarkKind]struct{ must, may []string }{
	seabed.Discs:       {must: []string{"count", "length_m"}},
	seabed.Comets:      {must: []string{"count", "length_m", "width_m"}, may: []string{"along_deg"}},
	seabed.Depressions: {must: []string{"count", "length_m", "width_m", "depth_m"}, may: []string{"along_deg"}},
	seabed.Trails:      {must: []string{"length_m"}, may: []string{"along_deg"}},
	seabed.Blots:       {must: []string{"count", "length_m"}},
	seabed.Heaps:       {must: []string{"count", "length_m", "width_m", "height_m"}, may: []string{"along_deg"}},
}

func (m marksSection) marks(c *checker, path string, flow *seabed.Flow) seabed.Marks {
	kind := seabed.MarkKind(m.Kind)
	list := []string{"count", "length_m", "width_m", "along_deg", "depth_m", "height_m"}
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
	along := m.Along * degree
	if !c.given(path + ".along_deg") {
		along = flow.Set
	}
	return seabed.Marks{Kind: kind, Count: m.Count, Length: m.Length, Width: m.Width, Along: along, Depth: m.Depth, Height: m.Height}
}
