package coverage

import (
	"cmp"
	"slices"
)

// Row is a row of cells that touch, from west to east, metres.
type Row struct{ Y, West, East float64 }

// Rows are cells by their middles, so wide each, as rows from the south.
func Rows(cells []Point, wide float64) []Row {
	sorted := slices.Clone(cells)
	slices.SortFunc(sorted, func(a, b Point) int { return cmp.Or(cmp.Compare(a.Y, b.Y), cmp.Compare(a.X, b.X)) })
	var out []Row
	for _, c := range sorted {
		if n := len(out) - 1; n >= 0 && out[n].Y == c.Y && c.X-out[n].East < 0.6*wide {
			out[n].East = c.X + wide/2
			continue
		}
		out = append(out, Row{c.Y, c.X - wide/2, c.X + wide/2})
	}
	return out
}
