package panes

import (
	"image"
	"math"
	"strconv"

	"dryline/cmd/dryline-desk/look"

	"github.com/hajimehoshi/ebiten/v2"
)

// grid rules round eastings and northings lightly.
func grid(dst *ebiten.Image, p *Projection, l *look.Look, v *Plot) {
	ink := look.Fade(l.Rule, 0.55)
	eastings, northings := gridLines(p, l, v)
	for _, e := range eastings {
		x, _ := p.At(e-v.GridEast, 0)
		look.Stroke(dst, x, float64(p.Pane.Min.Y), x, float64(p.Pane.Max.Y), l.Scale, ink)
	}
	for _, n := range northings {
		_, y := p.At(0, n-v.GridNorth)
		look.Stroke(dst, float64(p.Pane.Min.X), y, float64(p.Pane.Max.X), y, l.Scale, ink)
	}
}

// gridLines are the eastings and northings ruled, metres of the grid.
func gridLines(p *Projection, l *look.Look, v *Plot) (eastings, northings []float64) {
	step := 2 * nice(70*l.Scale/p.PerM) // twice the bar of the scale
	west, north := p.Ground(float64(p.Pane.Min.X), float64(p.Pane.Min.Y))
	east, south := p.Ground(float64(p.Pane.Max.X), float64(p.Pane.Max.Y))
	for e := math.Ceil((west+v.GridEast)/step) * step; e < east+v.GridEast; e += step {
		eastings = append(eastings, e)
	}
	for n := math.Ceil((south+v.GridNorth)/step) * step; n < north+v.GridNorth; n += step {
		northings = append(northings, n)
	}
	return eastings, northings
}

// gridLabels letters the grid along the lower and the left edge, clear of what
// is lettered there already, and keeps the place.
func gridLabels(dst *ebiten.Image, p *Projection, l *look.Look, v *Plot, taken *Labels) {
	wide := look.Wide("0000000 N", l.Small)
	tall := look.Tall(l.Small)
	put := func(s string, x, y float64) {
		r := image.Rect(int(x), int(y), int(x+look.Wide(s, l.Small))+1, int(y+tall)+1)
		if !r.In(p.Pane) || !taken.free(r.Inset(-l.Px(2))) {
			return
		}
		taken.Keep(r.Inset(-l.Px(2)))
		look.Fill(dst, r, look.Fade(l.Panel, 0.6))
		look.Write(dst, s, l.Small, x, y, l.Soft, look.Left)
	}
	eastings, northings := gridLines(p, l, v)
	for _, n := range northings {
		_, y := p.At(0, n-v.GridNorth)
		// Under the upper edge there may be a hint.
		if y-tall/2 > float64(p.Pane.Min.Y)+60*l.Scale {
			put(strconv.FormatFloat(n, 'f', -1, 64)+" N", float64(p.Pane.Min.X)+2*l.Scale, y-tall/2)
		}
	}
	if float64(p.Pane.Dx()) < 3*wide {
		return
	}
	for _, e := range eastings {
		x, _ := p.At(e-v.GridEast, 0)
		s := strconv.FormatFloat(e, 'f', -1, 64) + " E"
		put(s, x-look.Wide(s, l.Small)/2, float64(p.Pane.Max.Y)-tall-2*l.Scale)
	}
}

// Inside is the part of a straight line that lies in a rectangle (Liang and
// Barsky, ACM Transactions on Graphics 3, 1984), as shares of its way.
func Inside(ax, ay, bx, by float64, r image.Rectangle) (from, to float64, ok bool) {
	from, to = 0, 1
	for _, side := range [4][2]float64{
		{ax - bx, ax - float64(r.Min.X)}, {bx - ax, float64(r.Max.X) - ax},
		{ay - by, ay - float64(r.Min.Y)}, {by - ay, float64(r.Max.Y) - ay},
	} {
		toward, room := side[0], side[1]
		switch {
		case toward == 0 && room < 0:
			return 0, 0, false
		case toward < 0:
			from = max(from, room/toward)
		case toward > 0:
			to = min(to, room/toward)
		}
	}
	return from, to, from < to
}
