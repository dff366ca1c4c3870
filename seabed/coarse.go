package seabed

import "math"

// The noises are sampled on a 1 m grid around the tile and interpolated: none
// of them holds waves shorter than 4 m.
const (
	coarseStep   = 1.0
	coarseMargin = 2
	coarseSide   = int(tileSize/coarseStep) + 2*coarseMargin + 1
	// coarseReach is how far from the middle of the tile the grid's corners are, metres,
	// and more by far than that is rounded by.
	coarseReach = (tileSize/2+coarseMargin*coarseStep)*math.Sqrt2 + 1e-3
)

// coarse is a field on the 1 m grid around a tile.
type coarse [coarseSide * coarseSide]float64

// eachCoarse calls f with the index and position of every node of the grid in the rows from
// low to before high; (x0, y0) is the tile's south-west corner. Who adds up noises goes over the grid
// for each: the processor then foresees what a noise does at the next node, a fifth of its time.
func eachCoarse(x0, y0 float64, low, high int, f func(n int, x, y float64)) {
	for j := low; j < high; j++ {
		y := y0 + float64(j-coarseMargin)*coarseStep
		for i := range coarseSide {
			f(j*coarseSide+i, x0+float64(i-coarseMargin)*coarseStep, y)
		}
	}
}

// nodes interpolates the grid to the tile's nodes by separable cubics, to the rows of them
// from one to before another.
func (c *coarse) nodes(dst *field, from, to int) {
	if c.all(0) || c.all(1) { // as cubics give exactly, over much of the ground
		v := float32(c[0])
		for n := range dst {
			dst[n] = v
		}
		return
	}
	var rows [4][tileSide]float64 // the last four of the grid, interpolated along
	done, _ := coarseRows(from, to)
	for j := from; j < to; j++ {
		k, q := cubicAt(j)
		for ; done < k+3; done++ {
			c.along(&rows[done%4], done)
		}
		line := (*[tileSide]float32)(dst[j*tileSide:])
		r0, r1, r2, r3 := &rows[(k-1)%4], &rows[k%4], &rows[(k+1)%4], &rows[(k+2)%4]
		if q == 0 { // the cubic goes through them
			for i, z := range r1 {
				line[i] = float32(z)
			}
			continue
		}
		w := quarters[q]
		for i := range line {
			line[i] = float32(w[0]*r0[i] + w[1]*r1[i] + w[2]*r2[i] + w[3]*r3[i])
		}
	}
}

// coarseRows are the rows of the grid, from one to before another, that some rows of nodes
// need.
func coarseRows(from, to int) (low, high int) {
	first, _ := cubicAt(from)
	last, _ := cubicAt(to - 1)
	return first - 1, last + 3
}

// along interpolates a row of the grid to the columns of the tile's nodes.
func (c *coarse) along(dst *[tileSide]float64, j int) {
	row := (*[coarseSide]float64)(c[j*coarseSide:])
	for i := range dst {
		k, q := cubicAt(i)
		if q == 0 {
			dst[i] = row[k]
			continue
		}
		w, g := &quarters[q], row[k-1:k+3]
		dst[i] = w[0]*g[0] + w[1]*g[1] + w[2]*g[2] + w[3]*g[3]
	}
}

// all reports whether the field is one value throughout.
func (c *coarse) all(v float64) bool {
	for _, z := range c {
		if z != v {
			return false
		}
	}
	return true
}

// nodesPerCoarse is how many steps of nodes go into one of the grid.
const nodesPerCoarse = int(coarseStep / nodeStep)

// cubicAt gives the coarse index before a node and how many nodes past it that lies.
func cubicAt(node int) (k, q int) {
	s := uint(node - tileMargin + coarseMargin*nodesPerCoarse)
	return int(s / uint(nodesPerCoarse)), int(s % uint(nodesPerCoarse))
}

// quarters are the Catmull-Rom weights of the nodes between two of the grid.
var quarters = func() (w [nodesPerCoarse][4]float64) {
	for q := range w {
		w[q] = catmullRom(float64(q) / float64(nodesPerCoarse))
	}
	return w
}()

// catmullRom returns the weights of the four neighbours at t in 0..1 between
// the second and third: the C1 cubic through its nodes (Catmull and Rom 1974).
func catmullRom(t float64) [4]float64 {
	t2, t3 := t*t, t*t*t
	return [4]float64{
		0.5 * (-t3 + 2*t2 - t),
		0.5 * (3*t3 - 5*t2 + 2),
		0.5 * (-3*t3 + 4*t2 + t),
		0.5 * (t3 - t2),
	}
}
