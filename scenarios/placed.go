package scenarios

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"dryline/seabed"
	"dryline/seabed/placing"
)

type placedSection struct {
	Name          string              `key:"name" required:"true" runes:"30" doc:"Name of the group, unlike any other's; its objects are called after it, with -1, -2 and so on."`
	Fewest        int                 `key:"fewest" required:"true" min:"0" max:"500" doc:"How many objects there are at least."`
	Most          int                 `key:"most" min:"1" max:"500" absent:"as many as fewest" doc:"How many there are at most; all numbers are alike."`
	Kinds         []placedKindSection `key:"kinds" required:"true" items:"1,32" doc:"What they are."`
	Area          [][2]float64        `key:"area" items:"3,200" unit:"m" min:"-10000" max:"15000" absent:"anywhere in the world" doc:"Corners of the area they lie in, east and north."`
	Size          factorSection       `key:"size" doc:"Factor on all the usual measures of the kind; 1 if left out."`
	Length        factorSection       `key:"length" doc:"Factor on its length besides; 1 if left out."`
	Width         factorSection       `key:"width" doc:"Factor on its width besides; 1 if left out."`
	Height        factorSection       `key:"height" doc:"Factor on its height besides; 1 if left out."`
	Heading       *float64            `key:"heading_deg" unit:"deg" min:"0" max:"360" absent:"they are turned every way alike" doc:"Grid bearing about which their bows or long axes are turned."`
	HeadingSpread float64             `key:"heading_spread_deg" unit:"deg" min:"0" max:"180" default:"0" doc:"Standard deviation about that bearing."`
	Burial        burialSection       `key:"burial" doc:"Share of its own height that lies in the floor; none if left out."`
	Scour         scourSection        `key:"scour" doc:"Depth of the pit scoured round it; none if left out."`
	Spacing       float64             `key:"spacing_m" unit:"m" min:"0" max:"1000" default:"1" doc:"Least distance between one and anything else that lies there, edge to edge."`
	KeepOff       []keepOffSection    `key:"keep_off" items:"0,64" absent:"they lie anywhere" doc:"Where they do not lie."`
	Sediments     []string            `key:"sediments" enum:"sediment" items:"1,32" absent:"any" doc:"What they lie on."`
	Steepest      float64             `key:"steepest_deg" unit:"deg" above:"0" max:"60" absent:"any" doc:"Steepest slope they lie on."`
	Shallowest    float64             `key:"shallowest_m" unit:"m" min:"0" max:"500" absent:"any" doc:"Least depth of the water over the floor they lie on."`
	Deepest       float64             `key:"deepest_m" unit:"m" above:"0" max:"500" absent:"any" doc:"Greatest depth of the water over the floor they lie on."`
	Charted       bool                `key:"charted" default:"false" doc:"Whether the trainee is told of them beforehand."`
}

type placedKindSection struct {
	Kind     string  `key:"kind" required:"true" enum:"object" doc:"What it is."`
	Weight   float64 `key:"weight" above:"0" max:"1000" default:"1" doc:"How many there are of it, against the weights of the others."`
	Material string  `key:"material" enum:"material" absent:"the usual material of its kind" doc:"What it is made of."`
}

type keepOffSection struct {
	Line     string       `key:"line" runes:"20" absent:"path says where" doc:"Name of a survey line."`
	Path     [][2]float64 `key:"path" items:"1,100" unit:"m" min:"-10000" max:"15000" absent:"line says where" doc:"A point, or points joined by straight lines, east and north."`
	Distance float64      `key:"distance_m" required:"true" unit:"m" min:"0" max:"2000" doc:"How far from it they lie at least, with all of their bodies."`
}

type factorSection struct {
	Law       string   `key:"law" enum:"law" default:"uniform" doc:"How it is drawn: uniform has all values alike, log_uniform all ratios, normal is about a mean and cut off at the bounds."`
	Low       float64  `key:"low" min:"0.1" max:"10" default:"1" doc:"Least."`
	High      float64  `key:"high" min:"0.1" max:"10" default:"1" doc:"Greatest."`
	Mean      *float64 `key:"mean" min:"0.1" max:"10" absent:"halfway between the bounds" doc:"Mean of a normal distribution before it is cut off."`
	Deviation *float64 `key:"deviation" above:"0" max:"10" absent:"a quarter of the way between the bounds" doc:"Its standard deviation likewise."`
}

type burialSection struct {
	Law       string   `key:"law" enum:"law" default:"uniform" doc:"How it is drawn, as for size."`
	Low       float64  `key:"low_percent" unit:"percent" min:"0" max:"95" default:"0" doc:"Least."`
	High      float64  `key:"high_percent" unit:"percent" min:"0" max:"95" default:"0" doc:"Greatest."`
	Mean      *float64 `key:"mean_percent" unit:"percent" min:"0" max:"95" absent:"halfway between the bounds" doc:"Mean of a normal distribution before it is cut off."`
	Deviation *float64 `key:"deviation_percent" unit:"percent" above:"0" max:"95" absent:"a quarter of the way between the bounds" doc:"Its standard deviation likewise."`
}

