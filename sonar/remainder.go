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
// The table was fitted by TestRemaindersAreFitted, which draws, walks and compares.
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
	seabed.Mud:        {-0.29, -0.20, -0.10, -0.04, -0.01, 0.01, 0.02, 0.01, 0.01, 0.01, -0.00, -0.01, -0.02, -0.02, -0.03, -0.04, -0.05, -0.08, -0.06, -0.10, -0.06, -0.18, -0.11, -1.71},
	seabed.Silt:       {-0.24, -0.16, -0.08, -0.02, 0.00, 0.02, 0.02, 0.01, 0.01, 0.01, -0.00, -0.01, -0.02, -0.02, -0.03, -0.04, -0.05, -0.08, -0.06, -0.10, -0.06, -0.18, -0.14, -1.74},
	seabed.FineSand:   {-1.53, -1.28, -1.03, -0.77, -0.54, -0.28, -0.11, 0.01, 0.09, 0.15, -0.03, -0.01, 0.05, -0.07, -0.04, -0.06, -0.07, -0.11, -0.10, -0.21, -0.35, -0.77, -0.97, 0.56},
	seabed.MediumSand: {-4.52, -3.65, -2.78, -2.11, -1.58, -0.99, -0.58, -0.25, -0.03, 0.13, 0.25, 0.17, -0.04, 0.08, -0.02, -0.16, -0.16, -0.26, -0.30, -0.53, -0.47, -0.67, -0.53, 0.67},
	seabed.CoarseSand: {-4.86, -3.97, -3.08, -2.40, -1.86, -1.25, -0.82, -0.44, -0.18, 0.05, 0.20, 0.21, 0.12, -0.04, -0.02, -0.07, -0.22, -0.34, -0.34, -0.50, -0.34, -0.43, -0.29, 0.71},
	seabed.Gravel:     {-4.50, -3.75, -3.00, -2.42, -1.94, -1.39, -0.96, -0.54, -0.20, 0.06, 0.16, 0.21, 0.17, 0.08, -0.05, -0.07, -0.11, -0.20, -0.21, -0.30, -0.14, -0.25, -0.25, 0.71},
	seabed.Cobble:     {-4.57, -3.87, -3.16, -2.62, -2.17, -1.65, -1.25, -0.89, -0.58, -0.29, -0.14, 0.06, 0.11, 0.13, 0.10, 0.03, -0.03, -0.12, -0.09, -0.14, -0.05, -0.24, -0.31, 0.62},
	seabed.Rock:       {-4.38, -3.74, -3.10, -2.60, -2.19, -1.70, -1.32, -0.98, -0.68, -0.39, -0.24, -0.06, 0.03, 0.10, 0.10, 0.07, 0.04, -0.01, -0.04, -0.13, -0.03, -0.22, -0.36, 0.59},
	seabed.ShellBed:   {-1.74, -1.33, -0.91, -0.65, -0.46, -0.28, -0.14, -0.03, 0.06, 0.13, 0.14, 0.10, -0.02, -0.26, 0.03, 0.09, -0.04, -0.12, -0.12, -0.20, -0.12, -0.24, -0.20, 0.50},
	seabed.Seagrass:   {-7.94, -7.01, -6.07, -5.22, -4.49, -3.49, -2.71, -1.96, -1.31, -0.51, -0.30, -0.17, -0.05, -0.07, -0.09, -0.21, -0.35, -0.55, -0.75, -0.77, -1.12, -1.29, -1.25, 0.97},
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
