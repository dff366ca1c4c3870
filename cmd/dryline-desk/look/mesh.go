package look

import (
	"image"
	"image/color"
	"math"
	"sync"

	"github.com/hajimehoshi/ebiten/v2"
)

// mesh is triangles of one colour, drawn in one go. Lines have soft edges of
// half a pixel, which is cheaper than the vector package's way and enough for
// lines and small shapes.
type mesh struct {
	vertices []ebiten.Vertex
	indices  []uint32
}

// meshes are used again: drawing copies what is in them.
var meshes = sync.Pool{New: func() any { return new(mesh) }}

func newMesh() *mesh {
	m := meshes.Get().(*mesh)
	m.vertices, m.indices = m.vertices[:0], m.indices[:0]
	return m
}

// white is one white pixel, with others round it so that its edge stays white.
var white = sync.OnceValue(func() *ebiten.Image {
	img := ebiten.NewImage(3, 3)
	img.Fill(color.White)
	return img.SubImage(image.Rect(1, 1, 2, 2)).(*ebiten.Image)
})

func (m *mesh) vertex(x, y, weight float64) uint32 {
	m.vertices = append(m.vertices, ebiten.Vertex{DstX: float32(x), DstY: float32(y), SrcX: 1.5, SrcY: 1.5, ColorA: float32(weight)})
	return uint32(len(m.vertices) - 1)
}

func (m *mesh) quad(x0, y0, x1, y1, x2, y2, x3, y3 float64) {
	a, b, c, d := m.vertex(x0, y0, 1), m.vertex(x1, y1, 1), m.vertex(x2, y2, 1), m.vertex(x3, y3, 1)
	m.indices = append(m.indices, a, b, c, a, c, d)
}

// segment adds a straight stroke, a little longer than asked so that strokes
// meet.
func (m *mesh) segment(x0, y0, x1, y1, width float64) {
	dx, dy := x1-x0, y1-y0
	long := math.Hypot(dx, dy)
	if !(long > 1e-6) || math.IsInf(long, 0) {
		return
	}
	dx, dy = dx/long, dy/long
	over := min(width*0.25, 1)
	x0, y0, x1, y1 = x0-dx*over, y0-dy*over, x1+dx*over, y1+dy*over
	// Thin strokes fade rather than break up.
	weight := min(width, 1)
	solid := max(width-1, 0) / 2
	soft := solid + 1
	const rows = 4
	var at [rows][2]uint32
	for i, side := range [rows]float64{-soft, -solid, solid, soft} {
		w := weight
		if i == 0 || i == rows-1 {
			w = 0
		}
		at[i] = [2]uint32{m.vertex(x0-dy*side, y0+dx*side, w), m.vertex(x1-dy*side, y1+dx*side, w)}
	}
	for i := range rows - 1 {
		a, b := at[i], at[i+1]
		m.indices = append(m.indices, a[0], a[1], b[1], a[0], b[1], b[0])
	}
}

// polygon adds a closed outline by clipping its ears.
func (m *mesh) polygon(p []float64) {
	n := len(p) / 2
	first := uint32(len(m.vertices))
	left := make([]int, n)
	area := 0.0
	for i := range n {
		m.vertex(p[2*i], p[2*i+1], 1)
		left[i] = i
		j := (i + 1) % n
		area += p[2*i]*p[2*j+1] - p[2*j]*p[2*i+1]
	}
	cross := func(a, b, c int) float64 {
		v := (p[2*b]-p[2*a])*(p[2*c+1]-p[2*a+1]) - (p[2*b+1]-p[2*a+1])*(p[2*c]-p[2*a])
		if area < 0 {
			return -v
		}
		return v
	}
	for tries := 0; len(left) > 2 && tries < 2*n; tries++ {
		clipped := false
		for i := range left {
			a, b, c := left[(i+len(left)-1)%len(left)], left[i], left[(i+1)%len(left)]
			if cross(a, b, c) < 0 {
				continue
			}
			ear := true
			for _, q := range left {
				if q != a && q != b && q != c && cross(a, b, q) > 0 && cross(b, c, q) > 0 && cross(c, a, q) > 0 {
					ear = false
					break
				}
			}
			if !ear {
				continue
			}
			m.indices = append(m.indices, first+uint32(a), first+uint32(b), first+uint32(c))
			left = append(left[:i], left[i+1:]...)
			clipped = true
			break
		}
		if !clipped {
			return // crossed over itself
		}
	}
}

// draw draws the mesh in a colour, and is the end of it.
func (m *mesh) draw(dst *ebiten.Image, c color.Color) {
	defer meshes.Put(m)
	if len(m.indices) == 0 {
		return
	}
	r, g, b, a := c.RGBA()
	const full = 0xffff
	for i := range m.vertices {
		v := &m.vertices[i]
		w := v.ColorA
		v.ColorR, v.ColorG, v.ColorB, v.ColorA = w*float32(r)/full, w*float32(g)/full, w*float32(b)/full, w*float32(a)/full
	}
	dst.DrawTriangles32(m.vertices, m.indices, white(), &ebiten.DrawTrianglesOptions{ColorScaleMode: ebiten.ColorScaleModePremultipliedAlpha})
}
