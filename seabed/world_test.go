package seabed

import (
	"fmt"
	"maps"
	"math"
	"os"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
)

// ground is an invented world with everything a tile can hold.
func ground() Spec {
	return Spec{
		East: 400, North: 300, Depth: 16,
		Relief: Relief{
			Gradient: 0.01, DeepensTo: 1, Height: 1.2, Wavelength: 120, Octaves: 5,
			Channels: []Channel{{Axis: []Point{{0, 0}, {400, 300}}, Width: 60, Depth: 2}},
		},
		Bedforms: []Bedform{
			{Kind: Waves, Height: 0.6, Wavelength: 11, Crest: 0.4, Asymmetry: 0.5, Wander: 0.3},
			{Kind: Waves, Height: 0.06, Wavelength: 0.5, Crest: 0.2, Wander: 0.3},
			{Kind: Scars, Height: 0.4, Width: 1.5, Length: 60, Count: 12, Wander: 0.5},
			{Kind: Pockmarks, Height: 0.5, Width: 5, Count: 9},
			{Kind: Outcrop, Height: 1.5, Wavelength: 14, Area: Area{Bare: 0.7, Patchiness: 60}},
		},
		Base:    MediumSand,
		Patches: []Patch{{Class: Mud, Area: Area{Polygon: []Point{{0, 0}, {150, 0}, {150, 300}, {0, 300}}, Feather: 20}}},
		Objects: []Object{
			{Name: "a", Kind: "hulk", At: Point{200, 150}, Heading: 0.7, Length: 21, Width: 6, Height: 2.6, Scour: 0.3},
			{Name: "b", Kind: "block", At: Point{100, 80}, Length: 2, Width: 2, Height: 1},
		},
	}
}

func TestTilesFollowTheRelief(t *testing.T) {
	spec := ground()
	spec.Bedforms, spec.Objects, spec.Featureless = nil, nil, true
	w := New(spec, 3)
	const tol = 0.004 // metres: what a cubic on a 1 m grid loses of a 7.5 m wave
	for i := range 2000 {
		x := math.Mod(float64(i)*7.31, spec.East)
		y := math.Mod(float64(i)*3.77, spec.North)
		if got, want := w.floor(x, y), w.relief.height(x, y); math.Abs(got-want) > tol {
			t.Fatalf("floor(%.2f, %.2f): got %.4f m, want %.4f m from the noise itself", x, y, got, want)
		}
	}
}

func TestTileEdgesAreSeamless(t *testing.T) {
	w := New(ground(), 3)
	for i := range 500 {
		y := 0.1 + float64(i)*0.59
		west, east := w.floor(tileSize-1e-7, y), w.floor(tileSize, y)
		if math.Abs(west-east) > 1e-5 {
			t.Fatalf("at y = %.2f the floor jumps from %.6f to %.6f m across a tile edge", y, west, east)
		}
	}
}

// The plain form of Trace: relief, micro-relief and ripple at each sample on
// its own, from the tiles' two-dimensional cubic instead of the ray's.
func TestTraceAgreesWithPlainForm(t *testing.T) {
	w := New(ground(), 3)
	var p Profile
	for i := range 2000 {
		p.Steps = append(p.Steps, 0.5+float64(i)*0.03)
	}
	const x0, y0, bearing = 120.3, 60.7, 0.6
	ux, uy := math.Sin(bearing), math.Cos(bearing)
	w.Trace(&p, x0, y0, ux, uy)
	worst, sum := 0.0, 0.0
	for i, g := range p.Steps {
		x, y := x0+ux*g, y0+uy*g
		z, _, object := w.SurfaceAt(x, y)
		if object >= 0 || p.Object[i] != 0 {
			continue // objects have steep sides; tested below
		}
		d := math.Abs(z - p.Z[i])
		worst, sum = max(worst, d), sum+d
	}
	// A ray cubic through exact nodes differs from the surface cubic by the
	// curvature the tile holds between its nodes, and where the nearest node
	// changes class between them.
	if mean := sum / float64(len(p.Steps)); worst > 0.1 || mean > 0.004 {
		t.Errorf("ray against plain form: worst %.4f m, mean %.4f m; want below 0.1 and 0.004", worst, mean)
	}
}

