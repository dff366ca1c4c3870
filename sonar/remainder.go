package sonar

import (
	"math"

	"dryline/seabed"
	"dryline/sonar/acoustics"
)

// remainders is by class and sine of the grazing angle of the ground without its
// micro-relief a factor on the echo of its facets.
//
// The strength of the sea floor (TR 9407, see acoustics.Bottom) is that of a bottom
// with all its slopes, averaged. The ground that a ping walks over draws part of
// those slopes, the micro-relief, so its facets must answer as ground without them
// does, or they would count twice. acoustics.Bottom.FacetScattering takes the drawn
// part out of the report's own averages. What is then still too much or missing
// comes of the terms that the report does not average over slopes (near the
// vertical, and all of gravel and stone), of the two ways in which ground shades
// itself, and of strength that falls off faster than the slopes are gentle: facets
// that face the fish answer for more than those turned away lose. It is tabulated
// here, in dB, so that flat ground has the published strength on the mean.
//
// The table was fitted by TestRemaindersAreFitted, which draws, walks and compares,
// smoothed over its three nearest nodes up to 12 degrees, where 500 m of ground are few
// for it; beyond 70 degrees it is that of ground without roughness longer than 2 m,
// which makes the angle there a matter of chance.
// It is of the drawn relief alone, its spectrum and the length of facets, and not
// of the sonar. Fitted at 450 kHz; above 100 kHz the model keeps its shape.
type remainders [seabed.Classes][remainderSteps]float32

const (
	remainderSteps = 256
	remainderNodes = 24
)

// remainderAngles are the grazing angles of the table, degrees.
var remainderAngles = [remainderNodes]float64{2, 4, 5, 6, 7, 8.5, 10, 12, 14, 17, 20, 24, 28, 33, 38, 43, 48, 53, 58, 63, 68, 73, 78, 85}

// remainderTable is in dB by those angles.
var remainderTable = map[seabed.Class][remainderNodes]float64{
	seabed.Mud:        {-0.35, -0.24, -0.09, -0.00, -0.00, 0.00, 0.01, 0.01, -0.00, 0.01, 0.01, -0.01, -0.02, -0.02, -0.04, -0.04, -0.06, -0.08, -0.08, -0.07, -0.05, -0.18, -0.11, -1.71},
	seabed.Silt:       {-0.10, -0.10, -0.08, -0.02, 0.00, 0.00, 0.02, 0.02, -0.00, 0.01, -0.02, -0.00, -0.01, -0.02, -0.03, -0.06, -0.06, -0.08, -0.08, -0.08, -0.08, -0.18, -0.14, -1.74},
	seabed.FineSand:   {-1.79, -1.73, -1.46, -1.10, -0.81, -0.46, -0.23, -0.11, 0.02, 0.11, -0.08, -0.04, 0.12, -0.06, -0.02, -0.07, -0.10, -0.12, -0.18, -0.20, -0.40, -0.77, -0.97, 0.56},
	seabed.MediumSand: {-5.84, -4.78, -3.52, -2.56, -1.82, -1.20, -0.65, -0.25, 0.06, 0.07, 0.21, 0.13, -0.06, 0.10, 0.02, -0.13, -0.15, -0.26, -0.38, -0.45, -0.64, -0.67, -0.53, 0.67},
	seabed.CoarseSand: {-6.26, -5.19, -3.93, -2.99, -2.19, -1.43, -0.89, -0.54, -0.32, 0.06, 0.28, 0.27, 0.11, -0.07, -0.04, -0.09, -0.22, -0.34, -0.38, -0.34, -0.22, -0.43, -0.29, 0.71},
	seabed.Gravel:     {-6.17, -6.59, -6.23, -4.96, -2.77, -1.62, -1.07, -0.59, -0.15, -0.08, 0.22, 0.25, 0.22, 0.11, -0.09, -0.07, -0.08, -0.23, -0.29, -0.45, -0.46, -0.25, -0.25, 0.71},
	seabed.Cobble:     {-6.21, -5.36, -4.32, -3.52, -2.78, -2.00, -1.39, -0.96, -0.72, -0.42, -0.11, 0.12, 0.12, 0.15, 0.11, 0.05, -0.04, -0.18, -0.22, -0.30, -0.62, -0.24, -0.31, 0.62},
	seabed.Rock:       {-6.35, -5.37, -4.38, -3.78, -2.91, -2.19, -1.70, -1.15, -0.78, -0.32, -0.19, -0.12, 0.03, 0.15, 0.06, 0.07, -0.00, 0.02, -0.05, -0.20, -0.99, -0.72, -0.36, 0.59},
	seabed.ShellBed:   {-2.36, -1.88, -1.27, -0.77, -0.51, -0.37, -0.13, 0.02, -0.04, 0.08, 0.13, 0.18, 0.02, -0.36, 0.08, 0.07, -0.08, -0.15, -0.16, -0.23, -0.20, -0.24, -0.20, 0.50},
	seabed.Seagrass:   {-8.47, -7.67, -6.61, -5.62, -4.73, -3.91, -3.04, -2.13, -1.35, -0.65, -0.42, -0.27, -0.01, -0.07, -0.08, -0.24, -0.31, -0.60, -0.67, -0.98, -1.04, -1.29, -1.25, 0.97},
}

// newRemainders lays the table out, on straight lines between the nodes and level
// beyond them.
func newRemainders() *remainders {
	t := new(remainders)
	for class := range t {
		table := remainderTable[seabed.Class(class)] // zeros for objects
		for i := range t[class] {
			deg := math.Asin((float64(i)+0.5)/remainderSteps) * 180 / math.Pi
			n := 0
			for n < remainderNodes-2 && remainderAngles[n+1] < deg {
				n++
			}
			a, b := remainderAngles[n], remainderAngles[n+1]
			f := min(max((deg-a)/(b-a), 0), 1)
			t[class][i] = float32(acoustics.FromDecibels(table[n] + f*(table[n+1]-table[n])))
		}
	}
	return t
}

// at is the factor at the sine of a grazing angle.
func (t *remainders) at(class seabed.Class, sine float64) float64 {
	return float64(t[class][min(max(int(sine*remainderSteps), 0), remainderSteps-1)])
}
