package debrief

import (
	"dryline/sim"
	"dryline/sim/debrief/chart"
)

// hatches are how the reasons are drawn.
var hatches = [...]chart.Hatch{
	noSwath: chart.Blank, untrusted: chart.Chequered, silent: chart.Dashed, inTurn: chart.Crossed, outOfReach: chart.Level,
	inNoise: chart.Dotted, clipped: chart.Steep, faint: chart.Upright, ailing: chart.Barred, sparse: chart.Rising, offBottom: chart.Falling,
	underFish: chart.Chequered, seen: chart.Plain, seenTwice: chart.Deep,
}

// Ground is the area of a session in cells, each with what came of it, for a chart.
func Ground(s *sim.Session, w *sim.Witness) *chart.Ground {
	lines := gather(s, w)
	corners, _ := toCover(s.Exercise, lines)
	c := count(corners, s.Desk.Mosaic.CellSize(), judge(s, lines, usual))
	g := &chart.Ground{
		Width: c.nx, Height: c.ny, Cell: c.cell, MinX: float64(c.i0) * c.cell, MaxY: float64(c.j0+c.ny) * c.cell,
		Cells: make([]uint8, len(c.state)),
	}
	for r := noSwath; r <= seenTwice; r++ {
		label := capital(inWords(r))
		if r == seenTwice {
			label = "Looked at on two lines"
		}
		g.Kinds = append(g.Kinds, chart.Kind{Label: label, Hatch: hatches[r]})
	}
	for n, r := range c.state {
		g.Cells[(c.ny-1-n/c.nx)*c.nx+n%c.nx] = uint8(r) // outside is 0, and the first kind 1
	}
	return g
}
