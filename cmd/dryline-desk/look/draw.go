package look

import (
	"image"
	"image/color"
	"math"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/text/v2"
	"github.com/hajimehoshi/ebiten/v2/vector"
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
	vector.FillRect(dst, float32(r.Min.X), float32(r.Min.Y), float32(r.Dx()), float32(r.Dy()), c, false)
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
	vector.StrokeLine(dst, float32(x0), float32(y0), float32(x1), float32(y1), float32(width), c, true)
}

// Dashed draws a broken line.
func Dashed(dst *ebiten.Image, x0, y0, x1, y1, width, dash float64, c color.Color) {
	long := math.Hypot(x1-x0, y1-y0)
	if long == 0 || dash <= 0 {
		return
	}
	ux, uy := (x1-x0)/long, (y1-y0)/long
	for s := 0.0; s < long; s += 2 * dash {
		e := min(s+dash, long)
		Stroke(dst, x0+ux*s, y0+uy*s, x0+ux*e, y0+uy*e, width, c)
	}
}

// Disc fills a circle, Ring rules one.
func Disc(dst *ebiten.Image, x, y, r float64, c color.Color) {
	vector.FillCircle(dst, float32(x), float32(y), float32(r), c, true)
}

// Ring rules a circle.
func Ring(dst *ebiten.Image, x, y, r, width float64, c color.Color) {
	vector.StrokeCircle(dst, float32(x), float32(y), float32(r), float32(width), c, true)
}

// Shape fills a closed outline of points x, y.
func Shape(dst *ebiten.Image, points []float64, c color.Color) {
	if len(points) < 6 {
		return
	}
	var p vector.Path
	p.MoveTo(float32(points[0]), float32(points[1]))
	for i := 2; i+1 < len(points); i += 2 {
		p.LineTo(float32(points[i]), float32(points[i+1]))
	}
	p.Close()
	o := &vector.DrawPathOptions{AntiAlias: true}
	o.ColorScale.ScaleWithColor(c)
	vector.FillPath(dst, &p, nil, o)
}

// Trace draws an open line through points x, y.
func Trace(dst *ebiten.Image, points []float64, width float64, c color.Color) {
	if len(points) < 4 {
		return
	}
	var p vector.Path
	p.MoveTo(float32(points[0]), float32(points[1]))
	for i := 2; i+1 < len(points); i += 2 {
		p.LineTo(float32(points[i]), float32(points[i+1]))
	}
	o := &vector.DrawPathOptions{AntiAlias: true}
	o.ColorScale.ScaleWithColor(c)
	vector.StrokePath(dst, &p, &vector.StrokeOptions{Width: float32(width), LineJoin: vector.LineJoinRound}, o)
}
