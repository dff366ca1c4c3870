package lanes

// The scalar forms as they are told: facet by facet, all of it, nothing put together or passed
// over. Every other form is held to them to the bit.

func plainWalk(out []Block, z, inverse, slope []float32, class []uint8, t *Tables, from *Progress, g, perMetre float32) {
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
			dip := index(float32((1-float32(zm*inverseR))*(DipSteps/2)), DipSteps-1)
			step := index(float32(sine*StrengthSteps), StrengthSteps-1)
			rest := index(float32(float32((float32(slope[i]*gm)-zm)*inverseR)*RestSteps), RestSteps-1)
			kind := class[i]
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

func plainWalkBent(out []Block, z, inverse, slope []float32, class []uint8, bent Bending, t *Tables, from *Progress, g, perMetre float32) {
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
				dip := index(float32(down*(DipSteps/2)), DipSteps-1)
				step := index(float32(sine*StrengthSteps), StrengthSteps-1)
				rest := index(float32(float32((float32(slope[i]*gm)-zm)*float32(each*length))*RestSteps), RestSteps-1)
				kind := class[i]
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

func plainDeposit(bins []Bin, blocks []Block, long []uint16) {
	last := float32(len(bins) - 1)
	for len(blocks) > 0 {
		n := min(group, len(blocks))
		clear(long[:n])
		for q := range 4 { // the order in which vectors are turned into records
			for quarter := range 4 {
				l := 4*quarter + q
				for k := range blocks[:n] {
					b := &blocks[k]
					from, to := b.From[l], b.To[l]
					at, end := int32(least(from, last)), int32(least(to, last))
					here, further := float32(at), float32(end)
					beyond := here + 1
					share := float32(1)
					if further != here {
						share = (beyond - from) / (to - from)
					}
					first, second := b.First[l], b.Second[l]
					if further > beyond {
						long[k] |= 1 << l
						first, second = 0, 0
					}
					near, nearSecond := float32(first*share), float32(second*share)
					bin := &bins[at]
					bin.First += near
					bin.Second += nearSecond
					bin.FirstNext += first - near
					bin.SecondNext += second - nearSecond
				}
			}
		}
		blocks, long = blocks[n:], long[n:]
	}
}

// index cuts x to 0..last.
func index(x, last float32) int32 { return int32(most(least(x, last), 0)) }
