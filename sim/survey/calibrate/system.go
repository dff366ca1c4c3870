package calibrate

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// What a system's calibration asks for. The passes and the radius are those of the NOAA
// Field Procedures Manual 2014, 1.5.7.1.2: ten passes or more on an object of about a
// metre, with both channels, over the range and in several directions; an object placed
// within 10 m, at 95 %, by a towed system. How much of the range and how many directions
// that takes is our own reading of it.
const (
	PassesWanted     = 10
	RadiusTowed      = 10.0 // metres
	nearShare        = 0.4  // of the reach: some passes nearer than this
	farShare         = 0.7  // and some farther than this
	directionsWanted = 3    // of eight, a pass and its reciprocal being two
)

// Try is a pass on the object.
type Try struct {
	Pass      string
	Detected  bool
	X, Y      float64 // where the object was placed, metres; if it was detected
	Course    float64 // grid bearing, radians
	Starboard bool
	Range     float64 // over the ground, metres
	Reach     float64 // of the swath, metres
}

// System is how well a system finds and places an object.
type System struct {
	Tries      []Try
	Detections int
	Misses     int
	X, Y       float64 // the mean of all detections, metres

	// Radius about the mean holds 95 % of detections: 2.45 sigma, sigma^2 the mean of
	// the squares about the mean on either axis (IHO S-44 6.1.0, 2.7). RadiusLow and
	// RadiusHigh hold it with 95 %, by chi-square.
	Radius, RadiusLow, RadiusHigh float64

	// Along and Across are the means, in the frame of each pass, of what it placed less
	// the mean; Askew is the bearing the swath was laid square to less the one it truly
	// was, radians, clockwise positive, by the slope of the error along the track over the
	// distance to the right. A layback that is wrong shows in Along, a crab in Askew; both vanish from the mean position of
	// reciprocal passes.
	Along, Across, Askew, AskewSigma float64

	Lacking []string // of what is asked for; nothing if it is a calibration
	Met     bool     // it is one, every pass found the object, and the radius is within the limit
}

// Check works out what passes on an object tell.
func Check(tries []Try) System {
	s := System{Tries: tries}
	port, starboard := 0, 0
	near, far := math.Inf(1), 0.0
	directions, ways := map[int]bool{}, map[int]bool{}
	for _, t := range tries {
		if t.Starboard {
			starboard++
		} else {
			port++
		}
		near, far = min(near, t.Range/t.Reach), max(far, t.Range/t.Reach)
		eighth := int(math.Round(t.Course/(math.Pi/4))+16) % 8
		directions[eighth], ways[eighth%4] = true, true
		if t.Detected {
			s.Detections++
			s.X, s.Y = s.X+t.X, s.Y+t.Y
		}
	}
	s.Misses = len(tries) - s.Detections
	lack := func(is bool, format string, values ...any) {
		if is {
			s.Lacking = append(s.Lacking, fmt.Sprintf(format, values...))
		}
	}
	lack(len(tries) < PassesWanted, "%d passes (want %d)", len(tries), PassesWanted)
	lack(port == 0 || starboard == 0, "one channel alone: %d passes to port, %d to starboard", port, starboard)
	lack(len(tries) > 0 && near > nearShare, "none nearer than %.0f %% of the range (want one within %.0f)", 100*near, 100*nearShare)
	lack(far < farShare, "none farther than %.0f %% of the range (want one beyond %.0f)", 100*far, 100*farShare)
	lack(len(directions) < directionsWanted || len(ways) < 2, "%d directions, reciprocals taken as one %d (want %d and 2): reciprocal passes hide a crab", len(directions), len(ways), directionsWanted)
	if s.Detections > 0 {
		s.X, s.Y = s.X/float64(s.Detections), s.Y/float64(s.Detections)
	}
	lack(s.Detections < 2, "%d detections tell no radius", s.Detections)
	if s.Detections < 2 {
		return s
	}
	s.spread()
	s.Met = len(s.Lacking) == 0 && s.Misses == 0 && s.Radius <= RadiusTowed
	return s
}

// spread works out the radius and what is behind it.
func (s *System) spread() {
	squares, xx, xy := 0.0, 0.0, 0.0
	type place struct{ along, across, right float64 }
	var places []place
	for _, t := range s.Tries {
		if !t.Detected {
			continue
		}
		dx, dy := t.X-s.X, t.Y-s.Y
		squares += dx*dx + dy*dy
		sin, cos := math.Sincos(t.Course)
		right := t.Range
		if !t.Starboard {
			right = -right
		}
		p := place{dx*sin + dy*cos, dx*cos - dy*sin, right}
		s.Along, s.Across = s.Along+p.along, s.Across+p.across
		places = append(places, p)
	}
	n := float64(len(places))
	s.Along, s.Across = s.Along/n, s.Across/n
	free := 2 * (n - 1)
	sigma := math.Sqrt(squares / free)
	const two = 2.4477 // sqrt(-2 ln 0.05)
	chi := distuv.ChiSquared{K: free}
	s.Radius = two * sigma
	s.RadiusLow, s.RadiusHigh = s.Radius*math.Sqrt(free/chi.Quantile(0.975)), s.Radius*math.Sqrt(free/chi.Quantile(0.025))
	rest := 0.0
	for _, p := range places {
		xx += p.right * p.right
		xy += p.right * (p.along - s.Along)
	}
	if xx == 0 {
		return
	}
	slope := -xy / xx
	for _, p := range places {
		e := p.along - s.Along + slope*p.right
		rest += e * e
	}
	s.Askew, s.AskewSigma = math.Atan(slope), math.Sqrt(rest/max(n-2, 1)/xx)
}
