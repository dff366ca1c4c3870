package app

import (
	"fmt"
	"image"
	"math"
	"slices"

	"dryline/cmd/dryline-desk/look"
	"dryline/sim/exercise"
	"dryline/sim/order"
)

// castSays tells what the cast says of the water, or nothing.
func (s *mobilisation) castSays() string {
	b := s.brief
	c := &b.Cast
	if len(c.Speed) == 0 {
		return ""
	}
	says := fmt.Sprintf("A cast was taken before the watch, a reading every %g m, each good to %.1f m/s (95 %%). It has %.1f m/s at the surface and %.1f m/s in the mean over the %.1f m to the floor, by the time sound takes",
		c.Step, exercise.CastError, c.At(0), c.Mean(0, c.Floor), c.Floor)
	if h := b.Plan.Altitude; h > 0 && h < c.Floor {
		says += fmt.Sprintf("; over the last %g m, which the fish looks through, %.1f m/s", h, c.Mean(c.Floor-h, c.Floor))
	}
	return says + "."
}

// speedAxis is from where to where speeds are drawn, and the step of its ticks, m/s.
func speedAxis(all []float64) (low, high, step float64) {
	low, high = slices.Min(all), slices.Max(all)
	for _, step = range []float64{1, 2, 5, 10, 20, 50, 100} {
		if high-low < 4*step {
			break
		}
	}
	low, high = math.Floor(low/step)*step, math.Ceil(high/step)*step
	if high-low < 2*step { // so that one that is straight has room for its scatter
		low, high = low-step, high+step
	}
	return low, high, step
}

// cast draws the sound speed by depth into a part of the water: the readings of the cast, and the one speed the
// desk works with, over an axis of speeds at the foot and one of depths at the left.
func (s *sketchOf) cast(at image.Rectangle) {
	l, d := s.l, s.dst
	c := &s.p.sheet.brief.Cast
	f, ink, width := s.figure(order.SoundSpeed)
	desk := f.given
	if v, ok := f.value(); ok && s.p.sheet.fault(f) == "" {
		desk = v
	}
	low, high, step := speedAxis(append([]float64{desk}, c.Speed...))
	x0, y0, x1, y1 := float64(at.Min.X), float64(at.Min.Y), float64(at.Max.X), float64(at.Max.Y)
	x := func(speed float64) float64 { return x0 + (speed-low)/(high-low)*(x1-x0) }
	y := func(depth float64) float64 { return y0 + depth/max(c.Floor, 1)*(y1-y0) }
	tick, half := 4*l.Scale, look.Tall(l.Small)/2

	look.Stroke(d, x0, y1, x1, y1, l.Scale, l.Ink)
	look.Stroke(d, x0, y0, x0, y1, l.Scale, l.Ink)
	for v := low; v <= high+step/2; v += step {
		look.Stroke(d, x(v), y1, x(v), y1+tick, l.Scale, l.Ink)
	}
	s.write(fmt.Sprintf("%.0f", low), x0, y1+tick, l.Ink, look.Left)
	s.write(fmt.Sprintf("%.0f", high), x1, y1+tick, l.Ink, look.Right)
	s.write("m/s", (x0+x1)/2, y1+tick, l.Ink, look.Middle)

	look.Dashed(d, x(desk), y0, x(desk), y1, 1.5*width, 5*l.Scale, ink)
	says := "desk " + s.text(f, "")
	room := look.Wide(says, l.Small)/2 + float64(l.Px(4)) // depths stand to the left of the axis
	s.write(says, min(max(x(desk), x0+room), x1-room+float64(l.Px(20))), y0-2*half-float64(l.Px(2)), ink, look.Middle)
	if len(c.Speed) == 0 {
		return
	}
	for _, depth := range []float64{0, c.Floor} {
		look.Stroke(d, x0-tick, y(depth), x0, y(depth), l.Scale, l.Ink)
		s.write(fmt.Sprintf("%.0f m", depth), x0-tick-float64(l.Px(3)), y(depth)-half, l.Ink, look.Right)
	}
	var line []float64
	for i, v := range c.Speed {
		line = append(line, x(v), y(float64(i)*c.Step))
	}
	look.Trace(d, line, 2*l.Scale, l.Wake)
	for i := 0; i < len(line); i += 2 {
		look.Disc(d, line[i], line[i+1], 2*l.Scale, l.Wake)
	}
	// The word stands beside the middle of the line, on the side where there is more room.
	mid := len(c.Speed) / 2
	left, right := line[2*mid], line[2*mid]
	for i := max(mid-2, 0); i <= min(mid+2, len(c.Speed)-1); i++ {
		left, right = min(left, line[2*i]), max(right, line[2*i])
	}
	beside, align := right+float64(l.Px(6)), look.Left
	if left-x0 > x1-right {
		beside, align = left-float64(l.Px(6)), look.Right
	}
	s.write("cast", beside, line[2*mid+1]-half, l.Ink, align)
}
