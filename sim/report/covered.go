package report

import (
	"math"

	"dryline/sim/exercise"
	"dryline/sim/survey"
	"dryline/sim/survey/coverage"
)

// coverageCell is the cell that coverage is mapped in at the desk, metres: half the
// side of the thing a holiday must not hide.
const coverageCell = 0.5

// Covered maps the area a brief wants covered as the desk has it, without the lines it
// rejected, and finds the holidays, why they are, and which lines would fill them. It
// knows no truth.
func Covered(b *exercise.Brief, d *survey.Desk) (*coverage.Map, []coverage.Holiday, error) {
	lines := d.LatestLines()
	counts := func(i int) bool { _, rejected := d.Review.Rejected[i+1]; return !rejected }
	m, err := coverage.Take(AreaOf(b), coverageCell, lines, counts)
	if err != nil {
		return nil, nil, err
	}
	var planned []coverage.Planned
	for _, l := range b.Sailed() {
		planned = append(planned, coverage.Planned{Name: l.Name, Track: l.Track(false)})
	}
	reach := usual(b, d)
	holidays := m.Holidays()
	for i := range holidays {
		holidays[i].Explain(lines, counts, planned)
		holidays[i].Lay(reach)
	}
	return m, holidays, nil
}

// usual is how far out over the ground a line sees: with the range scale as it is set
// and the fish in the middle of the band that is wanted.
func usual(b *exercise.Brief, d *survey.Desk) float64 {
	low, high := survey.HeightBand(b.Score.AltitudeMin, b.Score.AltitudeMax)
	scale := d.Recorder.RangeScale
	return survey.GroundReach(scale, scale*(low+high)/2)
}

// AreaOf is the area that a brief wants covered: its own, or if it has none the
// rectangle that its lines span, squared up to the first of them and widened on both
// sides by half the spacing, or the range scale if that is less or there is one line.
func AreaOf(b *exercise.Brief) []coverage.Point {
	var corners []coverage.Point
	for _, p := range b.Score.Area {
		corners = append(corners, coverage.Point(p))
	}
	if len(corners) >= 3 || len(b.Lines) == 0 {
		return corners
	}
	corners = corners[:0]
	first := b.Lines[0].Track(false)
	a0, a1, c0, c1 := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	gap := math.Inf(1) // between the first line and the nearest of the others
	for i, l := range b.Lines {
		_, middle := first.Offset((l.A.X+l.B.X)/2, (l.A.Y+l.B.Y)/2)
		if i > 0 && math.Abs(middle) > 1 {
			gap = min(gap, math.Abs(middle))
		}
		for _, p := range [2]coverage.Point{coverage.Point(l.A), coverage.Point(l.B)} {
			along, across := first.Offset(p.X, p.Y)
			a0, a1, c0, c1 = min(a0, along), max(a1, along), min(c0, across), max(c1, across)
		}
	}
	widen := min(gap/2, b.Sonar.RangeScale)
	sin, cos := math.Sincos(first.Bearing())
	for _, p := range [4][2]float64{{a0, c0 - widen}, {a0, c1 + widen}, {a1, c1 + widen}, {a1, c0 - widen}} {
		corners = append(corners, coverage.Point{X: first.AX + p[0]*sin + p[1]*cos, Y: first.AY + p[0]*cos - p[1]*sin})
	}
	return corners
}
