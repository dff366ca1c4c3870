package look

import (
	"image"
	"image/color"
	"math"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/text/v2"
)

// Align says which end of a line of lettering stands at its place.
type Align int

// The alignments.
const (
	Left Align = iota
	Middle
	Right
)

// Watcher, if set, is told every line of lettering that is drawn, where, and
// what part of the window can be drawn on; for tests.
var Watcher func(s string, at, clip image.Rectangle, face text.Face)

// Write letters a line with its top at y.
func Write(dst *ebiten.Image, s string, face text.Face, x, y float64, c color.Color, align Align) {
	if s == "" {
		return
	}
	switch align {
	case Middle:
		x -= Wide(s, face) / 2
	case Right:
		x -= Wide(s, face)
	}
	if Watcher != nil {
		Watcher(s, image.Rect(int(x), int(y), int(x+Wide(s, face)), int(y+Tall(face))), dst.Bounds(), face)
	}
	o := new(text.DrawOptions)
	o.GeoM.Translate(math.Round(x), math.Round(y))
	o.ColorScale.ScaleWithColor(c)
	text.Draw(dst, s, face, o)
}

// Fill fills a rectangle.
func Fill(dst *ebiten.Image, r image.Rectangle, c color.Color) {
	if r.Empty() {
		return
	}
	o := new(ebiten.DrawImageOptions)
	o.GeoM.Scale(float64(r.Dx()), float64(r.Dy()))
	o.GeoM.Translate(float64(r.Min.X), float64(r.Min.Y))
	o.ColorScale.ScaleWithColor(c)
	dst.DrawImage(white(), o)
}

// Frame rules a rectangle's edge on the inside.
func Frame(dst *ebiten.Image, r image.Rectangle, width int, c color.Color) {
	Fill(dst, image.Rect(r.Min.X, r.Min.Y, r.Max.X, r.Min.Y+width), c)
	Fill(dst, image.Rect(r.Min.X, r.Max.Y-width, r.Max.X, r.Max.Y), c)
	Fill(dst, image.Rect(r.Min.X, r.Min.Y, r.Min.X+width, r.Max.Y), c)
	Fill(dst, image.Rect(r.Max.X-width, r.Min.Y, r.Max.X, r.Max.Y), c)
}

// Stroke draws a line.
func Stroke(dst *ebiten.Image, x0, y0, x1, y1, width float64, c color.Color) {
	m := newMesh()
	m.segment(x0, y0, x1, y1, width)
	m.draw(dst, c)
}

// Dashed draws a broken line of dashes and gaps of one length.
func Dashed(dst *ebiten.Image, x0, y0, x1, y1, width, dash float64, c color.Color) {
	Dotted(dst, x0, y0, x1, y1, width, dash, dash, c)
}

// Dotted draws a broken line of dots and gaps.
func Dotted(dst *ebiten.Image, x0, y0, x1, y1, width, dot, gap float64, c color.Color) {
	long := math.Hypot(x1-x0, y1-y0)
	if !(long > 0) || dot <= 0 || gap < 0 || long/(dot+gap) > 2000 {
		return
	}
	ux, uy := (x1-x0)/long, (y1-y0)/long
	m := newMesh()
	// Upright and level lines come on whole pixels: plain quads do.
	plain := ux == 0 || uy == 0
	half := max(math.Round(width), 1) / 2
	if plain {
		x0 += math.Abs(uy) * (math.Round(x0-half) + half - x0)
		y0 += math.Abs(ux) * (math.Round(y0-half) + half - y0)
	}
	for s := 0.0; s < long; s += dot + gap {
		e := min(s+dot, long)
		ax, ay, bx, by := x0+ux*s, y0+uy*s, x0+ux*e, y0+uy*e
		if plain {
			m.quad(ax-uy*half, ay+ux*half, ax+uy*half, ay-ux*half, bx+uy*half, by-ux*half, bx-uy*half, by+ux*half)
			continue
		}
		m.segment(ax, ay, bx, by, width)
	}
	m.draw(dst, c)
}

// Disc fills a circle.
func Disc(dst *ebiten.Image, x, y, r float64, c color.Color) { Shape(dst, circle(x, y, r), c) }

// Ring rules a circle.
func Ring(dst *ebiten.Image, x, y, r, width float64, c color.Color) {
	p := circle(x, y, r)
	Trace(dst, append(p, p[0], p[1]), width, c)
}

func circle(x, y, r float64) []float64 {
	n := int(min(max(4*math.Sqrt(max(r, 1))+6, 10), 64))
	p := make([]float64, 0, 2*n+2)
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		p = append(p, x+r*cos, y+r*sin)
	}
	return p
}

// Shape fills a closed outline of points x, y that does not cross itself.
func Shape(dst *ebiten.Image, points []float64, c color.Color) {
	if len(points) < 6 {
		return
	}
	m := newMesh()
	m.polygon(points)
	for i := 0; i+1 < len(points); i += 2 {
		j := (i + 2) % len(points)
		m.segment(points[i], points[i+1], points[j], points[j+1], 0.8)
	}
	m.draw(dst, c)
}

// Under fills what lies between a line of points x, y and a level.
func Under(dst *ebiten.Image, points []float64, level float64, c color.Color) {
	m := newMesh()
	for i := 0; i+3 < len(points); i += 2 {
		m.quad(points[i], points[i+1], points[i+2], points[i+3], points[i+2], level, points[i], level)
	}
	m.draw(dst, c)
}

// Trace draws an open line through points x, y.
func Trace(dst *ebiten.Image, points []float64, width float64, c color.Color) {
	m := newMesh()
	for i := 0; i+3 < len(points); i += 2 {
		m.segment(points[i], points[i+1], points[i+2], points[i+3], width)
	}
	m.draw(dst, c)
}

// Segments draws separate strokes, each from two points x, y.
func Segments(dst *ebiten.Image, points []float64, width float64, c color.Color) {
	m := newMesh()
	for i := 0; i+3 < len(points); i += 4 {
		m.segment(points[i], points[i+1], points[i+2], points[i+3], width)
	}
	m.draw(dst, c)
}

// UnderShaded fills what lies between a line of points x, y and a level, each point in its own colour
// and evenly from one to the next.
func UnderShaded(dst *ebiten.Image, points []float64, level float64, shades []color.RGBA) {
	foot := make([]float64, len(points))
	for i := 0; i+1 < len(points); i += 2 {
		foot[i], foot[i+1] = points[i], level
	}
	Between(dst, points, foot, shades)
}

// Between fills what lies between two lines of as many points x, y, as UnderShaded does.
func Between(dst *ebiten.Image, upper, lower []float64, shades []color.RGBA) {
	m := newMesh()
	defer meshes.Put(m)
	n := min(len(upper)/2, len(lower)/2, len(shades))
	for i := range n {
		c := shades[i]
		for _, p := range [2][]float64{upper, lower} {
			k := m.vertex(p[2*i], p[2*i+1], float64(c.A)/255)
			v := &m.vertices[k]
			v.ColorR, v.ColorG, v.ColorB = float32(c.R)/255, float32(c.G)/255, float32(c.B)/255
		}
		if i > 0 {
			a := uint32(2*i - 2)
			m.indices = append(m.indices, a, a+1, a+2, a+1, a+3, a+2)
		}
	}
	if len(m.indices) > 0 {
		dst.DrawTriangles32(m.vertices, m.indices, white(), &ebiten.DrawTrianglesOptions{ColorScaleMode: ebiten.ColorScaleModePremultipliedAlpha})
	}
}