// Along a ray the smooth floor follows the tiles' own cubic: what reading the
// ray's nodes bilinearly costs is far below the micro-relief.
func TestRayFollowsTheCubic(t *testing.T) {
	spec := ground()
	spec.Objects, spec.Base, spec.Patches = nil, Mud, nil
	spec.Bedforms = spec.Bedforms[:1] // sand waves
	w := New(spec, 3)
	w.rms = [Classes]float64{} // flat: the smooth floor alone
	var p Profile
	for g := 0.5; g < 60; g += 0.08 {
		p.Steps = append(p.Steps, g)
	}
	for _, bearing := range []float64{0, 0.4, 1.1, 2.5} {
		ux, uy := math.Sin(bearing), math.Cos(bearing)
		w.Trace(&p, 150, 120, ux, uy)
		worst, slope := 0.0, 0.0
		for i, g := range p.Steps {
			want := w.floor(150+ux*g, 120+uy*g)
			worst = max(worst, math.Abs(p.Z[i]-want))
			if i > 0 {
				before := w.floor(150+ux*p.Steps[i-1], 120+uy*p.Steps[i-1])
				slope = max(slope, math.Abs((p.Z[i]-p.Z[i-1])-(want-before))/0.08)
			}
		}
		if worst > 0.003 || slope > 0.012 {
			t.Errorf("bearing %.1f: the ray is %.4f m and %.4f in slope off the cubic, want at most 0.003 and 0.012", bearing, worst, slope)
		}
	}
}

func TestSameWorldWhateverTheOrder(t *testing.T) {
	a, b := New(ground(), 11), New(ground(), 11)
	other := New(ground(), 12)
	var group sync.WaitGroup
	for k := range 4 { // b is built by four goroutines, from the far corner
		group.Go(func() {
			for i := k; i < 200; i += 4 {
				b.HeightAt(399-float64(i*2), 299-float64(i))
			}
		})
	}
	group.Wait()
	differs := false
	for i := range 3000 {
		x, y := math.Mod(float64(i)*5.13, 400), math.Mod(float64(i)*2.71, 300)
		if p, q := a.HeightAt(x, y), b.HeightAt(x, y); p != q {
			t.Fatalf("HeightAt(%g, %g): %g in one order, %g in another", x, y, p, q)
		}
		differs = differs || a.HeightAt(x, y) != other.HeightAt(x, y)
	}
	if !differs {
		t.Error("another seed gave the same world")
	}
}

func TestTilesAreBoundedAndRebuiltAlike(t *testing.T) {
	spec := Spec{East: 2000, North: 2000, Depth: 20, Base: Seagrass, Relief: Relief{Height: 1, Wavelength: 100, Octaves: 1}}
	before := held()
	w := New(spec, 5)
	first := w.floor(3, 3)
	for j := 0.0; j < 2000; j += tileSize {
		for i := 0.0; i < 2000; i += tileSize {
			w.floor(i, j)
		}
	}
	tiles := func() (n int) {
		for i := range w.tiles {
			if w.tiles[i].Load() != nil {
				n++
			}
		}
		return n
	}
	if n := tiles(); n != TileLimit {
		t.Errorf("tiles held: got %d, want %d", n, TileLimit)
	}
	// What it takes is what it is said to take, in README.md as well.
	took, said := held()-before, spec.Memory()
	if took > said || took < 0.97*said {
		t.Errorf("a world at its fullest takes %.1f MB, Memory says %.1f", took/1e6, said/1e6)
	}
	readme, err := os.ReadFile("../README.md")
	if want := fmt.Sprintf("At most %.0f MB of it is kept in memory,", said/1e6); err != nil || !strings.Contains(string(readme), want) {
		t.Errorf("README.md does not say %q: %v", want, err)
	}
	if again := w.floor(3, 3); again != first {
		t.Errorf("a rebuilt tile differs: %g, before %g", again, first)
	}
	w.Keep(8)
	for i := range 100 {
		w.floor(20*float64(i), 500)
	}
	if n := tiles(); n != 8 {
		t.Errorf("%d tiles held, want the 8 to be kept", n)
	}
	if again := w.floor(3, 3); again != first {
		t.Errorf("a tile built among few differs: %g, before %g", again, first)
	}
}

// held returns how much lives on the heap, bytes.
func held() float64 {
	runtime.GC()
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return float64(m.HeapAlloc)
}

