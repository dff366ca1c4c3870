package lanes

import "math"

const rippleSteps = 256 // of a profile, to the turn

// Profile is the height over one turn of ripples that are too short for the nodes, the first
// step again after the last.
type Profile [rippleSteps + 1]float32

// NewProfile lays out a turn.
func NewProfile(turn *[rippleSteps]float32) *Profile {
	p := new(Profile)
	copy(p[:], turn[:])
	p[rippleSteps] = turn[0]
	return p
}

// Ripple says what ripples do along a block: phase and share at its node, and what each grows
// by in a sample.
type Ripple struct {
	Phase, Turn float32 // turns
	Share, Grow float32 // of the height of the profile
}

// turns keep a phase positive, however far a block turns it back.
const turns = 8

// RippleAt is ripples whose phase goes from one to another along the block, and share too.
// No block covers more than turns.
func RippleAt(from, to, share, shareTo float64) Ripple {
	return Ripple{
		Phase: float32(from-math.Floor(from)) + turns, Turn: float32((to - from) / Width),
		Share: float32(share), Grow: float32((shareTo - share) / Width),
	}
}

// AddRipples adds ripples of one profile to z, Width samples to each.
func AddRipples(z []float32, along []Ripple, profile *Profile) {
	if n := len(along); n > 0 {
		ripple(z[:n*Width], along, profile)
	}
}

func rippleScalar(z []float32, along []Ripple, profile *Profile) {
	for n := range along {
		r, z := &along[n], z[n*Width:(n+1)*Width]
		for l := range z {
			at := float32((r.Phase + float32(float32(l+1)*r.Turn)) * rippleSteps)
			i := int32(at)
			past := at - float32(i)
			i &= rippleSteps - 1
			a, b := profile[i], profile[i+1]
			share := r.Share + float32(float32(l+1)*r.Grow)
			z[l] += float32(share * (a + float32(past*(b-a))))
		}
	}
}
