package chart

import (
	"image"

	"git.sr.ht/~sbinet/gg"

	"dryline/sonar/waterfall/picture"
	"dryline/vessel/nav/geodesy"
)

// Point is a place on the local grid, x east and y north, metres.
type Point = [2]float64

// Chart holds all that an overview shows. Everything may be left out.
type Chart struct {
	Title, Subtitle string
	Grid            geodesy.LocalGrid

	Mosaic     *image.Gray   // north up; 0: no data
	MinX, MaxY float64       // upper left corner of the mosaic, m
	Cell       float64       // side of a mosaic pixel, m
	Ramp       *picture.Ramp // of the mosaic; nil: picture.Kelp

	Ground *Ground // instead of a mosaic

	Lines     []Line
	Track     []Point // of the vessel; a point that is not finite breaks it
	FishTrack []Point // likewise
	Pipelines [][]Point
	Contacts  []Contact
	Area      []Point // corners of the area to be covered

	Notes []string // paragraphs
}

// Line is a planned line. Its name stands beyond both ends.
type Line struct {
	Name string
	A, B Point
}

// Contact is an object on the bottom, or what was taken for one.
type Contact struct {
	Label string
	X, Y  float64
	Found bool // an object that was marked; otherwise one that was missed
	False bool // a mark where no object lies; Found does not count then
}

// The smallest sheet [Draw] can lay out.
const (
	MinWidth  = 800
	MinHeight = 600
)

// Draw draws the chart on a sheet of a width and height in pixels, at least
// [MinWidth] and [MinHeight]. The scale is the largest that shows the mosaic's
// data, the lines, the area and the contacts; tracks and pipelines may run off
// the frame.
// Where labels have no room near a line's end they are left out.
func Draw(c Chart, width, height int) *image.RGBA {
	if width < MinWidth || height < MinHeight {
		panic("chart: sheet smaller than MinWidth by MinHeight")
	}
	if c.Ramp == nil {
		c.Ramp = picture.Kelp()
	}
	img := image.NewRGBA(image.Rect(0, 0, width, height))
	dc := gg.NewContextForRGBA(img)
	dc.SetColor(paper)
	dc.Clear()
	s := sheet{Chart: c, dc: dc, img: img, layout: layOut(c, width, height)}
	s.header()
	s.water()
	s.mosaic()
	s.ground()
	s.gridCrosses()
	s.clipped(func() {
		s.area()
		s.plannedLines()
		s.pipelines()
		s.tracks()
	})
	s.labels()
	s.border()
	s.panel()
	s.caution()
	return img
}
