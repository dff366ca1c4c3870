package panes

import (
	"image"
	"math"

	"dryline/cmd/dryline-desk/look"

	"github.com/hajimehoshi/ebiten/v2"
)

// Ship is another vessel in sight.
type Ship struct {
	X, Y   float64 // metres
	Course float64 // grid bearing, radians
	Speed  float64 // m/s
	Label  string
}

// shipAhead is how far a ship's way is drawn ahead of her, seconds.
const shipAhead = 180.0

// onWater draws what else is on the water: ships with the way they make in three
// minutes, and buoys.
func onWater(dst *ebiten.Image, p *Projection, l *look.Look, v *Plot, labels *Labels) {
	for i := 0; i+1 < len(v.Buoys); i += 2 {
		x, y := p.At(v.Buoys[i], v.Buoys[i+1])
		r := 4 * l.Scale
		look.Shape(dst, []float64{x, y - r*1.5, x + r, y + r*0.7, x - r, y + r*0.7}, l.Caution)
		look.Stroke(dst, x, y-r*1.5, x, y-r*2.6, 1.2*l.Scale, l.Ink)
	}
	for _, s := range v.Ships {
		x, y := p.At(s.X, s.Y)
		sin, cos := math.Sincos(s.Course)
		long := shipAhead * s.Speed * p.PerM
		ax, ay := x+long*sin, y-long*cos
		if from, to, ok := Inside(x, y, ax, ay, p.Pane); ok {
			look.Dashed(dst, x+from*(ax-x), y+from*(ay-y), x+to*(ax-x), y+to*(ay-y), 1.4*l.Scale, 5*l.Scale, l.Caution)
		}
		if !image.Pt(int(x), int(y)).In(p.Pane) {
			continue
		}
		put := func(ahead, right float64) (float64, float64) {
			d := 9 * l.Scale
			return x + d*(ahead*sin+right*cos), y + d*(right*sin-ahead*cos)
		}
		var hull []float64
		for _, q := range [][2]float64{{1.2, 0}, {0.3, 0.55}, {-1, 0.5}, {-1, -0.5}, {0.3, -0.55}} {
			px, py := put(q[0], q[1])
			hull = append(hull, px, py)
		}
		look.Shape(dst, hull, l.Caution)
		for i := 0; i < len(hull); i += 2 {
			j := (i + 2) % len(hull)
			look.Stroke(dst, hull[i], hull[i+1], hull[j], hull[j+1], 1.2*l.Scale, l.Ink)
		}
		w, h := look.Wide(s.Label, l.Small)+6*l.Scale, look.Tall(l.Small)
		left, top := int(x+14*l.Scale), int(y-h/2)
		at := labels.Place(image.Rect(left, top, left+int(w), top+int(h)), p.Pane)
		tag(dst, l, s.Label, float64(at.Min.X+at.Max.X)/2, float64(at.Min.Y+at.Max.Y)/2)
	}
}
