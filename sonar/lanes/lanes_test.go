package lanes

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// ray is ground of some roughness below a fish, ready to be walked.
type ray struct {
	tables            *Tables
	z, inverse, slope []float32
	class             []uint8
	bent              Bending
}

func newRay(rng *rand.Rand, n int, altitude, rough float64) *ray {
	r := &ray{tables: new(Tables), z: make([]float32, n), inverse: make([]float32, n), slope: make([]float32, n), class: make([]uint8, n)}
	t := r.tables
	for i := range DipSteps {
		t.Vertical[0][i], t.Vertical[1][i] = rng.Float32(), rng.Float32()
	}
	for c := range t.Rest {
		for i := range t.Rest[c] {
			t.Rest[c][i] = 0.5 + rng.Float32()
		}
		for i := range t.Strength[c] {
			t.Strength[c][i] = [2]float32{rng.Float32(), rng.Float32()}
		}
	}
	Inverses(r.inverse)
	for range n {
		r.bent.Launch = append(r.bent.Launch, 0.05*rng.Float32())
		r.bent.Arrive = append(r.bent.Arrive, 0.05*rng.Float32())
		r.bent.Excess = append(r.bent.Excess, 0.01*rng.Float32())
	}
	z := 0.0
	for i := range r.z {
		z = 0.95*z + rough*rng.NormFloat64()
		r.z[i] = float32(z - altitude)
		r.slope[i] = float32(0.05 * math.Sin(float64(i)/50))
		if rough > 0.1 {
			r.slope[i] = float32(0.2 * rng.NormFloat64())
		}
		r.class[i] = uint8(i / 40 * 7 % Classes) // stretches of each, the first and last too
		if rough > 1 {
			r.class[i] = uint8(rng.IntN(Classes))
		}
	}
	return r
}

func (r *ray) walk(out []Block, from *Progress, perMetre float32) {
	Walk(out, r.z, r.inverse, r.slope, r.class, r.tables, from, 0, perMetre)
}

func (r *ray) walkBent(out []Block, from *Progress, perMetre float32) {
	WalkBent(out, r.z, r.inverse, r.slope, r.class, r.bent, r.tables, from, 0, perMetre)
}

func sameBits(a, b []float32) bool {
	return slices.EqualFunc(a, b, func(a, b float32) bool { return math.Float32bits(a) == math.Float32bits(b) })
}

func sameBlock(a, b *Block) bool {
	return sameBits(a.From[:], b.From[:]) && sameBits(a.To[:], b.To[:]) && sameBits(a.First[:], b.First[:]) && sameBits(a.Second[:], b.Second[:])
}