type scourSection struct {
	Law       string   `key:"law" enum:"law" default:"uniform" doc:"How it is drawn, as for size."`
	Low       float64  `key:"low_m" unit:"m" min:"0" max:"5" default:"0" doc:"Least."`
	High      float64  `key:"high_m" unit:"m" min:"0" max:"5" default:"0" doc:"Greatest."`
	Mean      *float64 `key:"mean_m" unit:"m" min:"0" max:"5" absent:"halfway between the bounds" doc:"Mean of a normal distribution before it is cut off."`
	Deviation *float64 `key:"deviation_m" unit:"m" above:"0" max:"5" absent:"a quarter of the way between the bounds" doc:"Its standard deviation likewise."`
}

// spread is any of the sections that say how a number is drawn, with the suffix of
// its keys and how many of its unit are one of the engine's.
type spread struct {
	factorSection
	suffix string
	per    float64
}

func (s factorSection) spread() spread { return spread{s, "", 1} }
func (s burialSection) spread() spread { return spread{factorSection(s), "_percent", hundred} }
func (s scourSection) spread() spread  { return spread{factorSection(s), "_m", 1} }

// mostPlaced bounds the objects of all groups together: as many as may be given
// one by one.
const mostPlaced = 500

// placed reads the groups of objects that are placed by chance.
func (s seabedSection) placed(c *checker) []placing.Group {
	var names uniqueNames
	var groups []placing.Group
	all := 0
	for i, p := range s.Placed {
		path := fmt.Sprintf("seabed.placed[%d]", i)
		names.check(c, path+".name", p.Name)
		g := p.group(c, path)
		p.checkNames(c, path, g.Most)
		groups = append(groups, g)
		all += g.Most
	}
	if all > mostPlaced && c.sound("seabed.placed") {
		c.fault("seabed.placed", "", fmt.Sprintf("may come to %d objects", all), fmt.Sprintf("at most %d together", mostPlaced))
	}
	return groups
}

func (p placedSection) group(c *checker, path string) placing.Group {
	c.polygon(path+".area", p.Area)
	g := placing.Group{
		Name: p.Name, Fewest: p.Fewest, Most: p.Most, Area: seabed.Area{Polygon: points(p.Area)},
		Size: p.Size.spread().distribution(c, path+".size"), Length: p.Length.spread().distribution(c, path+".length"),
		Width: p.Width.spread().distribution(c, path+".width"), Height: p.Height.spread().distribution(c, path+".height"),
		Burial: p.Burial.spread().distribution(c, path+".burial"), Scour: p.Scour.spread().distribution(c, path+".scour"),
		Spacing: p.Spacing, Steepest: p.Steepest * degree, Shallowest: p.Shallowest, Deepest: p.Deepest, Charted: p.Charted,
	}
	if p.Heading != nil {
		g.Heading = placing.Heading{Given: true, About: *p.Heading * degree, Deviation: p.HeadingSpread * degree}
	} else if at := path + ".heading_spread_deg"; c.given(at) {
		c.fault(at, "", "has no bearing to be about", "heading_deg as well")
	}
	if g.Most == 0 {
		g.Most = p.Fewest
	} else if at := path + ".most"; p.Most < p.Fewest && c.sound(at, path+".fewest") {
		c.fault(at, c.number(float64(p.Most)), "is less than fewest", "at least "+c.number(float64(p.Fewest)))
	}
	if at := path + ".deepest_m"; p.Deepest > 0 && p.Deepest <= p.Shallowest && c.sound(at, path+".shallowest_m") {
		c.fault(at, c.number(p.Deepest), "is not deeper than shallowest_m", "more than "+c.number(p.Shallowest)+" m")
	}
	for _, name := range p.Sediments {
		class, _ := seabed.ParseSediment(name)
		g.Sediments = append(g.Sediments, class)
	}
	for i, k := range p.Kinds {
		class, _ := seabed.ParseMaterial(k.Material)
		g.Kinds = append(g.Kinds, placing.Choice{Kind: k.Kind, Weight: k.Weight, Class: class})
		p.checkMeasures(c, path, fmt.Sprintf("%s.kinds[%d].kind", path, i), k.Kind, &g)
	}
	for i, k := range p.KeepOff {
		g.KeepOff = append(g.KeepOff, k.keepOff(c, fmt.Sprintf("%s.keep_off[%d]", path, i)))
	}
	return g
}

