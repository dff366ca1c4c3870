package panes

import (
	"fmt"
	"image"

	"dryline/cmd/dryline-desk/look"

	"github.com/hajimehoshi/ebiten/v2"
)

// figures letters the measures where they are.
func (s *Section) figures(dst *ebiten.Image, f *frame, l *look.Look, v *Side) {
	x, y := f.x(v.FishAft), f.y(-v.FishDepth)
	gap := 6 * l.Scale
	tall := look.Tall(l.Small)
	arrow := func(x, y0, y1 float64) {
		look.Stroke(dst, x, y0, x, y1, l.Scale, l.Ink)
		for _, e := range []struct{ y, d float64 }{{y0, 1}, {y1, -1}} {
			look.Stroke(dst, x, e.y, x-3*l.Scale, e.y+e.d*5*l.Scale, l.Scale, l.Ink)
			look.Stroke(dst, x, e.y, x+3*l.Scale, e.y+e.d*5*l.Scale, l.Scale, l.Ink)
		}
	}
	side := x - 34*l.Scale
	arrow(side, f.sea, y)
	write := func(s string, x, y float64, a look.Align) {
		w := look.Wide(s, l.Small)
		left := map[look.Align]float64{look.Left: x, look.Middle: x - w/2, look.Right: x - w}[a]
		look.Fill(dst, image.Rect(int(left-2*l.Scale), int(y), int(left+w+2*l.Scale), int(y+tall)), look.Fade(l.Panel, 0.75))
		look.Write(dst, s, l.Small, x, y, l.Ink, a)
	}
	write(fmt.Sprintf("%.1f m deep", v.FishDepth), side-gap, (f.sea+y)/2-tall/2, look.Right)
	lost := s.lost(v)
	switch {
	case v.Knocked != "":
		s.knock(dst, f, l, v, side-gap, y)
	case lost != "":
		write(lost, side-gap, y+tall/2, look.Right)
	case v.Locked && v.Height > 0:
		arrow(side, y, f.y(-v.FishDepth-v.Height))
		text := fmt.Sprintf("%.1f m up, %.0f %% of range scale", v.Height, 100*v.Height/max(v.RangeScale, 1))
		write(text, side-gap, (y+f.y(-v.FishDepth-v.Height))/2-tall/2, look.Right)
	}
	// Layback along the surface.
	x0, x1 := f.x(v.SheaveAft), x
	if x0-x1 > look.Wide("layback 00.0 m", l.Small)+20*l.Scale {
		yl := f.sea + 4*l.Scale
		look.Dashed(dst, x1, yl, x0, yl, l.Scale, 3*l.Scale, l.Soft)
		write(fmt.Sprintf("layback %.1f m", v.Layback), (x0+x1)/2, yl+2*l.Scale, look.Middle)
	}
	xs, ys := f.x(v.SheaveAft), f.y(v.SheaveUp*f.craft)
	write(fmt.Sprintf("%.1f m of cable", v.CableOut), xs-gap-4*l.Scale, max(ys-tall, float64(f.r.Min.Y)+2*l.Scale), look.Right)
	says := ""
	if f.exaggerate > 1.05 {
		says = fmt.Sprintf("heights drawn %.1f times", f.exaggerate)
	}
	if v.Truth != nil {
		if says != "" {
			says += "; "
		}
		says += "violet: the true floor and cable"
	}
	if says != "" {
		write(says, float64(f.r.Min.X)+8*l.Scale, min(float64(f.r.Min.Y)+6*l.Scale, f.sea-tall-3*l.Scale), look.Left)
	}
}

// knock letters that the fish touched something, its right end at x beside the
// fish at y.
func (s *Section) knock(dst *ebiten.Image, f *frame, l *look.Look, v *Side, x, y float64) {
	pad := 6 * l.Scale
	wide, tall := look.Wide(v.Knocked, l.Strong)+2*pad, look.Tall(l.Strong)+pad
	top := min(y-tall/2, float64(f.r.Max.Y)-tall-2*l.Scale)
	look.Fill(dst, image.Rect(int(x-wide), int(top), int(x), int(top+tall)), l.Alarm)
	look.Write(dst, v.Knocked, l.Strong, x-pad, top+pad/2, l.OnIt, look.Right)
}
