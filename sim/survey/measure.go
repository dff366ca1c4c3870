package survey

import (
	"cmp"
	"math"
	"slices"
)

// judge measures a blob and decides whether it is worth a contact.
func (l *lookout) judge(m *lookImage, floor [][]ground, blob []place, side int) (Contact, bool) {
	if float64(len(blob))*lookCell*m.pitch < minArea {
		return Contact{}, false
	}
	var row, column, weight, base, peak, stands float64
	outermost := map[int]int{}
	for _, p := range blob {
		v, g := m.rows[p.row][p.column], floor[p.row][p.column]
		contrast := float64(v / g.mean)
		stands = max(stands, g.over(v))
		row += contrast * float64(p.row)
		column += contrast * float64(p.column)
		weight += contrast
		base += contrast * float64(g.mean)
		peak = max(peak, contrast)
		outermost[p.row] = max(outermost[p.row], p.column)
	}
	row, column = row/weight, column/weight
	at := l.where[int(row+0.5)]
	range0 := (column + 0.5) * lookCell
	length, width := m.extents(m.core(blob))
	if length > maxExtent {
		return Contact{}, false
	}
	if len(outermost) < 2 {
		return Contact{}, false // one row alone is a spark, not a thing
	}
	shadow, tip := m.shadow(floor, outermost)
	if shadow < minShadow && (stands < brilliant || peak < glint || length > maxPatch) {
		return Contact{}, false
	}
	if base/weight > paved && stands < blazing {
		return Contact{}, false
	}
	c := Contact{
		Time: at.fix.Time, Range: range0, Altitude: at.height,
		Length: length, Width: width, Contrast: peak,
	}
	if shadow >= minShadow {
		// All on the ground: similar triangles over the shadow and the range of
		// its tip, H = h S/(G+S) (IHO C-13, chapter 4, 2.3.11.4).
		c.Shadow = shadow
		c.Height = at.height * shadow / tip
	}
	bearing := at.fix.Heading + math.Pi/2
	if side == 0 {
		bearing = at.fix.Heading - math.Pi/2
	}
	c.X = at.fix.X + range0*math.Sin(bearing)
	c.Y = at.fix.Y + range0*math.Cos(bearing)
	return c, true
}

// shadow is the dark ground behind the outermost cells of an echo, and the
// ground range of its tip: the upper quartile over the rows, because an echo's
// shoulders throw shorter ones. The top of a thing may lie between its bright
// face and the dark.
func (m *lookImage) shadow(floor [][]ground, outermost map[int]int) (length, tip float64) {
	const (
		topCells   = 12 // at most between face and dark: 2.4 m
		lightCells = 2  // within a shadow: speckle
	)
	type run struct{ length, tip int }
	runs := make([]run, 0, len(outermost))
	for j, from := range outermost {
		first, last, light := -1, -1, 0
		for i := from + 1; i < len(m.rows[j]); i++ {
			if m.rows[j][i] < dark*floor[j][i].mean {
				if first < 0 {
					first = i
				}
				last, light = i, 0
				continue
			}
			light++
			if first < 0 && light > topCells || first >= 0 && light > lightCells {
				break
			}
		}
		if first < 0 {
			runs = append(runs, run{})
		} else {
			runs = append(runs, run{last - first + 1, last + 1})
		}
	}
	slices.SortFunc(runs, func(a, b run) int { return cmp.Or(a.length-b.length, a.tip-b.tip) })
	r := runs[len(runs)*3/4]
	return float64(r.length) * lookCell, float64(r.tip) * lookCell
}

// core are the cells of a blob that are no mere halo of it: those half as bright, in
// power, as its brighter cells are. What a strong echo spreads over by beam and pulse is
// above the floor too.
func (m *lookImage) core(blob []place) []place {
	const half = 0.5 // of the amplitude
	values := make([]float64, len(blob))
	for i, p := range blob {
		values[i] = float64(m.rows[p.row][p.column])
	}
	slices.Sort(values)
	least := half * values[len(values)*3/4]
	var out []place
	for _, p := range blob {
		if float64(m.rows[p.row][p.column]) >= least {
			out = append(out, p)
		}
	}
	return out
}

// extents are the sides of the rectangle of the smallest girth that holds the blob,
// metres: the echo of a box is an L of its two lit faces, whose own axis is the box's
// diagonal, and so is the longer side of the rectangle of the smallest area.
func (m *lookImage) extents(blob []place) (length, width float64) {
	const steps = 30 // over a right angle
	smallest := math.Inf(1)
	for k := range steps {
		sin, cos := math.Sincos(math.Pi / 2 * float64(k) / steps)
		a0, a1, b0, b1 := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
		for _, p := range blob {
			dy, dx := float64(p.row)*m.pitch, float64(p.column)*lookCell
			a, b := dy*cos+dx*sin, dx*cos-dy*sin
			a0, a1, b0, b1 = min(a0, a), max(a1, a), min(b0, b), max(b1, b)
		}
		if round := a1 - a0 + b1 - b0; round < smallest {
			smallest, length, width = round, a1-a0, b1-b0
		}
	}
	// From the middle of the cell at one end to that at the other: those at the ends are
	// covered half on the whole. Nothing is narrower than a cell.
	length, width = max(length, lookCell), max(width, lookCell)
	return max(length, width), min(length, width)
}
