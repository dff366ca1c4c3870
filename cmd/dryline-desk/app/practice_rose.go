package app

import (
	"image/color"
	"math"
	"strings"

	"dryline/cmd/dryline-desk/look"
	"dryline/seabed/units"

	"github.com/hajimehoshi/ebiten/v2"
)

// drawRose draws line, stream and wind from above, grid north up: the first line as it is
// run, the stream at the surface and, thinner, where the fish is, and the wind from where it
// comes to the ring.
func (p *Practice) drawRose(dst *ebiten.Image, l *look.Look) {
	t := &p.drawn
	e := &easel{l: l, dst: dst.SubImage(p.rose).(*ebiten.Image), at: p.rose}
	cx, cy := float64(e.at.Min.X+e.at.Max.X)/2, float64(e.at.Min.Y+e.at.Max.Y)/2
	r := float64(e.at.Dx())/2 - look.Tall(l.Small) - float64(l.Px(2))
	look.Disc(e.dst, cx, cy, r, l.Sea)
	look.Ring(e.dst, cx, cy, r, l.Scale, l.Rule)
	e.write("N", cx, cy-r-look.Tall(l.Small), l.Soft, look.Middle)
	if t.line != "" {
		x, y := math.Sin(t.bearing)*r*0.94, -math.Cos(t.bearing)*r*0.94
		look.Dashed(e.dst, cx-x, cy-y, cx+x, cy+y, 1.5*l.Scale, 5*l.Scale, l.Plan)
		head(e.dst, cx+x, cy+y, x, y, 7*l.Scale, l.Plan)
	}
	// The arrow of the stream is as long as the ring is wide at two knots and more.
	_, ink, wide := p.shown(l, "", p.pathsLike("sea.current")...)
	bad := ink == l.Alarm
	if !bad {
		ink = l.Wake
	}
	stream := func(s stream, wide float64) {
		v := s.speed() / units.Knot
		if v < 0.02 {
			return
		}
		long := r * min(0.2+0.4*v, 1)
		x, y := s.east/s.speed()*long, -s.north/s.speed()*long
		look.Stroke(e.dst, cx, cy, cx+x, cy+y, wide, ink)
		head(e.dst, cx+x, cy+y, x, y, 8*l.Scale, ink)
	}
	stream(t.surface, 2*wide)
	stream(t.atFish, wide)
	_, windInk, windWide := p.shown(l, "", "sea.wind_kn", "sea.wind_from_deg")
	if v := t.wind.speed(); v > 0 {
		x, y := t.wind.east/v, -t.wind.north/v
		look.Stroke(e.dst, cx-x*(r+5*l.Scale), cy-y*(r+5*l.Scale), cx-x*r*0.72, cy-y*r*0.72, windWide, windInk)
		head(e.dst, cx-x*r*0.66, cy-y*r*0.66, x, y, 8*l.Scale, windInk)
	}
	streamSays, windSays := "stream "+number(t.surface.speed()/units.Knot)+" kn", "wind "+number(t.wind.speed()/units.Knot)+" kn"
	if bad {
		streamSays = "! stream"
	}
	if windInk == l.Alarm {
		windSays = "! wind"
	}
	bottom := float64(e.at.Max.Y) - look.Tall(l.Small) - float64(l.Px(2))
	e.write(streamSays, float64(e.at.Min.X), bottom, ink, look.Left)
	e.write(windSays, float64(e.at.Max.X), bottom, windInk, look.Right)
	if t.line != "" {
		e.write("line "+t.line, float64(e.at.Min.X), float64(e.at.Min.Y), l.Plan, look.Left)
	}
}

// head draws the head of an arrow at a point, that goes this way.
func head(dst *ebiten.Image, x, y, dx, dy, size float64, ink color.Color) {
	d := math.Hypot(dx, dy)
	if d == 0 {
		return
	}
	dx, dy = dx/d*size, dy/d*size
	look.Shape(dst, []float64{x, y, x - dx - dy/2, y - dy + dx/2, x - dx + dy/2, y - dy - dx/2}, ink)
}

// pathsLike are the paths of the values that begin like this.
func (p *Practice) pathsLike(begins string) (paths []string) {
	for i := range p.fields {
		if strings.HasPrefix(p.fields[i].Path, begins) {
			paths = append(paths, p.fields[i].Path)
		}
	}
	return paths
}
