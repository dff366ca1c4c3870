package lanes

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// Sums of products in float64, for every tail and kernels of every length up to a pulse of many bins; and the
// same bits in all forms.
func TestConvolve(t *testing.T) {
	rng := rand.New(rand.NewPCG(23, 24))
	for n := range 70 {
		kernel, values := make([]float32, 1+rng.IntN(20)), []float32(nil)
		for j := range kernel {
			kernel[j] = rng.Float32()
		}
		for range n + len(kernel) - 1 {
			values = append(values, float32(math.Exp(10*rng.Float64())))
		}
		var first []float32
		forms(func(name string) {
			got := make([]float32, n+1)
			got[n] = 7
			Convolve(got[:n], values, kernel)
			for k, x := range got[:n] {
				want := 0.0
				for j, w := range kernel {
					want += float64(w) * float64(values[k+j])
				}
				if math.Abs(float64(x)-want) > 1e-5*want {
					t.Errorf("%s, bin %d of %d: %g, want %g", name, k, n, x, want)
				}
			}
			if first == nil {
				first = got
			}
			if !slices.Equal(got, first) || got[n] != 7 {
				t.Errorf("%s, %d bins: not the scalar sums", name, n)
			}
		})
	}
}

func TestAddRings(t *testing.T) {
	rng := rand.New(rand.NewPCG(25, 26))
	for n := range 20 {
		rings, factor, before := make([]float32, n), make([]float32, n*RingBins), make([]float32, n*RingBins+1)
		for i := range rings {
			rings[i] = rng.Float32()
		}
		for k := range factor {
			factor[k], before[k] = rng.Float32(), rng.Float32()
		}
		before[n*RingBins] = 7
		var first []float32
		forms(func(name string) {
			got := slices.Clone(before)
			AddRings(got, factor, rings)
			for k := range factor {
				want := float64(before[k]) + float64(rings[k/RingBins])*float64(factor[k])
				if math.Abs(float64(got[k])-want) > 1e-6 {
					t.Errorf("%s, bin %d: %g, want %g", name, k, got[k], want)
				}
			}
			if first == nil {
				first = got
			}
			if !slices.Equal(got, first) || got[n*RingBins] != 7 {
				t.Errorf("%s, %d rings: not the scalar ones", name, n)
			}
		})
	}
}

func BenchmarkConvolve(b *testing.B) {
	const n = 1000
	values, dst := make([]float32, n+2), make([]float32, n)
	benchmark(b, "bin", n, func() { Convolve(dst, values, []float32{0.25, 0.5, 0.25}) })
}
