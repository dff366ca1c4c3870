package seabed

import (
	"fmt"
	"math"

	"dryline/seabed/chance"

	opensimplex "github.com/ojrac/opensimplex-go"
)

// relief evaluates the smooth part of the floor, straight from the noise.
// It costs tens of nanoseconds an octave and is called only to build tiles.
type relief struct {
	spec   *Spec
	octave []opensimplex.Noise
}

func newRelief(spec *Spec, seed uint64) relief {
	r := relief{spec: spec}
	wavelength := spec.Relief.Wavelength
	for i := range spec.Relief.Octaves {
		if i > 0 && wavelength < longestRoughness {
			break
		}
		r.octave = append(r.octave, noiseFor(seed, fmt.Sprint("relief", i)))
		wavelength /= 2
	}
	return r
}

func noiseFor(seed uint64, name string) opensimplex.Noise {
	return opensimplex.New(int64(chance.Seed(seed, "seabed/"+name)))
}

// fallOff is how the height falls from octave to octave: the rms height of an octave
// of the spectrum K^-3.25, whose slope is published for the roughness of sediments
// (APL-UW TR 9407, section IV, equation 8), goes as the wavelength to the power
// (3.25-2)/2. That it holds for longer waves is our own assumption.
var fallOff = math.Exp2(-0.625)

// height is the smooth floor at a point, metres, negative below the water.
func (r *relief) height(x, y float64) float64 {
	s := &r.spec.Relief
	along := (x-r.spec.East/2)*math.Sin(s.DeepensTo) + (y-r.spec.North/2)*math.Cos(s.DeepensTo)
	z := -r.spec.Depth - s.Gradient*along
	amplitude, k := s.Height, 1/s.Wavelength
	for _, n := range r.octave {
		z += amplitude * n.Eval2(x*k, y*k)
		amplitude *= fallOff
		k *= 2
	}
	for i := range s.Channels {
		z -= s.Channels[i].depthAt(x, y)
	}
	return z
}

func (c *Channel) depthAt(x, y float64) float64 {
	u := 2 * PathDistance(c.Axis, Point{x, y}) / c.Width
	return c.Depth * math.Exp(-2*u*u)
}
