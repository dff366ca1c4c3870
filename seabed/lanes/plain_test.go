package lanes

// The scalar forms as they are told: sample by sample, each from what lies about it. Every
// other form is held to them to the bit.

func plainFloor(z, slope, heights []float32, places []Place, patch *Patch, du, dv float32) {
	var us, vs [Width]float32
	for l := range Width {
		us[l], vs[l] = float32(float32(l+1)*du), float32(float32(l+1)*dv)
	}
	for n := range places {
		p0, p1, p2, p3 := heights[n], heights[n+1], heights[n+2], heights[n+3]
		place := &places[n]
		z, slope := z[n*Width:(n+1)*Width], slope[n*Width:(n+1)*Width]
		for l := range Width {
			smooth := float32(cubic[0][l]*p0) + float32(cubic[1][l]*p1) + float32(cubic[2][l]*p2) + float32(cubic[3][l]*p3)
			slope[l] = float32(gradient[0][l]*p0) + float32(gradient[1][l]*p1) + float32(gradient[2][l]*p2) + float32(gradient[3][l]*p3)
			z[l] = smooth + float32(place.Gain*patch.at(place, us[l], vs[l]))
		}
	}
}

// at is the patch so many nodes past a place, bilinear.
func (p *Patch) at(place *Place, u, v float32) float32 {
	u, v = place.U+u, place.V+v
	i, j := int32(u), int32(v)
	fu, fv := u-float32(i), v-float32(j)
	at := (place.J+j)&wrap*Stride + (place.I+i)&wrap
	low, high := (*[2]float32)(p[at:]), (*[2]float32)(p[at+Stride:])
	a := low[0] + float32(fu*(low[1]-low[0]))
	b := high[0] + float32(fu*(high[1]-high[0]))
	return a + float32(fv*(b-a))
}

func plainSeams(z []float32, seams []Seam, a, b *Patch, du, dv float32) {
	for n := range seams {
		m, z := &seams[n], z[n*Width:(n+1)*Width]
		for l := range z {
			along := float32(l + 1)
			x := most(least(m.X+float32(along*m.DX), 1), 0)
			step := float32(float32(x*x) * (3 - float32(2*x)))
			s := x + float32(m.Smooth*(step-x))
			rest := 1 - s
			weigh := 1 / root(float32(rest*rest)+float32(s*s))
			u, v := float32(along*du), float32(along*dv)
			first := float32(float32(m.A.Gain*a.at(&m.A, u, v)) * rest)
			second := float32(float32(m.B.Gain*b.at(&m.B, u, v)) * s)
			z[l] += float32((first + second) * weigh)
		}
	}
}
