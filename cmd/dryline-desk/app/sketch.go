package app

import (
	"fmt"
	"image"
	"image/color"
	"math"
	"slices"

	"dryline/cmd/dryline-desk/look"
	"dryline/cmd/dryline-desk/panes"
	"dryline/seabed"
	"dryline/sim/exercise"

	"github.com/hajimehoshi/ebiten/v2"
)

// sketch is a small chart of an exercise: depths as a chart would have them,
// from soundings far apart and without what lies on the floor or ripples it, and the
// planned lines.
type sketch struct {
	exercise *exercise.Exercise
	seed     uint64
	picture  *ebiten.Image
	none     bool // the ground cannot be drawn
	depth    []float64
	nx, ny   int
	lo, hi   float64
}

const (
	sketchCells = 32 // soundings along the longer side
	sketchFine  = 10 // pixels from one to the next
)

func newSketch(ex *exercise.Exercise, seed uint64) *sketch { return &sketch{exercise: ex, seed: seed} }

// done reports that there is nothing left to work.
func (s *sketch) done() bool { return s.picture != nil || s.none }

// work sounds the ground, which takes a millisecond or two.
func (s *sketch) work() {
	if s.done() {
		return
	}
	spec := &s.exercise.Seabed
	cell := max(spec.East, spec.North) / sketchCells
	if !(cell > 0) || math.IsInf(cell, 0) {
		s.none = true
		return
	}
	relief := seabed.ReliefOf(spec, s.seed)
	s.lo, s.hi = math.Inf(1), math.Inf(-1)
	s.nx, s.ny = max(int(spec.East/cell), 1), max(int(spec.North/cell), 1)
	s.depth = make([]float64, s.nx*s.ny)
	for j := range s.ny {
		for i := range s.nx {
			d := -relief((float64(i)+0.5)/float64(s.nx)*spec.East, (1-(float64(j)+0.5)/float64(s.ny))*spec.North)
			s.depth[j*s.nx+i] = d
			s.lo, s.hi = min(s.lo, d), max(s.hi, d)
		}
	}
	if math.IsNaN(s.lo+s.hi) || math.IsInf(s.lo+s.hi, 0) {
		s.none = true
		return
	}
	s.paint()
}

// isobath is how far apart lines of equal depth are: a step people count in, of which a
// ground has eight at most.
func isobath(lo, hi float64) float64 {
	steps := []float64{0.5, 1, 2, 5, 10, 20, 50, 100, 200}
	if i := slices.IndexFunc(steps, func(v float64) bool { return (hi-lo)/v <= 8 }); i >= 0 {
		return steps[i]
	}
	return steps[len(steps)-1]
}

