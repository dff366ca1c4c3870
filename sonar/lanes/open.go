package lanes

// nodeStep is from a node of a ray to the next, metres: a block is as long.
const nodeStep = Width * Step

// Patterns fills first and second, by channel, with the vertical pattern at nodes of the ray a
// block apart, the first at the ground range g. heights are those of the nodes over the fish.
// The table is read between its steps.
func Patterns(first, second, heights []float32, t *Tables, g float32) {
	n := len(first)
	second, heights = second[:n], heights[:n]
	whole := n / Width * Width
	if whole > 0 {
		patterns(first[:whole], second[:whole], heights[:whole], t, g)
	}
	if whole < n {
		patternsScalar(first[whole:], second[whole:], heights[whole:], t, g+float32(whole)*nodeStep)
	}
}

func patternsScalar(first, second, heights []float32, t *Tables, g float32) {
	for k, z := range heights {
		inverseR := 1 / root(float32(g*g)+float32(z*z))
		x := float32((1-float32(z*inverseR))*(DipSteps/2)) - 0.5
		x = most(least(x, DipSteps-1), 0)
		i := int32(least(x, DipSteps-2))
		past := x - float32(i)
		a, b := &t.Vertical[i], &t.Vertical[i+1]
		first[k] = a[0] + float32(past*(b[0]-a[0]))
		second[k] = a[1] + float32(past*(b[1]-a[1]))
		g += nodeStep
	}
}

// WalkOpen is [Walk] over open ground: whole blocks, each of one class, which begin and
// end at a node. first and second are the [Patterns] at the nodes, one more than blocks;
// along a block they are a straight line. Over objects, whose tops stand metres over the
// nodes, and where ground changes, it takes Walk.
func WalkOpen(out []Block, z, inverse, slope, first, second []float32, class []uint8, t *Tables, from *Progress, g, perMetre float32) {
	n := len(out)
	if n == 0 {
		return
	}
	z, inverse, slope, first, second, class = z[:n*Width], inverse[:n*Width], slope[:n*Width], first[:n+1], second[:n+1], class[:n]
	walkOpen(out, z, inverse, slope, first, second, class, t, from, g, perMetre)
}

// middles is how far along its block the middle of each facet lies.
var middles = Middles()

// Middles is for the generator.
func Middles() (m [Width]float32) {
	for l := range m {
		m[l] = (float32(l) + 0.5) / Width
	}
	return m
}

func walkOpenScalar(out []Block, z, inverse, slope, first, second []float32, class []uint8, t *Tables, from *Progress, g, perMetre float32) {
	z0, r0, tangent0, horizon := from.Z, from.R, from.Tangent, from.Horizon
	for n := range out {
		b := &out[n]
		f, f2 := first[n], second[n]
		df, df2 := first[n+1]-f, second[n+1]-f2
		strength, rests := &t.Strength[class[n]&(Classes-1)], &t.Rest[class[n]&(Classes-1)]
		zs, inverses, slopes := (*[Width]float32)(z[n*Width:]), (*[Width]float32)(inverse[n*Width:]), (*[Width]float32)(slope[n*Width:])
		for l := range Width {
			g += Step
			z1 := zs[l]
			tangent := float32(z1 * inverses[l])
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
			gm, zm := g-Step/2, float32((z0+z1)*0.5)
			each := 1 / across
			sine := float32((float32(rise*gm) - float32(zm*Step)) * each)
			var e, e2 float32
			if visible && sine > 0 {
				s := &strength[index(float32(sine*StrengthSteps), StrengthSteps-1)&(StrengthSteps-1)]
				inverseR := float32(each * length)
				rest := index(float32(float32((float32(slopes[l]*gm)-zm)*inverseR)*RestSteps), RestSteps-1)
				area := float32(float32(across*lit) * rests[rest&(RestSteps-1)])
				e = float32(area * float32((f+float32(df*middles[l]))*s[0]))
				e2 = float32(area * float32((f2+float32(df2*middles[l]))*s[1]))
			}
			a, c := float32(near*perMetre), float32(r*perMetre)
			b.From[l], b.To[l] = least(a, c), most(a, c)
			b.First[l], b.Second[l] = e, e2
			z0, r0, tangent0 = z1, r, tangent
			horizon = most(horizon, tangent)
		}
	}
	*from = Progress{z0, r0, tangent0, horizon}
}
