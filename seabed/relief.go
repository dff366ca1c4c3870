package seabed

import (
	"fmt"
	"iter"
	"math"
	"slices"

	"dryline/seabed/chance"

	opensimplex "github.com/ojrac/opensimplex-go"
)

// relief evaluates the smooth part of the floor, straight from the noise.
// It costs tens of nanoseconds an octave and is called only to build tiles.
type relief struct {
	spec   *Spec
	shape  Relief // the spec's, or what goes on below measured depths
	octave []opensimplex.Noise
	sin    float64 // of the bearing it deepens to
	cos    float64
}

// goesOn is how high the octave of a wavelength of the relief is to how much the whole relief bends
// over that length, rms: measured on the relief's own noise, 1.2 to 1.5 by seed and wavelength.
const goesOn = 1.32

// newRelief has the octaves of the relief; on measured depths those that go on below
// their cells, as high as the fall from the shortest waves measured makes them. Their
// spectrum is the relief's own (see fallOff).
func newRelief(spec *Spec, seed uint64) relief {
	r := relief{spec: spec, shape: spec.Relief}
	if d := spec.Depths; d != nil {
		r.shape = Relief{Wavelength: 2 * d.Cell(), Height: goesOn * d.Rough(), Octaves: 12}
		if r.shape.Wavelength < longestRoughness {
			r.shape.Octaves = 0 // the sediments' roughness goes on
		}
	}
	r.sin, r.cos = math.Sin(r.shape.DeepensTo), math.Cos(r.shape.DeepensTo)
	wavelength := r.shape.Wavelength
	for i := range r.shape.Octaves {
		if i > 0 && wavelength < longestRoughness {
			break
		}
		r.octave = append(r.octave, noiseFor(seed, fmt.Sprint("relief", i)))
		wavelength /= 2
	}
	return r
}

// ReliefOf is the large shape of the floor that a seed makes of a spec, metres, negative below the water:
// relief and channels, or measured depths, without bedforms, roughness and objects. Beyond the edges it
// goes on as it is there.
func ReliefOf(spec *Spec, seed uint64) func(x, y float64) float64 {
	r := newRelief(spec, seed)
	return func(x, y float64) float64 {
		return min(r.height(min(max(x, 0), spec.East), min(max(y, 0), spec.North)), shallowest)
	}
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
	z := r.mean(x, y)
	for o := range r.octaves() {
		z += o.at(x, y)
	}
	return r.dug(z, x, y)
}

// onto lays the smooth floor on the grid around a tile, as height has it.
func (r *relief) onto(c *coarse, x0, y0 float64) {
	near := r.about(x0, y0)
	eachCoarse(x0, y0, 0, coarseSide, func(n int, x, y float64) { c[n] = r.mean(x, y) })
	for o := range r.octaves() {
		eachCoarse(x0, y0, 0, coarseSide, func(n int, x, y float64) { c[n] += o.at(x, y) })
	}
	eachCoarse(x0, y0, 0, coarseSide, func(n int, x, y float64) { c[n] = near.dug(c[n], x, y) })
}

// mean is the floor without noise and channels.
func (r *relief) mean(x, y float64) float64 {
	if r.spec.Depths != nil {
		return r.spec.Depths.HeightAt(x, y)
	}
	along := (x-r.spec.East/2)*r.sin + (y-r.spec.North/2)*r.cos
	return -r.spec.Depth - r.shape.Gradient*along
}

// octave is one of the noises of a relief.
type octave struct {
	noise     opensimplex.Noise
	amplitude float64
	k         float64 // one over its wavelength
}

func (o *octave) at(x, y float64) float64 { return o.amplitude * o.noise.Eval2(x*o.k, y*o.k) }

// octaves goes through the noises.
func (r *relief) octaves() iter.Seq[octave] {
	return func(yield func(octave) bool) {
		amplitude, k := r.shape.Height, 1/r.shape.Wavelength
		for _, n := range r.octave {
			if !yield(octave{n, amplitude, k}) {
				return
			}
			amplitude *= fallOff
			k *= 2
		}
	}
}

// dug is a height less the channels there.
func (r *relief) dug(z, x, y float64) float64 {
	for i := range r.shape.Channels {
		z -= r.shape.Channels[i].depthAt(x, y)
	}
	return z
}

// about is the relief on the grid around a tile: of the axes of channels only that is
// left which may be the nearest there.
func (r *relief) about(x0, y0 float64) relief {
	near := *r
	near.shape.Channels = slices.Clone(r.shape.Channels)
	x, y := x0+tileSize/2, y0+tileSize/2
	for i := range near.shape.Channels {
		c := &near.shape.Channels[i]
		far := PathDistance(c.Axis, Point{x, y}) + 2*coarseReach
		for len(c.Axis) > 2 && segmentDistance(x, y, c.Axis[0], c.Axis[1]) > far {
			c.Axis = c.Axis[1:]
		}
		for n := len(c.Axis); n > 2 && segmentDistance(x, y, c.Axis[n-2], c.Axis[n-1]) > far; n-- {
			c.Axis = c.Axis[:n-1]
		}
	}
	return near
}

func (c *Channel) depthAt(x, y float64) float64 {
	u := 2 * PathDistance(c.Axis, Point{x, y}) / c.Width
	return c.Depth * math.Exp(-2*u*u)
}
