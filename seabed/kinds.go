package seabed

import (
	"math/rand/v2"

	opensimplex "github.com/ojrac/opensimplex-go"
)

// Kind is a family of objects: what it is made of, how big it usually is, and
// how its shape is put together from an Object's measures.
//
// The body of an object lies within its length and width about At and within
// its height above its base. Loose wreckage and fallen spars may lie beyond in
// plan, never higher.
type Kind struct {
	Class                 Class
	Length, Width, Height float64 // used where an exercise gives none, metres
	build                 func(s *shape, o *Object, rng *rand.Rand)
}

// Kinds lists every kind of object by the name used in exercise files. Usual
// sizes are common practice unless a source is named.
var Kinds = map[string]Kind{
	"hulk":         {Timber, 21, 6, 2.6, buildHulk},
	"fishing_boat": {Timber, 17, 5.8, 4.2, buildFishingBoat},
	"steel_wreck":  {Steel, 46, 13, 6.5, buildSteelWreck},
	"rowing_boat":  {Timber, 4.4, 1.6, 0.75, buildRowingBoat},
	"aircraft":     {Aluminium, 8.2, 10.8, 2.5, buildAircraft},
	"car":          {Steel, 4.3, 1.75, 1.45, buildCar},
	"container":    {Steel, 6.06, 2.44, 2.59, buildContainer}, // ISO 668, type 1CC
	"boulder":      {Stone, 1.6, 1.3, 0.9, buildBoulder},
	"boulders":     {Stone, 12, 9, 1.2, buildBoulders},
	"rubble":       {Concrete, 10, 7, 1.3, buildRubble},
	"block":        {Concrete, 1.2, 1.2, 0.8, buildBlock},
	"mooring":      {Concrete, 1.6, 1.6, 5, buildMooring},
	"pipe":         {Steel, 6, 0.5, 0.5, buildRoller},
	"cylinder":     {Steel, 2, 0.55, 0.55, buildRoller},
	"sphere":       {Steel, 0.9, 0.9, 0.9, buildSphere},
	"drum_field":   {Steel, 14, 10, 0.88, buildDrumField},
	"tyre":         {Rubber, 1.1, 1.1, 0.35, buildTyre},
	"anchor":       {Steel, 2.4, 1.6, 0.55, buildAnchor},
	"anchor_chain": {Steel, 24, 5, 0.7, buildAnchorChain},
	"mast":         {Timber, 9, 0.3, 1.5, buildMast},
	"pile_row":     {Timber, 26, 1.6, 1.6, buildPileRow},
	"pot_string":   {Netting, 120, 3, 6, buildPotString},
}

// Proportioned returns the measures nearest to some that a kind can have: a sphere
// is round every way, a pipe or cylinder across, a tyre seen from above and at most
// half as high as it is long.
func Proportioned(kind string, length, width, height float64) (float64, float64, float64) {
	switch kind {
	case "sphere":
		return length, length, length
	case "pipe", "cylinder":
		return length, height, height
	case "tyre":
		return length, length, min(height, length/2)
	}
	return length, width, height
}

func noiseOf(rng *rand.Rand) opensimplex.Noise { return opensimplex.New(int64(rng.Uint64())) }

// either is -1 or 1.
func either(rng *rand.Rand) float64 {
	if rng.Uint64()&1 == 0 {
		return -1
	}
	return 1
}

// within is a number from lo to hi.
func within(rng *rand.Rand, lo, hi float64) float64 { return lo + (hi-lo)*rng.Float64() }
