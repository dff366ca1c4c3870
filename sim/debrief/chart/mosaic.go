package chart

import (
	"image"
	"image/color"
	"math"
)

// dataBounds returns the smallest rectangle of mosaic pixels, counted from its
// upper left corner, that holds all data.
func dataBounds(m *image.Gray) image.Rectangle {
	var r image.Rectangle
	if m == nil {
		return r
	}
	size := m.Bounds().Size()
	for j := range size.Y {
		row := m.Pix[j*m.Stride:][:size.X]
		for i, v := range row {
			if v != 0 {
				r = r.Union(image.Rect(i, j, i+1, j+1))
			}
		}
	}
	return r
}

// span is the run of mosaic cells under one pixel of the sheet, the first and
// the last in part.
type span struct {
	first, last    int
	lo, hi         float64 // in cells
	coversAnything bool
}

// spans lists them for n pixels, where pixel k covers the cells from
// start + k·step to start + (k+1)·step of size there are.
func spans(n int, start, step float64, size int) []span {
	s := make([]span, n)
	for k := range s {
		lo := max(start+float64(k)*step, 0)
		hi := min(start+float64(k+1)*step, float64(size))
		if lo >= hi {
			continue
		}
		s[k] = span{int(lo), min(int(math.Ceil(hi)), size) - 1, lo, hi, true}
	}
	return s
}

func (s span) weight(i int) float64 {
	return min(float64(i+1), s.hi) - max(float64(i), s.lo)
}

// mosaic paints the mosaic: each pixel of the sheet takes the mean of the data
// in the cells it covers, and lets the water through where they hold none.
func (s *sheet) mosaic() {
	m := s.Mosaic
	if m == nil || !(s.Cell > 0) || !finite(s.MinX, s.MaxY) {
		return
	}
	size := m.Bounds().Size()
	x0, y0 := int(s.frame.X0), int(s.frame.Y0)
	step := 1 / (s.perMetre * s.Cell)
	across := spans(int(s.frame.X1)-x0, (s.east(float64(x0))-s.MinX)/s.Cell, step, size.X)
	down := spans(int(s.frame.Y1)-y0, (s.MaxY-s.north(float64(y0)))/s.Cell, step, size.Y)
	for k, d := range down {
		for j, a := range across {
			if !d.coversAnything || !a.coversAnything {
				continue
			}
			sum, data := 0.0, 0.0
			for r := d.first; r <= d.last; r++ {
				for c := a.first; c <= a.last; c++ {
					if v := m.Pix[r*m.Stride+c]; v != 0 {
						w := d.weight(r) * a.weight(c)
						sum += w * float64(v)
						data += w
					}
				}
			}
			if data > 0 {
				share := min(data/(step*step), 1)
				s.img.SetRGBA(x0+j, y0+k, blend(water, s.Ramp[uint8(math.Round(sum/data))], share))
			}
		}
	}
}

// blend returns a share of over laid on under.
func blend(under, over color.RGBA, share float64) color.RGBA {
	mix := func(a, b uint8) uint8 {
		return uint8(math.Round(float64(a) + share*(float64(b)-float64(a))))
	}
	return color.RGBA{mix(under.R, over.R), mix(under.G, over.G), mix(under.B, over.B), 0xff}
}