// distribution is the one that the section states, in the engine's unit.
func (s spread) distribution(c *checker, path string) placing.Distribution {
	key := func(name string) string { return path + "." + name + s.suffix }
	d := placing.Distribution{Law: placing.Law(s.Law), Low: s.Low, High: s.High}
	if c.sound(key("low"), key("high"), path+".law") {
		switch {
		case s.Low > s.High:
			c.fault(key("low"), c.number(s.Low), "is more than high"+s.suffix, "at most "+c.number(s.High))
		case d.Law == placing.Normal && s.Low == s.High:
			c.fault(path, "", "is a normal distribution between bounds that are the same", "low"+s.suffix+" less than high"+s.suffix)
		case d.Law == placing.LogUniform && s.Low <= 0:
			c.fault(key("low"), c.number(s.Low), "has no logarithm", "more than 0 with law: log_uniform")
		}
	}
	mean, deviation := (s.Low+s.High)/2, (s.High-s.Low)/4
	for _, only := range []struct {
		name string
		from *float64
		to   *float64
	}{{"mean", s.Mean, &mean}, {"deviation", s.Deviation, &deviation}} {
		if only.from == nil {
			continue
		}
		*only.to = *only.from
		if d.Law != placing.Normal && c.sound(path+".law", key(only.name)) {
			c.fault(key(only.name), "", "is not used by "+s.Law, "")
		}
	}
	if d.Law == placing.Normal {
		d.Mean, d.Deviation = mean, deviation
		if (mean < s.Low || mean > s.High) && c.sound(key("mean"), key("low"), key("high")) {
			c.fault(key("mean"), c.number(mean), "lies beyond the bounds", c.number(s.Low)+" to "+c.number(s.High))
		}
	}
	d.Low, d.High, d.Mean, d.Deviation = d.Low/s.per, d.High/s.per, d.Mean/s.per, d.Deviation/s.per
	return d
}

// checkMeasures refuses sizes that an object given by itself could not have.
func (p placedSection) checkMeasures(c *checker, path, at, kind string, g *placing.Group) {
	if !c.sound(at, path+".size", path+".length", path+".width", path+".height") {
		return
	}
	usual := seabed.Kinds[kind]
	for _, m := range []struct {
		key   string
		usual float64
		of    placing.Distribution
	}{{"length_m", usual.Length, g.Length}, {"width_m", usual.Width, g.Width}, {"height_m", usual.Height, g.Height}} {
		bounds := rules().field("seabed").field("objects").items.field(m.key)
		least, most := m.usual*g.Size.Low*m.of.Low, m.usual*g.Size.High*m.of.High
		if least < bounds.lo || most > bounds.hi {
			c.fault(at, shorten(kind), fmt.Sprintf("comes out with a %s of %s to %s", m.key, c.number(least), c.number(most)),
				fmt.Sprintf("sizes that make it %s", bounds.span()))
			return
		}
	}
}

// checkNames refuses a group one of whose objects would be called as something
// else is.
func (p placedSection) checkNames(c *checker, path string, most int) {
	if !c.sound(path+".name", "seabed.objects", "seabed.pipelines") {
		return
	}
	taken := func(name string) bool {
		number, ok := strings.CutPrefix(name, p.Name+"-")
		n, err := strconv.Atoi(number)
		return ok && err == nil && n >= 1 && n <= most && strconv.Itoa(n) == number
	}
	s := c.file.Seabed
	for i, o := range s.Objects {
		if taken(o.Name) {
			c.fault(path+".name", shorten(p.Name), fmt.Sprintf("gives one of its objects the name of seabed.objects[%d], %q", i, o.Name), "another name")
			return
		}
	}
	for i, l := range s.Pipelines {
		if taken(l.Name) {
			c.fault(path+".name", shorten(p.Name), fmt.Sprintf("gives one of its objects the name of seabed.pipelines[%d], %q", i, l.Name), "another name")
			return
		}
	}
}

// keepOff is the path, by itself or by the name of a survey line.
func (k keepOffSection) keepOff(c *checker, path string) placing.KeepOff {
	out := placing.KeepOff{Path: points(k.Path), Distance: k.Distance}
	if !c.sound(path+".line", path+".path") {
		return out
	}
	if (k.Line == "") == (len(k.Path) == 0) {
		c.fault(path, "", "has both line and path or neither", "one of them")
		return out
	}
	if k.Line == "" || !c.sound("lines") {
		return out
	}
	names := make([]string, len(c.file.Lines))
	for i, l := range c.file.Lines {
		names[i] = l.Name
	}
	i := slices.Index(names, k.Line)
	if i < 0 {
		want := "the name of a line"
		if near := nearest(k.Line, names); near != "" {
			want = near
		}
		c.fault(path+".line", shorten(k.Line), "names no line", want)
		return out
	}
	l := c.file.Lines[i]
	out.Path = points([][2]float64{l.From, l.To})
	return out
}

// laws are the names of the laws that numbers are drawn by.
func laws() []string { return namesOf(placing.Laws()) }
