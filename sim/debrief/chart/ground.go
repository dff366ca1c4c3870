package chart

import (
	"image/color"
	"math"
)

// Ground shows what became of every cell of the area, drawn in place of a mosaic.
type Ground struct {
	Cells         []uint8 // of the kinds, row by row from the north; 0 is outside
	Width, Height int
	MinX, MaxY    float64 // upper left corner, m
	Cell          float64 // side of a cell, m
	Kinds         []Kind  // of 1 on
}

// Kind is one thing ground can be. Its hatch tells it apart, not its colour alone.
type Kind struct {
	Label string
	Hatch Hatch
}

// Hatch is how ground is drawn.
type Hatch int

// The hatches.
const (
	Plain Hatch = iota // ground that is as it should be
	Deep               // twice as much so
	Blank              // nothing is known of it
	Rising
	Falling
	Level
	Upright
	Dotted
	Crossed
	Chequered
	Dashed
	Steep
	Barred
)

var (
	groundPlain = color.RGBA{0xc9, 0xd6, 0xc4, 0xff}
	groundDeep  = color.RGBA{0xa4, 0xbc, 0xa6, 0xff}
	groundHole  = color.RGBA{0xf7, 0xe3, 0xd3, 0xff}
	groundInk   = color.RGBA{0x9a, 0x3b, 0x1e, 0xff}
)

// ink reports whether a pixel of the sheet is drawn upon by a hatch.
func (h Hatch) ink(x, y int) bool {
	const pitch = 8
	mod := func(v int) int { return ((v % pitch) + pitch) % pitch }
	switch h {
	case Rising:
		return mod(x+y) < 2
	case Falling:
		return mod(x-y) < 2
	case Level:
		return mod(y) < 2
	case Upright:
		return mod(x) < 2
	case Dotted:
		return mod(x) < 3 && mod(y) < 3
	case Crossed:
		return mod(x+y) < 1 || mod(x-y) < 1
	case Chequered:
		return (mod(x) < pitch/2) == (mod(y) < pitch/2)
	case Dashed:
		return mod(y) < 2 && mod(x+y/pitch*3) < 5
	case Steep:
		return mod(2*x+y) < 3
	case Barred:
		return mod(x) < 2 && mod(y) < 5
	}
	return false
}

func (h Hatch) at(x, y int) color.RGBA {
	switch {
	case h == Plain:
		return groundPlain
	case h == Deep:
		return groundDeep
	case h == Blank:
		return paper
	case h.ink(x, y):
		return groundInk
	}
	return groundHole
}

// ground draws the cells: each pixel of the sheet takes that of the cell in its middle.
func (s *sheet) ground() {
	g := s.Ground
	if g == nil || !(g.Cell > 0) || !finite(g.MinX, g.MaxY) {
		return
	}
	for y := int(s.frame.Y0); y < int(s.frame.Y1); y++ {
		j := int(math.Floor((g.MaxY - s.north(float64(y)+0.5)) / g.Cell))
		if j < 0 || j >= g.Height {
			continue
		}
		for x := int(s.frame.X0); x < int(s.frame.X1); x++ {
			i := int(math.Floor((s.east(float64(x)+0.5) - g.MinX) / g.Cell))
			if i < 0 || i >= g.Width {
				continue
			}
			if k := int(g.Cells[j*g.Width+i]); k > 0 && k <= len(g.Kinds) {
				s.img.SetRGBA(x, y, g.Kinds[k-1].Hatch.at(x, y))
			}
		}
	}
}

// groundEntries are the kinds of ground that there are, for the legend.
func (s *sheet) groundEntries() []entry {
	if s.Ground == nil {
		return nil
	}
	have := map[uint8]bool{}
	for _, k := range s.Ground.Cells {
		have[k] = true
	}
	var list []entry
	for k, kind := range s.Ground.Kinds {
		if !have[uint8(k+1)] {
			continue
		}
		list = append(list, entry{kind.Label, func(x0, x1, y float64) {
			top, low := int(math.Round(y-0.5*s.unit)), int(math.Round(y+0.5*s.unit))
			for py := top; py < low; py++ {
				for px := int(x0); px < int(x1); px++ {
					c := kind.Hatch.at(px, py)
					if px == int(x0) || px == int(x1)-1 || py == top || py == low-1 {
						c = faint
					}
					s.img.SetRGBA(px, py, c)
				}
			}
		}})
	}
	return list
}