// paint colours shallow light and deep dark, with lines of equal depth.
func (s *sketch) paint() {
	wide, tall := s.nx*sketchFine, s.ny*sketchFine
	img := image.NewRGBA(image.Rect(0, 0, wide, tall))
	shallow, deep := color.RGBA{0xdf, 0xee, 0xea, 0xff}, color.RGBA{0x2f, 0x6f, 0x86, 0xff}
	step := isobath(s.lo, s.hi)
	above := make([]int, wide) // which step the pixels over it lie on
	for y := range tall {
		left := 0
		for x := range wide {
			d := s.between(x, y)
			t := (d - s.lo) / max(s.hi-s.lo, 2) // a flat ground is one colour
			at := int(math.Floor(d / step))
			if line := x > 0 && at != left || y > 0 && at != above[x]; line {
				t += 0.22
			}
			left, above[x] = at, at
			mix := func(a, b uint8) uint8 { return uint8(min(max(float64(a)+t*(float64(b)-float64(a)), 0), 255)) }
			img.SetRGBA(x, y, color.RGBA{mix(shallow.R, deep.R), mix(shallow.G, deep.G), mix(shallow.B, deep.B), 0xff})
		}
	}
	s.picture = ebiten.NewImageFromImage(img)
	s.depth = nil
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

// sketched says how a sketch is drawn.
type sketched struct {
	names bool     // of the lines
	begun []string // lines that were begun, drawn whole
}

// draw draws it as large as fits and returns where.
func (s *sketch) draw(dst *ebiten.Image, r image.Rectangle, l *look.Look, how sketched) image.Rectangle {
	spec := &s.exercise.Seabed
	p := panes.Projection{Pane: r}
	p.Fit(0, 0, spec.East, spec.North)
	x0, y1 := p.At(0, 0)
	x1, y0 := p.At(spec.East, spec.North)
	frame := image.Rect(int(x0), int(y0), int(x1), int(y1))
	if s.picture == nil {
		if s.none {
			frame = r
			look.Write(dst, look.Fitted("no picture", l.Small, r.Dx()), l.Small, float64(r.Min.X+r.Max.X)/2, float64(r.Min.Y+r.Max.Y)/2-look.Tall(l.Small)/2, l.Soft, look.Middle)
		}
		look.Frame(dst, frame, max(l.Px(1), 1), l.Rule)
		return frame
	}
	o := &ebiten.DrawImageOptions{Filter: ebiten.FilterLinear}
	o.GeoM.Scale((x1-x0)/float64(s.nx*sketchFine), (y1-y0)/float64(s.ny*sketchFine))
	o.GeoM.Translate(x0, y0)
	dst.DrawImage(s.picture, o)
	look.Frame(dst, frame, max(l.Px(1), 1), l.Ink)
	on := dst.SubImage(frame).(*ebiten.Image) // what is charted may reach out of the ground
	for _, line := range s.exercise.Lines {
		ax, ay := p.At(line.A.X, line.A.Y)
		bx, by := p.At(line.B.X, line.B.Y)
		if slices.Contains(how.begun, line.Name) {
			look.Stroke(on, ax, ay, bx, by, 2.5*l.Scale, look.Day.Wake)
		} else {
			look.Dashed(on, ax, ay, bx, by, 1.5*l.Scale, 6*l.Scale, look.Day.Plan)
		}
	}
	if how.names {
		s.name(dst, &p, l)
	}
	for _, pipe := range spec.Pipelines {
		if pipe.Charted {
			panes.Charted(on, &p, pathOf(pipe.Path), l, look.Day.Mark)
		}
	}
	for _, o := range spec.Objects {
		if o.Charted {
			x, y := p.At(o.At.X, o.At.Y)
			look.Ring(on, x, y, 4*l.Scale, 1.5*l.Scale, look.Day.Mark)
		}
	}
	return frame
}

// says tells how large and how deep the ground is, line by line.
func (s *sketch) says() []string {
	if s.picture == nil {
		return nil
	}
	deep := fmt.Sprintf("%.0f to %.0f m deep", s.lo, s.hi)
	if s.hi-s.lo < 2 {
		deep = fmt.Sprintf("%.1f to %.1f m deep", s.lo, s.hi)
	}
	return []string{fmt.Sprintf("%.0f by %.0f m", s.exercise.Seabed.East, s.exercise.Seabed.North), deep, "rings: charted"}
}

// name letters the names of the lines where each begins; where another stands there, where it
// ends, or further down.
func (s *sketch) name(dst *ebiten.Image, p *panes.Projection, l *look.Look) {
	var taken []image.Rectangle
	tall := look.Tall(l.Small)
	for _, line := range s.exercise.Lines {
		half := look.Wide(line.Name, l.Small) / 2
		ax, ay := p.At(line.A.X, line.A.Y)
		bx, by := p.At(line.B.X, line.B.Y)
		x, y := ax, ay+2*l.Scale
		at := func() image.Rectangle {
			return image.Rect(int(x-half)-1, int(y), int(x+half)+2, int(y+tall)+1)
		}
		free := func() bool {
			return !slices.ContainsFunc(taken, func(r image.Rectangle) bool { return r.Overlaps(at()) })
		}
		if !free() {
			x, y = bx, by-tall-2*l.Scale
		}
		if !free() {
			for x, y = ax, ay+2*l.Scale; !free(); {
				y += tall
			}
		}
		taken = append(taken, at())
		look.Write(dst, line.Name, l.Small, x, y, look.Day.Ink, look.Middle)
	}
}

// letter letters what is said of the ground under its picture.
func (s *sketch) letter(dst *ebiten.Image, frame image.Rectangle, l *look.Look) {
	for i, line := range s.says() {
		look.Write(dst, line, l.Small, float64(frame.Min.X), float64(frame.Max.Y+l.Px(4))+float64(i)*look.Tall(l.Small), l.Soft, look.Left)
	}
}

// sketchbook has the sketches of a page, of each ground one.
type sketchbook map[ground]*sketch

// ground holds the ground that a sketch is of.
type ground struct {
	hash string
	seed uint64
}

// of returns the sketch of an exercise with a seed, which may still have to be worked.
func (b sketchbook) of(ex *exercise.Exercise, seed uint64) *sketch {
	k := ground{ex.Hash, seed}
	if b[k] == nil {
		b[k] = newSketch(ex, seed)
	}
	return b[k]
}
