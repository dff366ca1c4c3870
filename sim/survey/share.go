package survey

import (
	"math"
	"slices"
	"strconv"

	"dryline/vessel/nav/geodesy"
)

// Whole is the share of a line that counts as all of it: the log goes on and off
// a few metres from the ends (our own choice).
const Whole = 0.98

// Span is the stretch of the line with the log on, from its own beginning, as it
// was run, metres. Every ping stands for the way halfway to its neighbours.
func (l *LineRecord) Span() (from, to float64) {
	from, to = math.Inf(1), math.Inf(-1)
	for _, p := range l.Pings {
		from, to = min(from, p.Along), max(to, p.Along)
	}
	if !(to >= from) {
		return 0, 0
	}
	half := 0.0
	if n := len(l.Pings); n > 1 {
		half = (to - from) / float64(n-1) / 2
	}
	length := l.Track.Length()
	from, to = max(from-half, 0), min(to+half, length)
	return from, max(from, to)
}

// Share is how much of a planned line was logged, 0..1: all records of its name
// together, whichever way they were run. planned is its track from A to B.
func Share(lines []*LineRecord, name string, planned geodesy.Track) float64 {
	type stretch struct{ from, to float64 }
	var parts []stretch
	length := planned.Length()
	if !(length > 0) {
		return 0
	}
	back := planned.Reversed()
	for _, l := range lines {
		if l.Name != name || len(l.Pings) == 0 {
			continue
		}
		from, to := l.Span()
		if l.Track == back {
			from, to = length-to, length-from
		}
		from, to = max(from, 0), min(to, length)
		if to >= from { // not beyond the end, and not if either is no number
			parts = append(parts, stretch{from, to})
		}
	}
	slices.SortFunc(parts, func(a, b stretch) int {
		if a.from < b.from {
			return -1
		}
		return 1
	})
	end, sum := 0.0, 0.0
	for _, p := range parts {
		if p.to > end {
			sum += p.to - max(p.from, end)
			end = p.to
		}
	}
	return min(sum/length, 1)
}

// Percent writes a share of a whole, given in percent, to so many decimals. It
// rounds down: 99.98 to one decimal is 99.9, and only the whole is 100. Shares
// that fall short of a limit are thus never told as having met it.
func Percent(percent float64, decimals int) string {
	scale := math.Pow(10, float64(decimals))
	down := math.Floor(percent*scale+1e-6) / scale // 29 is 28.999... by way of 0.29
	if percent < 100 {
		down = min(down, 100-1/scale)
	}
	return strconv.FormatFloat(max(down, 0), 'f', decimals, 64)
}
