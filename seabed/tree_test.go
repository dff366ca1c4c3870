package seabed

import (
	"math"
	"math/rand/v2"
	"testing"
)

// everyKind is a world with one of each kind and a pipeline.
func everyKind() Spec {
	spec := Spec{East: 600, North: 600, Depth: 25, Relief: Relief{Height: 1, Wavelength: 80, Octaves: 3}, Base: FineSand}
	i := 0
	for _, name := range sortedKinds() {
		at := Point{80 + 90*float64(i%6), 80 + 90*float64(i/6)}
		spec.Objects = append(spec.Objects, Object{Name: name, Kind: name, At: at, Heading: float64(i)})
		i++
	}
	spec.Pipelines = []Pipeline{{Name: "line", Path: []Point{{20, 20}, {300, 40}, {580, 300}}, Diameter: 0.5, Burial: 0.2, Spans: []Span{{100, 130, 1}}}}
	return spec
}

// The tree against looking at every part and rod: what a ray meets is the
// same, and no part of an object is lost for lying outside a bound.
func TestTreeFindsWhatLookingAtAllFinds(t *testing.T) {
	w := New(everyKind(), 2)
	rng := rand.New(rand.NewPCG(1, 2))
	hits, rods := 0, 0
	for range 400 {
		// Rays from anywhere, roughly towards some object.
		at := w.objects[rng.IntN(len(w.objects))].At
		bearing := 2 * math.Pi * rng.Float64()
		off, back := 8*rng.NormFloat64(), 60*rng.Float64()
		x := at.X - back*math.Sin(bearing) + off*math.Cos(bearing)
		y := at.Y - back*math.Cos(bearing) - off*math.Sin(bearing)
		ux, uy := math.Sincos(bearing)
		p := Profile{Fine: 0.05}
		for g := 0.5; g < 80; g += 0.2 {
			p.Steps = append(p.Steps, g)
		}
		w.Trace(&p, x, y, ux, uy)
		for i, g := range p.G {
			// The highest part at the point, by looking at all of them.
			best, object := math.Inf(-1), uint16(0)
			for k := range w.parts {
				if z, ok := w.parts[k].topAt(x+g*ux, y+g*uy); ok && z > best {
					best, object = z, w.parts[k].object
				}
			}
			// Just at an edge the two forms may round to different sides.
			switch {
			case p.Object[i] != 0 && math.Abs(best-p.Z[i]) > 1e-6:
				t.Fatalf("ray (%.2f, %.2f) at %.2f m: %.4f m, want %.4f", x, y, g, p.Z[i], best)
			case p.Object[i] == 0 && object != 0 && best > p.Z[i]+1e-6:
				t.Fatalf("ray (%.2f, %.2f) at %.2f m: missed object %d", x, y, g, object)
			case p.Object[i] != 0:
				hits++
			}
		}
		var all []Raised
		for k := range w.rods {
			all = w.rods[k].cut(all, x, y, ux, uy, p.Steps[0], p.Steps[len(p.Steps)-1])
		}
		if len(all) != len(p.Raised) {
			t.Fatalf("ray (%.2f, %.2f): %d raised pieces, want %d", x, y, len(p.Raised), len(all))
		}
		rods += len(all)
	}
	if hits < 500 || rods < 100 {
		t.Errorf("only %d samples and %d pieces were met; too few to mean anything", hits, rods)
	}
}

// HeightAt and the ray's own heights are the same things read two ways.
func TestHeightAtAgreesWithTrace(t *testing.T) {
	w := New(everyKind(), 2)
	n := 0
	for i := range 40000 {
		x, y := math.Mod(float64(i)*7.137, 600), math.Mod(float64(i)*3.019, 600)
		z, _, object := w.SurfaceAt(x, y)
		if object < 0 {
			continue
		}
		n++
		if got := w.HeightAt(x, y); math.Abs(got-z) > 1e-9 {
			t.Fatalf("(%.2f, %.2f): HeightAt %.4f m, SurfaceAt %.4f m", x, y, got, z)
		}
	}
	if n < 50 {
		t.Errorf("only %d points lay on objects", n)
	}
}

func TestTracingAllocatesNothing(t *testing.T) {
	w := New(everyKind(), 2)
	p := Profile{Fine: 0.025}
	for g := 0.5; g < 80; g += 0.1 {
		p.Steps = append(p.Steps, g)
	}
	pose := w.objects[0].At
	w.Trace(&p, pose.X-20, pose.Y, 1, 0)
	if got := testing.AllocsPerRun(20, func() { w.Trace(&p, pose.X-20, pose.Y, 1, 0) }); got != 0 {
		t.Errorf("allocations per ray: got %g, want 0", got)
	}
}
