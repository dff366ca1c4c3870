//go:build !js

package main

import (
	"image"
	"image/color"
	"math"
	"testing"

	"dryline/cmd/dryline-desk/look"
)

// bounds is the least rectangle about the pixels of a region that are nearly of
// a colour.
func bounds(m *image.RGBA, r image.Rectangle, c color.RGBA, near float64) image.Rectangle {
	var out image.Rectangle
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			if apart(m.RGBAAt(x, y), c) < near {
				out = out.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	return out
}

// cableHas checks that a thin line of the cable's colour comes down to the fish
// through the water between it and the hull, where beside the wanted band nothing
// else is drawn: below the lettering at the surface.
func cableHas(t *testing.T, m *image.RGBA, r, fish image.Rectangle, theme *look.Theme) {
	t.Helper()
	at := middle(fish)
	var hull image.Rectangle // its columns that are more than a stroke
	for x := fish.Max.X; x < r.Max.X; x++ {
		if up := image.Rect(x, r.Min.Y, x+1, fish.Min.Y); like(m, up, theme.Hull) >= 8 {
			hull = hull.Union(bounds(m, up, theme.Hull, 12))
		}
	}
	open := image.Rect(at.X+2, hull.Max.Y+(at.Y-hull.Max.Y)/3, hull.Min.X, fish.Min.Y-4)
	if open.Dy() < 20 || open.Dx() < 20 {
		t.Fatalf("there are %v between the fish and the hull, want room for a cable", open)
	}
	found, last := 0, open.Max.X
	for y := open.Min.Y; y < open.Max.Y; y++ {
		n, sum := 0, 0
		for x := open.Min.X; x < open.Max.X; x++ {
			if apart(m.RGBAAt(x, y), theme.Cable) < 80 {
				n, sum = n+1, sum+x
			}
		}
		if n == 0 {
			continue
		}
		found++
		if n > 8 {
			t.Errorf("row %d: %d pixels of cable, want a thin line", y, n)
		}
		if x := sum / n; x > last+1 {
			t.Errorf("row %d: the cable is at %d, above it at %d; want it to come down astern", y, x, last)
		} else {
			last = x
		}
	}
	if found < open.Dy()*9/10 || last > at.X+12 {
		t.Errorf("%d of %d rows between %v have a cable, the last at %d; want it to reach the fish", found, open.Dy(), open, last)
	}
}

// bandHas checks the wanted band: two level edges of its colour, one above the
// other at the fish's place, and a tint between them that the water has not.
func bandHas(t *testing.T, m *image.RGBA, fish image.Rectangle, theme *look.Theme) {
	t.Helper()
	at := middle(fish)
	var edges []int
	for y := fish.Min.Y - 120; y < fish.Max.Y+60; y++ {
		n := 0
		for x := at.X - 20; x <= at.X+20; x++ {
			if apart(m.RGBAAt(x, y), theme.Band) < 40 {
				n++
			}
		}
		if n >= 34 && (len(edges) == 0 || y > edges[len(edges)-1]+2) {
			edges = append(edges, y)
		}
	}
	if len(edges) != 2 || edges[1]-edges[0] < 15 {
		t.Errorf("the wanted band has edges at %v about the fish at %v, want two with room between", edges, at)
		return
	}
	y := edges[0] + 5
	in, out := m.RGBAAt(at.X-18, y), m.RGBAAt(at.X-30, y)
	green := func(c color.RGBA) int { return 2*int(c.G) - int(c.R) - int(c.B) }
	if green(in) < green(out)+15 {
		t.Errorf("inside the wanted band it is %v, outside %v; want it tinted", in, out)
	}
}

// markHas checks that a contact is bracketed and named in the waterfall, and that its echo and the side its
// shadow falls to are as they were.
func markHas(t *testing.T, before, after *image.RGBA, at image.Point, theme *look.Theme) {
	t.Helper()
	arcs := func(m *image.RGBA) (along, across int) {
		for i := range 36 {
			sin, cos := math.Sincos(float64(i) * math.Pi / 18)
			best := 1e9
			for r := 12.0; r <= 14; r += 0.5 {
				best = min(best, apart(m.RGBAAt(at.X+int(math.Round(r*cos)), at.Y+int(math.Round(r*sin))), theme.Mark))
			}
			switch {
			case best >= 60:
			case math.Abs(sin) > 0.7:
				along++
			case math.Abs(cos) > 0.9:
				across++
			}
		}
		return along, across
	}
	was, _ := arcs(before)
	now, across := arcs(after)
	if was > 5 || now < 16 || across > 3 {
		t.Errorf("of 18 directions ahead and astern of the contact %d had an arc before it was marked, %d have it now, and %d of 12 to the sides; want few, nearly all, few", was, now, across)
	}
	changed := 0
	for y := at.Y - 9; y <= at.Y+9; y++ {
		for x := at.X - 9; x <= at.X+40; x++ {
			if (x > at.X+9 && max(y-at.Y, at.Y-y) > 3) || math.Hypot(float64(x-at.X), float64(y-at.Y)) > 9 && x <= at.X+9 {
				continue
			}
			if apart(before.RGBAAt(x, y), after.RGBAAt(x, y)) > 40 {
				changed++
			}
		}
	}
	if changed > 10 {
		t.Errorf("%d pixels of echo and shadow are covered by the mark, want none", changed)
	}
	// The name stands to port of a mark to starboard, on a ground of its own.
	name := image.Rect(at.X-44, at.Y-8, at.X-15, at.Y+8)
	ground := func(m *image.RGBA) (n int) {
		for y := name.Min.Y; y < name.Max.Y; y++ {
			for x := name.Min.X; x < name.Max.X; x++ {
				if apart(m.RGBAAt(x, y), theme.Panel) < 40 {
					n++
				}
			}
		}
		return n
	}
	if was, now := ground(before), ground(after); now < was+60 {
		t.Errorf("the ground of the contact's name has %d pixels, %d before it was marked", now, was)
	}
}
