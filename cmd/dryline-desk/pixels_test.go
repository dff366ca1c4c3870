//go:build !js

package main

import (
	"image"
	"image/color"
	"math"
	"slices"
)

// grey is how bright a pixel is, 0 to 255 (the luma weights of Rec. ITU-R
// BT.601-7, 2.5.1).
func grey(m *image.RGBA, x, y int) float64 {
	c := m.RGBAAt(x, y)
	return 0.299*float64(c.R) + 0.587*float64(c.G) + 0.114*float64(c.B)
}

// spread is the mean and the standard deviation of the grey of a region.
func spread(m *image.RGBA, r image.Rectangle) (mean, deviation float64) {
	var sum, square float64
	r = r.Intersect(m.Rect)
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			g := grey(m, x, y)
			sum, square = sum+g, square+g*g
		}
	}
	n := float64(max(r.Dx()*r.Dy(), 1))
	mean = sum / n
	return mean, math.Sqrt(max(square/n-mean*mean, 0))
}

// apart is how far two colours are from each other, 0 to 441.
func apart(a, b color.RGBA) float64 {
	dr, dg, db := float64(a.R)-float64(b.R), float64(a.G)-float64(b.G), float64(a.B)-float64(b.B)
	return math.Sqrt(dr*dr + dg*dg + db*db)
}

// like counts the pixels of a region that are nearly of a colour.
func like(m *image.RGBA, r image.Rectangle, c color.RGBA) int {
	n := 0
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			if apart(m.RGBAAt(x, y), c) < 12 {
				n++
			}
		}
	}
	return n
}

// colours counts the different colours of a region.
func colours(m *image.RGBA, r image.Rectangle) int {
	seen, last := map[color.RGBA]bool{}, color.RGBA{}
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			if c := m.RGBAAt(x, y); c != last {
				seen[c], last = true, c
			}
		}
	}
	return len(seen)
}

// magenta counts pixels of the colour that a picture that failed to load has.
func magenta(m *image.RGBA) int {
	n := 0
	for i := 0; i+2 < len(m.Pix); i += 4 {
		if m.Pix[i] > 200 && m.Pix[i+1] < 80 && m.Pix[i+2] > 200 {
			n++
		}
	}
	return n
}

// echo is a strong echo and its shadow in a picture of the waterfall.
type echo struct {
	left, right image.Point // ends of the echo
	shadow      image.Point // far end of the shadow
}

// strongest finds the largest group of bright pixels of a region to starboard
// of the nadir, and the shadow beyond it.
func strongest(m *image.RGBA, r image.Rectangle) (echo, bool) {
	const bright, dark = 165, 45 // shadows fill a little
	seen := map[image.Point]bool{}
	var groups [][]image.Point
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			if group := spill(m, r, image.Pt(x, y), bright, seen); len(group) >= 12 {
				groups = append(groups, group)
			}
		}
	}
	slices.SortStableFunc(groups, func(a, b []image.Point) int { return len(b) - len(a) })
	for _, group := range groups {
		e := echo{left: group[0], right: group[0]}
		for _, p := range group {
			if p.X < e.left.X {
				e.left = p
			}
			if p.X > e.right.X {
				e.right = p
			}
		}
		// Some pixels on, past the blurred edge, the shadow begins.
		e.shadow = e.right
		for x := e.right.X + 1; x < r.Max.X; x++ {
			if grey(m, x, e.right.Y) < dark {
				e.shadow.X = x
			} else if x > e.right.X+6 && x > e.shadow.X+3 {
				break
			}
		}
		if e.shadow.X > e.right.X+6 {
			return e, true
		}
	}
	return echo{}, false
}

// spill collects the pixels that hang together with one and are as bright.
func spill(m *image.RGBA, r image.Rectangle, from image.Point, bright float64, seen map[image.Point]bool) []image.Point {
	var group []image.Point
	todo := []image.Point{from}
	for len(todo) > 0 {
		p := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		if !p.In(r) || seen[p] || grey(m, p.X, p.Y) < bright {
			continue
		}
		seen[p] = true
		group = append(group, p)
		for _, d := range []image.Point{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
			todo = append(todo, p.Add(d))
		}
	}
	return group
}
