package scenarios

import (
	"dryline/seabed"
	"dryline/seabed/units"
)

const (
	degree  = units.Degree
	hundred = 100
	kilo    = 1e3
	minute  = 60
)

// knots turns knots into m/s.
func knots(kn float64) float64 { return units.Knots(kn) }

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
