package app

import (
	"fmt"
	"image"
	"image/color"
	"math"

	"dryline/cmd/dryline-desk/look"
	"dryline/sim/order"

	"github.com/hajimehoshi/ebiten/v2"
)

// The drawing beside the sheet is no plan of the vessel: antenna and sheave stand where they usually
// do, whatever the figures say, and the figures are written at their place. It shows what is measured
// from where, and nothing of how things truly are.

// sketchOf is where the parts of the drawing lie, pixels.
type sketchOf struct {
	dst *ebiten.Image
	l   *look.Look
	p   *Prepare

	x0, long   float64 // stern, and length of the hull; she heads to the right
	sea, plan  float64 // level of the water, and the middle of her seen from above
	free, beam float64 // heights of the deck over the water; half the beam
}

// sketch draws the vessel beside the sheet.
func (p *Prepare) sketch(dst *ebiten.Image, l *look.Look) {
	r := p.drawing
	look.Fill(dst, r, l.Panel)
	pane := dst.SubImage(r).(*ebiten.Image)
	wide, tall := float64(r.Dx()), float64(r.Dy())
	s := &sketchOf{dst: pane, l: l, p: p}
	s.x0, s.long = float64(r.Min.X)+0.44*wide, 0.5*wide
	s.sea, s.plan = float64(r.Min.Y)+0.3*tall, float64(r.Min.Y)+0.815*tall
	s.free = 0.05 * tall
	s.beam = min(0.062*tall, 0.1*s.long)
	s.water(r, float64(r.Min.Y)+0.66*tall)
	s.side(r)
	s.above(r)
	look.Write(pane, "Where the figures are measured; not to scale", l.Small, float64(r.Max.X-l.Px(10)), float64(r.Max.Y)-look.Tall(l.Small)-float64(l.Px(4)), l.Soft, look.Right)
}

// water is the sea under the view from the side, with the sound speed by depth drawn in it.
func (s *sketchOf) water(r image.Rectangle, floor float64) {
	look.Fill(s.dst, image.Rect(r.Min.X, int(s.sea), r.Max.X, int(floor)), s.l.Sea)
	look.Fill(s.dst, image.Rect(r.Min.X, int(floor), r.Max.X, int(floor)+s.l.Px(5)), s.l.Ground)
	wide := float64(r.Dx())
	s.cast(image.Rect(r.Max.X-int(0.27*wide), int(s.sea+0.34*(floor-s.sea)), r.Max.X-int(0.06*wide), int(floor)-s.l.Px(26)))
}

func (s *sketchOf) write(text string, x, y float64, c color.Color, a look.Align) {
	look.Write(s.dst, text, s.l.Small, x, y, c, a)
}

// figure is a figure as it stands, its colour and the width of its lines: the one that is typed stands out.
func (s *sketchOf) figure(do order.Do) (f *entered, ink color.RGBA, width float64) {
	f = s.p.sheet.of(do, "")
	switch {
	case s.p.sheet.fault(f) != "":
		return f, s.l.Alarm, 2 * s.l.Scale
	case f == s.p.about:
		return f, s.l.Accent, 2.5 * s.l.Scale
	}
	return f, s.l.Ink, s.l.Scale
}

// text is a figure's number, cut to what has room on the drawing.
func (s *sketchOf) text(f *entered, rest string) string {
	return look.Fitted(f.text, s.l.Small, s.l.Px(46)) + rest
}

// span is a measure between two places, with ends.
func (s *sketchOf) span(x0, y0, x1, y1, width float64, c color.RGBA) {
	look.Stroke(s.dst, x0, y0, x1, y1, width, c)
	d := math.Hypot(x1-x0, y1-y0)
	if d < 1 {
		return
	}
	ux, uy := (x1-x0)/d*4*s.l.Scale, (y1-y0)/d*4*s.l.Scale
	for _, e := range [][2]float64{{x0, y0}, {x1, y1}} {
		look.Stroke(s.dst, e[0]-uy, e[1]+ux, e[0]+uy, e[1]-ux, max(width, 1.5*s.l.Scale), c)
	}
}

// hull is a place along her, a share of the length from the stern, and up, in heights of the deck.
func (s *sketchOf) hull(points ...[2]float64) (out []float64) {
	for _, q := range points {
		out = append(out, s.x0+q[0]*s.long, s.sea-q[1]*s.free)
	}
	return out
}

// Places aboard, shares of the length from the stern.
const antennaAlong, sheaveAlong = 0.56, -0.05

