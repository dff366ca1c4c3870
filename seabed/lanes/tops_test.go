package lanes

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// grid is tops of wide by long nodes, one cell in ten bare, another broken.
func grid(rng *rand.Rand, wide, long int) []uint16 {
	nodes := make([]uint16, wide*long)
	for i := range nodes {
		nodes[i] = uint16(rng.IntN(TopHeight + 1))
		switch rng.IntN(10) {
		case 0:
			nodes[i] = TopBare
		case 1:
			nodes[i] |= TopBroken
		}
	}
	return nodes
}

// course is one over n samples of such a grid from one end to another, all in cells.
func course(rng *rand.Rand, wide, long, n int) *Course {
	const cell = 1 << 16
	place := func(nodes int) (from, step int32) {
		from, to := rng.Int32N(int32(nodes-1)*cell), rng.Int32N(int32(nodes-1)*cell)
		return from, (to - from) / int32(n)
	}
	c := &Course{Wide: int32(wide), Number: 1 + rng.Int32N(100), Base: float32(-12 + rng.NormFloat64()), Scale: 4. / TopHeight / cell}
	c.U, c.DU = place(wide)
	c.V, c.DV = place(long)
	if rng.IntN(2) == 0 {
		c.Climb = float32(0.02 * rng.NormFloat64())
	}
	return c
}

// Every sample against straight lines between the nodes written in float64.
func TestRaiseIsTheTopsBetweenTheNodes(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 12))
	const wide, long, n = 90, 70, 400
	met := [3]int{}
	for range 40 {
		nodes, c := grid(rng, wide, long), course(rng, wide, long, n)
		z, by, found := make([]float32, n), make([]int32, n), make([]Found, Blocks(n))
		for i := range z {
			z[i] = float32(-11 + rng.NormFloat64())
		}
		before, most := slices.Clone(z), float64(Nothing)
		highest := Raise(z, by, found, nodes, c)
		for i := range z {
			u, v := float64(c.U)+float64(c.DU)*float64(i), float64(c.V)+float64(c.DV)*float64(i)
			x, y := int(u/(1<<16)), int(v/(1<<16))
			fu, fv := u/(1<<16)-float64(x), v/(1<<16)-float64(y)
			node := func(dx, dy int) float64 { return float64(nodes[(y+dy)*wide+x+dx] &^ (TopBare | TopBroken)) }
			corner := nodes[y*wide+x]
			steps := (1-fu)*(1-fv)*node(0, 0) + fu*(1-fv)*node(1, 0) + (1-fu)*fv*node(0, 1) + fu*fv*node(1, 1)
			want := float64(c.Base) + steps*4/TopHeight + float64(i)*float64(c.Climb)
			bit := uint16(1) << (i % Width)
			broken, higher := corner&TopBroken != 0, corner <= TopHeight && want > float64(before[i])
			if broken != (found[i/Width].Broken&bit != 0) {
				t.Fatalf("sample %d: broken %v", i, broken)
			}
			if math.Abs(want-float64(before[i])) > 1e-5 && higher != (found[i/Width].Higher&bit != 0) {
				t.Fatalf("sample %d: higher %v: %.6f over %.6f", i, higher, want, before[i])
			}
			if found[i/Width].Higher&bit == 0 {
				met[0]++
				if z[i] != before[i] || by[i] != 0 {
					t.Fatalf("sample %d: raised to %.6f", i, z[i])
				}
				continue
			}
			met[1]++
			most = max(most, want)
			if math.Abs(float64(z[i])-want) > 1e-5 || by[i] != c.Number {
				t.Fatalf("sample %d: %.6f m by %d, want %.6f by %d", i, z[i], by[i], want, c.Number)
			}
		}
		if math.Abs(float64(highest)-most) > 1e-5 {
			t.Fatalf("highest %.6f, want %.6f", highest, most)
		}
	}
	if met[0] < 1000 || met[1] < 1000 {
		t.Errorf("left and raised: %d", met)
	}
}

// Vectors and scalars raise the same samples to the same bits, and write no further.
func TestFormsRaiseAlike(t *testing.T) {
	rng := rand.New(rand.NewPCG(13, 14))
	for n := range 100 {
		wide, long := 2+rng.IntN(300), 2+rng.IntN(100)
		nodes, c := grid(rng, wide, long), course(rng, wide, long, n+1)
		ground := make([]float32, n+1)
		for i := range ground {
			ground[i] = float32(-11 + rng.NormFloat64())
		}
		var wantZ []float32
		var wantBy []int32
		var wantFound []Found
		var want float32
		forms(func(name string) {
			z, by, found := slices.Clone(ground), make([]int32, n+1), make([]Found, Blocks(n)+1)
			by[n], found[Blocks(n)] = 7, Found{7, 7}
			highest := Raise(z[:n], by, found, nodes, c)
			if wantZ == nil {
				wantZ, wantBy, wantFound, want = z, by, found, highest
			}
			if !same(z, wantZ) || !slices.Equal(by, wantBy) || !slices.Equal(found, wantFound) || highest != want {
				t.Errorf("%s, %d samples: not the scalar tops", name, n)
			}
			if z[n] != ground[n] || by[n] != 7 || found[Blocks(n)] != (Found{7, 7}) {
				t.Errorf("%s, %d samples: writes further", name, n)
			}
		})
	}
}

func BenchmarkRaise(b *testing.B) {
	const n = 320 // 5 m
	rng := rand.New(rand.NewPCG(15, 16))
	nodes := make([]uint16, 300*200)
	for i := range nodes {
		nodes[i] = uint16(rng.IntN(TopHeight))
	}
	c, z, by, found := course(rng, 300, 200, n), make([]float32, n), make([]int32, n), make([]Found, Blocks(n))
	benchmark(b, n, func() {
		for i := range z {
			z[i] = Nothing
		}
		Raise(z, by, found, nodes, c)
	})
}
