package app

import (
	"image"
	"image/color"
	"math"

	"dryline/cmd/dryline-desk/look"
	"dryline/cmd/dryline-desk/panes"
	"dryline/seabed"
	"dryline/sim/exercise"

	"github.com/hajimehoshi/ebiten/v2"
)

// sketch is a small chart of an exercise: depths as a chart would have them,
// from soundings far apart and without what lies on the floor or ripples it, and the
// planned lines. It is worked out a few rows a frame.
type sketch struct {
	exercise *exercise.Exercise
	world    *seabed.World
	picture  *ebiten.Image
	depth    []float64
	nx, ny   int
	row      int
	lo, hi   float64
}

const (
	sketchCells = 24 // soundings along the longer side
	sketchFine  = 6  // pixels from one to the next
)

func newSketch(ex *exercise.Exercise) *sketch {
	spec := ex.Seabed
	spec.Objects, spec.Pipelines, spec.Bedforms, spec.Patches = nil, nil, nil, nil
	s := &sketch{exercise: ex, world: seabed.New(spec, ex.Seed), lo: math.Inf(1), hi: math.Inf(-1)}
	cell := max(spec.East, spec.North) / sketchCells
	s.nx, s.ny = max(int(spec.East/cell), 1), max(int(spec.North/cell), 1)
	s.depth = make([]float64, s.nx*s.ny)
	return s
}

// work does some of what is left.
func (s *sketch) work() {
	if s.picture != nil {
		return
	}
	spec := &s.exercise.Seabed
	for range 2 {
		if s.row == s.ny {
			s.paint()
			return
		}
		for i := range s.nx {
			x := (float64(i) + 0.5) / float64(s.nx) * spec.East
			y := (1 - (float64(s.row)+0.5)/float64(s.ny)) * spec.North
			d := -s.world.HeightAt(x, y)
			s.depth[s.row*s.nx+i] = d
			s.lo, s.hi = min(s.lo, d), max(s.hi, d)
		}
		s.row++
	}
}

// paint colours shallow light and deep dark.
func (s *sketch) paint() {
	img := image.NewRGBA(image.Rect(0, 0, s.nx*sketchFine, s.ny*sketchFine))
	shallow, deep := color.RGBA{0xdf, 0xee, 0xea, 0xff}, color.RGBA{0x2f, 0x6f, 0x86, 0xff}
	for y := range img.Rect.Dy() {
		for x := range img.Rect.Dx() {
			t := (s.between(x, y) - s.lo) / max(s.hi-s.lo, 0.5)
			mix := func(a, b uint8) uint8 { return uint8(float64(a) + t*(float64(b)-float64(a))) }
			img.SetRGBA(x, y, color.RGBA{mix(shallow.R, deep.R), mix(shallow.G, deep.G), mix(shallow.B, deep.B), 0xff})
		}
	}
	s.picture = ebiten.NewImageFromImage(img)
	s.world, s.depth = nil, nil
}

// between is the depth at a pixel, linear between the soundings about it.
func (s *sketch) between(x, y int) float64 {
	place := func(p, n int) (i int, f float64) {
		at := min(max((float64(p)+0.5)/sketchFine-0.5, 0), float64(n-1))
		i = min(int(at), max(n-2, 0))
		return i, at - float64(i)
	}
	i, fx := place(x, s.nx)
	j, fy := place(y, s.ny)
	at := func(i, j int) float64 { return s.depth[min(j, s.ny-1)*s.nx+min(i, s.nx-1)] }
	return (1-fy)*((1-fx)*at(i, j)+fx*at(i+1, j)) + fy*((1-fx)*at(i, j+1)+fx*at(i+1, j+1))
}

// draw draws it as large as fits.
func (s *sketch) draw(dst *ebiten.Image, r image.Rectangle, l *look.Look) {
	spec := &s.exercise.Seabed
	p := panes.Projection{Pane: r}
	p.Fit(0, 0, spec.East, spec.North)
	x0, y1 := p.At(0, 0)
	x1, y0 := p.At(spec.East, spec.North)
	frame := image.Rect(int(x0), int(y0), int(x1), int(y1))
	if s.picture == nil {
		look.Frame(dst, frame, max(l.Px(1), 1), l.Rule)
		return
	}
	o := &ebiten.DrawImageOptions{Filter: ebiten.FilterLinear}
	o.GeoM.Scale((x1-x0)/float64(s.nx*sketchFine), (y1-y0)/float64(s.ny*sketchFine))
	o.GeoM.Translate(x0, y0)
	dst.DrawImage(s.picture, o)
	look.Frame(dst, frame, max(l.Px(1), 1), l.Ink)
	ink := look.Day.Plan
	for _, line := range s.exercise.Lines {
		ax, ay := p.At(line.A.X, line.A.Y)
		bx, by := p.At(line.B.X, line.B.Y)
		look.Dashed(dst, ax, ay, bx, by, 1.5*l.Scale, 6*l.Scale, ink)
		look.Write(dst, line.Name, l.Small, ax, ay+2*l.Scale, look.Day.Ink, look.Middle)
	}
	for _, pipe := range spec.Pipelines {
		if pipe.Charted {
			panes.Charted(dst, &p, pathOf(pipe.Path), l, look.Day.Mark)
		}
	}
	for _, o := range spec.Objects {
		if o.Charted {
			x, y := p.At(o.At.X, o.At.Y)
			look.Ring(dst, x, y, 4*l.Scale, 1.5*l.Scale, look.Day.Mark)
		}
	}
}
