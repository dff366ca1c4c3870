package panes

import (
	"image"
	"maps"
	"math"

	"dryline/cmd/dryline-desk/crew"
	"dryline/sonar/mosaic"

	"github.com/hajimehoshi/ebiten/v2"
)

// mosaicLevels is how many times the mosaic is kept, each in cells twice as
// wide as the one before: a pixel that covers many cells shows their mean and
// not one of them.
const mosaicLevels = 6

// Mosaic is a picture of the mosaic. Its tiles are held by the processor, a byte a
// cell and somewhat more for the wider cells; what is shown of them, at the level
// it is shown at, is in textures.
type Mosaic struct {
	cell  float64 // how wide its cells are, metres
	x, y  float64 // a corner of one, metres
	whole cells   // the tile being taken in
	sheets

	greys     greys
	stretch   Stretch // by them
	stretched bool    // it is of all that was put in

	shade    Shade
	uniforms map[string]any
}

// pyramid is a tile at every level. Of the cells themselves the grey says whether
// they are known.
type pyramid struct {
	tile  *crew.Tile
	wider [mosaicLevels - 1]cells
}

// cells is a square of a mosaic, row by row from the north: the grey of what is
// known of each cell and how much of it that is, 255 for all.
type cells struct {
	side        int
	grey, known []uint8
}

// NewMosaic returns an empty picture of a mosaic whose cells are so wide and one of
// which has a corner at (x, y), metres.
func NewMosaic(cell, x, y float64) *Mosaic {
	const n = mosaic.TileCells
	return &Mosaic{cell: cell, x: x, y: y, whole: cells{n, make([]uint8, n*n), make([]uint8, n*n)}, sheets: newSheets()}
}

// Put takes a tile in, which is not to be changed any more.
func (m *Mosaic) Put(t *crew.Tile) {
	p := &pyramid{tile: t}
	const n = mosaic.TileCells
	at := image.Pt(floorDiv(t.I, n), floorDiv(t.J, n))
	if had := m.at(at); had != nil {
		m.greys.add(had.tile.Grey[:], -1)
	}
	m.greys.add(t.Grey[:], 1)
	m.stretched = false
	for j := range n {
		for i := range n {
			m.whole.grey[j*n+i], m.whole.known[j*n+i] = p.at(0, i, j)
		}
	}
	last := m.whole
	for k := range p.wider {
		p.wider[k] = last.halved()
		last = p.wider[k]
	}
	m.put(at, p)
}

// at is the grey of a cell of a level and how much of it is known, in rows from
// the north.
func (p *pyramid) at(level, i, j int) (grey, known uint8) {
	if level == 0 {
		const n = mosaic.TileCells
		if grey = p.tile.Grey[(n-1-j)*n+i]; grey > 0 {
			known = 0xff
		}
		return grey, known
	}
	c := &p.wider[level-1]
	return c.grey[j*c.side+i], c.known[j*c.side+i]
}

// halved makes one cell of four: its grey is the mean of what is known of them.
func (c *cells) halved() cells {
	half := c.side / 2
	out := cells{half, make([]uint8, half*half), make([]uint8, half*half)}
	for j := range half {
		for i := range half {
			grey, known := 0, 0
			for _, at := range [4]int{2*j*c.side + 2*i, 2*j*c.side + 2*i + 1, (2*j+1)*c.side + 2*i, (2*j+1)*c.side + 2*i + 1} {
				grey += int(c.grey[at]) * int(c.known[at])
				known += int(c.known[at])
			}
			out.known[j*half+i] = uint8((known + 2) / 4)
			if known > 0 {
				out.grey[j*half+i] = uint8((grey + known/2) / known)
			}
		}
	}
	return out
}

func floorDiv(a, b int) int {
	q := a / b
	if a%b != 0 && (a < 0) != (b < 0) {
		q--
	}
	return q
}

// level is the widest cells that are not wider than a pixel, and how many of
// them a pixel covers.
func (m *Mosaic) level(perM float64) (k int, step float64) {
	step = 1 / (perM * m.cell)
	k = int(min(max(math.Floor(math.Log2(step)), 0), mosaicLevels-1))
	return k, step / float64(int(1)<<k)
}

// Draw draws the mosaic onto a chart.
func (m *Mosaic) Draw(dst *ebiten.Image, p *Projection, shade Shade) {
	if m.uniforms == nil || shade != m.shade {
		m.shade, m.uniforms = shade, shade.uniforms()
	}
	k, step := m.level(p.PerM)
	u := maps.Clone(m.uniforms)
	u["Step"] = float32(step)
	const side = float32(sheetCells)
	wide := float64(int(sheetCells)<<k) * m.cell // metres
	for key, sheet := range m.shown(k, m.inView(p, wide)) {
		// Its south-west corner on the ground, and its corners on the screen.
		west, south := m.x+float64(key.x)*wide, m.y+float64(key.y)*wide
		x0, y1 := p.At(west, south)
		x1, y0 := p.At(west+wide, south+wide)
		corner := func(x, y float64, sx, sy float32) ebiten.Vertex {
			return ebiten.Vertex{DstX: float32(x), DstY: float32(y), SrcX: sx, SrcY: sy, ColorR: 1, ColorG: 1, ColorB: 1, ColorA: 1}
		}
		dst.DrawTrianglesShader([]ebiten.Vertex{
			corner(x0, y0, 0, 0), corner(x1, y0, side, 0),
			corner(x0, y1, 0, side), corner(x1, y1, side, side),
		}, []uint16{0, 1, 2, 1, 3, 2}, mosaicProgram(), &ebiten.DrawTrianglesShaderOptions{
			Uniforms: u, Images: [4]*ebiten.Image{sheet},
		})
	}
}

// inView are the squares of a width on the ground that reach into a pane, by their
// column and row.
func (m *Mosaic) inView(p *Projection, wide float64) image.Rectangle {
	west, south := p.Ground(float64(p.Pane.Min.X)-1, float64(p.Pane.Max.Y)+1)
	east, north := p.Ground(float64(p.Pane.Max.X)+1, float64(p.Pane.Min.Y)-1)
	at := func(v float64) int { return int(math.Floor(v / wide)) }
	return image.Rect(at(west-m.x), at(south-m.y), at(east-m.x)+1, at(north-m.y)+1)
}
