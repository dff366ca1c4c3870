package rasters

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"

	"dryline/sim/dataset/coco"
	"dryline/sim/dataset/tiles"
	"dryline/sonar"
)

// TileSide is how many cells a tile of the mosaic has each way, fewer at the grid's east and
// south.
const TileSide = 512

// AnnotationFile is the name of the annotations of the mosaic's tiles.
const AnnotationFile = "coco-mosaic.json"

// mark is a cell in which an object or its shadow was recorded, where the desk takes it to lie.
type mark struct {
	cell   int32
	object uint16
}

// marked is how many samples of a cell show the object or its shadow.
type marked struct{ echo, shadow uint32 }

// mark notes what a sample that fell into a cell shows.
func (w *Writer) mark(c int, l *sonar.Label, shadow uint16) {
	switch {
	case !w.products.Tiles:
	case l.Kind == sonar.ObjectLabel || l.Kind == sonar.LayoverLabel:
		m := w.marks[mark{int32(c), l.Object}]
		m.echo++
		w.marks[mark{int32(c), l.Object}] = m
	case shadow != 0:
		m := w.marks[mark{int32(c), shadow}]
		m.shadow++
		w.marks[mark{int32(c), shadow}] = m
	}
}

// cut writes the tiles of the mosaic in which anything was recorded, north up, with their
// annotations. Cells that fell between two pings or samples are filled, see between. Of a cell the object with the most samples stands, before any shadow; a shadow
// where at least half of the samples are in it: where another line has seen the floor there, the
// mosaic shows floor.
func (w *Writer) cut() error {
	echo, shadow := map[int]uint16{}, map[int]uint16{}
	most := map[int]uint32{}
	keys := slices.SortedFunc(maps.Keys(w.marks), func(a, b mark) int {
		return cmp.Or(cmp.Compare(a.cell, b.cell), cmp.Compare(a.object, b.object))
	})
	for _, k := range keys {
		c, m := int(k.cell), w.marks[k]
		if m.echo > most[c] {
			echo[c], most[c] = k.object, m.echo
		}
		if 2*m.shadow >= w.samples[c] && m.shadow > 0 && shadow[c] == 0 {
			shadow[c] = k.object
		}
	}
	sheet := tiles.NewSheet(w.session)
	for row := 0; row*TileSide < w.height; row++ {
		for column := 0; column*TileSide < w.width; column++ {
			if err := w.tile(sheet, row, column, echo, shadow); err != nil {
				return err
			}
		}
	}
	return w.sink.Write(AnnotationFile, sheet.Write)
}

func (w *Writer) tile(sheet *tiles.Sheet, row, column int, echo, shadow map[int]uint16) error {
	x0, y0 := column*TileSide, row*TileSide
	wide, high := min(TileSide, w.width-x0), min(TileSide, w.height-y0)
	counts, echoes, shadows := make([]uint16, wide*high), make([]uint16, wide*high), make([]uint16, wide*high)
	recorded := false
	for i := range counts {
		x, y := x0+i%wide, y0+i/wide
		c := y*w.width + x
		count := 0.0
		if w.samples[c] > 0 {
			recorded = true
			count = w.mean(c)
		} else if c, count = w.between(x, y); count == 0 {
			continue // 0 is nothing recorded
		}
		counts[i] = uint16(min(max(math.Round(count), 1), math.MaxUint16))
		if echoes[i] = echo[c]; echoes[i] == 0 {
			shadows[i] = shadow[c]
		}
	}
	if !recorded {
		return nil
	}
	east, north := w.corner()
	desk := w.session.Desk
	stem := fmt.Sprintf("mosaic-%03d-%03d", row, column)
	img := coco.Image{
		File: stem + ".png", Deep: stem + "-16bit.png", Width: wide, Height: high, License: 1, Scene: w.products.Scene,
		Channel: desk.Recorder.Channels[desk.Settings.MosaicChannel], Geometry: "mosaic", Across: w.cell,
		Easting: new(east + float64(x0)*w.cell), Northing: new(north - float64(y0)*w.cell), EPSG: w.session.Exercise.Place.Grid.EPSG(),
	}
	if err := tiles.WritePictures(w.sink, w.session, &img, counts); err != nil {
		return err
	}
	sheet.Add(img, echoes, shadows)
	return nil
}

// mean is the mean of the counts of a cell that has some.
func (w *Writer) mean(c int) float64 { return float64(w.sum[c]) / float64(w.samples[c]) }

// gap is how many empty cells between two that have samples are filled.
const gap = 2

// between fills a cell that nothing fell into from the two nearest cells that lie opposite
// each other and have samples, by their distance: its counts, 0 for none, and the nearer cell, whose mark it has.
func (w *Writer) between(x, y int) (nearer int, count float64) {
	has := func(x, y int) bool {
		return x >= 0 && y >= 0 && x < w.width && y < w.height && w.samples[y*w.width+x] > 0
	}
	for apart := 2; apart <= gap+1; apart++ {
		for _, d := range [...][2]int{{0, 1}, {1, 0}, {1, 1}, {1, -1}} {
			for a := 1; a < apart; a++ {
				b := apart - a
				if !has(x-a*d[0], y-a*d[1]) || !has(x+b*d[0], y+b*d[1]) {
					continue
				}
				one, other := (y-a*d[1])*w.width+x-a*d[0], (y+b*d[1])*w.width+x+b*d[0]
				if nearer = one; b < a {
					nearer = other
				}
				return nearer, (float64(b)*w.mean(one) + float64(a)*w.mean(other)) / float64(apart)
			}
		}
	}
	return 0, 0
}

// corner is the grid's upper left outer corner in UTM, metres.
func (w *Writer) corner() (east, north float64) {
	east, north = w.session.Exercise.Place.Grid.ToUTM(w.west, w.north)
	return math.Round(east/w.cell) * w.cell, math.Round(north/w.cell) * w.cell
}
