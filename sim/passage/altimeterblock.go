package passage

import (
	"math"

	"dryline/sonar"
)

// overSchool is how far under the fish a school returns the altimeter's sound,
// metres: to its top, or next to nothing from within it; 0 where the water is
// clear. A school is an ellipsoid, and the altimeter's beam a line.
func overSchool(schools []sonar.School, fish sonar.Pose) float64 {
	const within = 0.1 // metres
	nearest := 0.0
	for i := range schools {
		s := &schools[i]
		sin, cos := math.Sincos(s.Heading)
		dx, dy := fish.X-s.X, fish.Y-s.Y
		along, across := 2*(dx*sin+dy*cos)/s.Length, 2*(dx*cos-dy*sin)/s.Width
		out := along*along + across*across
		if !(out < 1) {
			continue
		}
		half := s.Height / 2 * math.Sqrt(1-out)
		down := fish.Z - (half - s.Depth)
		switch {
		case down < -2*half: // the fish is under it
			continue
		case down < within:
			down = within
		}
		if nearest == 0 || down < nearest {
			nearest = down
		}
	}
	return nearest
}
