package app

import (
	"image"
	"image/color"
	"math"

	"dryline/cmd/dryline-desk/look"

	"github.com/hajimehoshi/ebiten/v2"
)

// easel draws one view of a practice to one scale, up and across alike.
type easel struct {
	l     *look.Look
	dst   *ebiten.Image
	at    image.Rectangle
	taken []image.Rectangle // by lettering

	x0, sea float64 // where no distance and the surface are, pixels
	perM    float64
}

func newEasel(dst *ebiten.Image, l *look.Look, at image.Rectangle) *easel {
	look.Fill(dst, at, l.Panel)
	return &easel{l: l, dst: dst.SubImage(at).(*ebiten.Image), at: at}
}

// place is where a point lies, metres to the right and under the surface.
func (e *easel) place(x, down float64) (px, py float64) { return e.x0 + x*e.perM, e.sea + down*e.perM }

// rows are levels, metres down, as a rectangle as broad as the view.
func (e *easel) rows(top, bottom float64) image.Rectangle {
	return image.Rect(e.at.Min.X, int(e.sea+top*e.perM), e.at.Max.X, int(math.Ceil(e.sea+bottom*e.perM))).Intersect(e.at)
}

// water draws air, water and floor.
func (e *easel) water(depth float64) {
	look.Fill(e.dst, e.at, e.l.Air)
	look.Fill(e.dst, e.rows(0, depth), e.l.Sea)
	_, floor := e.place(0, depth)
	look.Fill(e.dst, image.Rect(e.at.Min.X, int(floor), e.at.Max.X, e.at.Max.Y), e.l.Ground)
	look.Stroke(e.dst, float64(e.at.Min.X), e.sea, float64(e.at.Max.X), e.sea, 1.5*e.l.Scale, e.l.Deep)
}

// write letters on a ground of its own, as near as may be to a place: inside the view, and
// off other lettering.
func (e *easel) write(s string, x, y float64, ink color.Color, align look.Align) {
	l := e.l
	s = look.Fitted(s, l.Small, e.at.Dx()-l.Px(12))
	wide, tall := look.Wide(s, l.Small), look.Tall(l.Small)
	switch align {
	case look.Middle:
		x -= wide / 2
	case look.Right:
		x -= wide
	}
	x = max(min(x, float64(e.at.Max.X-l.Px(6))-wide), float64(e.at.Min.X+l.Px(6)))
	for _, step := range []float64{0, 1, -1, 2, -2, 3, -3, 4, -4, 5, -5, 6, -6} {
		top := max(min(y+step*(tall+1), float64(e.at.Max.Y-l.Px(2))-tall), float64(e.at.Min.Y+l.Px(2)))
		r := image.Rect(int(x)-l.Px(3), int(top), int(x+wide)+l.Px(3), int(top+tall)+1)
		free := true
		for _, o := range e.taken {
			free = free && !o.Overlaps(r)
		}
		if free {
			e.taken = append(e.taken, r)
			look.Fill(e.dst, r, look.Fade(l.Panel, 0.85))
			look.Write(e.dst, s, l.Small, x, top, ink, look.Left)
			return
		}
	}
}

// span draws how far it is from one point to another, with a stop at each end.
func (e *easel) span(x0, y0, x1, y1 float64, wide float64, ink color.Color) {
	look.Stroke(e.dst, x0, y0, x1, y1, wide, ink)
	d := math.Hypot(x1-x0, y1-y0)
	if d < 1 {
		return
	}
	ux, uy := (x1-x0)/d*4*e.l.Scale, (y1-y0)/d*4*e.l.Scale
	for _, p := range [][2]float64{{x0, y0}, {x1, y1}} {
		look.Stroke(e.dst, p[0]-uy, p[1]+ux, p[0]+uy, p[1]-ux, wide, ink)
	}
}

// shown is how a figure is shown: its value, or as it is typed, in the colour of alarm, where
// that will not do.
func (p *Practice) shown(l *look.Look, says string, paths ...string) (text string, ink color.RGBA, wide float64) {
	for i := range p.fields {
		f := &p.fields[i]
		for _, path := range paths {
			if f.Path == path && p.faulty[path] {
				typed := p.now[i]
				if typed == "" {
					typed = "nothing"
				}
				return "! " + f.Label + ": " + typed, l.Alarm, 3 * l.Scale
			}
		}
	}
	return says, l.Ink, 1.5 * l.Scale
}

