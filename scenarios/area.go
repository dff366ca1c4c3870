package scenarios

import (
	"math"

	"dryline/seabed"
)

type areaSection struct {
	Polygon    [][2]float64 `key:"polygon" items:"3,200" unit:"m" min:"-10000" max:"15000" absent:"everywhere" doc:"Corners of the area, east and north."`
	Feather    float64      `key:"feather_m" unit:"m" min:"0" max:"1000" default:"0" doc:"Width of the soft edge."`
	Cover      float64      `key:"cover" above:"0" max:"1" default:"1" doc:"Share of the area that is covered, in patches."`
	Patchiness float64      `key:"patchiness_m" unit:"m" min:"8" max:"1000" default:"30" doc:"Size of the patches where cover is less than 1."`
	Stretch    float64      `key:"stretch" min:"1" max:"20" default:"1" doc:"How many times as long as wide the patches are: ribbons along a current."`
	Along      float64      `key:"along_deg" unit:"deg" min:"0" max:"360" default:"0" doc:"Grid bearing that stretched patches are long along."`
}

func (a areaSection) area(c *checker, path string) seabed.Area {
	c.polygon(path+".polygon", a.Polygon)
	return seabed.Area{Polygon: points(a.Polygon), Feather: a.Feather, Bare: 1 - a.Cover, Patchiness: a.Patchiness, Stretch: a.Stretch, Along: a.Along * degree}
}

// polygon refuses corners that enclose nothing: all on one line, or one point.
func (c *checker) polygon(path string, corners [][2]float64) {
	if len(corners) == 0 || !c.sound(path) {
		return
	}
	twice := 0.0
	for i, p := range corners {
		q := corners[(i+1)%len(corners)]
		twice += p[0]*q[1] - q[0]*p[1]
	}
	if math.Abs(twice)/2 < 1 {
		c.fault(path, "", "encloses less than a square metre", "corners in turn round an area")
	}
}
