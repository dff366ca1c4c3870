package lanes

import "math"

const (
	Width    = 16       // samples of a block
	PerMetre = 64       // samples
	Side     = 512      // nodes of the square that repeats
	Stride   = Side + 4 // of a row of a patch
	rows     = Side + 3
	wrap     = Side - 1 // masks a node's number
	ahead    = 4        // nodes: more than a block is long, see PlaceAt
	perNode  = Width    // samples from a node of the ray to the next
	perRay   = PerMetre / perNode
	Nodes    = perRay // of the ray, to the metre
)

// Patch is a square of relief that repeats, with its first columns and rows again after
// the last, so that the four by four nodes from any place on lie as they are.
type Patch [Stride * rows]float32

// NewPatch lays out a square of Side rows of Side nodes.
func NewPatch(nodes *[Side * Side]float32) *Patch {
	p := new(Patch)
	for j := range rows {
		for i := range Stride {
			p[j*Stride+i] = nodes[j&wrap*Side+i&wrap]
		}
	}
	return p
}

// Place is where a block begins in a patch, and how high the patch stands there.
type Place struct {
	U, V float32 // past the node (I, J), in nodes, ahead to ahead+1
	I, J int32
	Gain float32 // on the heights of the patch
}

// PlaceAt is the place at (u, v), both positive, in nodes. It counts from a few nodes
// before, so that no ray runs back past the node it counts from, whatever its direction.
func PlaceAt(u, v float64, gain float32) (p Place) {
	p.Set(u, v, gain)
	return p
}

// Set makes p that place: a block's is set where it lies, as to copy one just made waits for
// its parts to be stored.
func (p *Place) Set(u, v float64, gain float32) {
	i, j := int64(u), int64(v)
	p.U, p.V = float32(u-float64(i))+ahead, float32(v-float64(j))+ahead
	p.I, p.J = int32(i-ahead)&wrap, int32(j-ahead)&wrap
	p.Gain = gain
}

// cubic and gradient are by sample the weights of the nodes before, at and after a block
// in height and in slope, per metre: the C1 cubic of Catmull and Rom (1974).
var cubic, gradient = Weights()

// Weights are those that the samples of a block give the four nodes about it, in height and in
// slope per metre.
func Weights() (z, slope [4][Width]float32) {
	for l := range Width {
		t := float64(l+1) / Width
		t2, t3 := t*t, t*t*t
		for k, w := range [4]float64{(-t3 + 2*t2 - t) / 2, (3*t3 - 5*t2 + 2) / 2, (-3*t3 + 4*t2 + t) / 2, (t3 - t2) / 2} {
			z[k][l] = float32(w)
		}
		for k, w := range [4]float64{(-3*t2 + 4*t - 1) / 2, (9*t2 - 10*t) / 2, (-9*t2 + 8*t + 1) / 2, (3*t2 - 2*t) / 2} {
			slope[k][l] = float32(w * Nodes)
		}
	}
	return z, slope
}

// Floor fills z and slope, Width to a place, with the height of the floor over the
// datum and the rise along the ray of the floor without micro-relief. heights are
// those of the ray's nodes, metres over the datum: one before the first place's, its own,
// and two after the last's. du and dv are what the ray covers of the patch in one
// sample, in nodes, together no more than 0.2.
func Floor(z, slope, heights []float32, places []Place, patch *Patch, du, dv float32) {
	n := len(places)
	if n == 0 {
		return
	}
	z, slope, heights = z[:n*Width], slope[:n*Width], heights[:n+3]
	floor(z, slope, heights, places, patch, du, dv)
}

func floorScalar(z, slope, heights []float32, places []Place, patch *Patch, du, dv float32) {
	way := wayOf(du, dv)
	var relief [Width]float32
	for n := range places {
		place := &places[n]
		if place.Gain != 0 { // else the block is sewn, and its relief added later
			patch.read(&relief, place, &way)
		}
		at := n * Width
		curve((*[Width]float32)(z[at:]), (*[Width]float32)(slope[at:]), (*[4]float32)(heights[n:]), &relief, place.Gain, &cubic, &gradient)
	}
}

// curve fills a block with the cubic through its nodes, with relief on it, and its slope.
func curve(z, slope *[Width]float32, nodes *[4]float32, relief *[Width]float32, gain float32, cubic, gradient *[4][Width]float32) {
	_, _, _, _, _ = z[0], slope[0], relief[0], cubic[0][0], gradient[0][0] // not nil: else that is asked for every sample
	p0, p1, p2, p3 := nodes[0], nodes[1], nodes[2], nodes[3]
	for l := range z {
		smooth := float32(cubic[0][l]*p0) + float32(cubic[1][l]*p1) + float32(cubic[2][l]*p2) + float32(cubic[3][l]*p3)
		z[l] = smooth + float32(gain*relief[l])
		slope[l] = float32(gradient[0][l]*p0) + float32(gradient[1][l]*p1) + float32(gradient[2][l]*p2) + float32(gradient[3][l]*p3)
	}
}

// way is how far the samples of a block lie from its node, in nodes of a patch.
type way struct{ u, v [Width]float32 }

func wayOf(du, dv float32) (w way) {
	for l := range Width {
		along := float32(l + 1)
		w.u[l], w.v[l] = float32(along*du), float32(along*dv)
	}
	return w
}

// read fills a block with the patch along the way from a place, bilinear. A ray goes past three
// or four nodes in a block, so what lies about a sample is mostly known from the last.
func (p *Patch) read(block *[Width]float32, place *Place, w *way) {
	var low, lowRise, high, highRise, nodeU, nodeV float32
	_, _ = block[0], w.u[0] // not nil: else that is asked for every sample
	u0, v0 := place.U, place.V
	knownI, knownJ := int32(-1), int32(-1)
	for l := range block {
		u, v := u0+w.u[l], v0+w.v[l]
		if i, j := int32(u), int32(v); i != knownI || j != knownJ {
			knownI, knownJ = i, j
			nodeU, nodeV = float32(i), float32(j)
			at := (place.J+j)&wrap*Stride + (place.I+i)&wrap
			low, high = p[at], p[at+Stride]
			lowRise, highRise = p[at+1]-low, p[at+Stride+1]-high
		}
		fu, fv := u-nodeU, v-nodeV
		a := low + float32(fu*lowRise)
		b := high + float32(fu*highRise)
		block[l] = a + float32(fv*(b-a))
	}
}

// least and most choose as vectors do: the second unless the first is smaller, or larger.
func least(a, b float32) float32 {
	if a < b {
		return a
	}
	return b
}

func most(a, b float32) float32 {
	if a > b {
		return a
	}
	return b
}

func root(x float32) float32 { return float32(math.Sqrt(float64(x))) }
