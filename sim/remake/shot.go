package remake

import (
	"math"

	"dryline/sim/record"
	"dryline/sim/survey"
	"dryline/sonar/mosaic"
)

// Shot is a small piece of ground to be painted from one run alone.
type Shot struct {
	Line int     // index of it
	X, Y float64 // its middle, metres
	Half float64 // of its side, metres
	Into *mosaic.Mosaic
}

// Shots paints small pieces of ground, levelled as the mosaic is.
func (w *Work) Shots(shots []Shot) error {
	if len(shots) == 0 {
		return nil
	}
	l, err := w.taught(w.Lines)
	if err != nil {
		return err
	}
	var port, starboard []float32
	for i, line := range w.Lines {
		var of []Shot
		var painters []*mosaic.Painter
		for _, s := range shots {
			if s.Line == i {
				s.Into.Within(s.X-s.Half, s.Y-s.Half, s.X+s.Half, s.Y+s.Half)
				of, painters = append(of, s), append(painters, mosaic.NewPainter(s.Into))
			}
		}
		if len(of) == 0 {
			continue
		}
		if err := w.each(line, 1, l, func(p *record.Ping, at *survey.PingRecord) {
			levelled := false
			for k := range of {
				if at.Fix.Fault != "" || !abreast(&of[k], at) {
					continue
				}
				if n := p.Recorder.Samples; len(port) != n {
					port, starboard = make([]float32, n), make([]float32, n)
				}
				if !levelled {
					l.Level(port, p.Port[w.Channel], 0)
					l.Level(starboard, p.Starboard[w.Channel], 1)
					levelled = true
				}
				painters[k].Paint(survey.Swath(at.Fix, at.Height, w.recorder(p), port, starboard))
			}
		}); err != nil {
			return err
		}
		for k := range of {
			of[k].Into.EndLook()
		}
	}
	return nil
}

// abreast reports whether the swath of a ping may cross a shot.
func abreast(s *Shot, p *survey.PingRecord) bool {
	sin, cos := math.Sincos(p.Fix.Heading)
	const lead = 2.0 // metres, and the ground between two pings
	return math.Abs((s.X-p.Fix.X)*sin+(s.Y-p.Fix.Y)*cos) < math.Sqrt2*s.Half+lead
}