// All forms give the bits of the plain ones: on level and rough ground and ground full of
// shadows, with every tail, begun below the fish and behind a rise, with bins longer
// and shorter than facets and records that end before the ray.
func TestAllFormsAgreeToTheBit(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for _, rough := range []float64{0, 0.001, 0.02, 0.5, 20} {
		lengths := []int{127, 128, 129, 300, 3200}
		for n := 1; n <= 31; n++ {
			lengths = append(lengths, n, n+500)
		}
		for _, n := range lengths {
			r := newRay(rng, n, 8, rough)
			for _, perMetre := range []float32{7, 40, 90} {
				for _, begin := range []Progress{Below(r.z[0]), {Z: -8, R: 8, Tangent: -3, Horizon: -0.5}} {
					for _, bent := range []bool{false, true} {
						want, wantFrom := make([]Block, Blocks(n)), begin
						if bent {
							plainWalkBent(want, r.z, r.inverse, r.slope, r.class, r.bent, r.tables, &wantFrom, 0, perMetre)
						} else {
							plainWalk(want, r.z, r.inverse, r.slope, r.class, r.tables, &wantFrom, 0, perMetre)
						}
						wantBins, wantLong := make([]Bin, int(perMetre*45)+1), make([]uint16, len(want))
						plainDeposit(wantBins, want, wantLong)
						forms(func(name string) {
							out, from := make([]Block, Blocks(n)+1), begin
							for i := range out {
								out[i].First[3] = 7
							}
							if bent {
								r.walkBent(out, &from, perMetre)
							} else {
								r.walk(out, &from, perMetre)
							}
							if out[Blocks(n)].First != ([Width]float32{3: 7}) {
								t.Fatalf("%s writes past the end", name)
							}
							out = out[:Blocks(n)]
							bins, long := make([]Bin, len(wantBins)), make([]uint16, len(out))
							Deposit(bins, out, long)
							for i := range out {
								if !sameBlock(&out[i], &want[i]) {
									t.Fatalf("%s, rough %g, %d samples, block %d:\n%v\nplain\n%v", name, rough, n, i, out[i], want[i])
								}
							}
							if from != wantFrom || !slices.Equal(long, wantLong) {
								t.Fatalf("%s, rough %g, %d samples: %v %v, plain %v %v", name, rough, n, from, long, wantFrom, wantLong)
							}
							for k, b := range bins {
								if b != wantBins[k] {
									t.Fatalf("%s, rough %g, %d samples, bin %d: %v, plain %v", name, rough, n, k, b, wantBins[k])
								}
							}
						})
					}
				}
			}
		}
	}
}

// A walk in two parts is the walk in one, wherever it is cut.
func TestAWalkGoesOn(t *testing.T) {
	const n = 160
	r := newRay(rand.New(rand.NewPCG(3, 4)), n, 8, 0.05)
	forms(func(name string) {
		whole, from := make([]Block, Blocks(n)), Below(-8)
		r.walk(whole, &from, 40)
		for cut := Width; cut < n; cut += Width {
			parts, p := make([]Block, Blocks(n)), Below(-8)
			Walk(parts, r.z[:cut], r.inverse, r.slope, r.class, r.tables, &p, 0, 40)
			Walk(parts[cut/Width:], r.z[cut:], r.inverse[cut:], r.slope[cut:], r.class[cut:], r.tables, &p, float32(cut)*Step, 40)
			if !slices.EqualFunc(whole, parts, func(a, b Block) bool { return sameBlock(&a, &b) }) || p != from {
				t.Errorf("%s, cut at %d: not the same walk", name, cut)
			}
		}
	})
}

// All energy arrives: what the bins hold is what the facets answered, each between
// the ranges that it spans.
func TestDepositKeepsEnergyAndPlace(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	for _, longest := range []float32{0.01, 0.9, 1, 5, 60} {
		blocks, n := make([]Block, 21), 400
		want := make([]float64, n)
		total := 0.0
		for i := range blocks {
			b := &blocks[i]
			for l := range Width {
				b.From[l] = rng.Float32() * 300
				b.To[l] = b.From[l] + rng.Float32()*longest
				b.First[l], b.Second[l] = rng.Float32(), 1
				total += float64(b.First[l])
				from, to := float64(b.From[l]), float64(b.To[l])
				for k := int(from); float64(k) < to; k++ {
					want[k] += float64(b.First[l]) * (min(to, float64(k+1)) - max(from, float64(k))) / (to - from)
				}
			}
		}
		forms(func(name string) {
			bins := make([]Bin, n+1)
			first, second, ones, long := make([]float32, n), make([]float32, n), make([]float32, n/Width+1), make([]uint16, len(blocks))
			Deposit(bins, blocks, long)
			for i := range ones {
				ones[i] = 1
			}
			Settle(first, second, bins, ones, ones)
			Spread(first, second, blocks, long, ones, ones)
			sum, sum2 := 0.0, 0.0
			for k := range first {
				sum, sum2 = sum+float64(first[k]), sum2+float64(second[k])
				if math.Abs(float64(first[k])-want[k]) > 1e-4 {
					t.Fatalf("%s, facets to %g bins, bin %d: %g, want %g", name, longest, k, first[k], want[k])
				}
			}
			if math.Abs(sum/total-1) > 1e-6 || math.Abs(sum2/(21*Width)-1) > 1e-6 {
				t.Errorf("%s: %g and %g arrive of %g and %d", name, sum, sum2, total, 21*Width)
			}
			if slices.ContainsFunc(bins, func(b Bin) bool { return b != Bin{} }) {
				t.Errorf("%s: bins are not cleared", name)
			}
		})
	}
}

