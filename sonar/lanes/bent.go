package lanes

// Bending says what layers of the water do to the ray to each sample: to the tangents of its
// elevation as it leaves the fish and as it arrives, and to the slant range, metres.
type Bending struct{ Launch, Arrive, Excess []float32 }

// At is the bending from a sample on.
func (b *Bending) At(i int) Bending { return Bending{b.Launch[i:], b.Arrive[i:], b.Excess[i:]} }

// WalkBent is [Walk] along bent rays.
func WalkBent(out []Block, z, inverse, slope []float32, class []uint8, bent Bending, t *Tables, from *Progress, g, perMetre float32) {
	n := len(z)
	inverse, slope, class, out = inverse[:n], slope[:n], class[:n], out[:Blocks(n)]
	bent = Bending{bent.Launch[:n], bent.Arrive[:n], bent.Excess[:n]}
	whole := n / Width * Width
	if whole > 0 {
		walkBent(out[:whole/Width], z[:whole], inverse[:whole], slope[:whole], class[:whole], bent, t, from, g, perMetre)
	}
	if whole < n {
		out[len(out)-1] = Block{}
		walkBentScalar(out[whole/Width:], z[whole:], inverse[whole:], slope[whole:], class[whole:], bent.At(whole), t, from, g+float32(whole)*Step, perMetre)
	}
}

func walkBentScalar(out []Block, z, inverse, slope []float32, class []uint8, bent Bending, t *Tables, from *Progress, g, perMetre float32) {
	for len(z) > 0 {
		n := min(len(z), Width)
		walkBentBlock(&out[0], z[:n], inverse[:n], slope[:n], class[:n], bent, t, from, g, perMetre)
		out, z, inverse, slope, class = out[1:], z[n:], inverse[n:], slope[n:], class[n:]
		bent, g = bent.At(n), g+Width*Step
	}
}

// walkBentBlock is [walkBlock] along bent rays.
func walkBentBlock(b *Block, z, inverse, slope []float32, class []uint8, bent Bending, t *Tables, from *Progress, g, perMetre float32) {
	n := min(len(z), Width)
	z, inverse, slope, class = z[:n], inverse[:n], slope[:n], class[:n]
	launch, arriving, excess := bent.Launch[:n], bent.Arrive[:n], bent.Excess[:n]
	z0, r0, tangent0, horizon := from.Z, from.R, from.Tangent, from.Horizon
	bin0 := float32(r0 * perMetre)
	for l, z1 := range z {
		g0 := g
		g += Step
		tangent := float32(z1*inverse[l]) + launch[l]
		r := root(float32(g*g)+float32(z1*z1)) + excess[l]
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
			across2 := float32((r0 + r) * length)
			each := 512 / across2
			// Where the ray arrives, seen from the facet: over that, at the same slant range.
			arrive := (z0+z1)/(g0+g) + arriving[l]
			g2 := (r0 + r) / root(float32(arrive*arrive)+1)
			z2 := float32(arrive * g2)
			sine := float32((float32(rise*float32(g2*PerMetre)) - z2) * each) // times 2^15
			if sine > 0 {
				inverseR := float32(each * length) // times 2^8
				up := tangent / root(float32(tangent*tangent)+1)
				dip := within(int32(DipSteps/2-float32(up*(DipSteps/2))), DipSteps)
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