// band draws the heights that are wanted, across the view.
func (e *easel) band(t *towed) {
	r := e.rows(t.depth-t.high, t.depth-t.low)
	if top := int(e.sea) + 1; r.Min.Y < top { // heights above the water
		r.Min.Y = min(top, r.Max.Y)
	}
	look.Fill(e.dst, r, look.Fade(e.l.Band, 0.28))
	for _, y := range []int{r.Min.Y, r.Max.Y} {
		look.Dashed(e.dst, float64(r.Min.X), float64(y), float64(r.Max.X), float64(y), e.l.Scale, 5*e.l.Scale, e.l.Band)
	}
}

// drawAhead is the view from ahead: fish, swath on both sides, gap, and the heights wanted.
func (p *Practice) drawAhead(dst *ebiten.Image, l *look.Look) {
	e, t := newEasel(dst, l, p.ahead), &p.drawn
	across := max(t.reach, t.rangeScale*0.6, 1)
	e.perM = min(float64(e.at.Dx()-l.Px(28))/(2*across), float64(e.at.Dy()-l.Px(50))/max(t.depth, 1))
	e.x0 = float64(e.at.Min.X+e.at.Max.X) / 2
	// What is over is air: the floor lies near the foot.
	e.sea = float64(e.at.Max.Y-l.Px(24)) - t.depth*e.perM
	e.water(t.depth)
	e.band(t)
	fx, fy := e.place(0, t.depth-max(t.height, 0))
	_, floor := e.place(0, t.depth)
	rangeSays, rangeInk, rangeWide := p.shown(l, "range scale "+length(t.rangeScale), "sonar.range_scale_m")
	for _, side := range []float64{-1, 1} {
		end, _ := e.place(side*t.reach, 0)
		good, _ := e.place(side*t.usable, 0)
		gap, _ := e.place(side*t.gap, 0)
		if t.reach > 0 {
			look.Shape(e.dst, []float64{fx, fy, gap, floor, good, floor}, look.Fade(l.Wake, 0.25))
			look.Stroke(e.dst, gap, floor, good, floor, 4*l.Scale, l.Wake)
			if t.usable < t.reach {
				look.Dashed(e.dst, good, floor, end, floor, 3*l.Scale, 5*l.Scale, l.Caution)
			}
			look.Stroke(e.dst, fx, fy, end, floor, rangeWide, rangeInk)
			continue
		}
		end, _ = e.place(side*t.rangeScale, 0) // the record ends in the water
		look.Stroke(e.dst, fx, fy, end, fy, rangeWide, rangeInk)
	}
	drawFish(e.dst, l, fx, fy)
	heightSays, ink, wide := p.shown(l, p.heightSays(), "plan.altitude_m")
	if _, is := t.outside(); is {
		ink, wide = l.Alarm, 3*l.Scale
	}
	e.span(fx, fy, fx, floor, wide, ink)
	e.write("seen from ahead, to scale", float64(e.at.Min.X), float64(e.at.Min.Y+l.Px(4)), l.Soft, look.Left)
	e.write(heightSays, fx, fy-look.Tall(l.Small)-float64(l.Px(9)), ink, look.Middle)
	half, _ := e.place(0.62*max(t.reach, t.rangeScale*0.5), 0)
	e.write(rangeSays, half, fy+0.62*(floor-fy)-look.Tall(l.Small)-float64(l.Px(4)), rangeInk, look.Left)
	if t.reach > 0 {
		e.write("floor seen "+length(t.reach)+" on each side", float64(e.at.Max.X), floor+float64(l.Px(5)), l.Ink, look.Right)
		e.write("gap 2 x "+length(t.gap), fx, floor+float64(l.Px(5)), l.Ink, look.Middle)
	}
	_, top := e.place(0, t.depth-t.high)
	e.write("wanted "+bandSays(t), float64(e.at.Min.X), max(top, e.sea), l.Ink, look.Left)
}

// heightSays is the height of the fish, in metres and as a share of the range scale.
func (p *Practice) heightSays() string {
	t := &p.drawn
	says := length(max(t.height, 0)) + " over the floor"
	if t.height > 0 && t.rangeScale > 0 {
		says += ", " + number(100*t.height/t.rangeScale) + " % of the range"
	}
	if why, is := t.outside(); is {
		says += ": " + why
	}
	return says
}

// drawFish draws the fish from ahead: a round body and three fins.
func drawFish(dst *ebiten.Image, l *look.Look, x, y float64) {
	s := l.Scale
	for _, fin := range [][2]float64{{0, -1}, {-0.87, 0.5}, {0.87, 0.5}} {
		look.Stroke(dst, x, y, x+fin[0]*9*s, y+fin[1]*9*s, 2.5*s, l.Fish)
	}
	look.Disc(dst, x, y, 4.5*s, l.Fish)
}

