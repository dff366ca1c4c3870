package remake

import (
	"iter"

	"dryline/sim/record"
	"dryline/sim/survey"
	"dryline/sonar/mosaic"
	"dryline/sonar/recorder"
	"dryline/sonar/waterfall"
)

// Record gives back pings as they were recorded, such as a [record.Store].
type Record interface {
	// Pings goes through those from one number to another, both included. Each is good
	// until the next.
	Pings(from, to uint64) iter.Seq2[*record.Ping, error]
}

// Work holds all that a mosaic is made from.
type Work struct {
	Record  Record
	Lines   []*survey.LineRecord // in the order they were run
	Channel int                  // that is painted
	Prior   waterfall.Prior      // what that channel is expected to write of ordinary ground

	Hide func(line int) bool // if set, which of the lines teach and are not painted

	Stretch   float64          // of slant ranges, for another sound speed than the watch's; 0 is 1
	Levelling survey.Levelling // empty is [survey.LevelSurvey]

	all *waterfall.Leveller // that learnt from all lines, once it has
}

// Mosaic paints the lines anew into an empty mosaic, levelled, unless it is to be
// otherwise, with what all of them taught: the ground under the first line comes out
// as that under the last. It fails with [record.ErrNotKept] if the record lacks pings
// of the lines.
func (w *Work) Mosaic(m *mosaic.Mosaic) error {
	learn := w.taughtByAll
	if w.Levelling == survey.LevelPapers || w.Levelling == survey.LevelLine {
		learn = func() (*waterfall.Leveller, error) { return w.taught(nil) }
	}
	l, err := learn()
	if err != nil {
		return err
	}
	return inTurn(len(w.Lines), func(i int) (*mosaic.Mosaic, error) {
		look := m.Apart()
		if w.Hide != nil && w.Hide(i) {
			return look, nil
		}
		own, err := l.Clone(), error(nil)
		if w.Levelling == survey.LevelLine {
			if own, err = w.taught(w.Lines[i : i+1]); err != nil {
				return nil, err
			}
		}
		return look, w.paint(w.Lines[i], own, mosaic.NewPainter(look))
	}, func(_ int, look *mosaic.Mosaic) { m.Take(look) })
}

// paint paints a line, levelled.
func (w *Work) paint(line *survey.LineRecord, l *waterfall.Leveller, painter *mosaic.Painter) error {
	var port, starboard []float32
	return w.each(line, 1, l, func(p *record.Ping, at *survey.PingRecord) {
		if at.Fix.Fault != "" {
			return
		}
		if n := p.Recorder.Samples; len(port) != n {
			port, starboard = make([]float32, n), make([]float32, n)
		}
		l.Level(port, p.Port[w.Channel], 0)
		l.Level(starboard, p.Starboard[w.Channel], 1)
		painter.Paint(survey.Swath(at.Fix, at.Height, w.recorder(p), port, starboard))
	})
}

// taughtByAll is a leveller that learnt from all lines.
func (w *Work) taughtByAll() (l *waterfall.Leveller, err error) {
	if w.all == nil {
		w.all, err = w.taught(w.Lines)
	}
	return w.all, err
}

// taught is a leveller that learnt from lines.
func (w *Work) taught(lines []*survey.LineRecord) (*waterfall.Leveller, error) {
	l := waterfall.NewLeveller(w.Prior, recorder.Receiver{})
	every := sparse(lines)
	for _, line := range lines {
		if err := w.each(line, every, l, func(p *record.Ping, _ *survey.PingRecord) {
			l.Learn(p.Port[w.Channel], p.Starboard[w.Channel])
		}); err != nil {
			return nil, err
		}
	}
	l.Settle()
	return l, nil
}

// teachers are how many pings teach at least, if there are as many; every other does in
// a short survey. The step between two angles scatters by some decibels from ping to
// ping: the mean of so many is good to a twentieth.
const teachers = 4000

// sparse is of how many pings of lines one teaches.
func sparse(lines []*survey.LineRecord) uint64 {
	pings := 0
	for _, line := range lines {
		pings += len(line.Pings)
	}
	return uint64(max(pings/teachers, 2))
}

// recorder is the one a ping was recorded with, as ranges are made of its times.
func (w *Work) recorder(p *record.Ping) survey.Recorder { return stretched(p.Recorder, w.Stretch) }

func stretched(r *survey.Recorder, stretch float64) survey.Recorder {
	out := *r
	if stretch > 0 {
		out.RangeScale *= stretch
	}
	return out
}

// each calls f with the pings of a line that have something on them, those of every
// so many numbers, with the leveller prepared for it.
func (w *Work) each(line *survey.LineRecord, every uint64, l *waterfall.Leveller, f func(*record.Ping, *survey.PingRecord)) error {
	n := len(line.Pings)
	if n == 0 {
		return nil
	}
	return w.between(line, line.Pings[0].Number, line.Pings[n-1].Number, every, l, f)
}

// between is [Work.each] for the pings from one number to another.
func (w *Work) between(line *survey.LineRecord, from, to, every uint64, l *waterfall.Leveller, f func(*record.Ping, *survey.PingRecord)) error {
	n := len(line.Pings)
	var steady survey.SteadyHeight
	at := 0
	for p, err := range w.Record.Pings(from, to) {
		if err != nil {
			return err
		}
		for at < n && line.Pings[at].Number < p.Number {
			at++
		}
		if at == n || line.Pings[at].Number != p.Number {
			continue // it came before the desk knew where the bottom is
		}
		here := &line.Pings[at]
		if here.Height <= 0 || p.Lost {
			continue
		}
		steady.Add(here.Height, here.Fix.Depth)
		if p.Number%every != 0 {
			continue
		}
		l.Set(p.Recorder.Receivers[w.Channel])
		l.Prepare(p.Recorder.Samples, w.recorder(p).Bin(), steady.Metres())
		f(p, here)
	}
	return nil
}