// What stands on a floor takes no more than is said of it.
func TestObjectsTakeNoMoreThanIsSaid(t *testing.T) {
	if testing.Short() {
		t.Skip("works out a great many places one after another")
	}
	spec := Spec{East: 500, North: 500, Depth: 60, Relief: Relief{Wavelength: 100}}
	for _, kind := range slices.Sorted(maps.Keys(Kinds)) {
		k := Kinds[kind]
		sizes := [][3]float64{{k.Length, k.Width, k.Height}}
		if kind != "sphere" && kind != "pipe" && kind != "cylinder" && kind != "tyre" {
			sizes = append(sizes, [3]float64{200, 100, 50}) // the largest there may be
		}
		for _, size := range sizes {
			spec.Objects = append(spec.Objects, Object{Kind: kind, At: Point{250, 250}, Length: size[0], Width: size[1], Height: size[2]})
		}
	}
	spec.Pipelines = []Pipeline{{
		Path: []Point{{0, 0}, {500, 500}, {0, 500}, {500, 0}}, Diameter: 0.05, Spans: []Span{{100, 700, 1}},
	}}
	spec.Bedforms = []Bedform{{Kind: Trawl, Count: 500, Length: 100, Width: 1, Height: 0.1, Spacing: 5}}
	bare := spec
	bare.Objects, bare.Pipelines, bare.Bedforms = nil, nil, nil
	before := held()
	w := New(spec, 1)
	for y := 0.0; y < 500; y += tileSize {
		for x := 0.0; x < 500; x += tileSize {
			w.floor(x, y)
		}
	}
	if took := held() - before; took > spec.Memory() || took < bare.Memory()-patchMemory {
		t.Errorf("it takes %.1f MB, Memory says %.1f, %.1f of it the floor", took/1e6, spec.Memory()/1e6, bare.Memory()/1e6)
	}
	place := Spec{East: 96, North: 96, Depth: 60, Relief: Relief{Wavelength: 100}}
	for kind, k := range Kinds {
		one := place
		for range 8 {
			one.Objects = append(one.Objects, Object{Kind: kind, At: Point{48, 48}, Length: k.Length, Width: k.Width, Height: k.Height})
		}
		var takes [2]float64
		for i, spec := range []Spec{place, one} {
			before := held()
			w := New(spec, 1)
			for n := range 9 {
				w.tileAt(n%3, n/3)
			}
			for k := range w.parts {
				if body, ok := w.parts[k].solid.(tabled); ok {
					body.table()
				}
			}
			takes[i] = held() - before
			runtime.KeepAlive(w)
		}
		if each := (takes[1] - takes[0]) / 8; each > objectMemory {
			t.Errorf("%s: %.0f kB each, want at most %.0f", kind, each/1e3, objectMemory/1e3)
		}
	}
	runtime.KeepAlive(w)
}

func TestSedimentsFollowTheirAreas(t *testing.T) {
	spec := ground()
	spec.Bedforms = nil // bare rock shows through any sediment
	w := New(spec, 3)
	for _, test := range []struct {
		name string
		x, y float64
		want Class
	}{
		{"inside the mud", 40, 150, Mud},
		{"beyond its edge", 300, 20, MediumSand},
	} {
		hits := 0
		for i := range 100 {
			if w.ClassAt(test.x+float64(i%10), test.y+float64(i/10)) == test.want {
				hits++
			}
		}
		if hits < 100 {
			t.Errorf("%s: %d of 100 points are %v, want all", test.name, hits, test.want)
		}
	}
}

func TestCoverIsTheShareAskedFor(t *testing.T) {
	if testing.Short() {
		t.Skip("works out a great many places one after another")
	}
	for _, cover := range []float64{0.2, 0.5, 0.8} {
		spec := Spec{East: 1500, North: 1500, Depth: 20, Relief: Relief{Wavelength: 100}, Base: MediumSand,
			Patches: []Patch{{Class: Gravel, Area: Area{Bare: 1 - cover, Patchiness: 20}}}}
		w := New(spec, 9)
		hits, n := 0, 0
		for y := 2.0; y < 1500; y += 7.3 {
			for x := 2.0; x < 1500; x += 7.3 {
				n++
				if w.ClassAt(x, y) == Gravel {
					hits++
				}
			}
		}
		if got := float64(hits) / float64(n); math.Abs(got-cover) > 0.08 {
			t.Errorf("cover %.1f: %.3f of the floor is covered, want within 0.08", cover, got)
		}
	}
}

func BenchmarkTrace(b *testing.B) {
	w := New(ground(), 3)
	var p Profile
	for i := range 2000 {
		p.Steps = append(p.Steps, 1+float64(i)*0.025)
	}
	w.Trace(&p, 180, 120, 0.6, 0.8)
	b.ReportAllocs()
	for b.Loop() {
		w.Trace(&p, 180, 120, 0.6, 0.8)
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*len(p.Steps)), "ns/sample")
}

func BenchmarkBuildTile(b *testing.B) {
	w := New(ground(), 3)
	for b.Loop() {
		w.build(160, 128)
	}
}
