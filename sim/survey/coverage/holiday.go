package coverage

import (
	"cmp"
	"math"
	"slices"
)

// Holiday is a stretch of the area that was not seen.
type Holiday struct {
	SquareMetres float64
	Widest       float64 // side of the largest square in it, metres
	X, Y         float64 // its middle
	Reason       string
	Fill         []Line // that would fill it, the shortest in all

	cells []Point // middles
}

// Cells are the middles of the cells it is made of. They are not to be changed.
func (h *Holiday) Cells() []Point { return h.cells }

// feature is the side of the smallest thing a holiday must not hide, metres (NOAA
// Hydrographic Surveys Specifications and Deliverables 2021, 6.1.2.1).
const feature = 1.0

// Holidays are the unseen stretches of the map that could hide a thing of a metre,
// the largest first.
func (m *Map) Holidays() []Holiday {
	need := int(math.Ceil(feature/m.Cell - 1e-9))
	side := m.squares()
	taken := make([]bool, len(m.looks))
	var out []Holiday
	var queue []int
	for start, looks := range m.looks {
		if looks != 0 || taken[start] {
			continue
		}
		taken[start] = true
		queue = append(queue[:0], start)
		var h Holiday
		widest := 0
		for k := 0; k < len(queue); k++ {
			n := queue[k]
			i, j := n%m.nx, n/m.nx
			h.cells = append(h.cells, Point{(float64(m.i0+i) + 0.5) * m.Cell, (float64(m.j0+j) + 0.5) * m.Cell})
			widest = max(widest, int(side[n]))
			for _, next := range [4]struct {
				ok bool
				n  int
			}{{i > 0, n - 1}, {i < m.nx-1, n + 1}, {j > 0, n - m.nx}, {j < m.ny-1, n + m.nx}} {
				if next.ok && m.looks[next.n] == 0 && !taken[next.n] {
					taken[next.n] = true
					queue = append(queue, next.n)
				}
			}
		}
		if widest < need {
			continue
		}
		for _, c := range h.cells {
			h.X, h.Y = h.X+c.X, h.Y+c.Y
		}
		n := float64(len(h.cells))
		h.X, h.Y = h.X/n, h.Y/n
		h.SquareMetres, h.Widest = n*m.Cell*m.Cell, float64(widest)*m.Cell
		out = append(out, h)
	}
	slices.SortStableFunc(out, func(a, b Holiday) int {
		return cmp.Or(cmp.Compare(b.SquareMetres, a.SquareMetres), cmp.Compare(a.Y, b.Y), cmp.Compare(a.X, b.X))
	})
	return out
}

// squares is, for every cell, the side of the largest square of unseen cells that has
// its north-east corner there.
func (m *Map) squares() []uint16 {
	side := make([]uint16, len(m.looks))
	for n, looks := range m.looks {
		if looks != 0 {
			continue
		}
		side[n] = 1
		if n%m.nx > 0 && n >= m.nx {
			side[n] = 1 + min(side[n-1], side[n-m.nx], side[n-m.nx-1], math.MaxUint16-1)
		}
	}
	return side
}
