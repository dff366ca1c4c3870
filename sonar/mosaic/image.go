package mosaic

import "image"

// Picture is a mosaic as a raster, its first row the northernmost.
type Picture struct {
	MinX, MaxY float64     // local metres of the upper-left outer corner
	Cell       float64     // metres
	Gray       *image.Gray // 0 where nothing was painted
	Looks      []uint8     // independent looks per cell, row by row
}

// Render draws everything painted so far. tone turns a levelled amplitude into
// grey and must not return 0, which marks no data. ok is false if nothing has
// been painted.
func (m *Mosaic) Render(tone func(float32) uint8) (p Picture, ok bool) {
	i0, j0, i1, j1, ok := m.Bounds()
	if !ok {
		return p, false
	}
	p = Picture{Cell: m.size, Gray: image.NewGray(image.Rect(0, 0, i1-i0, j1-j0))}
	p.MinX, p.MaxY = m.Corner(i0, j1)
	p.Looks = make([]uint8, len(p.Gray.Pix))
	m.each(func(i, j int, value float32, looks int) {
		at := (j1-1-j)*p.Gray.Stride + i - i0
		p.Gray.Pix[at] = max(tone(value), 1)
		p.Looks[at] = uint8(min(looks, 255))
	})
	return p, true
}
