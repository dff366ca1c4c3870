package remake

import (
	"dryline/sim/record"
	"dryline/sim/survey"
)

// Rows goes through the pings of one line that have a bottom and an echo, both sides levelled by
// what the line itself taught, in samples of bin metres. What f is given is good until it returns.
func (w *Work) Rows(line int, f func(p *record.Ping, at *survey.PingRecord, bin float64, port, starboard []float32)) error {
	l, err := w.taught(w.Lines[line : line+1])
	if err != nil {
		return err
	}
	var port, starboard []float32
	return w.each(w.Lines[line], 1, l, func(p *record.Ping, at *survey.PingRecord) {
		if n := p.Recorder.Samples; len(port) != n {
			port, starboard = make([]float32, n), make([]float32, n)
		}
		l.Level(port, p.Port[w.Channel], 0)
		l.Level(starboard, p.Starboard[w.Channel], 1)
		f(p, at, w.recorder(p).Bin(), port, starboard)
	})
}
