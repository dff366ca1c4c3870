package lanes

import "math"

const (
	Width    = 16             // samples of a block
	PerMetre = 64             // samples
	Step     = 1.0 / PerMetre // metres from one to the next

	Classes       = 64   // rows of the tables of ground, more than there are
	DipSteps      = 1024 // of the vertical pattern, by sine of the depression
	StrengthSteps = 1024 // of the sine of the grazing angle
	RestSteps     = 256  // of the sine of that of ground without micro-relief
)

// Tables hold what the echo of a facet depends on, in two channels. A sonar of one leaves
// the second zero; one of more walks once for every two.
//
// Neighbouring facets want neighbouring entries of the first two, which vectors read by
// windows that reach past them, so other floats lie on either side; Strength changes from
// facet to facet, and has both channels in one place.
type Tables struct {
	_        [Width]float32
	Rest     [Classes][RestSteps]float32        // factor over drawn micro-relief, else one
	Vertical [2][DipSteps]float32               // two-way pattern
	Strength [Classes][StrengthSteps][2]float32 // linear backscatter
}

// Progress is how far a walk has come: the end of its last facet. Z is over the
// fish; the horizon is the highest tangent of elevation so far, Tangent included.
type Progress struct {
	Z, R, Tangent, Horizon float32
}

// Below is the progress of a walk that begins below the fish, at a height over it.
func Below(z float32) Progress {
	least := float32(math.Inf(-1))
	return Progress{Z: z, R: float32(math.Abs(float64(z))), Tangent: least, Horizon: least}
}

// Block holds what sixteen facets answer: the slant ranges that each lies between, in
// bins, From <= To, and its energy in the two channels per radian of beam, zero for one
// that is not lit.
type Block struct {
	From, To, First, Second [Width]float32
}

// Blocks is how many blocks n samples fill, the last maybe in part.
func Blocks(n int) int { return (n + Width - 1) / Width }

// Inverses fills dst with one over the ground range of every sample, the first a step
// from the fish.
func Inverses(dst []float32) {
	for i := range dst {
		dst[i] = float32(PerMetre / float64(i+1))
	}
}

// Walk walks from a progress at the ground range g, a whole number of steps, over
// facets that end at heights z over the fish, a step of ground range after another. slope is
// the rise along the ray of ground without micro-relief, class what the facet's end is
// made of, below Classes, inverse one over the ground range, perMetre bins of slant range.
// It fills Blocks(len(z)) of out and brings the progress to the end of the last facet.
//
// A facet is lit as far as it rises above all before it; its echo is
//
//	vertical pattern x strength(sin gamma, class) x rest x area
//
// as in package sonar, whose walk this is for straight rays and steps of one length.
func Walk(out []Block, z, inverse, slope []float32, class []uint8, t *Tables, from *Progress, g, perMetre float32) {
	n := len(z)
	inverse, slope, class, out = inverse[:n], slope[:n], class[:n], out[:Blocks(n)]
	whole := n / Width * Width
	if whole > 0 {
		walk(out[:whole/Width], z[:whole], inverse[:whole], slope[:whole], class[:whole], t, from, g, perMetre)
	}
	if whole < n {
		out[len(out)-1] = Block{}
		walkScalar(out[whole/Width:], z[whole:], inverse[whole:], slope[whole:], class[whole:], t, from, g+float32(whole)*Step, perMetre)
	}
}

// walkScalar is the form in Go. Products are written float32(x*y), which keeps them from
// being fused with a sum, and choices as vectors make them, so that all forms give the
// same bits.
func walkScalar(out []Block, z, inverse, slope []float32, class []uint8, t *Tables, from *Progress, g, perMetre float32) {
	for ; len(z) >= Width; g += Width * Step {
		walkBlock(&out[0], (*[Width]float32)(z), (*[Width]float32)(inverse), (*[Width]float32)(slope), (*[Width]uint8)(class), Width, t, from, g, perMetre)
		out, z, inverse, slope, class = out[1:], z[Width:], inverse[Width:], slope[Width:], class[Width:]
	}
	if n := len(z); n > 0 {
		var tail [3][Width]float32
		var kinds [Width]uint8
		copy(tail[0][:], z)
		copy(tail[1][:], inverse)
		copy(tail[2][:], slope)
		copy(kinds[:], class)
		walkBlock(&out[0], &tail[0], &tail[1], &tail[2], &kinds, n, t, from, g, perMetre)
	}
}

// walkBlock walks over the first n facets of a block; arrays spare checks. The time
// of a walk goes to what is done for each:
//
//   - Only a facet that is seen is worked out. Vectors work out all.
//   - Sums stand for means (2 r, 2 z, 2 g), and 512 over 2 across for its inverse, so that indices
//     come out at their scale but for a shift: seven products fewer. Powers of two round nothing,
//     so the bits are those of vectors, which multiply by each.
func walkBlock(b *Block, z, inverse, slope *[Width]float32, class *[Width]uint8, n int, t *Tables, from *Progress, g, perMetre float32) {
	_, _, _, _, _, _ = b.From, inverse[0], slope[0], class[0], t.Rest[0][0], z[0] // none is nil: not asked for every facet
	z0, r0, tangent0, horizon := from.Z, from.R, from.Tangent, from.Horizon
	bin0 := float32(r0 * perMetre)
	for l, z1 := range z[:n] {
		g0 := g
		g += Step
		tangent := float32(z1 * inverse[l])
		r := root(float32(g*g) + float32(z1*z1))
		near, far := bin0, float32(r*perMetre)
		bin0 = far
		var first, second float32
		if tangent > horizon {
			half := float32(0.5) // of the share that is lit
			if tangent0 < horizon {
				lit := (tangent - horizon) / (tangent - tangent0)
				near = float32((r - float32(lit*(r-r0))) * perMetre)
				half = float32(lit * 0.5)
			}
			horizon = tangent
			rise := z1 - z0
			length := root(float32(rise*rise) + Step*Step)
			g2, z2 := g0+g, z0+z1
			across2 := float32((r0 + r) * length)
			each := 512 / across2
			sine := float32((float32(rise*float32(g2*PerMetre)) - z2) * each) // times 2^15
			if sine > 0 {
				inverseR := float32(each * length) // times 2^8
				dip := within(int32(DipSteps/2-float32(z2*inverseR)), DipSteps)
				step := within(int32(sine)>>5, StrengthSteps)
				rest := within(int32(float32((float32(slope[l]*g2)-z2)*inverseR))>>1, RestSteps)
				kind := class[l] % Classes
				area := float32(float32(across2*half) * t.Rest[kind][rest%RestSteps])
				s := &t.Strength[kind][step%StrengthSteps]
				first, second = float32(area*float32(t.Vertical[0][dip%DipSteps]*s[0])), float32(area*float32(t.Vertical[1][dip%DipSteps]*s[1]))
			}
		} else {
			horizon = most(horizon, tangent)
		}
		if far < near {
			near, far = far, near
		}
		b.From[l], b.To[l] = near, far
		b.First[l], b.Second[l] = first, second
		z0, r0, tangent0 = z1, r, tangent
	}
	*from = Progress{z0, r0, tangent0, horizon}
}

// within cuts an index to those of n steps. Nearly all lie there, which one comparison tells.
func within(i, n int32) uint32 {
	if uint32(i) >= uint32(n) {
		i = min(max(i, 0), n-1)
	}
	return uint32(i)
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