// side is the view from the side: hull, antenna, sheave, cable and fish.
func (s *sketchOf) side(r image.Rectangle) {
	l, d := s.l, s.dst
	look.Shape(d, s.hull([2]float64{0, 1}, [2]float64{0.02, -0.4}, [2]float64{0.14, -0.9}, [2]float64{0.8, -0.9}, [2]float64{0.93, -0.4}, [2]float64{1, 1.7}, [2]float64{0.75, 1.25}, [2]float64{0.5, 1}), l.Hull)
	look.Shape(d, s.hull([2]float64{0.48, 0.9}, [2]float64{0.48, 2.5}, [2]float64{0.7, 2.5}, [2]float64{0.73, 1}), l.Hull)
	look.Shape(d, s.hull([2]float64{0.51, 1.7}, [2]float64{0.51, 2.2}, [2]float64{0.67, 2.2}, [2]float64{0.69, 1.7}), l.Sky)
	mast := s.hull([2]float64{antennaAlong, 2.5}, [2]float64{antennaAlong, 3.6})
	look.Trace(d, mast, 2*l.Scale, l.Hull)
	ax, ay := mast[2], mast[3]
	look.Disc(d, ax, ay, 4.5*l.Scale, l.Fish)
	s.write("antenna", ax+float64(l.Px(10)), ay-look.Tall(l.Small)/2, l.Ink, look.Left)
	q := s.hull([2]float64{sheaveAlong, 2.1}, [2]float64{0.03, 0.9}, [2]float64{0.12, 0.9}, [2]float64{0.25, 1.4})
	sx, sy := q[0], q[1]
	look.Stroke(d, sx, sy, q[2], q[3], 2.2*l.Scale, l.Hull)
	look.Stroke(d, sx, sy, q[4], q[5], 2.2*l.Scale, l.Hull)
	look.Stroke(d, sx, sy, q[6], q[7], l.Scale, l.Cable)
	look.Ring(d, sx, sy, 5*l.Scale, 2*l.Scale, l.Fish)

	// Antenna to sheave, above her.
	f, ink, w := s.figure(order.TowOffset)
	y := ay - float64(l.Px(16))
	look.Dotted(d, ax, ay, ax, y-float64(l.Px(4)), l.Scale, 3*l.Scale, 3*l.Scale, l.Soft)
	look.Dotted(d, sx, sy, sx, y-float64(l.Px(4)), l.Scale, 3*l.Scale, 3*l.Scale, l.Soft)
	s.span(sx, y, ax, y, w, ink)
	s.write(s.text(f, " m aft"), (sx+ax)/2, y-look.Tall(l.Small)-float64(l.Px(4)), ink, look.Middle)

	// Sheave above the water, astern of her.
	f, ink, w = s.figure(order.SheaveHeight)
	x := sx - 0.1*float64(r.Dx())
	look.Dotted(d, x, sy, sx, sy, l.Scale, 3*l.Scale, 3*l.Scale, l.Soft)
	s.span(x, sy, x, s.sea, w, ink)
	s.write(s.text(f, " m up"), x-float64(l.Px(8)), (sy+s.sea)/2-look.Tall(l.Small)/2, ink, look.Right)

	// The cable, and straight from sheave to fish.
	fx, fy := float64(r.Min.X)+0.12*float64(r.Dx()), s.sea+0.72*(float64(r.Min.Y)+0.66*float64(r.Dy())-s.sea)
	var cable []float64
	for i := range 25 {
		t := float64(i) / 24
		sag := 0.1 * (sx - fx) * 4 * t * (1 - t)
		cable = append(cable, fx+(sx-fx)*t, fy+(sy-fy)*t+0.6*sag)
	}
	look.Trace(d, cable, 2*l.Scale, l.Cable)
	f, ink, w = s.figure(order.Factor)
	look.Dashed(d, fx, fy, sx, sy, w, 6*l.Scale, ink)
	look.Shape(d, []float64{fx + 20*l.Scale, fy, fx + 13*l.Scale, fy - 5*l.Scale, fx - 18*l.Scale, fy - 4*l.Scale, fx - 24*l.Scale, fy - 9*l.Scale, fx - 24*l.Scale, fy + 9*l.Scale, fx - 18*l.Scale, fy + 4*l.Scale, fx + 13*l.Scale, fy + 5*l.Scale}, l.Fish)
	mx, my := fx+(sx-fx)*0.42, fy+(sy-fy)*0.42
	s.write("straight: "+s.text(f, " of the cable"), mx+float64(l.Px(34)), my, ink, look.Left)
	s.write("fish", fx, fy+float64(l.Px(14)), l.Ink, look.Middle)
	s.placed(r)
}

