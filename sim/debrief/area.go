package debrief

import (
	"math"
	"slices"

	"dryline/seabed"
	"dryline/sim/exercise"
)

// Ensonification is the coverage of evenly spaced lines as IHO C-13, chapter
// 4, 2.3.9.1 counts it: 2 R / S x 100, both in metres, in percent. It adds up
// swaths and takes no notice of where they really lie.
func Ensonification(effectiveRange, spacing float64) float64 {
	return 2 * effectiveRange / spacing * 100
}

// areaOf is the area to be covered. Without one of its own an exercise is to
// cover the rectangle that its lines span, squared up to the first of them and
// widened on both sides by half the spacing, or by the effective range if that
// is less or there is but one line: the strip the lines can be asked to fill.
func areaOf(ex *exercise.Exercise, effectiveRange, spacing float64) (corners []seabed.Point, source string) {
	if len(ex.Score.Area) >= 3 {
		return ex.Score.Area, "exercise"
	}
	widen := effectiveRange
	if spacing > 0 {
		widen = min(widen, spacing/2)
	}
	first := ex.Lines[0].Track(false)
	a0, a1, c0, c1 := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, l := range ex.Lines {
		for _, p := range []seabed.Point{l.A, l.B} {
			along, across := first.Offset(p.X, p.Y)
			a0, a1, c0, c1 = min(a0, along), max(a1, along), min(c0, across), max(c1, across)
		}
	}
	c0, c1 = c0-widen, c1+widen
	sin, cos := math.Sincos(first.Bearing())
	for _, p := range [][2]float64{{a0, c0}, {a0, c1}, {a1, c1}, {a1, c0}} {
		corners = append(corners, seabed.Point{
			X: first.AX + p[0]*sin + p[1]*cos,
			Y: first.AY + p[0]*cos - p[1]*sin,
		})
	}
	return corners, "lines"
}

// spacingOf is the median distance between neighbours among the lines that run
// within ten degrees of the first, either way; 0 if there is no second.
func spacingOf(ex *exercise.Exercise) float64 {
	const parallel = 10 * math.Pi / 180
	first := ex.Lines[0].Track(false)
	var offsets, gaps []float64
	for _, l := range ex.Lines {
		turn := math.Remainder(l.Track(false).Bearing()-first.Bearing(), math.Pi)
		if math.Abs(turn) <= parallel {
			_, across := first.Offset((l.A.X+l.B.X)/2, (l.A.Y+l.B.Y)/2)
			offsets = append(offsets, across)
		}
	}
	slices.Sort(offsets)
	for i := 1; i < len(offsets); i++ {
		if gap := offsets[i] - offsets[i-1]; gap > 1 { // closer is the same line again
			gaps = append(gaps, gap)
		}
	}
	if len(gaps) == 0 {
		return 0
	}
	slices.Sort(gaps)
	return gaps[len(gaps)/2]
}

// distanceTo is how far a point lies from the stretch A to B of a line.
func distanceTo(l *exercise.Line, x, y float64) float64 {
	t := l.Track(false)
	along, _ := t.Offset(x, y)
	f := 0.0
	if length := t.Length(); length > 0 {
		f = min(max(along/length, 0), 1)
	}
	return math.Hypot(x-t.AX-f*(t.BX-t.AX), y-t.AY-f*(t.BY-t.AY))
}
