package seabed

import (
	"math"
	"testing"
)

// A tile is bit for bit what plainTile gives: the bytes of sessions hang on it. Invented ground with all there may be on a tile, seen from
// its middle, its edges and from borders of every kind.
func TestTilesAreThoseOfThePlainForm(t *testing.T) {
	if a := math.Nextafter(1, 2) + 0*float64(len(t.Name())); a*a+(1-2*a) != 0 {
		t.Skip("the compiler fuses products and sums here, and not the same ones in both forms")
	}
	featureless := ground()
	featureless.Featureless = true
	level := ground()
	level.Relief.Channels, level.Bedforms = nil, nil
	level.Patches = []Patch{
		{Class: Cobble, Area: Area{Bare: 0.5, Patchiness: 20, Stretch: 4, Along: 0.7}},
		{Class: Silt, Area: Area{Polygon: []Point{{-60, -50}, {460, -50}, {460, 210}, {-60, 120}}, Feather: 12}}, // hides it
		{Class: Seagrass, Area: Area{Polygon: []Point{{150, 10}, {250, 30}, {190, 90}, {240, 130}, {140, 100}}}},
	}
	for name, spec := range map[string]Spec{"ground": ground(), "featureless": featureless, "level": level, "strewn": allForms()} {
		w := New(spec, 3)
		step := 17 // tiles
		if testing.Short() {
			step = 51
		}
		for slot := 0; slot < w.nx*w.ny; slot += step {
			x0, y0 := float64(slot%w.nx)*tileSize, float64(slot/w.nx)*tileSize
			got, want := w.build(x0, y0), w.plainTile(x0, y0)
			for n := range got.z {
				if got.surface[n] != want.surface[n] || math.Float32bits(got.z[n]) != math.Float32bits(want.z[n]) {
					t.Fatalf("%s, tile (%g, %g), node %d, %d: %v m of %+v, plainly %v of %+v",
						name, x0, y0, n%tileSide, n/tileSide, got.z[n], got.surface[n], want.z[n], want.surface[n])
				}
			}
		}
	}
}

// allForms is invented ground with every bedform and mark.
func allForms() Spec {
	s := ground()
	s.Flow = Flow{Current: 0.8, Set: 0.6}
	s.Bedforms = append(s.Bedforms,
		Bedform{Kind: SandWaves, Height: 1.2, Wavelength: 60, Crest: 1.1, Asymmetry: 0.4, Wander: 0.4, Area: Area{Polygon: []Point{{20, 150}, {200, 120}, {220, 290}, {30, 280}}, Feather: 30}},
		Bedform{Kind: Waves, Height: 0.05, Wavelength: 0.7, Crest: 1, On: Gravel},
		Bedform{Kind: Waves, Height: 0.3, Wavelength: 5, Crest: 2, Area: Area{Bare: 0.4, Patchiness: 40}},
		Bedform{Kind: Trawl, Height: 0.2, Width: 1, Spacing: 30, Length: 200, Count: 4, Wander: 0.3},
		Bedform{Kind: Dredge, Height: 1.5, Width: 8, Spacing: 25, Length: 120, Count: 3, Crest: 0.3, Area: Area{Polygon: []Point{{250, 50}, {390, 50}, {390, 250}, {250, 250}}}},
		Bedform{Kind: Mounds, Height: 0.2, Width: 1.5, Density: 0.02, Count: 5},
		Bedform{Kind: Pits, Height: 0.1, Width: 0.8, Density: 0.05},
	)
	s.Patches = append(s.Patches,
		Patch{Class: Gravel, Area: Area{Bare: 0.6, Patchiness: 25}},
		Patch{Class: Rock, Area: Area{Polygon: []Point{{300, 20}, {380, 40}, {350, 120}}, Bare: 0.3, Patchiness: 12, Feather: 6}},
		Patch{Class: CoarseSand, Marks: Marks{Kind: Comets, Count: 9, Length: 40, Width: 6, Along: 0.4}},
		Patch{Class: Gravel, Marks: Marks{Kind: Depressions, Count: 6, Length: 50, Width: 20, Depth: 0.4, Along: 0.4}},
		Patch{Class: Cobble, Marks: Marks{Kind: Heaps, Count: 5, Length: 8, Width: 5, Height: 0.8}},
		Patch{Class: Silt, Marks: Marks{Kind: Blots, Count: 5, Length: 25}},
		Patch{Class: Mud, Area: Area{Polygon: []Point{{200, 200}, {420, 180}, {420, 320}, {180, 320}}, Feather: 15}},
	)
	s.Objects[1].Scour = 0.4
	return s
}
