package lanes

import (
	"math"
	"math/cmplx"
	"math/rand/v2"
	"slices"
	"testing"
)

// reception returns what a channel may hear in n bins: silence, echoes of all sizes, and some that
// fill the recorder.
func reception(rng *rand.Rand, n int) *Reception {
	r := &Reception{A: 0.8, B: 0.6, Noise: 1e-9, Full: 65535, Fields: new(Fields)}
	for range n {
		r.Echo = append(r.Echo, float32(math.Exp(40*rng.Float64()-30)))
		r.Stray = append(r.Stray, float32(1e-9*rng.Float64()))
		r.Gain = append(r.Gain, float32(100+1e4*rng.Float64()))
		r.First = append(r.First, complex64(complex(rng.NormFloat64(), rng.NormFloat64())))
		r.Second = append(r.Second, complex64(complex(rng.NormFloat64(), rng.NormFloat64())))
		r.Draws = append(r.Draws, rng.Uint32N(1<<(2*FieldBits)))
	}
	for k := 0; k < n; k += 7 {
		r.Echo[k], r.Stray[k] = 0, 0
	}
	for i := range r.Fields {
		r.Fields[i] = complex64(complex(rng.NormFloat64()/2, rng.NormFloat64()/2))
	}
	return r
}

// Every form gives what complex numbers give, rounded to whole counts, for every tail; and all forms
// the same.
func TestReceiveIsTheSumOfTwoFields(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 1))
	full := 0
	for n := range 70 {
		r := reception(rng, n)
		var first []uint16
		forms(func(name string) {
			got := make([]uint16, n+1)
			got[n] = 777
			Receive(got[:n], r)
			if got[n] != 777 {
				t.Fatalf("%s writes beyond bin %d", name, n)
			}
			for k, x := range got[:n] {
				ground := complex(float64(r.A), 0)*complex128(r.First[k]) + complex(float64(r.B), 0)*complex128(r.Second[k])
				noise := complex128(r.Fields[r.Draws[k]%FieldSteps]) + complex128(r.Fields[r.Draws[k]/FieldSteps])
				field := complex(math.Sqrt(float64(r.Echo[k])), 0)*ground + complex(math.Sqrt(float64(r.Noise)+float64(r.Stray[k])), 0)*noise
				want := min(math.Floor(cmplx.Abs(field)*float64(r.Gain[k])+0.5), 65535)
				if math.Abs(float64(x)-want) > 1 {
					t.Errorf("%s, bin %d of %d: %d, want %g", name, k, n, x, want)
				}
				if want == 65535 {
					full++
				}
			}
			if first == nil {
				first = got
			} else if !slices.Equal(first, got) {
				t.Errorf("%s, %d bins: %v, the scalar form %v", name, n, got, first)
			}
		})
	}
	if full == 0 {
		t.Error("nothing fills the recorder")
	}
}

func TestGatherIsAProduct(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 2))
	for n := range 70 {
		energy, factor, left := make([]float32, n), make([]float32, n), make([]float32, n/Width+1)
		for _, x := range [][]float32{energy, factor, left} {
			for k := range x {
				x[k] = float32(rng.ExpFloat64() - 0.2)
			}
		}
		var first []float32
		forms(func(name string) {
			got := make([]float32, n+1)
			Gather(got[:n], energy, factor, left)
			for k, x := range got[:n] {
				if want := max(float64(energy[k]), 0) * float64(factor[k]) * float64(left[k/Width]); math.Abs(float64(x)-want) > 1e-6*math.Abs(want) {
					t.Errorf("%s, bin %d of %d: %g, want %g", name, k, n, x, want)
				}
			}
			if first == nil {
				first = got
			} else if !slices.Equal(first, got) {
				t.Errorf("%s, %d bins: %v, the scalar form %v", name, n, got, first)
			}
		})
	}
}

func BenchmarkReceive(b *testing.B) {
	r := reception(rand.New(rand.NewPCG(3, 1)), 2000)
	dst := make([]uint16, 2000)
	benchmark(b, "bin", len(dst), func() { Receive(dst, r) })
}

func BenchmarkGather(b *testing.B) {
	dst, energy, factor, left := make([]float32, 2000), make([]float32, 2000), make([]float32, 2000), make([]float32, 2000/Width)
	benchmark(b, "bin", len(dst), func() { Gather(dst, energy, factor, left) })
}
