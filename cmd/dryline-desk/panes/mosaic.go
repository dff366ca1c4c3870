package panes

import (
	"image"
	"maps"
	"math"

	"dryline/cmd/dryline-desk/crew"
	"dryline/sonar/mosaic"

	"github.com/hajimehoshi/ebiten/v2"
)

// sheetTiles is how many tiles of the mosaic one texture holds along a side.
const sheetTiles = 4

const sheetCells = sheetTiles * mosaic.TileCells

// mosaicLevels is how many times the mosaic is kept, each in cells twice as
// wide as the one before: a pixel that covers many cells shows their mean and
// not one of them.
const mosaicLevels = 6

// Mosaic is the mosaic as textures, each of many tiles.
type Mosaic struct {
	of     *mosaic.Mosaic // for where its cells lie, which never changes
	cell   float64        // metres
	sheets map[image.Point]*[mosaicLevels]*ebiten.Image
	tile   cells
	pixels []byte

	shade    Shade
	uniforms map[string]any
}

// cells is a square of a mosaic, row by row from the north: the grey of what is
// known of each cell and how much of it that is, 255 for all.
type cells struct {
	side        int
	grey, known []uint8
}

// NewMosaic returns an empty picture of a mosaic.
func NewMosaic(of *mosaic.Mosaic) *Mosaic {
	const n = mosaic.TileCells
	return &Mosaic{
		of: of, cell: of.CellSize(), sheets: map[image.Point]*[mosaicLevels]*ebiten.Image{},
		tile: cells{n, make([]uint8, n*n), make([]uint8, n*n)}, pixels: make([]byte, 4*n*n),
	}
}

// Put uploads a tile. Textures have north up.
func (m *Mosaic) Put(t *crew.Tile) {
	key := image.Pt(floorDiv(t.I, sheetCells), floorDiv(t.J, sheetCells))
	sheets := m.sheets[key]
	if sheets == nil {
		sheets = new([mosaicLevels]*ebiten.Image)
		for k := range sheets {
			sheets[k] = ebiten.NewImage(sheetCells>>k, sheetCells>>k)
		}
		m.sheets[key] = sheets
	}
	const n = mosaic.TileCells
	c := m.tile
	for j := range n {
		for i := range n {
			g := t.Grey[(n-1-j)*n+i]
			c.grey[j*n+i], c.known[j*n+i] = g, 0
			if g > 0 {
				c.known[j*n+i] = 0xff
			}
		}
	}
	x, y := t.I-key.X*sheetCells, sheetCells-(t.J-key.Y*sheetCells)-n
	for k, sheet := range sheets {
		if k > 0 {
			c.halve()
		}
		for i := range c.side * c.side {
			m.pixels[4*i], m.pixels[4*i+1], m.pixels[4*i+2], m.pixels[4*i+3] = c.grey[i], c.known[i], 0, 0xff
		}
		part := sheet.RecyclableSubImage(image.Rect(x>>k, y>>k, x>>k+c.side, y>>k+c.side))
		part.WritePixels(m.pixels[:4*c.side*c.side])
		part.Recycle()
	}
}

// halve makes one cell of four: its grey is the mean of what is known of them.
func (c *cells) halve() {
	half := c.side / 2
	for j := range half {
		for i := range half {
			grey, known := 0, 0
			for _, at := range [4]int{2*j*c.side + 2*i, 2*j*c.side + 2*i + 1, (2*j+1)*c.side + 2*i, (2*j+1)*c.side + 2*i + 1} {
				grey += int(c.grey[at]) * int(c.known[at])
				known += int(c.known[at])
			}
			to := j*half + i // never past what is still to be read
			c.grey[to], c.known[to] = 0, uint8((known+2)/4)
			if known > 0 {
				c.grey[to] = uint8((grey + known/2) / known)
			}
		}
	}
	c.side = half
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
	cellsWide := sheetCells >> k
	side := float32(cellsWide)
	for key, sheets := range m.sheets {
		// Its south-west corner on the ground, and its corners on the screen.
		west, south := m.of.Corner(key.X*sheetCells, key.Y*sheetCells)
		x0, y1 := p.At(west, south)
		x1, y0 := p.At(west+sheetCells*m.cell, south+sheetCells*m.cell)
		if !image.Rect(int(x0)-1, int(y0)-1, int(x1)+1, int(y1)+1).Overlaps(p.Pane) {
			continue
		}
		corner := func(x, y float64, sx, sy float32) ebiten.Vertex {
			return ebiten.Vertex{DstX: float32(x), DstY: float32(y), SrcX: sx, SrcY: sy, ColorR: 1, ColorG: 1, ColorB: 1, ColorA: 1}
		}
		dst.DrawTrianglesShader([]ebiten.Vertex{
			corner(x0, y0, 0, 0), corner(x1, y0, side, 0),
			corner(x0, y1, 0, side), corner(x1, y1, side, side),
		}, []uint16{0, 1, 2, 1, 3, 2}, mosaicProgram(), &ebiten.DrawTrianglesShaderOptions{
			Uniforms: u, Images: [4]*ebiten.Image{sheets[k]},
		})
	}
}
