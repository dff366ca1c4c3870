package seabed

import (
	"fmt"
	"math"
	"sync"
	"sync/atomic"

	"dryline/seabed/chance"
)

// World is the true sea floor of one exercise. It may be read by many
// goroutines at once.
type World struct {
	spec     Spec
	relief   relief
	bedforms []bedformState
	patches  []patchState
	objects  []Object // with the measures of their kind where none were given
	parts    []placedPart
	rods     []capsule
	tree     tree // of parts and rods
	fabric   fabric
	rms      [Classes]float64 // height of the micro-relief drawn, by what the fabric is made for
	ripples  []rippleTable
	looms    func() *looms

	nx, ny int
	tiles  []atomic.Pointer[tile]
	spare  atomic.Pointer[scratch] // with which no tile is being built

	mu       sync.Mutex
	most     int   // tiles kept
	order    []int // tiles built, oldest first, as a ring once it is full
	next     int
	underway map[int]*underway // by slot
}

type bedformState struct {
	areaNoise
	wave    Bedform // with the size that flow or length give it; no wavelength if it is none
	crest   float64 // phase of its crest, turns
	fine    int     // index + 1 in World.ripples when too short for the tiles
	furrows []furrow
	burrows burrows
	pits    []pit
}

// rippleTable is one fine wave field ready for sampling.
type rippleTable struct {
	kx, ky  float64 // turns per metre
	profile [256]float32
}

// New lays out a world. The spec must have been validated; only the tiles that
// objects and pipelines lie on are built.
func New(spec Spec, seed uint64) *World {
	if spec.Base == Unset {
		spec.Base = MediumSand
	}
	w := &World{spec: spec, most: TileLimit, underway: map[int]*underway{}, relief: newRelief(&spec, seed), fabric: newFabric(&spec, seed)}
	if !spec.Featureless {
		for class := range w.rms {
			w.rms[class] = classes[class].rms
		}
	}
	for k := range spec.Bedforms {
		b := &spec.Bedforms[k]
		name := fmt.Sprint("bedform", k)
		st := bedformState{areaNoise: areaNoise{noiseFor(seed, name)}, wave: spec.whole(b)}
		st.crest = crestOf(st.wave.Asymmetry)
		rng := chance.Stream(seed, "seabed/"+name)
		switch {
		case b.Kind == Scars || b.Kind == Trawl:
			for _, p := range scatter(rng, &b.Area, spec.East, spec.North, b.Count) {
				st.furrows = append(st.furrows, newFurrows(rng, b, p)...)
			}
		case b.Kind == Dredge:
			st.furrows = newTrenches(rng, b, spec.East, spec.North)
		case b.Kind == Pockmarks || b.Kind == Pits || b.Kind == Mounds:
			st.burrows = newBurrows(seed, name, b)
			for _, p := range scatter(rng, &b.Area, spec.East, spec.North, b.Count) {
				size := 0.6 + 0.8*rng.Float64()
				st.pits = append(st.pits, pit{p, b.Width / 2 * size, b.Height * size})
			}
		case st.wave.Wavelength > 0 && st.wave.Wavelength < fineWavelength:
			w.ripples = append(w.ripples, newRippleTable(&st.wave))
			st.fine = len(w.ripples)
		}
		w.bedforms = append(w.bedforms, st)
	}
	for k := range spec.Patches {
		p, name := &spec.Patches[k], fmt.Sprint("patch", k)
		w.patches = append(w.patches, patchState{areaNoise{noiseFor(seed, name)}, newMarks(chance.Stream(seed, "seabed/"+name), p, &spec)})
	}
	w.looms = sync.OnceValue(w.newLooms)
	w.nx = int(math.Ceil(spec.East / tileSize))
	w.ny = int(math.Ceil(spec.North / tileSize))
	w.tiles = make([]atomic.Pointer[tile], w.nx*w.ny)
	// Scour is laid into tiles, and tiles are built to set things on the floor:
	// all objects must be known before the first is set down.
	for k := range spec.Objects {
		o := spec.Objects[k].Whole()
		w.objects = append(w.objects, o.settled(&spec.Flow, spec.Depth, w.sedimentNear(o.At).Grain()))
	}
	for k := range w.objects {
		w.place(&w.objects[k], uint16(k+1), seed)
	}
	for k := range spec.Pipelines {
		w.lay(&spec.Pipelines[k], uint16(len(spec.Objects)+k+1), seed)
	}
	w.plantTree()
	return w
}

func newRippleTable(b *Bedform) rippleTable {
	var r rippleTable
	r.kx, r.ky = b.waveNumber()
	for i := range r.profile {
		r.profile[i] = float32(b.Height / 2 * waveProfile(float64(i)/256, b.Asymmetry))
	}
	return r
}

// Spec returns what the world was made from.
func (w *World) Spec() *Spec { return &w.spec }

// sedimentNear is the sediment that most of the ground about a point is, by the areas
// alone: it may be asked before there are tiles.
func (w *World) sedimentNear(p Point) Class {
	class := w.spec.Base
	for k := range w.spec.Patches {
		patch := &w.spec.Patches[k]
		if share, _ := patch.Area.weights(p.X, p.Y, edgeWidth, edgeMix, w.patches[k].cover); share > 0.5 && patch.Class != Unset && patch.Marks.Kind == "" {
			class = patch.Class
		}
	}
	return class
}

// floor is the height of the ground itself at a point, metres: relief and
// bedforms longer than a metre, without micro-relief, ripples and objects.
func (w *World) floor(x, y float64) float64 {
	var c cursor
	z, _ := c.at(w, x, y)
	return z
}

// HeightAt is the height of the floor or of the object standing there.
func (w *World) HeightAt(x, y float64) float64 {
	z := w.floor(x, y)
	var found [16]thing
	for _, t := range w.tree.cross(found[:0], x, y, 0, 1, 0, 0) {
		if t < 0 {
			continue // clear of the floor
		}
		if top, ok := w.parts[t].topAt(x, y); ok {
			z = max(z, top)
		}
	}
	return z
}

// ClassAt is the sediment at a point, whatever object stands on it.
func (w *World) ClassAt(x, y float64) Class {
	var c cursor
	_, n := c.at(w, x, y)
	return c.tile.surface[n].class
}
