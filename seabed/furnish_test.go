package seabed

import (
	"math"
	"math/rand/v2"
	"testing"
)

// raysPastThings calls f with rays from anywhere, roughly towards some object.
func raysPastThings(w *World, n int, f func(x, y, ux, uy float64)) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range n {
		at := w.objects[rng.IntN(len(w.objects))].At
		bearing := 2 * math.Pi * rng.Float64()
		off, back := 4*rng.NormFloat64(), 5+30*rng.Float64()
		ux, uy := math.Sincos(bearing)
		f(at.X-back*ux+off*uy, at.Y-back*uy-off*ux, ux, uy)
	}
}

// furnished is level ground 30 m below the datum with what stands along a ray.
func furnished(w *World, f *Furniture, list *Footprints, x, y, ux, uy float64, n int) (highest float32, stands bool) {
	w.FindFootprints(list, x, y, ux, uy, float64(n)*evenStep, 1)
	w.Furnish(f, list.List, x, y, ux, uy, n, 0)
	for i := range f.Z {
		f.Z[i], f.Class[i] = -30, uint8(Mud)
	}
	return f.Raise()
}

// Furniture against looking at every part at every sample: what is on top there, how high, whose and of what;
// tops from tables to a centimetre and a half rms. And nothing is missed for lying between two samples.
func TestFurnitureIsWhatStandsThere(t *testing.T) {
	spec := everyKind()
	for k := range 8 { // plates
		spec.Objects = append(spec.Objects, Object{Kind: "block", At: Point{40 + 60*float64(k), 500}, Length: 0.006, Width: 6, Height: 0.5, Heading: float64(k)})
	}
	w := New(spec, 2)
	const n = 3200
	var f Furniture
	var list Footprints
	var square, read, far, covered float64
	between := 0
	raysPastThings(w, 300, func(x, y, ux, uy float64) {
		highest, stands := furnished(w, &f, &list, x, y, ux, uy, n)
		most := float32(nothing)
		for i := range f.Z {
			g := float64(f.First+i+1) * evenStep
			px, py := x+g*ux, y+g*uy
			z, exact, object, class := -30.0, true, uint16(0), Mud
			for k := range w.parts {
				p := &w.parts[k]
				if top, ok := p.topAt(px, py); ok && top > z {
					z, object, class = top, p.object, p.class
					_, table := p.solid.(tabled)
					exact = !table
				}
			}
			if object != 0 {
				covered++
			}
			if f.Object(i) != 0 {
				most = max(most, f.Z[i])
			}
			off := float64(f.Z[i]) - z
			switch {
			case f.by[i] != 0 && object == 0 && thinner(&f, i):
				between++
			case math.Abs(off) > 0.1 || f.Object(i) != object || f.Class[i] != uint8(class):
				far++ // at an edge
			case exact && math.Abs(off) > 1e-5:
				t.Fatalf("sample %d: %.6f m, by every part %.6f", f.First+i, f.Z[i], z)
			default:
				square, read = square+off*off, read+1
			}
		}
		if stands != (most > nothing) || stands && highest < most {
			t.Fatalf("highest %g, %t, want at least %g", highest, stands, most)
		}
		for k, c := range f.crossed {
			if first := sampleFrom(c.from); first != sampleFrom(c.to) {
				continue
			}
			if _, ok := w.parts[c.part].topAt(x+(c.from+c.to)/2*ux, y+(c.from+c.to)/2*uy); !ok {
				continue
			}
			nearest := int(math.Round((c.from+c.to)/2/evenStep)) - 1 - f.First
			if nearest > 0 && nearest < len(f.Z) && f.by[nearest] == 0 {
				t.Fatalf("part %d lies between two samples, and is not there", k)
			}
		}
	})
	if rms := math.Sqrt(square / read); rms > 0.006 || far > 0.004*covered || covered < 20000 || between == 0 {
		t.Errorf("of %.0f samples over things %.4f m rms off, %.0f by an edge; %d of things between samples", covered, rms, far, between)
	}
}

// thinner reports whether a sample is raised by what lies beside it.
func thinner(f *Furniture, i int) bool {
	c := f.crossed[f.by[i]-1]
	return sampleFrom(c.from) >= sampleFrom(c.to)
}

// What is crossed has its sides where it begins, upright, and the round of a rod across all
// of it: between samples the way up over a lying cylinder, cut as told, is its quarter round and its side.
func TestSurfacesTurnWhereTheyDo(t *testing.T) {
	const radius = 0.055
	w := &World{parts: []placedPart{{solid: roller{2, radius}, z: -12, sin: 1, class: Steel, object: 1}}}
	w.parts[0].box = w.parts[0].bounds()
	w.plantTree()
	var f Furniture
	var list Footprints
	for k := range 16 {
		y := -3 + float64(k)/16*evenStep
		if _, stands := furnished(w, &f, &list, 0, y, 0, 1, 640); !stands {
			t.Fatal("nothing met")
		}
		length, last := 0.0, Corner{}
		var turns []int
		for _, i := range f.Turns(turns) {
			g := float64(f.First+i+1) * evenStep
			last = Corner{g - evenStep, float64(f.Z[i-1])}
			for _, c := range append(f.Between(nil, i, f.Z[i-1]), Corner{g, float64(f.Z[i])}) {
				if c.G < last.G-1e-9 {
					t.Fatalf("corner at %.4f m after %.4f", c.G, last.G)
				}
				if last.Z > -12+radius/2 { // from the top of its side on
					length += math.Hypot(c.G-last.G, c.Z-last.Z)
				} else if c.Z > -12 && math.Abs(c.G-(-y-radius)) > 1e-6 {
					t.Fatalf("its side at %.4f m, want %.4f", c.G, -y-radius)
				}
				last = c
			}
		}
		// As far as its last sample; half a round is pi times the radius.
		if want := math.Pi * radius; length < 0.7*want || length > 1.005*want {
			t.Errorf("%d: over it are %.4f m, want near %.4f", k, length, want)
		}
	}
}

func TestFurnishingAllocatesNothing(t *testing.T) {
	w := New(everyKind(), 2)
	var f Furniture
	var list Footprints
	var turns []int
	var corners []Corner
	all := func() {
		raysPastThings(w, 100, func(x, y, ux, uy float64) {
			furnished(w, &f, &list, x, y, ux, uy, 3200)
			turns = f.Turns(turns[:0])
			for _, i := range turns {
				corners = f.Between(corners[:0], i, f.Z[i-1])
			}
		})
	}
	all()
	if got := testing.AllocsPerRun(2, all); got > 2 { // the rays' own
		t.Errorf("%g allocations", got)
	}
}
