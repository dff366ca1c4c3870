package scenarios

import (
	"maps"
	"slices"

	"dryline/seabed"
)

type objectSection struct {
	Name     string     `key:"name" required:"true" runes:"40" doc:"Name of the object, unlike any other."`
	Kind     string     `key:"kind" required:"true" enum:"object" doc:"What it is."`
	At       [2]float64 `key:"at" required:"true" unit:"m" min:"-10000" max:"15000" doc:"Its middle, east and north."`
	Heading  float64    `key:"heading_deg" unit:"deg" min:"0" max:"360" default:"0" doc:"Grid bearing of its bow or long axis."`
	Length   float64    `key:"length_m" unit:"m" min:"0.05" max:"200" absent:"the usual length of its kind" doc:"Length along the heading."`
	Width    float64    `key:"width_m" unit:"m" min:"0.05" max:"100" absent:"the usual width of its kind" doc:"Width."`
	Height   float64    `key:"height_m" unit:"m" min:"0.02" max:"50" absent:"the usual height of its kind" doc:"Height above its own base."`
	Burial   float64    `key:"burial_m" unit:"m" min:"0" max:"50" default:"0" doc:"How deep its base lies in the floor."`
	Scour    float64    `key:"scour_m" unit:"m" min:"0" max:"5" default:"0" doc:"Depth of the pit scoured round it."`
	Settled  bool       `key:"settled" default:"false" doc:"Sunk and scoured as seabed.flow and the grains have it, instead of by burial_m and scour_m."`
	Material string     `key:"material" enum:"material" absent:"the usual material of its kind" doc:"What it is made of."`
	Strength float64    `key:"strength_db" unit:"dB" min:"-30" max:"20" default:"0" doc:"Strength of its echo over that of its material."`
	Charted  bool       `key:"charted" default:"false" doc:"Whether the trainee is told of it beforehand."`
}

func objectKinds() []string { return slices.Sorted(maps.Keys(seabed.Kinds)) }

func (o objectSection) object(c *checker, path string) seabed.Object {
	class, _ := seabed.ParseMaterial(o.Material) // Unset, the kind's own, for none
	out := seabed.Object{
		Name: o.Name, Kind: o.Kind, At: point(o.At), Heading: o.Heading * degree,
		Length: o.Length, Width: o.Width, Height: o.Height,
		Burial: o.Burial, Scour: o.Scour, Class: class, Strength: o.Strength, Charted: o.Charted, Settled: o.Settled,
	}
	if o.Settled {
		c.flowing(path+".settled", "a settled object")
		for _, k := range []string{".burial_m", ".scour_m"} {
			if c.given(path + k) {
				c.fault(path+k, "", "is not used by a settled object", "")
			}
		}
	}
	if !c.sound(path + ".kind") {
		return out
	}
	usual := seabed.Kinds[o.Kind]
	for _, m := range []struct {
		measure *float64
		usual   float64
	}{{&out.Length, usual.Length}, {&out.Width, usual.Width}, {&out.Height, usual.Height}} {
		if *m.measure == 0 {
			*m.measure = m.usual
		}
	}
	o.checkShape(c, path, out)
	o.checkPlace(c, path, out)
	return out
}

// checkShape refuses measures that the kind's shape cannot have.
func (o objectSection) checkShape(c *checker, path string, out seabed.Object) {
	if !c.sound(path+".length_m", path+".width_m", path+".height_m") {
		return
	}
	switch {
	case o.Kind == "sphere" && (out.Length != out.Height || out.Width != out.Height):
		c.fault(path, "", "is a sphere that is not round", "length_m, width_m and height_m the same")
	case (o.Kind == "pipe" || o.Kind == "cylinder") && out.Width != out.Height:
		c.fault(path, "", "is a "+o.Kind+" that is not round", "width_m and height_m the same")
	case o.Kind == "tyre" && (out.Length != out.Width || out.Height > out.Length/2):
		c.fault(path, "", "is a tyre that is not round", "length_m and width_m the same, height_m at most half of that")
	}
}

// checkPlace refuses objects off the map, under the floor or out of the water.
func (o objectSection) checkPlace(c *checker, path string, out seabed.Object) {
	if c.sound(path+".at", "seabed.east_m", "seabed.north_m") {
		c.inWorld(path+".at", o.At)
	}
	if !c.sound(path+".height_m", path+".burial_m") {
		return
	}
	if out.Burial >= out.Height {
		c.fault(path+".burial_m", c.number(out.Burial), "buries it whole", "less than its height of "+c.number(out.Height)+" m")
		return
	}
	if c.sound(path+".at", "seabed.east_m", "seabed.north_m", "seabed.depth_m", "seabed.relief") {
		if depth := c.depthAt(o.At[0], o.At[1]); out.Height-out.Burial >= depth {
			c.fault(path+".height_m", c.number(out.Height), "reaches the surface", "less than the depth of about "+c.number(depth)+" m there")
		}
	}
}
