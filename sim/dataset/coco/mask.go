package coco

import "math"

// Mask is a picture of set and unset pixels, row by row.
type Mask struct {
	Width, Height int
	Set           []bool
}

// NewMask is a mask with nothing set.
func NewMask(width, height int) *Mask {
	return &Mask{width, height, make([]bool, width*height)}
}

// at reports whether a pixel is set; outside of the picture none is.
func (m *Mask) at(x, y int) bool {
	return x >= 0 && y >= 0 && x < m.Width && y < m.Height && m.Set[y*m.Width+x]
}

// Area is how many pixels are set.
func (m *Mask) Area() int {
	n := 0
	for _, v := range m.Set {
		if v {
			n++
		}
	}
	return n
}

// Box bounds the set pixels: left, top, width, height; all 0 if none are.
func (m *Mask) Box() [4]float64 {
	x0, y0, x1, y1 := math.MaxInt, math.MaxInt, -1, -1
	for i, v := range m.Set {
		if v {
			x, y := i%m.Width, i/m.Width
			x0, y0, x1, y1 = min(x0, x), min(y0, y), max(x1, x), max(y1, y)
		}
	}
	if x1 < 0 {
		return [4]float64{}
	}
	return [4]float64{float64(x0), float64(y0), float64(x1 - x0 + 1), float64(y1 - y0 + 1)}
}

// Runs are the lengths of runs of unset and set pixels in turn, down the columns.
func (m *Mask) Runs() []int {
	runs, now, n := []int{}, false, 0
	for x := range m.Width {
		for y := range m.Height {
			if v := m.Set[y*m.Width+x]; v != now {
				runs, now, n = append(runs, n), v, 0
			}
			n++
		}
	}
	return append(runs, n)
}

// Pack writes runs as the format's text.
func Pack(runs []int) string {
	var b []byte
	for i, x := range runs {
		if i > 2 {
			x -= runs[i-2]
		}
		for more := true; more; {
			c := x & 0x1f
			x >>= 5
			if more = x != 0; c&0x10 != 0 {
				more = x != -1
			}
			if more {
				c |= 0x20
			}
			b = append(b, byte(c+48))
		}
	}
	return string(b)
}

// Polygons are the outer outlines of the set pixels along their edges, each as x, y, x, y
// and so on; pixels that meet at a corner alone are apart. Holes, which the format's
// polygons have no way to say, are filled; the run lengths have them.
func (m *Mask) Polygons() [][]float64 {
	type point struct{ x, y int }
	// Edges with the set pixel to their right, by where they begin; where four meet two begin.
	from := map[point][]point{}
	add := func(a, b point) { from[a] = append(from[a], b) }
	for i, v := range m.Set {
		if !v {
			continue
		}
		x, y := i%m.Width, i/m.Width
		if !m.at(x, y-1) {
			add(point{x, y}, point{x + 1, y})
		}
		if !m.at(x+1, y) {
			add(point{x + 1, y}, point{x + 1, y + 1})
		}
		if !m.at(x, y+1) {
			add(point{x + 1, y + 1}, point{x, y + 1})
		}
		if !m.at(x-1, y) {
			add(point{x, y + 1}, point{x, y})
		}
	}
	var all [][]float64
	for i, v := range m.Set { // from the top left on, so that the order is the picture's
		start := point{i % m.Width, i / m.Width}
		for v && !m.at(start.x, start.y-1) && len(from[start]) > 0 && has(from[start], point{start.x + 1, start.y}) {
			var loop []point
			at, come := start, point{0, 0}
			for {
				next := from[at]
				k := 0
				if len(next) == 2 { // turn right: stay with the pixel one is at
					right := point{-come.y, come.x}
					if (point{next[1].x - at.x, next[1].y - at.y}) == right {
						k = 1
					}
				}
				if len(loop) == 0 {
					for j, p := range next {
						if p == (point{start.x + 1, start.y}) {
							k = j
						}
					}
				}
				to := next[k]
				if len(next) == 1 {
					delete(from, at)
				} else {
					from[at] = []point{next[1-k]}
				}
				step := point{to.x - at.x, to.y - at.y}
				if step != come || len(loop) == 0 {
					loop = append(loop, at)
				}
				at, come = to, step
				if at == start {
					break
				}
			}
			area := 0
			var flat []float64
			for j, p := range loop {
				q := loop[(j+1)%len(loop)]
				area += p.x*q.y - q.x*p.y
				flat = append(flat, float64(p.x), float64(p.y))
			}
			if area > 0 { // clockwise in a picture whose y goes down: outer
				all = append(all, flat)
			}
		}
	}
	return all
}

func has[T comparable](list []T, v T) bool {
	for _, x := range list {
		if x == v {
			return true
		}
	}
	return false
}