// placed says under the fish where the desk will have it by the figures as they stand.
func (s *sketchOf) placed(r image.Rectangle) {
	depth, layback, ok := s.p.sheet.placed()
	b := s.p.sheet.brief
	says := "By these figures no place comes out for the fish."
	if ok {
		says = fmt.Sprintf("At %.1f kn with %.0f m of cable it hangs about %.0f m deep, and the desk has it %.1f m astern of the antenna.", b.Plan.Speed/knot, b.Plan.CableOut, depth, layback)
	}
	y := float64(r.Min.Y) + 0.675*float64(r.Dy())
	for _, line := range wrapped(says, s.l.Small, float64(r.Dx()-s.l.Px(24))) {
		s.write(line, float64(r.Min.X+s.l.Px(12)), y, s.l.Ink, look.Left)
		y += look.Tall(s.l.Small)
	}
}

// above is the view from above: how far the sheave is off the middle, and the swath.
func (s *sketchOf) above(r image.Rectangle) {
	l, d := s.l, s.dst
	along := func(points ...[2]float64) (out []float64) {
		for _, q := range points {
			out = append(out, s.x0+q[0]*s.long, s.plan+q[1]*s.beam)
		}
		return out
	}
	look.Shape(d, along([2]float64{0, -0.9}, [2]float64{0.6, -1}, [2]float64{0.85, -0.6}, [2]float64{1, 0}, [2]float64{0.85, 0.6}, [2]float64{0.6, 1}, [2]float64{0, 0.9}), l.Hull)
	look.Shape(d, along([2]float64{0.48, -0.6}, [2]float64{0.7, -0.5}, [2]float64{0.7, 0.5}, [2]float64{0.48, 0.6}), mixedWith(l.Hull, l.Panel))
	q := along([2]float64{antennaAlong, 0}, [2]float64{sheaveAlong, 0})
	look.Disc(d, q[0], q[1], 4.5*l.Scale, l.Fish)
	look.Ring(d, q[2], q[3], 5*l.Scale, 2*l.Scale, l.Fish)
	f, ink, w := s.figure(order.TowSide)
	side := s.plan + 1.55*s.beam
	look.Dotted(d, q[0], q[1], q[2]-float64(l.Px(14)), q[3], l.Scale, 3*l.Scale, 3*l.Scale, l.Soft)
	s.span(q[2], s.plan, q[2], side, w, ink)
	s.write(s.text(f, " m to starboard"), q[2]+float64(l.Px(10)), side-look.Tall(l.Small)/2+float64(l.Px(4)), ink, look.Left)

	// The fish and its swath.
	fx := float64(r.Min.X) + 0.2*float64(r.Dx())
	f, ink, w = s.figure(order.Range)
	reach := 1.9 * s.beam
	look.Fill(d, image.Rect(int(fx)-l.Px(14), int(s.plan-reach), int(fx)+l.Px(14), int(s.plan+reach)), look.Fade(l.Sea, 0.8))
	look.Stroke(d, fx, s.plan, q[2], q[3], 1.5*l.Scale, l.Cable)
	look.Shape(d, []float64{fx + 14*l.Scale, s.plan, fx - 14*l.Scale, s.plan - 3.5*l.Scale, fx - 14*l.Scale, s.plan + 3.5*l.Scale}, l.Fish)
	x := fx - float64(l.Px(22))
	s.span(x, s.plan, x, s.plan-reach, w, ink)
	s.write(s.text(f, " m"), x-float64(l.Px(8)), s.plan-reach/2-look.Tall(l.Small)/2, ink, look.Right)
	cell := float64(l.Px(5))
	for i := range 3 {
		for j := range 3 {
			x, y := fx-1.5*cell+float64(i)*cell, s.plan+reach-float64(3-j)*cell-float64(l.Px(3))
			look.Frame(d, image.Rect(int(x), int(y), int(x+cell)+1, int(y+cell)+1), 1, l.Ink)
		}
	}
	f, ink, _ = s.figure(order.MosaicCell)
	s.write("cells "+s.text(f, " m"), fx+float64(l.Px(20)), s.plan+reach-look.Tall(l.Small), ink, look.Left)
}

// mixedWith is half of each.
func mixedWith(a, b color.RGBA) color.RGBA {
	half := func(x, y uint8) uint8 { return uint8((int(x) + int(y)) / 2) }
	return color.RGBA{half(a.R, b.R), half(a.G, b.G), half(a.B, b.B), 0xff}
}
