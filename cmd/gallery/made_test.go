package main

import (
	"math"
	"testing"

	"dryline/sonar"
	"dryline/sonar/recorder"
)

// A hulk's echo is drawn out along its heading, a hull's length over its width; an
// outcrop's is not. Its shadow stands for its height (IHO C-13, chapter 4, 2.3.11.4).
func TestHulkHasTheShapeOfAHull(t *testing.T) {
	t.Parallel()
	m := left(t, "hulk")
	ratio, heading := spread(m)
	o := m.exercise.Seabed.Objects[0].Whole()
	near(t, "heading of the hulk by its echo, degrees", heading/deg, o.Heading/deg, 10)
	within(t, "hulk: long over short axis", ratio, 2.2, 6)
	most := 0.0
	for y := o.At.Y - 8; y <= o.At.Y+9; y++ {
		i0, i1 := m.pings(y, y+0.5)
		h := m.height(i0, i1)
		end := 0.0
		for r := 16.0; r < 45; r += m.bin {
			if m.level(stb, i0, i1, r-0.2, r+0.2) < 0.3 {
				end = r
			}
		}
		start := end
		for start > 16 && m.level(stb, i0, i1, start-0.6, start) < 0.3 {
			start -= m.bin
		}
		g, tip := math.Sqrt(start*start-h*h), math.Sqrt(max(end*end-h*h, 0))
		most = max(most, h*(tip-g)/tip)
	}
	near(t, "height of the hulk by its longest shadow, metres", most, o.Height, 0.5)
	ratio, _ = spread(right(t, "hulk"))
	within(t, "outcrop: long over short axis", ratio, 1, 2)
}

// spread is how far the bright cells to starboard are drawn out: long over short axis,
// and the bearing of the long one, by their second moments over the ground.
func spread(m *measured) (ratio, bearing float64) {
	const step = 4 // pings
	var x, y []float64
	for i := 0; i+step < len(m.heard); i += step {
		h, p := m.heard[i].height, &m.heard[i+step/2].pose
		for g := 12.0; g < 36; g += 0.5 {
			r := math.Hypot(g, h)
			if m.level(stb, i, i+step, r-0.2, r+0.2) > 2.2 {
				x, y = append(x, p.X+g), append(y, p.Y)
			}
		}
	}
	mx, my := average(x), average(y)
	xx, xy, yy := 0.0, 0.0, 0.0
	for i := range x {
		dx, dy := x[i]-mx, y[i]-my
		xx, xy, yy = xx+dx*dx, xy+dx*dy, yy+dy*dy
	}
	mean, root := (xx+yy)/2, math.Hypot((xx-yy)/2, xy)
	return math.Sqrt((mean + root) / (mean - root)), math.Atan2(2*xy, yy-xx) / 2
}

// Too much gain drives the record to full scale, where rock is no brighter than the
// gravel it stood out from.
func TestTooMuchGainClips(t *testing.T) {
	t.Parallel()
	good, bad := left(t, "gain"), right(t, "gain")
	full := func(m *measured, y0, y1 float64) float64 {
		i0, i1 := m.pings(y0, y1)
		k0, k1 := m.samples(14, 30)
		n := 0
		for i := i0; i < i1; i++ {
			for _, v := range m.heard[i].sides[sonar.Port][k0:k1] {
				if v == recorder.FullScale {
					n++
				}
			}
		}
		return float64(n) / float64((i1-i0)*(k1-k0))
	}
	within(t, "share at full scale, gain as it should be", full(good, 225, 250), 0, 0.15)
	within(t, "share at full scale, sand with too much gain", full(bad, 190, 205), 0.5, 1)
	over := func(m *measured) float64 { // rock over sand
		a0, a1 := m.pings(225, 250)
		b0, b1 := m.pings(190, 205)
		return m.mean(sonar.Port, a0, a1, 14, 30) / m.mean(sonar.Port, b0, b1, 14, 30)
	}
	within(t, "rock over sand, gain as it should be", over(good), 2, 10)
	within(t, "rock over sand, too much gain", over(bad), 0.8, 1.2)
}

// The fish flies at 10 to 15 % of the range scale (common practice, no source).
func TestRangeScalesAreFlownAtTheirHeight(t *testing.T) {
	t.Parallel()
	for _, m := range []*measured{left(t, "range"), right(t, "range")} {
		within(t, "height over range scale", m.height(0, len(m.heard))/m.exercise.Sonar.RangeScale, 0.1, 0.15)
	}
}

// A plume stands on its side alone, in the water as near as its own slant range, and
// the bottom track stays on the floor.
func TestPlumeStandsOnOneSide(t *testing.T) {
	t.Parallel()
	off, on := left(t, "seep"), right(t, "seep")
	i0, i1 := on.pings(194, 204)
	most := 0.0
	for i := range on.heard {
		most = max(most, math.Abs(on.heard[i].height-off.heard[i].height))
	}
	within(t, "bottom track with the plume off that without, metres", most, 0, 0.3)
	h := off.height(i0, i1)
	water := func(m *measured, side sonar.Side) float64 { return m.mean(side, i0, i1, 3.5, h-0.5) }
	within(t, "water to starboard over that without the plume", water(on, stb)/water(off, stb), 3, 1e4)
	within(t, "water to port over that without the plume", water(on, sonar.Port)/water(off, sonar.Port), 0.99, 1.01)
	near(t, "first sample of the plume, metres", differ(off, on, stb), 4.4, 1)
}
