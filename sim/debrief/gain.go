package debrief

import (
	"fmt"
	"math"
)

// steep is by how much the record of ordinary ground may fall or rise from a fifth of
// the range to nine tenths of it, dB, before its time-varied gain is to blame: our own
// choice.
const steep = 20.0

// tilt is by how much the record of ordinary ground rises from near to far with the
// receiver as it is set, dB, by the sonar equation.
func (m *marking) tilt() float64 {
	channel := m.s.Desk.Settings.MosaicChannel
	r := &m.s.Desk.Recorder
	if channel >= len(r.Receivers) || m.s.Prior(channel) == nil {
		return 0
	}
	var counts [2]float64
	m.s.Prior(channel).Counts(counts[:], r.Receivers[channel], []float64{0.2 * r.RangeScale, 0.9 * r.RangeScale}, 0.1*r.RangeScale)
	if !(counts[0] > 0) || !(counts[1] > 0) {
		return 0
	}
	return 20 * math.Log10(counts[1]/counts[0])
}

// gainKind tells a gain that is wrong at all ranges from one that is wrong over them.
func (m *marking) gainKind() string {
	if math.Abs(m.tilt()) > steep {
		return "tvg"
	}
	return "gain"
}

// gainSays advises about a record too full, or else too faint.
func (m *marking) gainSays(full bool) string {
	if t := m.tilt(); math.Abs(t) > steep {
		way := "falls"
		if t > 0 {
			way = "rises"
		}
		return fmt.Sprintf("the time-varied gain is wrong: ordinary ground %s by %.0f dB from near to far. Set it so that sand is as bright far out as close by, then set the gain.", way, math.Abs(t))
	}
	if full {
		return "take gain off until ordinary ground is a middle grey, before the line."
	}
	return "give more gain before the line."
}
