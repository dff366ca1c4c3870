package crew

import (
	"dryline/sim/product"
	"dryline/sim/record"
	"dryline/sim/survey"
)

// LineRows is the whole record of a line, to be looked through.
type LineRows struct {
	Run, Channel int
	Line         *survey.LineRecord // as the survey stands
	Rows         []BenchRow         // by ping of the line
}

// BenchRow is a ping of it: both sides levelled by what the line taught and as they were recorded, empty
// where nothing was, and how well each side bears its bottom out, 0 to 1.
type BenchRow struct {
	Levelled, Plain [2][]uint8
	Grade           [2]float64
}

// LineRows goes through a run of a line, from 1, in a channel.
func (b *Bench) LineRows(p Papers, run, channel int) *Task[*LineRows] {
	return begin(func(by *progress) (*LineRows, error) {
		work := product.PaintingOf(p.Desk, counted{b.record, by}, b.priors)
		work.Channel, work.Prior = channel, b.priors(channel)
		line := work.Lines[run-1]
		by.expect(2 * len(line.Pings))
		out := &LineRows{Run: run, Channel: channel, Line: line, Rows: make([]BenchRow, len(line.Pings))}
		var scratch []float32
		at := 0
		err := work.Rows(run-1, func(ping *record.Ping, here *survey.PingRecord, bin float64, port, starboard []float32) {
			for line.Pings[at].Number < ping.Number {
				at++
			}
			n := min(survey.RowBins, len(port))
			if len(scratch) < len(port) {
				scratch = make([]float32, len(port))
			}
			row := &out.Rows[at]
			both := make([]uint8, 4*n)
			sides := [2][]float32{port, starboard}
			raw := [2][]uint16{ping.Port[channel], ping.Starboard[channel]}
			for side := range sides {
				row.Levelled[side], row.Plain[side] = both[:n:n], both[n:2*n:2*n]
				both = both[2*n:]
				survey.PictureRows(row.Levelled[side], row.Plain[side], sides[side], scratch, raw[side], ping.Recorder.Nominal, here.Height/bin)
				row.Grade[side] = sideGrade(raw, side, bin, here.Height)
			}
		})
		if err != nil {
			return nil, inWords(err)
		}
		doubt(line, out.Rows)
		return out, nil
	})
}

// sideGrade grades the first return of one side: half of what a ping is graded is each side's.
func sideGrade(raw [2][]uint16, side int, bin, height float64) float64 {
	var port, starboard []uint16
	if side == 0 {
		port = raw[0]
	} else {
		starboard = raw[1]
	}
	return min(2*survey.BottomQuality(port, starboard, bin, height), 1)
}

// doubt lowers the grades where the floor stands out of the line's general floor.
func doubt(line *survey.LineRecord, rows []BenchRow) {
	whole := *line
	whole.Bottom = make([]survey.BottomNote, len(line.Pings))
	for i := range whole.Bottom {
		whole.Bottom[i].Quality = 1
	}
	survey.DoubtSteps(&whole)
	for i := range rows {
		for side := range rows[i].Grade {
			rows[i].Grade[side] *= whole.Bottom[i].Quality
		}
	}
}
