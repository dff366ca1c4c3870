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
	length, width := m.extents(blob)
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
		topCells   = 6 // at most between face and dark
		lightCells = 2 // within a shadow: speckle
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

// extents is the length of the blob along its principal axis and across it,
// metres.
func (m *lookImage) extents(blob []place) (length, width float64) {
	var my, mx float64
	for _, p := range blob {
		my += float64(p.row) * m.pitch
		mx += float64(p.column) * lookCell
	}
	n := float64(len(blob))
	my, mx = my/n, mx/n
	var yy, xx, xy float64
	for _, p := range blob {
		dy, dx := float64(p.row)*m.pitch-my, float64(p.column)*lookCell-mx
		yy, xx, xy = yy+dy*dy, xx+dx*dx, xy+dy*dx
	}
	sin, cos := math.Sincos(0.5 * math.Atan2(2*xy, yy-xx))
	var a0, a1, b0, b1 float64
	for _, p := range blob {
		dy, dx := float64(p.row)*m.pitch-my, float64(p.column)*lookCell-mx
		a, b := dy*cos+dx*sin, dx*cos-dy*sin
		a0, a1, b0, b1 = min(a0, a), max(a1, a), min(b0, b), max(b1, b)
	}
	// A cell has a size of its own: its extent along each axis.
	along := math.Abs(m.pitch*cos) + math.Abs(lookCell*sin)
	across := math.Abs(m.pitch*sin) + math.Abs(lookCell*cos)
	length, width = a1-a0+along, b1-b0+across
	return max(length, width), min(length, width)
}
