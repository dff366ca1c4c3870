package calibrate

import (
	"fmt"
	"math"
)

// Sighting is an object as one pass placed it, and what it was placed with.
type Sighting struct {
	Object int
	Pass   string  // in words
	X, Y   float64 // where it was placed, metres
	Course float64 // made good, grid bearing, radians
	Across float64 // how far to the right of the fish it was seen, metres
	Crab   float64 // bearing the swath may truly be square to, less the one it was laid by, radians
	Speed  float64 // over ground, m/s

	Cable   float64 // out by the counter, metres
	Drop    float64 // of the fish below the sheave, metres
	Factor  float64 // catenary factor
	Offset  float64 // from the antenna aft to the sheave, metres
	Latency float64 // that fixes were taken to be older than they say, seconds

	SigmaAlong, SigmaAcross float64 // one standard deviation of the mark, metres
}

// behind is how far astern of the sheave the fish is by a factor, metres, and its
// derivative.
//
//	d = sqrt((f C)^2 - drop^2) ,  dd/df = f C^2/d
func (s *Sighting) behind(factor float64) (metres, perFactor float64) {
	chord := factor * s.Cable
	d := math.Sqrt(chord*chord - s.Drop*s.Drop)
	return d, factor * s.Cable * s.Cable / d
}

// mostAskew is the most that a crab may put an object off along the track, metres: a swath laid more
// askew is to be laid by a heading first. Our own choice.
const mostAskew = 2.0

// askew is how far along the track the object may lie from where it was placed, for
// the crab that the swath was laid without.
func (s *Sighting) askew() float64 { return math.Abs(s.Across * math.Sin(s.Crab)) }

// along is one standard deviation of the object's place along the track: of the mark and,
// as if it were one, what the crab may put it off by.
func (s *Sighting) along() float64 { return math.Hypot(s.SigmaAlong, s.askew()) }

// fault says why a sighting is of no use, or nothing.
func (s *Sighting) fault() string {
	switch d, _ := s.behind(s.Factor); {
	case !(s.SigmaAlong > 0 && s.SigmaAcross > 0):
		return "its mark is of no stated accuracy"
	case !(d > 0):
		return fmt.Sprintf("%.0f m of cable do not reach a fish %.0f m below the sheave", s.Cable, s.Drop)
	case s.askew() > mostAskew:
		return fmt.Sprintf("%.0f m out in a crab of %.1f°: it may lie %.1f m along the track from where it is put (want %g at most: lay the swath by a heading)", math.Abs(s.Across), s.Crab*180/math.Pi, s.askew(), mostAskew)
	}
	return ""
}
