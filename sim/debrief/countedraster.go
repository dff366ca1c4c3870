package debrief

import (
	"math"
	"slices"

	"dryline/seabed"
)

// counted is the area in cells, each with what came of it.
type counted struct {
	raster
	line []uint16 // that a cell was seen on, plus one
}

// raster is the area in cells, aligned with those of the mosaic.
type raster struct {
	cell   float64
	i0, j0 int // of the south-west cell
	nx, ny int
	state  []Reason
	inside int
}

// maxCells bounds the raster coverage is counted on. A larger area is counted
// on a coarser one, whose cell the report gives.
const maxCells = 16_000_000

func newRaster(corners []seabed.Point, cell float64) raster {
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, p := range corners {
		x0, x1, y0, y1 = min(x0, p.X), max(x1, p.X), min(y0, p.Y), max(y1, p.Y)
	}
	for cells := (x1 - x0) * (y1 - y0); cells/(cell*cell) > maxCells; {
		cell *= 2
	}
	r := raster{cell: cell, i0: int(math.Floor(x0 / cell)), j0: int(math.Floor(y0 / cell))}
	r.nx, r.ny = int(math.Ceil(x1/cell))-r.i0, int(math.Ceil(y1/cell))-r.j0
	r.state = make([]Reason, max(r.nx, 0)*max(r.ny, 0))
	r.fill(corners, func(n int) {
		r.inside++
		r.state[n] = noSwath
	})
	return r
}

// fill calls f with the cells whose middle lies in a polygon. Rows are cut by its
// edges and filled between every other cut, so that polygons with a common edge
// share no cell and leave none out.
func (r *raster) fill(corners []seabed.Point, f func(n int)) {
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range corners {
		low, high = min(low, p.Y), max(high, p.Y)
	}
	from := max(int(math.Floor(low/r.cell))-r.j0, 0)
	to := min(int(math.Ceil(high/r.cell))-r.j0, r.ny)
	var room [8]float64
	for j := from; j < to; j++ {
		y := (float64(r.j0+j) + 0.5) * r.cell
		cuts := room[:0]
		q := corners[len(corners)-1]
		for _, p := range corners {
			if (p.Y > y) != (q.Y > y) {
				cuts = append(cuts, p.X+(y-p.Y)*(q.X-p.X)/(q.Y-p.Y))
			}
			q = p
		}
		slices.Sort(cuts)
		for k := 0; k+1 < len(cuts); k += 2 {
			first := max(int(math.Ceil(cuts[k]/r.cell-0.5))-r.i0, 0)
			last := min(int(math.Ceil(cuts[k+1]/r.cell-0.5))-r.i0, r.nx)
			for i := first; i < last; i++ {
				f(j*r.nx + i)
			}
		}
	}
}

// count lays every ping on the area where the fish truly was: what the sonar looked
// at, wherever the desk believes it lies. A ping stands for the strip to the next.
func count(corners []seabed.Point, cell float64, pings []judged) *counted {
	c := &counted{raster: newRaster(corners, cell)}
	c.line = make([]uint16, len(c.state))
	for i := range pings {
		if i+1 == len(pings) || pings[i+1].line != pings[i].line {
			continue
		}
		a, b := &pings[i], &pings[i+1]
		apart := math.Hypot(b.truth.X-a.truth.X, b.truth.Y-a.truth.Y)
		if !(apart < Bridged) {
			continue
		}
		for side := range a.thirds {
			c.side(a, b, side)
		}
	}
	return c
}

// side lays one side of the strip between two pings.
func (c *counted) side(a, b *judged, side int) {
	turn := math.Pi / 2
	if side == 0 {
		turn = -turn
	}
	ax, ay := math.Sincos(a.truth.Heading + turn)
	bx, by := math.Sincos(b.truth.Heading + turn)
	strip := func(from, to float64, as Reason) {
		// Both ends take the first ping's ranges: what it saw stands for the strip.
		if !(to > from) {
			return
		}
		quad := [4]seabed.Point{
			{X: a.truth.X + ax*from, Y: a.truth.Y + ay*from}, {X: a.truth.X + ax*to, Y: a.truth.Y + ay*to},
			{X: b.truth.X + bx*to, Y: b.truth.Y + by*to}, {X: b.truth.X + bx*from, Y: b.truth.Y + by*from},
		}
		c.fill(quad[:], func(n int) { c.take(n, as, uint16(a.line+1)) })
	}
	whole := func(r Reason) Reason {
		if a.whole != seen {
			return a.whole
		}
		return r
	}
	strip(0, min(a.gap, a.ends), whole(underFish))
	height, end := a.truth.Altitude, math.Hypot(a.ends, a.truth.Altitude)
	from := min(a.gap, a.ends)
	for k, as := range a.thirds[side] {
		slant := height + (end-height)*float64(k+1)/3
		to := math.Sqrt(max(slant*slant-height*height, 0))
		inner := min(max(to, from), max(a.reach, from))
		strip(from, inner, whole(as))
		strip(inner, max(to, inner), whole(a.beyond))
		from = max(from, to)
	}
}

// take keeps the best that came of a cell.
func (c *counted) take(n int, as Reason, line uint16) {
	have := c.state[n]
	switch {
	case have == outside:
	case as == seen && have == seen && c.line[n] != line:
		c.state[n] = seenTwice
	case as > have:
		c.state[n], c.line[n] = as, line
	}
}

// at returns what came of a point.
func (c *counted) at(x, y float64) Reason {
	i, j := int(math.Floor(x/c.cell))-c.i0, int(math.Floor(y/c.cell))-c.j0
	if i < 0 || j < 0 || i >= c.nx || j >= c.ny {
		return outside
	}
	return c.state[j*c.nx+i]
}

// shares are the cells by what came of them.
func (c *counted) shares() (cells [seenTwice + 1]int) {
	for _, r := range c.state {
		cells[r]++
	}
	return cells
}
