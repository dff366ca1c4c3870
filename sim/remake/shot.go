package remake

import (
	"math"

	"dryline/sim/record"
	"dryline/sim/survey"
	"dryline/sonar/mosaic"
	"dryline/sonar/waterfall"
)

// Shot is a small piece of ground to be painted from one run alone.
type Shot struct {
	Line int     // index of it
	X, Y float64 // its middle, metres
	Half float64 // of its side, metres
	Into *mosaic.Mosaic
}

// Shots paints small pieces of ground, levelled as the mosaic is. Of each line only the
// pings are read whose swath may cross a piece.
func (w *Work) Shots(shots []Shot) error {
	if len(shots) == 0 {
		return nil
	}
	l, err := w.taughtByAll()
	if err != nil {
		return err
	}
	return inTurn(len(shots), func(i int) (*Shot, error) { return &shots[i], w.shoot(&shots[i], l.Clone()) },
		func(_ int, s *Shot) { s.Into.EndLook() })
}

// shoot paints a piece of ground, levelled.
func (w *Work) shoot(s *Shot, l *waterfall.Leveller) error {
	line := w.Lines[s.Line]
	from, to, any := s.pings(line)
	if !any {
		return nil
	}
	var port, starboard []float32
	s.Into.Within(s.X-s.Half, s.Y-s.Half, s.X+s.Half, s.Y+s.Half)
	painter := mosaic.NewPainter(s.Into)
	return w.between(line, from, to, 1, l, func(p *record.Ping, at *survey.PingRecord) {
		if at.Fix.Fault != "" || !abreast(s, at) {
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

// pings are the first and the last of a line whose swath may cross the shot, with some
// before them that steady the height.
func (s *Shot) pings(line *survey.LineRecord) (from, to uint64, any bool) {
	const before = 60
	for i := range line.Pings {
		p := &line.Pings[i]
		if !abreast(s, p) {
			continue
		}
		if !any {
			from, any = line.Pings[max(i-before, 0)].Number, true
		}
		to = p.Number
	}
	return from, to, any
}

// abreast reports whether the swath of a ping may cross a shot.
func abreast(s *Shot, p *survey.PingRecord) bool {
	sin, cos := math.Sincos(p.Fix.Heading)
	const lead = 2.0 // metres, and the ground between two pings
	return math.Abs((s.X-p.Fix.X)*sin+(s.Y-p.Fix.Y)*cos) < math.Sqrt2*s.Half+lead
}
