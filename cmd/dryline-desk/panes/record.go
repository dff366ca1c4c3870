package panes

import (
	"image"
	"maps"
	"math"

	"github.com/hajimehoshi/ebiten/v2"
)

// bandRows is how many pings one texture of a record holds.
const bandRows = 256

// RecordRow gives both sides of a ping of a record, from nadir outward, levelled and as recorded; empty
// where nothing was.
type RecordRow func(i int) (levelled, plain [2][]uint8)

// Record is the whole record of a line as a picture, the newest ping on top. What is shown of it is in
// textures, which are made as they are needed.
type Record struct {
	n     int
	row   RecordRow
	bands map[int]*band
	frame int
	made  int
	brush Waterfall // lays rows as a waterfall does
}

type band struct {
	texture *ebiten.Image
	shown   int
}

// NewRecord is the picture of so many pings, the oldest first.
func NewRecord(n int, row RecordRow) *Record {
	return &Record{n: n, row: row, bands: map[int]*band{}}
}

// Rows is how many pings there are.
func (r *Record) Rows() int { return r.n }

// Deallocate lets the textures go.
func (r *Record) Deallocate() {
	for k, b := range r.bands {
		b.texture.Deallocate()
		delete(r.bands, k)
	}
}

// band is the texture of some ages; nil while it is not made yet.
func (r *Record) band(k int) *ebiten.Image {
	b := r.bands[k]
	if b == nil {
		const mostMade = 3 // in a frame
		if r.made == mostMade {
			return nil
		}
		r.made++
		texture := ebiten.NewImageWithOptions(image.Rect(0, 0, 2*RowBins, bandRows), &ebiten.NewImageOptions{Unmanaged: true})
		pixels := make([]byte, 4*2*RowBins*bandRows)
		for age := k * bandRows; age < min((k+1)*bandRows, r.n); age++ {
			levelled, plain := r.row(r.n - 1 - age)
			const long = 4 * 2 * RowBins
			r.brush.lay(pixels[(bandRows-1-(age-k*bandRows))*long:][:long], levelled, plain, 0)
		}
		texture.WritePixels(pixels)
		b = &band{texture: texture}
		r.bands[k] = b
	}
	b.shown = r.frame
	return b.texture
}

// Draw draws a view into a rectangle.
func (r *Record) Draw(dst *ebiten.Image, at image.Rectangle, v View, shade Shade) {
	r.frame++
	r.made = 0
	rows := float64(at.Dy()) / v.PerRow
	from, to := int(math.Floor(v.Newest)), int(math.Ceil(v.Newest+rows))
	uniforms := shade.uniforms()
	left, right := float32(v.Left), float32(v.Left+float64(at.Dx())/v.PerBin)
	for k := max(from, 0) / bandRows; k*bandRows < min(to, r.n); k++ {
		texture := r.band(k)
		if texture == nil {
			continue
		}
		top, bottom := max(v.Newest, float64(k*bandRows)), min(v.Newest+rows, float64((k+1)*bandRows))
		y := func(age float64) float32 { return float32(float64(at.Min.Y) + (age-v.Newest)*v.PerRow) }
		u := maps.Clone(uniforms)
		u["Head"], u["Tall"], u["Held"] = float32(bandRows), float32(bandRows), float32(min(bandRows, r.n-k*bandRows))
		u["Step"] = []float32{float32(1 / v.PerBin), float32(1 / v.PerRow)}
		u["Plain"] = float32(0)
		if v.Plain {
			u["Plain"] = float32(1)
		}
		u["Void"], u["Bottom"] = triple(v.Colours.Void), triple(v.Colours.Bottom)
		corner := func(x int, age float64, sx float32) ebiten.Vertex {
			return ebiten.Vertex{DstX: float32(x), DstY: y(age), SrcX: sx, SrcY: float32(age - float64(k*bandRows)), ColorR: 1, ColorG: 1, ColorB: 1, ColorA: 1}
		}
		dst.DrawTrianglesShader([]ebiten.Vertex{
			corner(at.Min.X, top, left), corner(at.Max.X, top, right), corner(at.Min.X, bottom, left), corner(at.Max.X, bottom, right),
		}, []uint16{0, 1, 2, 1, 3, 2}, waterfallProgram(), &ebiten.DrawTrianglesShaderOptions{Uniforms: u, Images: [4]*ebiten.Image{texture}})
	}
	r.trim(at, v)
}

// trim lets those textures go that were shown longest ago.
func (r *Record) trim(at image.Rectangle, v View) {
	most := int(float64(at.Dy())/v.PerRow)/bandRows + 6
	for len(r.bands) > most {
		oldest := -1
		for k, b := range r.bands {
			if oldest < 0 || b.shown < r.bands[oldest].shown {
				oldest = k
			}
		}
		if r.bands[oldest].shown == r.frame {
			return
		}
		r.bands[oldest].texture.Deallocate()
		delete(r.bands, oldest)
	}
}
