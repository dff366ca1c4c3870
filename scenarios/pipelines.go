package scenarios

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"dryline/seabed"
)

type pipelineSection struct {
	Name     string        `key:"name" required:"true" runes:"40" doc:"Name of the pipeline, unlike any other and any object's."`
	Path     [][2]float64  `key:"path" required:"true" items:"2,100" unit:"m" min:"-10000" max:"15000" doc:"Points it is laid along, east and north."`
	Diameter float64       `key:"diameter_m" required:"true" unit:"m" min:"0.02" max:"3" doc:"Outside diameter."`
	Burial   float64       `key:"burial_m" unit:"m" min:"0" max:"5" default:"0" doc:"Mean depth of its underside in the floor outside spans; it varies between none and twice that."`
	Material string        `key:"material" enum:"material" default:"steel" doc:"What it is made of."`
	Charted  bool          `key:"charted" default:"false" doc:"Whether the trainee is told of it beforehand."`
	Spans    []spanSection `key:"spans" items:"0,64" absent:"it hangs nowhere" doc:"Stretches where it hangs clear of the floor."`
}

type spanSection struct {
	From   float64 `key:"from_m" required:"true" unit:"m" min:"0" max:"20000" doc:"Start of the span, along the path."`
	To     float64 `key:"to_m" required:"true" unit:"m" min:"0" max:"20000" doc:"End of the span, along the path."`
	Height float64 `key:"height_m" required:"true" unit:"m" above:"0" max:"10" doc:"Height of its underside above the floor at mid-span."`
}

func (p pipelineSection) pipeline(c *checker, path string) seabed.Pipeline {
	class, _ := seabed.ParseMaterial(p.Material)
	out := seabed.Pipeline{
		Name: p.Name, Path: points(p.Path), Diameter: p.Diameter, Burial: p.Burial, Class: class, Charted: p.Charted,
	}
	for _, s := range p.Spans {
		out.Spans = append(out.Spans, seabed.Span{From: s.From, To: s.To, Height: s.Height})
	}
	if p.checkPath(c, path) {
		p.checkSpans(c, path, out.Length())
	}
	return out
}

// longestPipeline is how long a pipeline may be, metres: as far as spans are
// counted.
const longestPipeline = 20e3

// checkPath refuses paths that leave the world, stand still or have no end, and
// reports whether the path has a length to speak of.
func (p pipelineSection) checkPath(c *checker, path string) bool {
	if !c.sound(path + ".path") {
		return false
	}
	good := true
	for i, at := range p.Path {
		item := fmt.Sprintf("%s.path[%d]", path, i)
		if c.sound("seabed.east_m", "seabed.north_m") {
			c.inWorld(item, at)
		}
		if i > 0 && math.Hypot(at[0]-p.Path[i-1][0], at[1]-p.Path[i-1][1]) < 0.01 {
			c.fault(item, "", "is the same point as the one before", "another point, or none")
			good = false
		}
	}
	if length := (&seabed.Pipeline{Path: points(p.Path)}).Length(); length > longestPipeline {
		c.fault(path+".path", "", fmt.Sprintf("is %.1f km long", length/kilo), fmt.Sprintf("at most %g km", longestPipeline/kilo))
		good = false
	}
	return good
}

// checkSpans refuses spans that lie beyond the pipeline's length, share a
// stretch or lift it out of the water.
func (p pipelineSection) checkSpans(c *checker, path string, length float64) {
	if !c.sound(path + ".spans") {
		return
	}
	order := make([]int, len(p.Spans))
	for i, s := range p.Spans {
		order[i] = i
		item := fmt.Sprintf("%s.spans[%d]", path, i)
		if s.To > length {
			c.fault(item+".to_m", c.number(s.To), "lies beyond the end of the pipeline", "at most "+c.number(math.Floor(length*100)/100)+" m")
		}
		if s.From >= s.To {
			c.fault(item+".from_m", c.number(s.From), "is not before the span's end", "less than "+c.number(s.To)+" m")
		}
		if c.sound(path+".diameter_m", "seabed.depth_m", "seabed.relief") {
			if depth := p.shallowest(c); s.Height+p.Diameter >= depth {
				c.fault(item+".height_m", c.number(s.Height), "lifts it out of the water",
					"with its diameter less than the depth of about "+c.number(depth)+" m")
			}
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(p.Spans[a].From, p.Spans[b].From) })
	for k := 1; k < len(order); k++ {
		before, after := p.Spans[order[k-1]], p.Spans[order[k]]
		if after.From < before.To && after.From < after.To && before.From < before.To {
			c.fault(fmt.Sprintf("%s.spans[%d].from_m", path, order[k]), c.number(after.From),
				fmt.Sprintf("lies within spans[%d]", order[k-1]), "at least "+c.number(before.To)+" m")
		}
	}
}

// shallowest is the least depth to reckon with at the points of the path.
func (p pipelineSection) shallowest(c *checker) float64 {
	least := math.Inf(1)
	for _, at := range p.Path {
		least = min(least, c.depthAt(at[0], at[1]))
	}
	return least
}