// drawSide is the view from the side: vessel, cable, fish and depth of water.
func (p *Practice) drawSide(dst *ebiten.Image, l *look.Look) {
	e, t := newEasel(dst, l, p.side), &p.drawn
	long := t.vessel
	across := max(t.fish.Layback, 1) + 1.7*max(long, 5)
	e.perM = min(float64(e.at.Dx()-l.Px(110))/across, float64(e.at.Dy()-l.Px(46))/(max(t.depth, 1)+0.32*long))
	// She lies so far to the right that the fish is on the left; the sheave is no distance.
	e.x0 = float64(e.at.Min.X+l.Px(60)) + t.fish.Layback*e.perM + (float64(e.at.Dx()-l.Px(110))-across*e.perM)/2
	e.sea = float64(e.at.Max.Y-l.Px(22)) - t.depth*e.perM
	e.water(t.depth)
	e.band(t)
	hull := func(points ...[2]float64) (out []float64) {
		for _, q := range points {
			x, y := e.place(q[0]*long, -q[1]*long)
			out = append(out, x, y)
		}
		return out
	}
	look.Shape(e.dst, hull([2]float64{0.06, 0.1}, [2]float64{0.62, 0.11}, [2]float64{1.05, 0.17}, [2]float64{0.93, -0.05}, [2]float64{0.1, -0.05}), l.Hull)
	look.Shape(e.dst, hull([2]float64{0.45, 0.1}, [2]float64{0.47, 0.27}, [2]float64{0.66, 0.27}, [2]float64{0.72, 0.1}), l.Hull)
	sx, sy := e.place(0, -t.sheaveUp)
	look.Trace(e.dst, append(hull([2]float64{0.12, 0.09}), sx, sy), 2*l.Scale, l.Hull)

	fx, fy := e.place(-t.fish.Layback, min(t.fish.Depth, t.depth))
	cableSays, cableInk, cableWide := p.shown(l, length(t.cable)+" of cable", "plan.cable_out_m", "tow.cable.kind", "tow.winch.kind")
	drawCable(e, sx, sy, fx, fy, t.fish.Angle, cableWide, cableInk)
	s := l.Scale
	look.Shape(e.dst, []float64{fx + 10*s, fy, fx - 7*s, fy - 3*s, fx - 12*s, fy - 6*s, fx - 12*s, fy + 6*s, fx - 7*s, fy + 3*s}, l.Fish)

	_, floor := e.place(0, t.depth)
	depthSays, ink, wide := p.shown(l, length(t.depth)+" of water", "seabed.depth_m")
	dx := float64(e.at.Max.X - l.Px(16))
	e.span(dx, e.sea, dx, floor, wide, ink)
	e.write(depthSays, dx-float64(l.Px(8)), (e.sea+floor)/2-look.Tall(l.Small)/2, ink, look.Right)
	speedSays, speedInk, speedWide := p.shown(l, number(t.knots())+" kn", "plan.speed_kn")
	bx, by := e.place(1.1*long, -0.12*long)
	look.Stroke(e.dst, bx, by, bx+30*s, by, speedWide, speedInk)
	look.Shape(e.dst, []float64{bx + 38*s, by, bx + 28*s, by - 5*s, bx + 28*s, by + 5*s}, speedInk)
	e.write("from the side, to scale", float64(e.at.Min.X), float64(e.at.Min.Y+l.Px(4)), l.Soft, look.Left)
	e.write(speedSays, bx, by-look.Tall(l.Small)-float64(l.Px(6)), speedInk, look.Left)
	e.write(cableSays, (sx+fx)/2, (sy+fy)/2-look.Tall(l.Small)-float64(l.Px(6)), cableInk, look.Right)
	ink = l.Ink
	says := length(t.fish.Depth) + " deep"
	if t.height > 0 {
		e.span(fx, fy, fx, floor, 1.5*s, ink)
	} else {
		says, ink = "on the floor", l.Alarm
	}
	e.write(says, fx-float64(l.Px(16)), fy-look.Tall(l.Small)/2, ink, look.Right)
}

// drawCable draws a cable that leaves the sheave at an angle and hangs straighter down to the fish.
func drawCable(e *easel, sx, sy, fx, fy, angle, wide float64, ink color.Color) {
	reach := math.Hypot(sx-fx, sy-fy) / 2
	mx, my := sx-reach*math.Cos(angle), sy+reach*math.Sin(angle)
	var points []float64
	for k := range 17 {
		u := float64(k) / 16
		v := 1 - u
		points = append(points, v*v*sx+2*v*u*mx+u*u*fx, v*v*sy+2*v*u*my+u*u*fy)
	}
	look.Trace(e.dst, points, wide, ink)
}
