package lanes

// Bending is what layers of the water do to the ray to each sample: to the tangents of its
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
	n := len(z)
	inverse, slope, class = inverse[:n], slope[:n], class[:n]
	launch, arriving, excess := bent.Launch[:n], bent.Arrive[:n], bent.Excess[:n]
	z0, r0, tangent0, horizon := from.Z, from.R, from.Tangent, from.Horizon
	var b *Block
	for i, z1 := range z {
		l := i % Width
		if l == 0 {
			b = &out[i/Width]
		}
		g += Step
		tangent := float32(z1*inverse[i]) + launch[i]
		r := root(float32(g*g)+float32(z1*z1)) + excess[i]
		lit, near := float32(1), r0
		visible := tangent > horizon
		if visible && tangent0 < horizon {
			lit = (tangent - horizon) / (tangent - tangent0)
			near = r - float32(lit*(r-r0))
		}
		var first, second float32
		if visible {
			rise := z1 - z0
			length := root(float32(rise*rise) + Step*Step)
			rm := float32((r0 + r) * 0.5)
			across := float32(rm * length)
			each := 1 / across
			// Where the ray arrives, seen from the facet: over that, at the same slant range.
			arrive := float32((z0+z1)*0.5)/(g-Step/2) + arriving[i]
			gm := rm / root(float32(arrive*arrive)+1)
			zm := float32(arrive * gm)
			sine := float32((float32(rise*gm) - float32(zm*Step)) * each)
			if sine > 0 {
				down := 1 - tangent/root(float32(tangent*tangent)+1) // sine of the depression, and one
				dip := index(float32(down*(DipSteps/2)), DipSteps-1) & (DipSteps - 1)
				step := index(float32(sine*StrengthSteps), StrengthSteps-1) & (StrengthSteps - 1)
				rest := index(float32(float32((float32(slope[i]*gm)-zm)*float32(each*length))*RestSteps), RestSteps-1) & (RestSteps - 1)
				kind := class[i] & (Classes - 1)
				area := float32(float32(across*lit) * t.Rest[kind][rest])
				s := &t.Strength[kind][step]
				first, second = float32(area*float32(t.Vertical[0][dip]*s[0])), float32(area*float32(t.Vertical[1][dip]*s[1]))
			}
		}
		a, c := float32(near*perMetre), float32(r*perMetre)
		b.From[l], b.To[l] = least(a, c), most(a, c)
		b.First[l], b.Second[l] = first, second
		z0, r0, tangent0 = z1, r, tangent
		horizon = most(horizon, tangent)
	}
	*from = Progress{z0, r0, tangent0, horizon}
}
