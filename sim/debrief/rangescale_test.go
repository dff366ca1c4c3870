package debrief

import (
	"math"
	"testing"

	"dryline/sim"
	"dryline/sim/survey"
)

// A session may log each line with a range scale of its own: heights in percent
// and the range that is good for something go by that line's. With the fish 5 m
// up, 12.5 times the height (NOAA Hydrographic Surveys Specifications and
// Deliverables 2021, 6.1.2) is more than either scale.
func TestEachLineByItsOwnRangeScale(t *testing.T) {
	s := start(t, small(t))
	number := uint64(0)
	for i, scale := range []float64{50, 25} {
		l := &survey.LineRecord{Name: s.Exercise.Lines[i].Name, Track: s.Exercise.Lines[i].Track(false), RangeScale: scale}
		for k := range 10 {
			number++
			l.Pings = append(l.Pings, survey.PingRecord{Number: number, Along: float64(k), Height: 5})
			s.Truth.Pings = append(s.Truth.Pings, sim.TruePing{Number: number, Y: float64(k), Z: -9, Altitude: 5})
		}
		s.Desk.Lines = append(s.Desk.Lines, l)
	}
	r := report(s)
	for i, want := range []struct{ scale, altitude float64 }{{50, 10}, {25, 20}} {
		if l := r.Lines[i]; l.RangeScale != want.scale || l.Altitude.Mean != want.altitude {
			t.Errorf("line %s: range scale %g m, fish at %g %% of it; want %g and %g", l.Name, l.RangeScale, l.Altitude.Mean, want.scale, want.altitude)
		}
	}
	if got, want := *r.Coverage.EffectiveRange, 37.5; math.Abs(got-want) > 1e-9 {
		t.Errorf("effective range %.2f m, want the mean of the lines' own, %.2f", got, want)
	}
}
