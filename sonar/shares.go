package sonar

import "math"

// shares are how much of each channel's beam lies astern of a place, by segment, over a level floor at
// an altitude below the fish.
type shares struct {
	place, altitude float64
	first, end      int // segments known
	of              [][]float64
}

// knownShares are those of places that strips have begun or ended at. A strip mostly begins where another ended;
// the cells' edges are the same for every ping, and the altitude is in steps.
type knownShares struct {
	rows [32]shares
	next int // that is forgotten
}

func (e *Engine) newShares(ws *Workspace) (known knownShares) {
	for i := range known.rows {
		for range e.channels {
			known.rows[i].of = append(known.rows[i].of, make([]float64, ws.segments))
		}
	}
	return known
}

// at are the shares at a place, from one segment to another.
func (k *knownShares) at(e *Engine, place, altitude float64, first, last int, keep *shares) *shares {
	for i := range k.rows {
		if s := &k.rows[i]; s.place == place && s.altitude == altitude {
			s.know(e, place, altitude, first, last)
			return s
		}
	}
	s := &k.rows[k.next]
	if s == keep {
		k.next = (k.next + 1) % len(k.rows)
		s = &k.rows[k.next]
	}
	k.next = (k.next + 1) % len(k.rows)
	s.know(e, place, altitude, first, last)
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
// reports whether any of a beam lies there.
func (e *Engine) weighBand(ws *Workspace, s band, altitude float64, first, last int) bool {
	known := &ws.strips.shares
	begin := known.at(e, s.from, altitude, first, last, nil)
	end := known.at(e, s.to, altitude, first, last, begin)
	any := false
	for c, t := range e.channels {
		lane := &ws.lanes[c]
		lane.now = lane.strip
		from, to, strip := begin.of[c][first:last+1], end.of[c][first:last+1], lane.strip[first:last+1]
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
