package lanes

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// ground is a patch, the places of a ray of n nodes on it, and its heights.
func ground(rng *rand.Rand, n int) (*Patch, []Place, []float32) {
	nodes := new([Side * Side]float32)
	for i := range nodes {
		nodes[i] = float32(rng.NormFloat64())
	}
	places, heights := make([]Place, n), make([]float32, n+3)
	for k := range places {
		places[k] = PlaceAt(rng.Float64()*1e6+10, rng.Float64()*1e6+10, float32(rng.Float64()*0.05))
	}
	for k := range heights {
		heights[k] = float32(-10 + rng.NormFloat64())
	}
	return NewPatch(nodes), places, heights
}

// directions are the rays over a patch, with the corners of what is allowed.
var directions = [][2]float32{{0.2, 0}, {-0.2, 0}, {0, 0.2}, {0, -0.2}, {0.14, -0.14}, {-0.13, 0.15}, {0, 0}}

// The height of every sample against the same in float64 written another way: cubic and
// bilinear from their definitions.
func TestFloorIsTheCubicAndTheReliefOnIt(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	nodes := new([Side * Side]float32)
	for i := range nodes {
		nodes[i] = float32(rng.NormFloat64())
	}
	patch, at := NewPatch(nodes), func(i, j int) float64 { return float64(nodes[j&wrap*Side+i&wrap]) }
	for _, d := range directions {
		const n = 40
		u0, v0 := 1<<20+500.3, 1<<20+3.9
		du, dv := float64(d[0]), float64(d[1])
		places, heights := make([]Place, n), make([]float32, n+3)
		for k := range places {
			places[k] = PlaceAt(u0+du*Width*float64(k), v0+dv*Width*float64(k), 0.03)
		}
		for k := range heights {
			heights[k] = float32(rng.NormFloat64())
		}
		z, slope := make([]float32, n*Width), make([]float32, n*Width)
		Floor(z, slope, heights, places, patch, d[0], d[1])
		for k := range z {
			s := float64(k + 1)
			node := k / Width
			x := (s - float64(node*Width)) / Width
			p := [4]float64{}
			for i := range p {
				p[i] = float64(heights[node+i])
			}
			// Hermite: ends p1, p2, slopes there half of what the neighbours differ by.
			m1, m2 := (p[2]-p[0])/2, (p[3]-p[1])/2
			h := func(x float64) float64 {
				return (1+2*x)*(1-x)*(1-x)*p[1] + x*(1-x)*(1-x)*m1 + x*x*(3-2*x)*p[2] + x*x*(x-1)*m2
			}
			u, v := u0+du*s, v0+dv*s
			i, j := math.Floor(u), math.Floor(v)
			fu, fv := u-i, v-j
			relief := (1-fu)*(1-fv)*at(int(i), int(j)) + fu*(1-fv)*at(int(i)+1, int(j)) + (1-fu)*fv*at(int(i), int(j)+1) + fu*fv*at(int(i)+1, int(j)+1)
			if want := h(x) + 0.03*relief; math.Abs(float64(z[k])-want) > 2e-6 {
				t.Fatalf("direction %v sample %d: %.7f m, want %.7f", d, k, z[k], want)
			}
			if want := (h(x+1e-5) - h(x-1e-5)) / 2e-5 * Nodes; math.Abs(float64(slope[k])-want) > 1e-4 {
				t.Fatalf("direction %v sample %d: slope %.6f, want %.6f", d, k, slope[k], want)
			}
		}
	}
}

// same reports whether all that a form fills is to the bit what the first did.
func same(a, b []float32) bool {
	return slices.EqualFunc(a, b, func(a, b float32) bool { return math.Float32bits(a) == math.Float32bits(b) })
}

