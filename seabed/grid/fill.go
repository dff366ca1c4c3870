package grid

import "math"

// Fill fills the holes: those within so many metres of a value are interpolated and
// marked Filled, what lies further gets the nearest value and stays Unknown.
//
// The interpolation is a membrane held by the cells around the hole (Laplace's equation
// by relaxation): a plane stays a plane, and nothing swings over. It returns how many
// cells it filled and how many stay unknown.
func (g *Grid) Fill(within float64) (filled, unknown int) {
	nearest := g.nearest()
	var open []int
	for k, z := range g.Z {
		if z == z {
			continue
		}
		from := nearest[k]
		g.Z[k] = g.Z[from]
		dx, dy := float64(k%g.NX-from%g.NX)*g.DX, float64(k/g.NX-from/g.NX)*g.DY
		if math.Hypot(dx, dy) <= within {
			g.Mark[k] = Filled
			open = append(open, k)
			filled++
		} else {
			g.Mark[k] = Unknown
			unknown++
		}
	}
	g.relax(open)
	return filled, unknown
}

// nearest finds for every node the node with a value that is nearest, all but exactly:
// the nearest of a neighbour is handed on, in two sweeps there and back
// (P. E. Danielsson, Computer Graphics and Image Processing 14, 227-248, 1980).
func (g *Grid) nearest() []int {
	from := make([]int, len(g.Z))
	for k, z := range g.Z {
		from[k] = k
		if z != z {
			from[k] = -1
		}
	}
	better := func(k, i, j int) {
		if i < 0 || j < 0 || i >= g.NX || j >= g.NY || from[j*g.NX+i] < 0 {
			return
		}
		other := from[j*g.NX+i]
		away := func(f int) float64 {
			return math.Hypot(float64(k%g.NX-f%g.NX)*g.DX, float64(k/g.NX-f/g.NX)*g.DY)
		}
		if from[k] < 0 || away(other) < away(from[k]) {
			from[k] = other
		}
	}
	for range 2 {
		for k := range from {
			i, j := k%g.NX, k/g.NX
			better(k, i-1, j)
			better(k, i-1, j-1)
			better(k, i, j-1)
			better(k, i+1, j-1)
		}
		for k := len(from) - 1; k >= 0; k-- {
			i, j := k%g.NX, k/g.NX
			better(k, i+1, j)
			better(k, i+1, j+1)
			better(k, i, j+1)
			better(k, i-1, j+1)
		}
	}
	return from
}

// relax lets the open nodes settle between their neighbours, over-relaxed, until none
// moves by a millimetre or it has gone on long enough.
func (g *Grid) relax(open []int) {
	const (
		rounds = 400
		over   = 1.7
		still  = 0.0005 // metres
	)
	for range rounds {
		moved := 0.0
		for _, k := range open {
			i, j := k%g.NX, k/g.NX
			sum, weight := 0.0, 0.0
			take := func(at int, w float64) {
				if g.Mark[at] != Unknown {
					sum, weight = sum+w*float64(g.Z[at]), weight+w
				}
			}
			wx, wy := 1/(g.DX*g.DX), 1/(g.DY*g.DY)
			if i > 0 {
				take(k-1, wx)
			}
			if i < g.NX-1 {
				take(k+1, wx)
			}
			if j > 0 {
				take(k-g.NX, wy)
			}
			if j < g.NY-1 {
				take(k+g.NX, wy)
			}
			if weight == 0 {
				continue
			}
			step := over * (sum/weight - float64(g.Z[k]))
			g.Z[k] += float32(step)
			moved = max(moved, math.Abs(step))
		}
		if moved < still {
			return
		}
	}
}
