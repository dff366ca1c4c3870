package panes

import (
	"image"
	"image/color"
	"maps"

	"github.com/hajimehoshi/ebiten/v2"
)

// Ring sizes of a waterfall.
const (
	RowBins  = 500  // across one side
	RingRows = 2048 // that a picture has
)

// Waterfall is the ring of rows of one channel.
type Waterfall struct {
	ring *ebiten.Image
	head int // row written next
	held int
	row  []byte

	shade    Shade
	uniforms map[string]any
}

// NewWaterfall returns an empty waterfall.
func NewWaterfall() *Waterfall {
	// Outside the library's atlases: in one it would take twice the room.
	ring := ebiten.NewImageWithOptions(image.Rect(0, 0, 2*RowBins, RingRows), &ebiten.NewImageOptions{Unmanaged: true})
	return &Waterfall{ring: ring, row: make([]byte, 4*2*RowBins)}
}

// Deallocate lets the texture go; the waterfall is not to be drawn any more.
func (w *Waterfall) Deallocate() { w.ring.Deallocate() }

// Planes of the ring's pixels.
const (
	levelledPlane = iota
	bottomPlane
	plainPlane
	heldPlane
)

// Add puts a row on top: grey values of both sides from nadir outward, empty
// for a ping that was lost, levelled and as they were recorded, and the share of
// the range at which the bottom track has the bottom, 0 for none.
func (w *Waterfall) Add(levelled, plain [2][]uint8, bottom float64) {
	w.lay(w.row, levelled, plain, bottom)
	w.write(w.head, 1, w.row)
	w.head = (w.head + 1) % RingRows
	w.held = min(w.held+1, RingRows)
}

// Fill writes rows of the ring from a row on, in one go, as row hands them over.
func (w *Waterfall) Fill(first, rows int, row func(i int) (levelled, plain [2][]uint8, bottom float64)) {
	long := len(w.row)
	all := make([]byte, rows*long)
	for i := range rows {
		levelled, plain, bottom := row(i)
		w.lay(all[i*long:][:long], levelled, plain, bottom)
	}
	w.write(first, rows, all)
}

func (w *Waterfall) write(first, rows int, pixels []byte) {
	part := w.ring.RecyclableSubImage(image.Rect(0, first, 2*RowBins, first+rows))
	part.WritePixels(pixels)
	part.Recycle()
}

// lay lays the pixels of a row; rows of fewer bins are stretched.
func (w *Waterfall) lay(row []byte, levelled, plain [2][]uint8, bottom float64) {
	clear(row)
	put := func(x, plane int, side []uint8, bin int) {
		if len(side) > 0 {
			row[4*x+plane] = side[bin*len(side)/RowBins]
		}
	}
	for i := range RowBins {
		for side, x := range [2]int{RowBins - 1 - i, RowBins + i} {
			put(x, levelledPlane, levelled[side], i)
			put(x, plainPlane, plain[side], i)
			row[4*x+heldPlane] = 0xff
		}
	}
	if bottom > 0 && bottom < 1 {
		n := int(bottom * RowBins)
		row[4*(RowBins-1-n)+bottomPlane] = 0xff
		row[4*(RowBins+n)+bottomPlane] = 0xff
	}
}

// Held is how many rows there are.
func (w *Waterfall) Held() int { return w.held }

// View is the part of a waterfall that is shown.
type View struct {
	Newest  float64                                   // age of the row at the top, rows; fractions scroll smoothly
	PerRow  float64                                   // pixels a row is high
	Left    float64                                   // texture column at the left edge
	PerBin  float64                                   // pixels a bin is wide
	Plain   bool                                      // as it was recorded, not levelled
	Foot    bool                                      // the newest row is at the foot and not at the top
	Colours struct{ Void, Bottom, CutOff color.RGBA } // CutOff is chequered with black
}

// Y is the pixel of an age in a rectangle, of its newer edge.
func (v *View) Y(r image.Rectangle, age float64) float64 {
	if v.Foot {
		return float64(r.Max.Y) - (age-v.Newest)*v.PerRow
	}
	return float64(r.Min.Y) + (age-v.Newest)*v.PerRow
}

// Age is the age at a pixel of a rectangle.
func (v *View) Age(r image.Rectangle, y float64) float64 {
	if v.Foot {
		return v.Newest + (float64(r.Max.Y)-y)/v.PerRow
	}
	return v.Newest + (y-float64(r.Min.Y))/v.PerRow
}

// Draw draws a view into a rectangle.
func (w *Waterfall) Draw(dst *ebiten.Image, r image.Rectangle, v View, shade Shade) {
	w.DrawFrom(dst, r, v, shade, w.head, w.held)
}

// DrawFrom draws a view as if the row before head were the newest and so many were held.
func (w *Waterfall) DrawFrom(dst *ebiten.Image, r image.Rectangle, v View, shade Shade, head, held int) {
	if w.uniforms == nil || shade != w.shade {
		w.shade, w.uniforms = shade, shade.uniforms()
	}
	u := maps.Clone(w.uniforms)
	u["Head"], u["Tall"], u["Held"] = float32(head%RingRows), float32(RingRows), float32(min(held, RingRows))
	u["Step"] = []float32{float32(1 / v.PerBin), float32(1 / v.PerRow)}
	u["Plain"] = float32(0)
	if v.Plain {
		u["Plain"] = float32(1)
	}
	u["Void"], u["Bottom"], u["CutOff"] = triple(v.Colours.Void), triple(v.Colours.Bottom), triple(v.Colours.CutOff)
	left, right := float32(v.Left), float32(v.Left+float64(r.Dx())/v.PerBin)
	top, bottom := float32(v.Age(r, float64(r.Min.Y))), float32(v.Age(r, float64(r.Max.Y)))
	corner := func(x, y int, sx, sy float32) ebiten.Vertex {
		return ebiten.Vertex{DstX: float32(x), DstY: float32(y), SrcX: sx, SrcY: sy, ColorR: 1, ColorG: 1, ColorB: 1, ColorA: 1}
	}
	dst.DrawTrianglesShader([]ebiten.Vertex{
		corner(r.Min.X, r.Min.Y, left, top), corner(r.Max.X, r.Min.Y, right, top),
		corner(r.Min.X, r.Max.Y, left, bottom), corner(r.Max.X, r.Max.Y, right, bottom),
	}, []uint16{0, 1, 2, 1, 3, 2}, waterfallProgram(), &ebiten.DrawTrianglesShaderOptions{
		Uniforms: u, Images: [4]*ebiten.Image{w.ring},
	})
}
