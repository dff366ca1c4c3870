package lanes

import "math"

const (
	Width    = 16 // samples of a block
	PerMetre = 64 // samples
	Step     = 1.0 / PerMetre

	Classes       = 64   // rows of the tables of ground, more than there are
	DipSteps      = 1024 // of the vertical pattern, by sine of the depression
	StrengthSteps = 1024 // of the sine of the grazing angle
	RestSteps     = 256  // of the sine of that of ground without micro-relief
)

// Tables are what the echo of a facet depends on, in two channels. A sonar of one leaves
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

// Block is what sixteen facets answer: the slant ranges that each lies between, in
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
	z0, r0, tangent0, horizon := from.Z, from.R, from.Tangent, from.Horizon
	inverse, slope, class = inverse[:len(z)], slope[:len(z)], class[:len(z)]
	var b *Block
	for i, z1 := range z {
		l := i % Width
		if l == 0 {
			b = &out[i/Width]
		}
		g += Step
		tangent := float32(z1 * inverse[i])
		r := root(float32(g*g) + float32(z1*z1))
		lit, near := float32(1), r0
		visible := tangent > horizon
		if visible && tangent0 < horizon {
			lit = (tangent - horizon) / (tangent - tangent0)
			near = r - float32(lit*(r-r0))
		}
		rise := z1 - z0
		length := root(float32(rise*rise) + Step*Step)
		rm := float32((r0 + r) * 0.5)
		across := float32(rm * length)
		each := 1 / across
		inverseR := float32(each * length)
		gm, zm := g-Step/2, float32((z0+z1)*0.5)
		sine := float32((float32(rise*gm) - float32(zm*Step)) * each)
		var first, second float32
		if visible && sine > 0 {
			// Masks tell the compiler what index has seen to.
			dip := index(float32((1-float32(zm*inverseR))*(DipSteps/2)), DipSteps-1) & (DipSteps - 1)
			step := index(float32(sine*StrengthSteps), StrengthSteps-1) & (StrengthSteps - 1)
			rest := index(float32(float32((float32(slope[i]*gm)-zm)*inverseR)*RestSteps), RestSteps-1) & (RestSteps - 1)
			kind := class[i] & (Classes - 1)
			area := float32(float32(across*lit) * t.Rest[kind][rest])
			s := &t.Strength[kind][step]
			first, second = float32(area*float32(t.Vertical[0][dip]*s[0])), float32(area*float32(t.Vertical[1][dip]*s[1]))
		}
		a, c := float32(near*perMetre), float32(r*perMetre)
		b.From[l], b.To[l] = least(a, c), most(a, c)
		b.First[l], b.Second[l] = first, second
		z0, r0, tangent0 = z1, r, tangent
		horizon = most(horizon, tangent)
	}
	*from = Progress{z0, r0, tangent0, horizon}
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

// index cuts x to 0..last.
func index(x, last float32) int32 { return int32(most(least(x, last), 0)) }

func root(x float32) float32 { return float32(math.Sqrt(float64(x))) }
