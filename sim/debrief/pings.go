package debrief

import (
	"math"

	"dryline/sim"
	"dryline/sim/survey"
)

// logged is one line of the desk with the true pings beside its own.
type logged struct {
	*survey.LineRecord
	Pings []survey.PingRecord // those of the record that hold numbers
	truth []*sim.TruePing     // of each; nil where it is not known
	open  bool

	perMetre []float64 // pings to a metre of the fish's true way, about each
	turning  []bool    // the fish goes round
}

// sound is the record without the pings that hold no numbers.
func (l *logged) sound() *survey.LineRecord {
	return &survey.LineRecord{Name: l.Name, Track: l.Track, Pings: l.Pings}
}

// gather lists the lines in the order they were run, the open one last, and
// finds the truth of every ping. Both logs are in the order of ping numbers;
// the desk may have dropped pings that truth has kept.
func gather(s *sim.Session, w *sim.Witness) []logged {
	var lines []logged
	for _, l := range s.Desk.Lines {
		lines = append(lines, logged{LineRecord: l})
	}
	if l := s.Desk.OpenLine(); l != nil {
		lines = append(lines, logged{LineRecord: l, open: true})
	}
	next := 0
	for i := range lines {
		l := &lines[i]
		for _, p := range l.LineRecord.Pings {
			if !within(p.Along, p.Off, p.Height, p.Fix.X, p.Fix.Y, p.Fix.Heading, p.Fix.Speed) {
				continue
			}
			for next < len(w.Pings) && w.Pings[next].Number < p.Number {
				next++
			}
			var truth *sim.TruePing
			if next < len(w.Pings) && w.Pings[next].Number == p.Number {
				t := &w.Pings[next]
				if within(t.Altitude, t.X, t.Y, t.Z, t.Heading, t.Pitch) {
					truth = t
				}
			}
			l.Pings, l.truth = append(l.Pings, p), append(l.truth, truth)
		}
		l.perMetre, l.turning = l.densities(), l.turns()
	}
	return lines
}

// within reports whether all values are numbers a survey could hold: no
// instrument is beyond giving one that is not.
func within(values ...float64) bool {
	const far = 1e7 // metres: a quarter round the Earth
	for _, v := range values {
		if !(math.Abs(v) < far) {
			return false
		}
	}
	return true
}
