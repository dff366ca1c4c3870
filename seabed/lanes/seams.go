package lanes

// Seam is a block on which one relief goes over into another: across the seam of two pieces of
// micro-relief or from a sediment to the next.
//
//	(ga a (1-s) + gb b s) / sqrt((1-s)^2 + s^2)
//
// which keeps the variance of reliefs that are independent; s is x, cut to 0..1, or the
// smooth step x^2 (3 - 2x).
type Seam struct {
	A, B   Place
	X, DX  float32 // at the node, and more in a sample
	Smooth float32 // 1 for the smooth step, 0 for x itself
}

// AddSeams adds to z, Width samples to each, the reliefs of a patch each. They lie as places
// of [Floor] do, whose own have no gain there.
func AddSeams(z []float32, seams []Seam, a, b *Patch, du, dv float32) {
	if n := len(seams); n > 0 {
		seam(z[:n*Width], seams, a, b, du, dv)
	}
}

func seamScalar(z []float32, seams []Seam, a, b *Patch, du, dv float32) {
	way := wayOf(du, dv)
	var first, second [Width]float32
	for n := range seams {
		m := &seams[n]
		a.read(&first, &m.A, &way)
		b.read(&second, &m.B, &way)
		block := (*[Width]float32)(z[n*Width:])
		for l := range block {
			x := most(least(m.X+float32(float32(l+1)*m.DX), 1), 0)
			step := float32(float32(x*x) * (3 - float32(2*x)))
			s := x + float32(m.Smooth*(step-x))
			rest := 1 - s
			weigh := 1 / root(float32(rest*rest)+float32(s*s))
			sum := float32(float32(m.A.Gain*first[l])*rest) + float32(float32(m.B.Gain*second[l])*s)
			block[l] += float32(sum * weigh)
		}
	}
}
