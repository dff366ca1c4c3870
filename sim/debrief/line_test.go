package debrief

import (
	"math"
	"testing"

	"dryline/sim"
	"dryline/sim/exercise"
	"dryline/sim/survey"
	"dryline/vessel/nav/geodesy"
)

// invented is a logged line of 100 m northward with a ping every quarter of a
// metre; each function gives a value by ping.
func invented(height func(i int) float64, off, fishOff float64) logged {
	l := logged{LineRecord: &survey.LineRecord{Name: "L1", RangeScale: 50, Track: geodesy.Track{BY: 100}}}
	for i := range 401 {
		y := float64(i) / 4
		l.Pings = append(l.Pings, survey.PingRecord{
			Number: uint64(i), Height: height(i) + 0.5, Locked: i%4 > 0, Along: y, Off: off,
			Fix: survey.Fix{X: off, Y: y, Speed: 2 + float64(i%3)},
		})
		l.truth = append(l.truth, &sim.TruePing{
			Number: uint64(i), Altitude: height(i), X: fishOff, Y: y,
		})
	}
	return l
}

func TestLine(t *testing.T) {
	ex := small(t)
	ex.Score.AltitudeMin, ex.Score.AltitudeMax = 0.10, 0.15
	// Heights of 3, 4, ... 12 m in turn on a range scale of 50 m: 6 to 24 %. In
	// 8 to 20 % (NOAA Hydrographic Surveys Specifications and Deliverables 2021,
	// 6.1.2) are 4 to 10 m, seven of ten; in 10 to 15 % are 5, 6 and 7 m.
	l := invented(func(i int) float64 { return float64(3 + i%10) }, -1.5, 2)
	l.Pings, l.truth = l.Pings[:400], l.truth[:400]
	got := makeLine(ex, &l)
	for _, row := range []struct {
		name      string
		got, want float64
	}{
		{"in the NOAA band", *got.InNOAABand, 70},
		{"in the wanted band", *got.InBand, 30},
		{"lowest", got.Altitude.Min, 6},
		{"highest", got.Altitude.Max, 24},
		{"mean height", got.Altitude.Mean, 15},
		{"vessel off line, rms", got.OffLineRMS, 1.5},
		{"vessel off line, max", got.OffLineMax, 1.5},
		{"fish off line", got.FishRMS, 2},
		{"pings per metre", *got.PingsPerMetre, 4},
		{"bottom lock", *got.BottomLock, 75},
		{"bottom track error", *got.BottomMean, 0.5},
		{"bottom track error, rms", *got.BottomRMS, 0.5},
		{"slowest", got.Speed.Min, 2},
		{"fastest", got.Speed.Max, 4},
		{"logged", got.Run, 99.875},
	} {
		if math.Abs(row.got-row.want) > 1e-9 {
			t.Errorf("%s: got %g, want %g", row.name, row.got, row.want)
		}
	}
	if s := got.Series; len(s.Along) != MaxSeries || s.Along[0] != 0 || s.Along[MaxSeries-1] != 99.75 {
		t.Errorf("series: got %d points from %g to %g, want %d from 0 to 99.75", len(s.Along), s.Along[0], s.Along[len(s.Along)-1], MaxSeries)
	}
}

// A line may be logged in pieces, from either end, and twice over.
func TestDoneShare(t *testing.T) {
	ex := &exercise.Exercise{Lines: []exercise.Line{{Name: "L1"}}}
	ex.Lines[0].B.Y = 100
	piece := func(from, to int, back bool) logged {
		l := invented(func(int) float64 { return 5 }, 0, 0)
		if back {
			l.Track = geodesy.Track{AY: 100}
		}
		l.Pings = l.Pings[4*from : 4*to+1]
		return l
	}
	for _, row := range []struct {
		name  string
		lines []logged
		want  float64
	}{
		{"nothing", nil, 0},
		{"all", []logged{piece(0, 100, false)}, 1},
		{"half", []logged{piece(0, 50, false)}, 0.5},
		{"the same half twice", []logged{piece(0, 50, false), piece(0, 50, false)}, 0.5},
		{"from both ends", []logged{piece(0, 50, false), piece(0, 50, true)}, 1},
		{"overlapping", []logged{piece(40, 80, false), piece(20, 60, false)}, 0.6},
	} {
		if got := doneShare(ex, row.lines, "L1"); math.Abs(got-row.want) > 0.003 {
			t.Errorf("%s: got %.3f, want %.3f", row.name, got, row.want)
		}
	}
}

// Nearest rank: the smallest value that 95 in 100 do not exceed.
func TestStatistic(t *testing.T) {
	var s sample
	for i := 1; i <= 100; i++ {
		s.add(float64(i) * math.Pow(-1, float64(i)))
	}
	s.add(math.NaN())
	got := s.statistic()
	// Sum of squares 1 to 100 is 338350; pairs (-1+2) make the mean 0.5.
	want := Statistic{Mean: 0.5, RMS: round(math.Sqrt(3383.5)), P95: 95, Max: 100}
	if got != want {
		t.Errorf("got %+v, want %+v", got, want)
	}
}
