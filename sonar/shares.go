package sonar

import "math"

// shares are how much of each channel's beam lies astern of a place, by segment, over a level floor at
// an altitude below the fish. The strip that ends at a place is mostly followed by one that
// begins there.
type shares struct {
	place, altitude float64
	first, end      int // segments known
	of              [][]float64
}

func (e *Engine) newShares(ws *Workspace) (s shares) {
	for range e.channels {
		s.of = append(s.of, make([]float64, ws.segments))
	}
	return s
}

// know works out what is not known of the segments from first to last.
func (s *shares) know(e *Engine, place, altitude float64, first, last int) {
	if s.place != place || s.altitude != altitude || first > s.end || last < s.first {
		s.place, s.altitude, s.first, s.end = place, altitude, first, first
	}
	s.fill(e, first, s.first)
	s.fill(e, s.end, last+1)
	s.first, s.end = min(s.first, first), max(s.end, last+1)
}

func (s *shares) fill(e *Engine, from, to int) {
	beam := e.channels[0].beam // whose segments are those of all channels
	for k := from; k < to; k++ {
		r := beam.middle + float64(k)*beam.step
		offset := s.place * e.fan.width(math.Sqrt(max(r*r-s.altitude*s.altitude, 0)))
		for c, t := range e.channels {
			s.of[c][k] = t.beam.segments[k].within(offset)
		}
	}
}

// weighBand aims at a strip in some segments of the range, as it lies an altitude below the fish, and
// reports whether any of a beam lies there. Ground and what stands on it, which lie at different altitudes,
// have shares of their own.
func (e *Engine) weighBand(ws *Workspace, s band, altitude float64, known *[2]shares, first, last int) bool {
	if known[1].place == s.from && known[1].altitude == altitude {
		known[0], known[1] = known[1], known[0]
	}
	known[0].know(e, s.from, altitude, first, last)
	known[1].know(e, s.to, altitude, first, last)
	any := false
	for c, t := range e.channels {
		lane := &ws.lanes[c]
		lane.now = lane.strip
		from, to, strip := known[0].of[c][first:last+1], known[1].of[c][first:last+1], lane.strip[first:last+1]
		for k := range strip {
			w := t.width * (to[k] - from[k])
			strip[k] = w
			any = any || w > 1e-9*t.width
		}
	}
	return any
}

// standingAltitude is the altitude that what stands as high as top over the fish is weighed at, over ground
// at an altitude below it: half way up, in steps that strips side by side share.
func standingAltitude(altitude, top float64) float64 {
	const step = 0.2
	return math.Round((altitude-max(top, -altitude))/2/step) * step
}
