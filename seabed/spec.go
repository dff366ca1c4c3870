package seabed

import (
	"cmp"
	"math"
	"slices"

	"dryline/seabed/transport"
)

// Spec describes a world completely; with a seed it fixes every centimetre.
type Spec struct {
	East, North float64 // extent of the world, metres
	Depth       float64 // mean depth below still water, metres, positive
	Relief      Relief
	Depths      Depths // measured, in place of a relief of the world's own; nil for none
	Bedforms    []Bedform
	Base        Class // sediment where no patch applies; Unset is medium sand
	Patches     []Patch
	Flow        Flow // that shapes ripples and buries objects, where they ask for it
	Featureless bool // no roughness is drawn on sediments, so that they answer evenly
	Objects     []Object
	Pipelines   []Pipeline
}

// holds reports whether a sediment is laid anywhere.
func (s *Spec) holds(class Class) bool {
	return s.Base == class || slices.ContainsFunc(s.Patches, func(p Patch) bool { return p.Class == class })
}

// Depths are a floor that was measured: a grid of package grid is one. Waves shorter than
// two cells are not in it; relief and roughness go on from there.
type Depths interface {
	HeightAt(x, y float64) float64 // metres, up
	Cell() float64                 // between its nodes, metres
	Rough() float64                // how it bends over two cells: rms height of a node over the middle of those two to either side, metres
	Memory() float64               // bytes
}

// Relief is the large shape of the floor.
type Relief struct {
	Gradient   float64 // mean slope, metres per metre
	DeepensTo  float64 // grid bearing towards which it deepens, radians
	Height     float64 // height of the noise, crest to mean, metres
	Wavelength float64 // longest wavelength of the noise, metres
	Octaves    int     // each of half the wavelength and 0.65 of the height; below 32 m the sediments' roughness takes over
	Channels   []Channel
}

// Channel is a trough along a polyline with a Gaussian cross-section.
type Channel struct {
	Axis  []Point
	Width float64 // full width at exp(-2) of the depth, metres
	Depth float64 // metres below the surrounding floor
}

// BedformKind names a family of bedforms.
type BedformKind string

// The bedforms.
const (
	Waves     BedformKind = "waves"      // ripples, megaripples and sand waves, by wavelength
	Scars     BedformKind = "scars"      // furrows with berms, as dragged anchors leave
	Trawl     BedformKind = "trawl"      // pairs of long straight furrows, as trawl doors leave
	Dredge    BedformKind = "dredge"     // parallel trenches with flat bottoms
	Pockmarks BedformKind = "pockmarks"  // conical pits
	Pits      BedformKind = "pits"       // dug by animals: small, strewn by a density
	Mounds    BedformKind = "mounds"     // heaped up by animals
	Ripples   BedformKind = "ripples"    // as the flow makes them of the grains
	SandWaves BedformKind = "sand_waves" // with megaripples on their stoss side
	Outcrop   BedformKind = "outcrop"    // ridged rock standing out of the sediment
)

// Bedform is one field of bedforms.
type Bedform struct {
	Kind BedformKind
	Area Area

	On         Class   // waves, ripples and sand waves: only where the floor is this sediment; Unset is anywhere
	Height     float64 // trough to crest, or depth of a scar or pit, metres; of sand waves 0 is by their length
	Wavelength float64 // waves and outcrop, metres
	Crest      float64 // waves: grid bearing of the crest lines; furrows and trenches: of those; radians
	Asymmetry  float64 // waves: 0 symmetric .. 0.8 steep on one side
	Wander     float64 // waves: crest waviness in wavelengths; scars and trawl: bending, radians
	Count      int     // scars, pairs of trawl furrows, trenches and pockmarks
	Density    float64 // pits and mounds: mean number on a square metre
	Length     float64 // scars, trawl and dredge, metres
	Width      float64 // of one scar, furrow or pockmark, or of a trench's flat bottom, metres
	Spacing    float64 // trawl: between the furrows of a pair; dredge: between trenches; axes, metres
}

// Flow is the water that shapes the bed: waves and a current, in the mean depth.
type Flow struct {
	WaveHeight, WavePeriod float64 // metres, seconds
	WavesFrom              float64 // grid bearing, radians
	Current                float64 // mean over the depth, m/s
	Set                    float64 // grid bearing that it sets to, radians
}

// over is the flow for its effect on grains.
func (f *Flow) over(depth float64) transport.Flow {
	return transport.Flow{Height: f.WaveHeight, Period: f.WavePeriod, Current: f.Current, Depth: depth}
}

// whole is a field of waves with its size where the flow or its length gives it; of no
// wavelength where nothing is heaped up.
func (s *Spec) whole(b *Bedform) Bedform {
	out := *b
	switch b.Kind {
	case Ripples:
		r := s.Flow.over(s.Depth).Ripple(cmp.Or(b.On, s.Base).Grain())
		out.Wavelength, out.Height = r.Length, r.Height
		across := s.Flow.Set // of the crests
		if s.Flow.Current == 0 || r.Length != transport.CurrentRipple(cmp.Or(b.On, s.Base).Grain()).Length {
			across, out.Asymmetry = s.Flow.WavesFrom, 0
		}
		out.Crest = across + math.Pi/2
		if out.Wavelength < shortestRipple {
			out.Wavelength = 0 // its echo is in the roughness
		}
	case SandWaves:
		out.Height = cmp.Or(b.Height, transport.DuneHeight(b.Wavelength))
	case Waves:
	default:
		out.Wavelength = 0
	}
	return out
}

// shortestRipple is the shortest that a step of the micro-relief can draw, metres.
const shortestRipple = 0.2

// Patch lays a sediment over an area.
type Patch struct {
	Class Class
	Area  Area
	Marks Marks // only where these are, if any are said
}

// MarkKind names a family of marks of one sediment on another.
type MarkKind string

// The marks.
const (
	Discs       MarkKind = "discs"       // overlapping, as loads of spoil fall: no relief
	Comets      MarkKind = "comets"      // from a head down the current, fading out
	Trails      MarkKind = "trails"      // comets, one from every object on the area
	Depressions MarkKind = "depressions" // scoured, with a sharp edge and a soft one; blow-outs, in seagrass
	Blots       MarkKind = "blots"       // ragged, in lobes and islets, as shells lie
	Heaps       MarkKind = "heaps"       // dumped: a ridge with even slopes and stones strewn along its foot
)

// Marks are places strewn over an area, one shape each.
type Marks struct {
	Kind   MarkKind
	Count  int     // of trails not used
	Length float64 // metres; of discs and blots the mean diameter
	Width  float64 // metres; of discs, blots and trails not used
	Along  float64 // grid bearing comets and trails lead to, depressions and heaps are long along, radians
	Depth  float64 // of depressions, metres
	Height float64 // of heaps, metres
}

// fineWavelength is the wavelength below which waves are added at every
// sample instead of in the tiles, metres.
const fineWavelength = 1.5
