package scenarios

import (
	"math"

	"dryline/seabed"
)

const (
	degree = math.Pi / 180
	// The international nautical mile is 1852 m exactly (First International
	// Extraordinary Hydrographic Conference, Monaco 1929); the knot is one an
	// hour (SI brochure, 8th edition 2006, table 8).
	metresPerMile  = 1852
	secondsPerHour = 3600
	hundred        = 100
	kilo           = 1e3
	minute         = 60
)

// knots turns knots into m/s.
func knots(kn float64) float64 { return kn * metresPerMile / secondsPerHour }

func point(p [2]float64) seabed.Point { return seabed.Point{X: p[0], Y: p[1]} }

func points(ps [][2]float64) []seabed.Point {
	if len(ps) == 0 {
		return nil
	}
	out := make([]seabed.Point, len(ps))
	for i, p := range ps {
		out[i] = point(p)
	}
	return out
}
