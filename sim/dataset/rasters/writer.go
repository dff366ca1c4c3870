package rasters

import (
	"fmt"
	"io"
	"math"
	"strconv"

	"dryline/seabed"
	"dryline/sim"
	"dryline/sim/dataset/pingfile"
	"dryline/sim/dataset/tiles"
	"dryline/sim/product"
	"dryline/sim/provenance"
	"dryline/sim/survey"
	"dryline/sonar"
	"dryline/sonar/mosaic/geotiff"
)

// mostCells is how many cells a grid may have: of more, cells are doubled.
const mostCells = 16_000_000

// Products says what is written.
type Products struct {
	GeoTIFF bool   // record and truth on the grid
	Tiles   bool   // the mosaic cut into pictures with annotations
	Scene   string // stands in every annotation
}

// Writer gathers the cells of a session.
type Writer struct {
	session  *sim.Session
	sink     product.Sink
	products Products

	cell          float64 // metres
	west, north   float64 // of the upper-left outer corner, local metres
	width, height int
	sum           []float32 // of counts
	samples       []uint32
	pings         []uint16
	last          []uint32 // number of the last ping counted, plus one
	shadow        []uint8
	marks         map[mark]marked
}

// Attach has the rasters of a session gathered: ask for it before the first step.
func Attach(s *sim.Session, to product.Sink, products Products) *Writer {
	w := &Writer{session: s, sink: to, products: products, marks: map[mark]marked{}}
	w.lay()
	n := w.width * w.height
	w.sum, w.samples, w.pings, w.last, w.shadow = make([]float32, n), make([]uint32, n), make([]uint16, n), make([]uint32, n), make([]uint8, n)
	s.Observe(sim.Observer{Truth: true, Labels: true, Ping: func(p *sim.Ping) {
		if p.Line != "" && !p.Lost {
			w.add(p)
		}
	}})
	return w
}

// lay places the grid: about the lines, as far as the sonar hears, within the world.
func (w *Writer) lay() {
	ex := w.session.Exercise
	west, south, east, north := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, l := range ex.Lines {
		for _, p := range []seabed.Point{l.A, l.B} {
			west, east, south, north = min(west, p.X), max(east, p.X), min(south, p.Y), max(north, p.Y)
		}
	}
	reach := 1.1 * ex.Sonar.RangeScale
	west, south = max(west-reach, 0), max(south-reach, 0)
	east, north = min(east+reach, ex.Seabed.East), min(north+reach, ex.Seabed.North)
	w.cell = ex.Desk.MosaicCell
	for (east-west)*(north-south)/(w.cell*w.cell) > mostCells {
		w.cell *= 2
	}
	x, y := ex.Place.Grid.Whole(w.cell) // corners of cells are whole in UTM
	w.west, w.north = x+math.Floor((west-x)/w.cell)*w.cell, y+math.Ceil((north-y)/w.cell)*w.cell
	w.width, w.height = max(int(math.Ceil((east-w.west)/w.cell)), 1), max(int(math.Ceil((w.north-south)/w.cell)), 1)
}

// at is the index of the cell of a point, -1 outside.
func (w *Writer) at(x, y float64) int {
	i, j := math.Floor((x-w.west)/w.cell), math.Floor((w.north-y)/w.cell)
	if i < 0 || j < 0 || i >= float64(w.width) || j >= float64(w.height) {
		return -1
	}
	return int(j)*w.width + int(i)
}

func (w *Writer) add(p *sim.Ping) {
	desk := w.session.Desk
	open := desk.OpenLine()
	if open == nil || len(open.Pings) == 0 || open.Pings[len(open.Pings)-1].Number != p.Number {
		return // no bottom yet
	}
	height, bin := open.Pings[len(open.Pings)-1].Height, desk.Recorder.Bin()
	for side, rows := range [2][][]uint16{p.Port, p.Starboard} {
		labels := p.Truth.Labels[side]
		shadows := tiles.Cast(labels, p.Truth.Pose.Z)
		for k, v := range rows[desk.Settings.MosaicChannel] {
			x, y, ok := survey.GroundAt(p.Fix, height, side == int(sonar.Starboard), (float64(k)+0.5)*bin)
			if !ok {
				continue
			}
			c := w.at(x, y)
			if c < 0 {
				continue
			}
			w.sum[c] += float32(v)
			w.samples[c]++
			w.mark(c, &labels[k], shadows[k])
			if number := uint32(p.Number + 1); w.last[c] != number {
				w.last[c] = number
				w.pings[c] = min(w.pings[c]+1, math.MaxUint16-1)
			}
		}
		across := &p.Truth.Across[side]
		for k := range labels {
			if l := &labels[k]; l.Kind == sonar.ShadowLabel && l.Ground > 0 {
				if c := w.at(across.At(float64(l.Ground))); c >= 0 {
					w.shadow[c] = 1
				}
			}
		}
	}
}

