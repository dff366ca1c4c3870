package scenarios

import (
	"fmt"
	"math"

	"dryline/seabed"
)

type seabedSection struct {
	East      float64           `key:"east_m" required:"true" unit:"m" min:"100" max:"5000" doc:"Extent of the world to the east."`
	North     float64           `key:"north_m" required:"true" unit:"m" min:"100" max:"5000" doc:"Extent of the world to the north."`
	Depth     float64           `key:"depth_m" required:"true" unit:"m" min:"2" max:"500" doc:"Mean depth of the water."`
	Depths    depthsSection     `key:"depths" doc:"Measured depths, in place of a relief."`
	Relief    reliefSection     `key:"relief" doc:"The large shape of the floor; flat if left out."`
	Bedforms  []bedformSection  `key:"bedforms" items:"0,32" absent:"there are none" doc:"Fields of waves, scars, pits and rock."`
	Flow      flowSection       `key:"flow" doc:"The water that has shaped ripples and buried objects, where they ask for it."`
	Sediment  sedimentSection   `key:"sediment" doc:"What the floor is made of."`
	Objects   []objectSection   `key:"objects" items:"0,500" absent:"there are none" doc:"Things lying on the floor."`
	Pipelines []pipelineSection `key:"pipelines" items:"0,32" absent:"there are none" doc:"Pipes and cables laid along a line."`
	Placed    []placedSection   `key:"placed" items:"0,32" absent:"there are none" doc:"Objects that chance places within bounds, another way with another seed."`
	Elsewhere elsewhereSection  `key:"elsewhere" doc:"Where the uncharted ones of objects lie with another seed than the exercise's own; where they are given if left out."`
}

type reliefSection struct {
	Gradient   float64          `key:"gradient_percent" unit:"percent" min:"0" max:"50" default:"0" doc:"Mean slope."`
	DeepensTo  float64          `key:"deepens_to_deg" unit:"deg" min:"0" max:"360" default:"0" doc:"Grid bearing towards which it deepens."`
	Height     float64          `key:"height_m" unit:"m" min:"0" max:"100" default:"0" doc:"Height of the undulations, crest to mean."`
	Wavelength float64          `key:"wavelength_m" unit:"m" min:"4" max:"5000" default:"200" doc:"Longest wavelength of the undulations."`
	Octaves    int              `key:"octaves" min:"1" max:"12" default:"5" doc:"How often the undulations are added again at half the wavelength and 0.65 of the height, down to 32 m; shorter ones come of the sediments."`
	Channels   []channelSection `key:"channels" items:"0,16" absent:"there are none" doc:"Troughs along a line."`
}

type channelSection struct {
	Axis  [][2]float64 `key:"axis" required:"true" items:"2,100" unit:"m" min:"-10000" max:"15000" doc:"Points of the trough's line, east and north."`
	Width float64      `key:"width_m" required:"true" unit:"m" min:"1" max:"5000" doc:"Width of the trough."`
	Depth float64      `key:"depth_m" required:"true" unit:"m" min:"0" max:"200" doc:"Depth of the trough below the floor around it."`
}

type sedimentSection struct {
	Base    string         `key:"base" enum:"sediment" default:"medium_sand" doc:"Sediment where no patch lies."`
	Patches []patchSection `key:"patches" items:"0,64" absent:"there are none" doc:"Areas of other sediment, later ones on top."`

	Featureless bool `key:"featureless" default:"false" doc:"Draw no roughness: every sediment answers evenly, as its mean does."`
}

type patchSection struct {
	Class string       `key:"class" required:"true" enum:"sediment" doc:"Sediment of the patch."`
	Area  areaSection  `key:"area" doc:"Where it lies; everywhere if left out."`
	Marks marksSection `key:"marks" doc:"Shapes of the sediment strewn over the area; all of it if left out."`
}