// Settling gives the same bits in all forms, whatever the number of bins.
func TestSettlingAgreesToTheBit(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 10))
	for n := 1; n <= 100; n++ {
		bins, weights, weights2 := make([]Bin, n+1), make([]float32, n/Width+1), make([]float32, n/Width+1)
		for k := range bins {
			bins[k] = Bin{rng.Float32(), rng.Float32(), rng.Float32(), rng.Float32()}
		}
		for k := range weights {
			weights[k], weights2[k] = rng.Float32()-0.5, rng.Float32()-0.5
		}
		var want [2][]float32
		forms(func(name string) {
			first, second := make([]float32, n+1), make([]float32, n+1)
			for k := range first {
				first[k], second[k] = float32(k), 7
			}
			Settle(first, second, slices.Clone(bins), weights, weights2)
			if want[0] == nil {
				want = [2][]float32{first, second}
			}
			if !sameBits(first, want[0]) || !sameBits(second, want[1]) {
				t.Fatalf("%s, %d bins: %v, scalar %v", name, n, first, want[0])
			}
		})
	}
}

func TestNothingIsAllocated(t *testing.T) {
	const n = 3200
	r := newRay(rand.New(rand.NewPCG(7, 8)), n, 8, 0.002)
	blocks, bins, long := make([]Block, Blocks(n)), make([]Bin, 2001), make([]uint16, Blocks(n))
	if got := testing.AllocsPerRun(10, func() {
		from := Below(-8)
		r.walk(blocks, &from, 40)
		Deposit(bins, blocks, long)
	}); got != 0 {
		t.Errorf("allocations: got %g, want 0", got)
	}
}

func benchmark(b *testing.B, per string, n int, run func()) {
	forms(func(name string) {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				run()
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*n), "ns/"+per)
		})
	})
}

// 50 m of one sediment seen from 8 m, two thousand bins.
func benchRay() (*ray, []Block, []Bin, []uint16) {
	const n = 3200
	r := newRay(rand.New(rand.NewPCG(7, 8)), n, 8, 0.001)
	for i := range r.class {
		r.class[i] = 4
		bend := float32(i) * 1e-6
		r.bent.Launch[i], r.bent.Arrive[i], r.bent.Excess[i] = bend, -bend, bend
	}
	return r, make([]Block, Blocks(n)), make([]Bin, 2001), make([]uint16, Blocks(n))
}

func BenchmarkWalk(b *testing.B) {
	r, blocks, _, _ := benchRay()
	benchmark(b, "sample", len(r.z), func() {
		from := Below(-8)
		r.walk(blocks, &from, 40)
	})
}

func BenchmarkDeposit(b *testing.B) {
	r, blocks, bins, long := benchRay()
	from := Below(-8)
	r.walk(blocks, &from, 40)
	benchmark(b, "sample", len(r.z), func() { Deposit(bins, blocks, long) })
}

func BenchmarkSettle(b *testing.B) {
	_, _, bins, _ := benchRay()
	first, second, weights := make([]float32, 2000), make([]float32, 2000), make([]float32, 2000/Width)
	benchmark(b, "bin", len(first), func() { Settle(first, second, bins, weights, weights) })
}

func BenchmarkWalkBent(b *testing.B) {
	r, blocks, _, _ := benchRay()
	benchmark(b, "sample", len(r.z), func() {
		from := Below(-8)
		r.walkBent(blocks, &from, 40)
	})
}
