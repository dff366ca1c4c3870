package sonar

import (
	"fmt"
	"math"

	"dryline/seabed"
	"dryline/sonar/acoustics"
)

// facet is the echo of an object's surface: Lambert's law at mu (dB) plus a
// gleam near normal incidence, whose peak is over Lambert's and whose width is
// one standard deviation in degrees off the normal.
type facet struct{ mu, gleam, width float64 }

// materials are of our own choosing: side-scan sees an object's surface in
// patches, not whole, so published whole-target strengths do not apply. The
// order is by acoustic impedance against water (steel 39, stone and concrete
// 5-8, aluminium 11, glassfibre 3, timber and rubber near 1-1.5 times); rope and
// netting let most of the sound through.
var materials = [seabed.Classes]facet{
	seabed.Steel:    {-7, 14, 9},
	seabed.Concrete: {-11, 8, 12},
	seabed.Stone:    {-11, 5, 18},
	seabed.Timber:   {-14, 6, 14},
	seabed.Rubber:   {-18, 8, 10},

	seabed.Aluminium:  {-8, 14, 9},
	seabed.Glassfibre: {-16, 8, 10},
	seabed.Rope:       {-20, 2, 30},
	seabed.Netting:    {-20, 3, 30},
}

// strengthSteps is how finely sin(gamma) is tabulated: at 10 deg one step is
// 0.6 % of the grazing angle, some hundredths of a decibel.
const strengthSteps = 1024

// strengths is a table of linear backscatter by class and sin(gamma).
type strengths [seabed.Classes][strengthSteps]float32

// newStrengths evaluates the sea-floor model of package acoustics, and the
// materials, at one frequency. Flat leaves out what the model adds above the
// band it was published for. Drawn is for the facets of ground whose micro-relief
// is drawn, see remainders; else it is for ground without.
func newStrengths(frequency, soundSpeed float64, flat, drawn bool) (*strengths, error) {
	t := new(strengths)
	for _, name := range seabed.SedimentNames() {
		class, _ := seabed.ParseSediment(name)
		bottom, err := acoustics.Sediment(name).Bottom()
		if err != nil {
			return nil, fmt.Errorf("sonar: sediment %s: %w", name, err)
		}
		if flat {
			bottom.TrendExponent = 0
		}
		model := bottom.Scattering(frequency, soundSpeed)
		if drawn {
			model = bottom.FacetScattering(frequency, soundSpeed, class.DrawnSlope())
		}
		for i := range t[class] {
			t[class][i] = float32(acoustics.FromDecibels(model.Strength(grazingOf(i))))
		}
	}
	for class, m := range materials {
		if m.width == 0 {
			continue
		}
		for i := range t[class] {
			g := grazingOf(i)
			off := (math.Pi/2 - g) / (m.width * math.Pi / 180)
			level := acoustics.Lambert(m.mu, g)
			gleam := acoustics.FromDecibels(m.mu+m.gleam) * math.Exp(-off*off/2)
			t[class][i] = float32(acoustics.FromDecibels(level) + gleam)
		}
	}
	return t, nil
}

// grazingOf is the grazing angle in the middle of a table step.
func grazingOf(step int) float64 {
	return math.Asin((float64(step) + 0.5) / strengthSteps)
}
