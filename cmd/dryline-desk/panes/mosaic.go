package panes

import (
	"image"

	"dryline/cmd/dryline-desk/crew"
	"dryline/sonar/mosaic"

	"github.com/hajimehoshi/ebiten/v2"
)

// sheetTiles is how many tiles of the mosaic one texture holds along a side.
const sheetTiles = 4

const sheetCells = sheetTiles * mosaic.TileCells

// Mosaic is the mosaic as textures, each of many tiles.
type Mosaic struct {
	cell   float64 // metres
	sheets map[image.Point]*ebiten.Image
	pixels []byte

	shade    Shade
	uniforms map[string]any
}

// NewMosaic returns an empty picture of a mosaic with cells of a size in metres.
func NewMosaic(cell float64) *Mosaic {
	return &Mosaic{cell: cell, sheets: map[image.Point]*ebiten.Image{}, pixels: make([]byte, 4*mosaic.TileCells*mosaic.TileCells)}
}

// Put uploads a tile. Textures have north up.
func (m *Mosaic) Put(t *crew.Tile) {
	key := image.Pt(floorDiv(t.I, sheetCells), floorDiv(t.J, sheetCells))
	sheet := m.sheets[key]
	if sheet == nil {
		sheet = ebiten.NewImage(sheetCells, sheetCells)
		m.sheets[key] = sheet
	}
	const n = mosaic.TileCells
	for j := range n {
		for i := range n {
			g := t.Grey[(n-1-j)*n+i]
			at := 4 * (j*n + i)
			m.pixels[at], m.pixels[at+1], m.pixels[at+2], m.pixels[at+3] = g, 0, 0, 0
			if g > 0 {
				m.pixels[at+3] = 0xff
			}
		}
	}
	x, y := t.I-key.X*sheetCells, t.J-key.Y*sheetCells
	part := sheet.RecyclableSubImage(image.Rect(x, sheetCells-y-n, x+n, sheetCells-y))
	part.WritePixels(m.pixels)
	part.Recycle()
}

func floorDiv(a, b int) int {
	q := a / b
	if a%b != 0 && (a < 0) != (b < 0) {
		q--
	}
	return q
}

// Draw draws the mosaic onto a chart.
func (m *Mosaic) Draw(dst *ebiten.Image, p *Projection, shade Shade) {
	if m.uniforms == nil || shade != m.shade {
		m.shade, m.uniforms = shade, shade.uniforms()
	}
	for key, sheet := range m.sheets {
		// Its south-west corner on the ground, and its corners on the screen.
		west, south := float64(key.X)*sheetCells*m.cell, float64(key.Y)*sheetCells*m.cell
		x0, y1 := p.At(west, south)
		x1, y0 := p.At(west+sheetCells*m.cell, south+sheetCells*m.cell)
		if !image.Rect(int(x0)-1, int(y0)-1, int(x1)+1, int(y1)+1).Overlaps(p.Pane) {
			continue
		}
		corner := func(x, y float64, sx, sy float32) ebiten.Vertex {
			return ebiten.Vertex{DstX: float32(x), DstY: float32(y), SrcX: sx, SrcY: sy, ColorR: 1, ColorG: 1, ColorB: 1, ColorA: 1}
		}
		dst.DrawTrianglesShader([]ebiten.Vertex{
			corner(x0, y0, 0, 0), corner(x1, y0, sheetCells, 0),
			corner(x0, y1, 0, sheetCells), corner(x1, y1, sheetCells, sheetCells),
		}, []uint16{0, 1, 2, 1, 3, 2}, mosaicProgram(), &ebiten.DrawTrianglesShaderOptions{
			Uniforms: m.uniforms, Images: [4]*ebiten.Image{sheet},
		})
	}
}
