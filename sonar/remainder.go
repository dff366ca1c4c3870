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

// remainderTables are by the step of the walk, in dB by those angles.
var remainderTables = [...]map[seabed.Class][remainderNodes]float64{
	FineSteps: {
		seabed.Mud:        {-0.22, -0.15, -0.08, -0.03, 0.00, 0.01, 0.02, 0.02, 0.01, 0.01, 0.00, -0.01, -0.01, -0.02, -0.03, -0.04, -0.06, -0.08, -0.07, -0.07, -0.09, -0.12, -0.13, -1.61},
		seabed.Silt:       {-0.17, -0.11, -0.06, -0.02, 0.00, 0.01, 0.02, 0.02, 0.01, 0.01, -0.01, -0.01, -0.01, -0.03, -0.03, -0.05, -0.06, -0.08, -0.07, -0.07, -0.09, -0.12, -0.15, -1.68},
		seabed.FineSand:   {-1.86, -1.58, -1.27, -0.99, -0.70, -0.46, -0.24, -0.11, 0.00, 0.11, -0.03, -0.01, 0.09, -0.06, -0.03, -0.06, -0.09, -0.10, -0.13, -0.17, -0.36, -0.74, -1.09, 0.70},
		seabed.MediumSand: {-5.05, -3.99, -3.03, -2.24, -1.59, -1.06, -0.60, -0.28, -0.02, 0.08, 0.22, 0.15, -0.05, 0.07, -0.01, -0.14, -0.15, -0.24, -0.32, -0.38, -0.58, -0.63, -0.66, 0.87},
		seabed.CoarseSand: {-5.60, -4.43, -3.40, -2.56, -1.89, -1.33, -0.82, -0.48, -0.21, 0.04, 0.20, 0.21, 0.11, -0.06, -0.02, -0.06, -0.20, -0.30, -0.37, -0.35, -0.42, -0.41, -0.43, 0.91},
		seabed.Gravel:     {-5.30, -4.33, -3.44, -2.70, -2.05, -1.50, -0.98, -0.57, -0.19, 0.03, 0.20, 0.22, 0.17, 0.08, -0.08, -0.06, -0.08, -0.19, -0.20, -0.28, -0.19, -0.20, -0.51, 1.04},
		seabed.Cobble:     {-5.44, -4.49, -3.63, -2.90, -2.28, -1.76, -1.28, -0.91, -0.58, -0.31, -0.12, 0.07, 0.11, 0.12, 0.08, 0.04, -0.04, -0.12, -0.12, -0.11, -0.13, -0.25, -0.46, 1.09},
		seabed.Rock:       {-5.29, -4.39, -3.55, -2.87, -2.29, -1.83, -1.38, -1.02, -0.69, -0.37, -0.20, -0.06, 0.05, 0.09, 0.07, 0.07, 0.00, 0.02, -0.05, -0.11, -0.10, -0.26, -0.68, 1.10},
		seabed.ShellBed:   {-2.10, -1.56, -1.09, -0.72, -0.48, -0.30, -0.15, -0.04, 0.03, 0.12, 0.14, 0.11, 0.00, -0.31, 0.06, 0.08, -0.05, -0.11, -0.12, -0.14, -0.19, -0.24, -0.37, 0.79},
		seabed.Seagrass:   {-8.42, -7.43, -6.49, -5.55, -4.69, -3.82, -2.97, -2.15, -1.42, -0.67, -0.40, -0.27, -0.07, -0.08, -0.10, -0.27, -0.37, -0.64, -0.74, -0.97, -1.10, -1.07, -1.43, 1.05},
	},
	CoarseSteps: {
		seabed.Mud:        {-0.01, -0.01, 0.00, 0.01, 0.02, 0.02, 0.02, 0.02, 0.01, 0.01, -0.00, -0.01, -0.01, -0.02, -0.03, -0.04, -0.05, -0.08, -0.07, -0.08, -0.06, -0.17, -0.06, -1.57},
		seabed.Silt:       {0.01, 0.01, 0.01, 0.02, 0.02, 0.02, 0.02, 0.01, 0.00, 0.01, -0.01, -0.01, -0.01, -0.02, -0.03, -0.05, -0.05, -0.09, -0.06, -0.08, -0.07, -0.18, -0.07, -1.63},
		seabed.FineSand:   {-1.45, -1.22, -0.97, -0.74, -0.50, -0.31, -0.13, -0.03, 0.04, 0.13, -0.03, -0.02, 0.07, -0.07, -0.03, -0.06, -0.08, -0.09, -0.12, -0.14, -0.28, -0.66, -0.97, 0.64},
		seabed.MediumSand: {-4.61, -3.61, -2.71, -1.97, -1.38, -0.91, -0.50, -0.22, -0.00, 0.08, 0.21, 0.14, -0.05, 0.06, -0.01, -0.14, -0.14, -0.21, -0.28, -0.33, -0.49, -0.57, -0.61, 0.81},
		seabed.CoarseSand: {-5.20, -4.09, -3.10, -2.30, -1.67, -1.17, -0.71, -0.40, -0.17, 0.04, 0.19, 0.19, 0.09, -0.06, -0.02, -0.05, -0.18, -0.26, -0.33, -0.30, -0.36, -0.39, -0.43, 0.85},
		seabed.Gravel:     {-5.00, -4.06, -3.20, -2.48, -1.86, -1.34, -0.86, -0.49, -0.14, 0.04, 0.18, 0.19, 0.14, 0.07, -0.08, -0.06, -0.07, -0.17, -0.18, -0.26, -0.17, -0.21, -0.52, 1.00},
		seabed.Cobble:     {-5.13, -4.20, -3.36, -2.66, -2.07, -1.57, -1.12, -0.79, -0.49, -0.26, -0.10, 0.07, 0.09, 0.10, 0.06, 0.03, -0.04, -0.12, -0.12, -0.11, -0.12, -0.26, -0.47, 1.08},
		seabed.Rock:       {-5.01, -4.13, -3.31, -2.64, -2.08, -1.65, -1.22, -0.89, -0.59, -0.31, -0.17, -0.05, 0.05, 0.07, 0.06, 0.05, -0.01, 0.01, -0.06, -0.12, -0.09, -0.27, -0.67, 1.11},
		seabed.ShellBed:   {-1.93, -1.41, -0.96, -0.61, -0.39, -0.24, -0.11, -0.03, 0.03, 0.11, 0.12, 0.10, 0.01, -0.29, 0.06, 0.07, -0.05, -0.11, -0.12, -0.13, -0.17, -0.26, -0.38, 0.77},
		seabed.Seagrass:   {-8.22, -7.22, -6.28, -5.35, -4.52, -3.67, -2.84, -2.05, -1.34, -0.62, -0.38, -0.25, -0.06, -0.06, -0.08, -0.23, -0.34, -0.60, -0.71, -0.95, -1.08, -1.08, -1.45, 1.02},
	},
}

// newRemainders lays the table for a step out, on straight lines between the nodes and level
// beyond them.
func newRemainders(step GroundStep) *remainders {
	t := new(remainders)
	for class := range t {
		table := remainderTables[step][seabed.Class(class)] // zeros for objects
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
