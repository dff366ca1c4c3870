package survey

import (
	"cmp"
	"math"
	"slices"
)

// lookout searches the record of a line for contacts, as a tireless but not
// very clever assistant would: a patch much brighter than the floor round it
// with a shadow behind it, or brighter still without one.
//
// It works on two ground-range pictures, one a side, in cells of lookCell
// across track and about as much along. Thresholds are our own, tuned on
// invented grounds (common practice, no source, for the idea of echo plus
// shadow).
//
// A long line is searched in stretches, so that it takes no more memory than a
// kilometre or two. They overlap: what begins in one is seen whole in it, with
// the floor and the company it lies in.
type lookout struct {
	recorder Recorder
	width    int
	sides    [2]lookImage
	where    []lookRow
	gather   [2][]float32 // sums over the pings of the row in the making
	edges    []int        // the sample at the far edge of each cell, of the ping at hand
	pings    int
	first    Fix
	most     int       // cells of a side
	searched int       // rows at the beginning that belong to the stretch before
	found    []Contact // in the stretches before
}

// lookRow is one row of the pictures.
type lookRow struct {
	fix    Fix
	height float64
}

// lookImage is a picture, rows along track, columns outward.
type lookImage struct {
	rows  [][]float32
	pitch float64 // mean distance between rows, metres
}

const (
	lookCell   = 0.2  // metres
	around     = 7.0  // half the side of the square taken for the floor, metres
	bright     = 4.5  // standard deviations over the floor
	brilliant  = 9.0  // bright enough without a shadow,
	glint      = 8.0  // if it is so many times the floor: more than gravel over mud
	dark       = 0.4  // of the floor
	joinCells  = 4    // bright cells this close belong together
	minArea    = 0.2  // of the bright cells, m^2
	maxExtent  = 45.0 // metres: longer is a ridge, not a thing
	maxPatch   = 8.0  // metres: longer without a shadow is a change of ground
	paved      = 1.5  // of an ordinary floor: brighter ground is stone, but for what is
	blazing    = 20.0 // so many standard deviations over it
	minShadow  = 0.5  // metres
	crowd      = 8    // bright patches close by that make a ground of stones
	blindShare = 0.12 // of the swath next to nadir, where the picture is stretched

	stretchCells = 4 << 20 // of one side, after which a line is searched so far
	aheadRows    = 300     // at the end of a stretch, for what begins before them: more than maxExtent
	behindRows   = 150     // before a stretch, for the company of what begins in it
)

func newLookout(r Recorder) *lookout {
	l := &lookout{recorder: r, most: stretchCells, width: int(r.RangeScale / lookCell)}
	l.gather[0], l.gather[1] = make([]float32, l.width), make([]float32, l.width)
	l.edges = make([]int, l.width)
	return l
}

// addRow takes one ping in levelled amplitudes.
func (l *lookout) addRow(f Fix, height float64, port, starboard []float32) {
	if l.pings == 0 {
		l.first = f
	}
	bin := l.recorder.Bin()
	for i := range l.edges {
		g := float64(i+1) * lookCell
		l.edges[i] = int(math.Sqrt(g*g+height*height) / bin)
	}
	for side, row := range [2][]float32{port, starboard} {
		from := int(height / bin)
		for i, edge := range l.edges {
			to := min(edge, len(row))
			if to <= from {
				to = min(from+1, len(row))
			}
			sum := float32(0)
			for _, v := range row[min(from, to):to] {
				sum += v
			}
			l.gather[side][i] += sum / float32(max(to-from, 1))
			from = to
		}
	}
	l.pings++
	if math.Hypot(f.X-l.first.X, f.Y-l.first.Y) < lookCell && l.pings < 40 {
		return
	}
	for side := range l.sides {
		out := make([]float32, l.width)
		for i, v := range l.gather[side] {
			out[i] = v / float32(l.pings)
		}
		clear(l.gather[side])
		l.sides[side].rows = append(l.sides[side].rows, out)
	}
	l.where = append(l.where, lookRow{fix: between(l.first, f, (l.first.Time+f.Time)/2), height: height})
	l.pings = 0
	if len(l.where)*l.width >= l.most && len(l.where) > 2*(aheadRows+behindRows) {
		l.found = append(l.found, l.stretch(len(l.where)-aheadRows)...)
		l.forget(len(l.where) - aheadRows - behindRows)
	}
}

// forget lets go of rows that have been searched; what is left of those keeps
// company to what follows.
func (l *lookout) forget(rows int) {
	for side := range l.sides {
		l.sides[side].rows = slices.Clone(l.sides[side].rows[rows:])
	}
	l.where = slices.Clone(l.where[rows:])
	l.searched = behindRows
}

// search finds the contacts of a finished line.
func (l *lookout) search(line *LineRecord) []Contact {
	found := append(l.found, l.stretch(len(l.where))...)
	slices.SortFunc(found, func(a, b Contact) int {
		return cmp.Or(cmp.Compare(a.Time, b.Time), cmp.Compare(a.Range, b.Range), cmp.Compare(a.Side, b.Side))
	})
	for i := range found {
		found[i].Lines = []string{line.Name}
		found[i].Ping = line.nearestPing(found[i].Time)
	}
	return found
}

