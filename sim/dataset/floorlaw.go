package dataset

import (
	"math"

	"dryline/seabed"
	"dryline/sonar"
	"dryline/sonar/acoustics"
	"dryline/sonar/recorder"
)

// floorLaw holds what is published of the floor, for the first channel of an engine: its
// backscattering strength (acoustics.Bottom) and how its speckle varies.
//
// The strength of a window is worked out from its level by the sonar equation: by as much
// as it stands over what medium sand would be recorded with there, its strength is over
// that of medium sand. Noise is taken off both.
type floorLaw struct {
	engine     *sonar.Engine
	receiver   recorder.Receiver
	expected   *sonar.Expectation
	strengths  [seabed.FirstMaterial][91]float64 // linear, by degree of the grazing angle
	scatterers [seabed.FirstMaterial]float64     // to the square metre
}

func newFloorLaw(engine *sonar.Engine) *floorLaw {
	l := &floorLaw{engine: engine}
	for _, name := range seabed.SedimentNames() {
		class, _ := seabed.ParseSediment(name)
		sediment := acoustics.Sediment(name)
		l.scatterers[class] = sediment.Scatterers()
		bottom, err := sediment.Bottom()
		if err != nil {
			continue // not in the catalogue: nothing is published of it
		}
		budget, err := engine.Budget(0, bottom, 1)
		if err != nil {
			continue
		}
		for deg := range l.strengths[class] {
			l.strengths[class][deg] = acoustics.FromDecibels(budget.Strength(max(float64(deg), 0.5) * math.Pi / 180))
		}
	}
	l.expected, _ = engine.Expectation(0) // refuses nothing that the engine was made with
	return l
}

// published is the strength of a sediment at a grazing angle, linear.
func (l *floorLaw) published(class seabed.Class, grazing float64) float64 {
	table := &l.strengths[class]
	deg := min(max(grazing*180/math.Pi, 0), 90)
	i := min(int(deg), 89)
	return table[i] + (deg-float64(i))*(table[i+1]-table[i])
}

// contrastSquared is 1 + 2/shape, the shape being the number of scatterers that share the
// cell of a sample (Abraham and Lyons 2002); 1 where there are too many to count.
func (l *floorLaw) contrastSquared(class seabed.Class, sample int) float64 {
	if l.scatterers[class] == 0 {
		return 1
	}
	contrast := acoustics.KContrast(max(l.scatterers[class]*l.engine.Cell(0, sample), sonar.FewestScatterers))
	return contrast * contrast
}

// strength is the backscattering strength, linear, of floor that was recorded with a mean
// intensity, counts squared, at a slant range from a fish that far above it. Not where noise is
// more than a tenth of it, nor right below the fish.
func (l *floorLaw) strength(intensity, slant, below float64) (float64, bool) {
	if l.expected == nil || slant <= below {
		return 0, false
	}
	var sand, noise [1]float64
	l.expected.Counts(sand[:], l.receiver, []float64{slant}, below)
	l.expected.Counts(noise[:], l.receiver, []float64{slant}, slant+1)        // short of the floor
	square := func(mean float64) float64 { return mean * mean * 4 / math.Pi } // of the mean amplitude of speckle
	hiss := square(noise[0])
	if hiss > 0.1*intensity || square(sand[0]) <= hiss {
		return 0, false
	}
	return l.published(seabed.MediumSand, math.Asin(below/slant)) * (intensity - hiss) / (square(sand[0]) - hiss), true
}