func (s seabedSection) spec(c *checker) seabed.Spec {
	spec := seabed.Spec{
		East: s.East, North: s.North, Depth: s.Depth,
		Relief: seabed.Relief{
			Gradient: s.Relief.Gradient / hundred, DeepensTo: s.Relief.DeepensTo * degree,
			Height: s.Relief.Height, Wavelength: s.Relief.Wavelength, Octaves: s.Relief.Octaves,
		},
	}
	spec.Flow = s.Flow.flow()
	spec.Featureless = s.Sediment.Featureless
	for _, t := range s.Relief.Channels {
		spec.Relief.Channels = append(spec.Relief.Channels, seabed.Channel{Axis: points(t.Axis), Width: t.Width, Depth: t.Depth})
	}
	if c.depths != nil {
		spec.Depths = c.depths
	} else {
		s.checkDepth(c)
	}
	for i, b := range s.Bedforms {
		spec.Bedforms = append(spec.Bedforms, b.bedform(c, fmt.Sprintf("seabed.bedforms[%d]", i)))
	}
	spec.Base, _ = seabed.ParseSediment(s.Sediment.Base)
	for i, p := range s.Sediment.Patches {
		class, _ := seabed.ParseSediment(p.Class)
		area := p.Area.area(c, fmt.Sprintf("seabed.sediment.patches[%d].area", i))
		spec.Patches = append(spec.Patches, seabed.Patch{Class: class, Area: area, Marks: p.Marks.marks(c, fmt.Sprintf("seabed.sediment.patches[%d].marks", i), &spec.Flow)})
	}
	var names uniqueNames
	for i, o := range s.Objects {
		path := fmt.Sprintf("seabed.objects[%d]", i)
		names.check(c, path+".name", o.Name)
		spec.Objects = append(spec.Objects, o.object(c, path))
	}
	for i, p := range s.Pipelines {
		path := fmt.Sprintf("seabed.pipelines[%d]", i)
		names.check(c, path+".name", p.Name)
		spec.Pipelines = append(spec.Pipelines, p.pipeline(c, path))
	}
	return spec
}

// depthAt is the least depth to reckon with at a point, bedforms left out.
func (c *checker) depthAt(east, north float64) float64 {
	if c.depths != nil {
		return -c.depths.HeightAt(east, north)
	}
	return c.file.Seabed.depthAt(east, north)
}

// deepest bounds the depth anywhere.
func (c *checker) deepest() float64 {
	if c.depths != nil {
		low, _, _ := c.depths.Span(0, 0, c.file.Seabed.East, c.file.Seabed.North)
		return -low
	}
	return c.file.Seabed.deepest()
}

// depthAt is the mean slope less the undulations. Channels are left out.
func (s seabedSection) depthAt(east, north float64) float64 {
	to := s.Relief.DeepensTo * degree
	along := (east-s.East/2)*math.Sin(to) + (north-s.North/2)*math.Cos(to)
	return s.Depth + s.Relief.Gradient/hundred*along - s.Relief.Height
}

// deepest bounds the depth anywhere, the undulations' octaves added up.
func (s seabedSection) deepest() float64 {
	to := s.Relief.DeepensTo * degree
	along := (s.East*math.Abs(math.Sin(to)) + s.North*math.Abs(math.Cos(to))) / 2
	d := s.Depth + s.Relief.Gradient/hundred*along + 3*s.Relief.Height
	for _, t := range s.Relief.Channels {
		d += t.Depth
	}
	return d
}

// checkDepth refuses floors that come near the surface.
func (s seabedSection) checkDepth(c *checker) {
	if !c.sound("seabed.east_m", "seabed.north_m", "seabed.depth_m", "seabed.relief") {
		return
	}
	least := math.Inf(1)
	for _, x := range []float64{0, s.East} {
		for _, y := range []float64{0, s.North} {
			least = min(least, s.depthAt(x, y))
		}
	}
	if least < 1 {
		c.fault("seabed.depth_m", c.number(s.Depth), "lets the relief rise to within 1 m of the surface",
			"at least "+c.number(math.Ceil(s.Depth-least+1))+" m, or less relief")
	}
}