// stretch finds what begins before a row and does not belong to the stretch
// before, in no order.
func (l *lookout) stretch(until int) []Contact {
	var found []Contact
	var bright, spots []spot // every bright patch; those worth a contact
	for side, name := range [2]string{"port", "starboard"} {
		img := &l.sides[side]
		if len(img.rows) < 8 {
			continue
		}
		first, last := l.where[0].fix, l.where[len(l.where)-1].fix
		img.pitch = max(math.Hypot(last.X-first.X, last.Y-first.Y)/float64(len(l.where)-1), 0.05)
		floor := img.surroundings()
		for _, blob := range img.blobs(floor) {
			if len(blob) >= 3 {
				bright = append(bright, spot{side, blob[0].row, blob[0].column})
			}
			if begins := blob[0].row; begins < l.searched || begins >= until {
				continue
			}
			if c, ok := l.judge(img, floor, blob, side); ok {
				c.Side = name
				found = append(found, c)
				spots = append(spots, spot{side, blob[0].row, blob[0].column})
			}
		}
	}
	// Bare rock throws an echo and a shadow every few metres, and a surveyor
	// marks the ground, not every stone: drop what lies among many of its like.
	kept := found[:0]
	for i, c := range found {
		if spots[i].neighbours(bright, l.sides[spots[i].side].pitch) < crowd {
			kept = append(kept, c)
		}
	}
	return kept
}

// spot is where a bright patch begins.
type spot struct{ side, row, column int }

// neighbours counts the other bright patches of the same side close by.
func (s spot) neighbours(all []spot, pitch float64) int {
	const near = 25.0 // metres
	n := -1           // itself
	for _, o := range all {
		if o.side == s.side && math.Hypot(float64(o.row-s.row)*pitch, float64(o.column-s.column)*lookCell) < near {
			n++
		}
	}
	return n
}

func (l *LineRecord) nearestPing(t float64) uint64 {
	i, _ := slices.BinarySearchFunc(l.Pings, t, func(p PingRecord, t float64) int {
		return int(math.Copysign(1, p.Fix.Time-t))
	})
	return l.Pings[min(i, len(l.Pings)-1)].Number
}

// ground is the floor round a cell: mean and standard deviation.
type ground struct{ mean, deviation float32 }

// over is how far a value stands over the ground, in standard deviations.
func (g ground) over(v float32) float64 { return float64((v - g.mean) / g.deviation) }

// surroundings is the ground in a square round every cell, by summed areas.
// Very bright cells are cut first: an echo must not raise its own floor.
func (m *lookImage) surroundings() [][]ground {
	h, w := len(m.rows), len(m.rows[0])
	type sum struct{ v, v2 float64 }
	sums := make([][]sum, h+1)
	sums[0] = make([]sum, w+1)
	for j, row := range m.rows {
		sums[j+1] = make([]sum, w+1)
		var line sum
		for i, v := range row {
			cut := min(float64(v), 3)
			line.v += cut
			line.v2 += cut * cut
			sums[j+1][i+1] = sum{sums[j][i+1].v + line.v, sums[j][i+1].v2 + line.v2}
		}
	}
	reach, reachRows := int(around/lookCell), int(around/m.pitch)
	out := make([][]ground, h)
	for j := range out {
		out[j] = make([]ground, w)
		j0, j1 := max(0, j-reachRows), min(h, j+reachRows+1)
		for i := range w {
			i0, i1 := max(0, i-reach), min(w, i+reach+1)
			a, b, c, d := sums[j1][i1], sums[j0][i1], sums[j1][i0], sums[j0][i0]
			n := float64((j1 - j0) * (i1 - i0))
			mean := (a.v - b.v - c.v + d.v) / n
			square := (a.v2 - b.v2 - c.v2 + d.v2) / n
			out[j][i] = ground{float32(mean), float32(math.Sqrt(max(square-mean*mean, 0)) + 0.02)}
		}
	}
	return out
}

// place is a cell of a picture.
type place struct{ row, column int }

// blobs gathers the bright cells that lie close together.
func (m *lookImage) blobs(floor [][]ground) [][]place {
	h, w := len(m.rows), len(m.rows[0])
	seen := make([]bool, h*w)
	isBright := func(j, i int) bool { return floor[j][i].over(m.rows[j][i]) > bright }
	var out [][]place
	for j := range h {
		for i := int(blindShare * float64(w)); i < w; i++ {
			if seen[j*w+i] || !isBright(j, i) {
				continue
			}
			seen[j*w+i] = true
			blob := []place{{j, i}}
			for k := 0; k < len(blob); k++ {
				p := blob[k]
				for v := max(0, p.row-joinCells); v <= min(h-1, p.row+joinCells); v++ {
					for u := max(0, p.column-joinCells); u <= min(w-1, p.column+joinCells); u++ {
						if !seen[v*w+u] && isBright(v, u) {
							seen[v*w+u] = true
							blob = append(blob, place{v, u})
						}
					}
				}
			}
			out = append(out, blob)
		}
	}
	return out
}
