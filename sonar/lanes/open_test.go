package lanes

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// The walk of open ground and its patterns are the same bits in all forms.
func TestOpenVectorsAndScalarsAgreeToTheBit(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 12))
	for _, rough := range []float64{0, 0.001, 0.02, 0.5, 20} {
		for n := 1; n <= 40; n++ {
			r := newRay(rng, n*Width, 8, rough)
			class, heights := make([]uint8, n+1), make([]float32, n+1)
			for k := range class {
				class[k] = uint8(rng.IntN(Classes))
			}
			class[0] = Classes - 1
			for k := range heights {
				heights[k] = float32(-8 + rough*rng.NormFloat64())
			}
			var want, want2 []float32
			var wantOut []Block
			var wantFrom Progress
			forms(func(name string) {
				first, second := make([]float32, n+2), make([]float32, n+2)
				first[n+1], second[n+1] = 7, 7
				Patterns(first[:n+1], second[:n+1], heights, r.tables, 0)
				out, from := make([]Block, n), Below(-8)
				WalkOpen(out, r.z, r.inverse, r.slope, first, second, class[:n], r.tables, &from, 0, 40)
				if want == nil {
					want, want2, wantOut, wantFrom = first, second, out, from
				}
				if !sameBits(first, want) || !sameBits(second, want2) {
					t.Fatalf("%s, rough %g, %d nodes: patterns\n%v\nscalar\n%v", name, rough, n+1, first, want)
				}
				if !slices.EqualFunc(out, wantOut, func(a, b Block) bool { return sameBlock(&a, &b) }) || from != wantFrom {
					t.Fatalf("%s, rough %g, %d blocks: not the scalar walk", name, rough, n)
				}
			})
		}
	}
}

// Under a pattern that does not change, the walk of open ground is the walk.
func TestOpenIsTheWalkWhereNothingChanges(t *testing.T) {
	const n = 100
	r := newRay(rand.New(rand.NewPCG(13, 14)), n*Width, 8, 0.02)
	class := make([]uint8, n+1)
	for i := range r.tables.Vertical {
		r.tables.Vertical[i] = [2]float32{0.25, 0.5}
	}
	for k := range class {
		class[k] = 3
	}
	for i := range r.class {
		r.class[i] = 3
	}
	forms(func(name string) {
		first, second := make([]float32, n+1), make([]float32, n+1)
		Patterns(first, second, make([]float32, n+1), r.tables, 0.25)
		if first[n/2] != 0.25 || second[n/2] != 0.5 {
			t.Fatalf("%s: patterns %g and %g, want 0.25 and 0.5", name, first[n/2], second[n/2])
		}
		open, walked := make([]Block, n), make([]Block, n)
		from, from2 := Below(-8), Below(-8)
		WalkOpen(open, r.z, r.inverse, r.slope, first, second, class[:n], r.tables, &from, 0, 40)
		r.walk(walked, &from2, 40)
		for i := range open {
			for l := range Width {
				a, b := float64(open[i].First[l]), float64(walked[i].First[l])
				if math.Abs(a-b) > 1e-6*b || open[i].From[l] != walked[i].From[l] {
					t.Fatalf("%s, block %d, facet %d: %g, want %g", name, i, l, a, b)
				}
			}
		}
	})
}

func BenchmarkWalkOpen(b *testing.B) {
	r, blocks, _, _ := benchRay()
	class := make([]uint8, len(blocks)+1)
	first, second, heights := make([]float32, len(class)), make([]float32, len(class)), make([]float32, len(class))
	for i := range heights {
		heights[i] = -8
	}
	benchmark(b, "sample", len(r.z), func() {
		Patterns(first, second, heights, r.tables, 0)
		from := Below(-8)
		WalkOpen(blocks, r.z, r.inverse, r.slope, first, second, class[:len(blocks)], r.tables, &from, 0, 40)
	})
}