// All forms give the bits of the plain ones, whatever the number of blocks, and write no
// further than those.
func TestAllFormsAgreeToTheBit(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for n := 1; n <= 31; n++ {
		patch, places, heights := ground(rng, n)
		if n == 1 { // the last node of the patch
			places[0].I, places[0].J, places[0].U, places[0].V = wrap, wrap, 4, math.Nextafter32(5, 4)
		}
		for k := 2; k < n; k += 3 { // to be sewn
			places[k].Gain = 0
		}
		other, more, _ := ground(rng, n)
		seams := make([]Seam, n)
		for k := range seams {
			seams[k] = Seam{A: places[k], B: more[k], X: 3*rng.Float32() - 1, DX: 0.2*rng.Float32() - 0.1, Smooth: float32(k % 2)}
		}
		for _, d := range directions {
			want, wantSlope := make([]float32, n*Width+1), make([]float32, n*Width+1)
			want[n*Width], wantSlope[n*Width] = 7, 7
			plainFloor(want, wantSlope, heights, places, patch, d[0], d[1])
			plainSeams(want, seams, patch, other, d[0], d[1])
			forms(func(name string) {
				z, slope := make([]float32, n*Width+1), make([]float32, n*Width+1)
				z[n*Width], slope[n*Width] = 7, 7
				Floor(z, slope, heights, places, patch, d[0], d[1])
				AddSeams(z, seams, patch, other, d[0], d[1])
				if !same(z, want) || !same(slope, wantSlope) {
					t.Fatalf("%s, %d nodes, direction %v: not the plain floor", name, n, d)
				}
			})
		}
		along := make([]Ripple, n)
		for k := range along {
			from := 100 * (rng.Float64() - 0.5)
			along[k] = RippleAt(from, from+2*turns*(rng.Float64()-0.5), rng.Float64(), rng.Float64())
		}
		var turn [rippleSteps]float32
		for i := range turn {
			turn[i] = float32(rng.NormFloat64())
		}
		var want []float32
		forms(func(name string) {
			z := make([]float32, n*Width+1)
			for i := range z {
				z[i] = float32(i)
			}
			AddRipples(z, along, NewProfile(&turn))
			if want == nil {
				want = z
			}
			if !same(z, want) || z[n*Width] != float32(n*Width) {
				t.Fatalf("%s, %d nodes: not the scalar ripples", name, n)
			}
		})
	}
}

// Ripples against the sine they are a table of: 256 straight lines to a turn are within
// (pi/256)^2/2 of it.
func TestRipplesAreTheirProfile(t *testing.T) {
	var turn [rippleSteps]float32
	for i := range turn {
		turn[i] = float32(math.Sin(2 * math.Pi * float64(i) / rippleSteps))
	}
	for _, block := range [][4]float64{{0, 2.5, 1, 1}, {-1000.3, -1003, 0.2, 0.7}, {12345.99, 12346, 1, 0}, {0.5, 0.5, 0, 1}, {3, -4.9, 1, 1}} {
		z := make([]float32, Width)
		AddRipples(z, []Ripple{RippleAt(block[0], block[1], block[2], block[3])}, NewProfile(&turn))
		for l := range z {
			at := float64(l+1) / Width
			want := (block[2] + at*(block[3]-block[2])) * math.Sin(2*math.Pi*(block[0]+at*(block[1]-block[0])))
			if math.Abs(float64(z[l])-want) > 1e-4 {
				t.Errorf("%v, sample %d: %.6f, want %.6f", block, l, z[l], want)
			}
		}
	}
}

func benchmark(b *testing.B, n int, run func()) {
	forms(func(name string) {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				run()
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*n), "ns/sample")
		})
	})
}

func BenchmarkFloor(b *testing.B) {
	const n = 200 // 50 m
	patch, places, heights := ground(rand.New(rand.NewPCG(5, 6)), n)
	for k := range places { // one ray
		places[k] = PlaceAt(1<<20+2.7*float64(k), 1<<20+1.6*float64(k), 0.03)
	}
	z, slope := make([]float32, n*Width), make([]float32, n*Width)
	benchmark(b, n*Width, func() { Floor(z, slope, heights, places, patch, 2.7/16, 0.1) })
}

func BenchmarkRipples(b *testing.B) {
	const n = 200
	along, z := make([]Ripple, n), make([]float32, n*Width)
	for k := range along {
		along[k] = RippleAt(1.3*float64(k), 1.3*float64(k+1), 1, 1)
	}
	benchmark(b, n*Width, func() { AddRipples(z, along, new(Profile)) })
}

func BenchmarkSeams(b *testing.B) {
	const n = 200
	rng := rand.New(rand.NewPCG(7, 8))
	patch, places, _ := ground(rng, n)
	_, more, _ := ground(rng, n)
	seams, z := make([]Seam, n), make([]float32, n*Width)
	for k := range seams {
		seams[k] = Seam{A: places[k], B: more[k], DX: 1. / Width}
	}
	benchmark(b, n*Width, func() {
		clear(z)
		AddSeams(z, seams, patch, patch, 0.1, 0.1)
	})
}
