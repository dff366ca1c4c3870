package plan

import (
	"math"
	"slices"

	"dryline/vessel"
)

// cells groups the rows of a set so that within a group each row has one line that
// continues that of the row before: where rows part or join, groups begin and end
// (boustrophedon cells: H. Choset, Autonomous Robots 9, 247-253, 2000).
func cells(rows []*row) [][]*row {
	var done, open [][]*row
	overlap := func(a, b *Line) bool {
		f := along(a.bearing())
		a0, _ := f.to(a.A)
		a1, _ := f.to(a.B)
		b0, _ := f.to(b.A)
		b1, _ := f.to(b.B)
		return min(a1, max(b0, b1)) > max(a0, min(b0, b1))
	}
	for _, r := range rows {
		var next [][]*row
		used := make([]bool, len(open))
		for i := range r.lines {
			one := &row{kind: r.kind, part: r.part, number: r.number, lines: r.lines[i : i+1]}
			var on []int
			for k, cell := range open {
				if overlap(&cell[len(cell)-1].lines[0], &r.lines[i]) {
					on = append(on, k)
				}
			}
			alone := len(on) == 1
			for j := range r.lines {
				alone = alone && (j == i || !overlap(&open[on[0]][len(open[on[0]])-1].lines[0], &r.lines[j]))
			}
			if alone {
				used[on[0]] = true
				next = append(next, append(open[on[0]], one))
			} else {
				next = append(next, []*row{one})
			}
		}
		for k, cell := range open {
			if !used[k] {
				done = append(done, cell)
			}
		}
		open = next
	}
	return append(done, open...)
}

// pattern is the order of n rows in which neighbours lie about step rows apart: blocks
// of two steps, from one half of the block to the other and back.
func pattern(n, step int) []int {
	if step < 2 || n < 3 {
		out := make([]int, n)
		for i := range out {
			out[i] = i
		}
		return out
	}
	var out []int
	for from := 0; from < n; from += 2 * step {
		m := min(2*step, n-from)
		k := (m + 1) / 2
		var block []int
		for i := range k {
			block = append(block, from+i)
			if i+k < m {
				block = append(block, from+i+k)
			}
		}
		if from > 0 && m == 2*step { // begin with the middle of the block, a step from where the last one ended
			block = block[:0]
			for i := k - 1; i >= 0; i-- {
				block = append(block, from+i, from+i+k)
			}
		}
		out = append(out, block...)
	}
	return out
}

// order chooses how the rows of every set follow one another, and by what turns: the
// way round that meets nothing unsafe, and of those the shortest.
func (c *crew) order(p *Plan, sets [][]*row) {
	s := c.s
	kinds := s.Turns
	if len(kinds) == 0 {
		kinds = vessel.Turns()
	}
	longest := 0
	for _, set := range sets {
		longest = max(longest, len(set))
	}
	most := min(int(math.Ceil(2*s.TurnRadius/s.spacing()))+2, max(longest/2, 1))
	const dear = 1e6 // of a turn that is not safe
	best := math.Inf(1)
	try := func(sets [][]*row, step, first, variant int) {
		lines := c.sequence(sets, step, first, variant)
		for _, kind := range kinds {
			if c.step() {
				return
			}
			turns, length, unsafe := c.turns(lines, kind)
			if cost := length + dear*float64(unsafe); cost < best-0.01 {
				best = cost
				p.Lines, p.Turns, p.Turn, p.Pattern = lines, turns, kind, step
			}
		}
	}
	least := 1
	if s.Apart > 0 {
		least, most = s.Apart, s.Apart
	}
	for step := least; step <= max(most, 1); step++ {
		try(sets, step, 0, 0)
	}
	if s.Quick || s.Apart > 0 {
		return
	}
	// Where something is still unsafe it may help to begin elsewhere.
	const mostStarts = 12
	for first := 0; first < min(len(sets), mostStarts) && best >= dear; first++ {
		for variant := range 4 {
			try(sets, p.Pattern, first, variant)
		}
	}
	// Or to choose line by line which is next, and from which end.
	const mostLines = 80
	if best >= dear && len(p.Lines) <= mostLines {
		var single [][]*row
		for _, set := range sets {
			for k := range set {
				single = append(single, set[k:k+1])
			}
		}
		for first := range min(len(single), mostStarts/2) {
			for variant := range 2 {
				if best >= dear {
					try(single, 0, first, 2*variant)
				}
			}
		}
	}
}

// sequence runs every set by a pattern, one set after the other: it begins with one of them in
// one of four ways, and goes on with the nearest.
func (c *crew) sequence(sets [][]*row, step, first, variant int) []Line {
	var out []Line
	left := slices.Clone(sets)
	if len(left) > 0 {
		out = run(left[first], step, variant&1 == 1, variant&2 == 2)
		left = append(left[:first], left[first+1:]...)
	}
	for len(left) > 0 {
		pick, nearest := 0, math.Inf(1)
		var way []Line
		for k, set := range left {
			if k > 0 && set[0].kind != left[0][0].kind {
				continue // a second set waits for the first, cross-lines for both
			}
			for variant := range 4 {
				if len(set) == 1 && variant&1 == 1 {
					continue // one row begins where it ends
				}
				lines := run(set, step, variant&1 == 1, variant&2 == 2)
				if d := c.link(out[len(out)-1], lines[0]); d < nearest-0.01 {
					pick, nearest, way = k, d, lines
				}
			}
		}
		out = append(out, way...)
		left = append(left[:pick], left[pick+1:]...)
	}
	return out
}

// link returns the cost of going from one line to another, metres; dear where no turn is safe.
func (c *crew) link(from, to Line) float64 {
	best := math.Inf(1)
	for _, kind := range vessel.Turns() {
		_, length, unsafe := c.turns([]Line{from, to}, kind)
		best = min(best, length+1e5*float64(unsafe))
		if unsafe == 0 && kind == vessel.Simple {
			break // there is none shorter
		}
	}
	return best
}

// run is a set in the order and the directions it is run, every row the other way.
func run(set []*row, step int, fromEnd, reversed bool) (out []Line) {
	for i, k := range pattern(len(set), step) {
		if fromEnd {
			k = len(set) - 1 - k
		}
		lines := slices.Clone(set[k].lines)
		if (i%2 == 1) != reversed {
			slices.Reverse(lines)
			for j := range lines {
				lines[j].A, lines[j].B = lines[j].B, lines[j].A
			}
		}
		out = append(out, lines...)
	}
	return out
}