// Close writes what is asked for once the session is over.
func (w *Writer) Close() error {
	if w.products.Tiles {
		if err := w.cut(); err != nil {
			return fmt.Errorf("tiles of the mosaic: %w", err)
		}
	}
	if w.products.GeoTIFF {
		return w.rasters()
	}
	return nil
}

// rasters writes the GeoTIFFs.
func (w *Writer) rasters() error {
	n := w.width * w.height
	level, shown := make([]float32, n), make([]uint8, n)
	depth, sediment := make([]float32, n), make([]uint8, n)
	world := w.session.World()
	for c := range n {
		level[c] = float32(math.NaN())
		if w.samples[c] > 0 {
			mean := max(float64(w.sum[c])/float64(w.samples[c]), 1)
			level[c] = float32(20 * math.Log10(mean))
			shown[c] = max(uint8(math.Round(255*math.Log10(mean)/math.Log10(math.MaxUint16))), 1)
		}
		x, y := w.middle(c)
		depth[c], sediment[c] = float32(world.HeightAt(x, y)), uint8(world.ClassAt(x, y))
	}
	for _, err := range []error{
		write(w, "level.tif", level, new(float32(math.NaN())), geotiff.Mean, "mean of the counts recorded, where the desk takes them to lie", "dB re 1 count"),
		write(w, "shown.tif", shown, new(uint8(0)), geotiff.Mean, "the same as grey, 255 log10(c)/log10(65535); 0 where nothing was recorded", "grey level"),
		write(w, "pings.tif", w.pings, nil, geotiff.Nearest, "pings that fall into the cell by the desk", "pings"),
		write(w, "true-height.tif", depth, nil, geotiff.Mean, "true height of floor or object, up from the mean level of the water", "m"),
		write(w, "true-sediment.tif", sediment, nil, geotiff.Nearest, "true sediment, by the flag values of the ping files", "class"),
		write(w, "true-objects.tif", w.footprints(), new(uint16(0)), geotiff.Nearest, "true number of the object that stands there", "object"),
		write(w, "true-shadows.tif", w.shadow, nil, geotiff.Nearest, "1 where floor truly lay in shadow of a ping", "flag"),
	} {
		if err != nil {
			return fmt.Errorf("rasters: %w", err)
		}
	}
	return nil
}

// middle is the middle of a cell, local metres.
func (w *Writer) middle(c int) (x, y float64) {
	return w.west + (float64(c%w.width)+0.5)*w.cell, w.north - (float64(c/w.width)+0.5)*w.cell
}

// footprints are the numbers of the objects that stand in the cells' middles, 0 for none.
func (w *Writer) footprints() []uint16 {
	out := make([]uint16, w.width*w.height)
	world, spec := w.session.World(), &w.session.Exercise.Seabed
	mark := func(at seabed.Point, radius float64) {
		for y := at.Y - radius; y <= at.Y+radius+w.cell; y += w.cell {
			for x := at.X - radius; x <= at.X+radius+w.cell; x += w.cell {
				c := w.at(x, y)
				if c < 0 || out[c] != 0 {
					continue
				}
				mx, my := w.middle(c)
				if _, _, object := world.SurfaceAt(mx, my); object >= 0 {
					out[c] = uint16(object + 1)
				}
			}
		}
	}
	for _, t := range pingfile.Things(&seabed.Spec{Objects: spec.Objects}) {
		mark(seabed.Point{X: t.X, Y: t.Y}, 1.5*math.Hypot(t.Length, t.Width)/2+2) // loose wreckage lies about
	}
	for i := range spec.Pipelines {
		path := spec.Pipelines[i].Path
		for k := range path[1:] {
			a, b := path[k], path[k+1]
			steps := max(int(math.Hypot(b.X-a.X, b.Y-a.Y)), 1)
			for s := range steps + 1 {
				f := float64(s) / float64(steps)
				mark(seabed.Point{X: a.X + f*(b.X-a.X), Y: a.Y + f*(b.Y-a.Y)}, spec.Pipelines[i].Diameter+1)
			}
		}
	}
	return out
}

func write[T geotiff.Sample](w *Writer, name string, pix []T, noData *T, overviews geotiff.Resampling, band, unit string) error {
	ex := w.session.Exercise
	east, north := w.corner()
	return w.sink.Write(name, func(out io.Writer) error {
		return geotiff.Write(out, geotiff.Raster[T]{
			Width: w.width, Height: w.height, OriginEasting: east, OriginNorthing: north, PixelSize: w.cell, EPSG: ex.Place.Grid.EPSG(),
			Pix: pix, NoData: noData, Overviews: overviews, Software: "Dryline survey simulator", Copyright: provenance.Licence, Time: ex.Start,
			Description: "Synthetic data. Not for navigation.", Band: band, Unit: unit,
			Items: []geotiff.Item{
				{Name: "dryline_engine", Value: strconv.Itoa(provenance.Engine)}, {Name: "exercise", Value: ex.Name}, {Name: "exercise_sha256", Value: ex.Hash},
				{Name: "seed", Value: strconv.FormatUint(w.session.Seeds.One, 10)}, {Name: "synthetic", Value: "true"},
			},
		})
	})
}
