package lanes

import (
	"math"
	"math/rand/v2"
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

// directions are what rays cover of a patch, with the corners of what is allowed.
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

// Vectors and scalars give the same bits, whatever the number of blocks.
func TestVectorsAndScalarsAgreeToTheBit(t *testing.T) {
	if len(forms()) == 1 {
		t.Skip("no vectors here")
	}
	rng := rand.New(rand.NewPCG(3, 4))
	for n := 1; n <= 31; n++ {
		patch, places, heights := ground(rng, n)
		if n == 1 { // the last node of the patch
			places[0].I, places[0].J, places[0].U, places[0].V = wrap, wrap, 4, math.Nextafter32(5, 4)
		}
		for _, d := range directions {
			want, wantSlope := make([]float32, n*Width), make([]float32, n*Width)
			floorScalar(want, wantSlope, heights, places, patch, d[0], d[1])
			for name, form := range forms() {
				got, gotSlope := make([]float32, n*Width+1), make([]float32, n*Width+1)
				got[n*Width], gotSlope[n*Width] = 7, 7
				form(got[:n*Width], gotSlope[:n*Width], heights, places, patch, d[0], d[1])
				for k := range want {
					if math.Float32bits(got[k]) != math.Float32bits(want[k]) || math.Float32bits(gotSlope[k]) != math.Float32bits(wantSlope[k]) {
						t.Fatalf("%s, %d nodes, direction %v, sample %d: %v %v, scalar %v %v", name, n, d, k, got[k], gotSlope[k], want[k], wantSlope[k])
					}
				}
				if got[n*Width] != 7 || gotSlope[n*Width] != 7 {
					t.Fatalf("%s writes past the end", name)
				}
			}
		}
	}
}

func BenchmarkFloor(b *testing.B) {
	const n = 200 // 50 m
	patch, places, heights := ground(rand.New(rand.NewPCG(5, 6)), n)
	for k := range places { // one ray
		places[k] = PlaceAt(1<<20+2.7*float64(k), 1<<20+1.6*float64(k), 0.03)
	}
	z, slope := make([]float32, n*Width), make([]float32, n*Width)
	for name, form := range forms() {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				form(z, slope, heights, places, patch, 2.7/16, 0.1)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*len(z)), "ns/sample")
		})
	}
}
