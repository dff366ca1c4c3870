package panes

// Stretch is how greys are spread over a ramp, both 0 to 1: times a factor, and something added. The zero
// value leaves them as they are.
type Stretch struct{ Times, Plus float64 }

// The bounds of a stretch: all but a share of what is painted at either end lies between two places of the
// ramp. Even ground is not drawn out until its speckle looks like ground.
const (
	leftOut     = 0.02
	rampLow     = 0.06
	rampHigh    = 0.94
	mostTimes   = 2.2
	leastTimes  = 0.7
	wholeFrom   = 200_000 // cells from which on the stretch is whole; before, it comes little by little
	darkestEcho = 1       // of a tile's greys; 0 is nothing painted
)

// greys counts the cells of a mosaic by grey.
type greys [256]int

// add counts a tile's cells so many times.
func (g *greys) add(of []uint8, times int) {
	for _, v := range of {
		g[v] += times
	}
}

// stretch spreads what is painted over the ramp.
func (g *greys) stretch() Stretch {
	n := 0
	for _, k := range g[darkestEcho:] {
		n += k
	}
	if n == 0 {
		return Stretch{1, 0}
	}
	at := func(share float64) float64 {
		below, want := 0, share*float64(n)
		for v := darkestEcho; v < len(g); v++ {
			if below += g[v]; float64(below) > want {
				return float64(v) / 255
			}
		}
		return 1
	}
	low, high := at(leftOut), at(1-leftOut)
	times := min(max((rampHigh-rampLow)/max(high-low, 1e-9), leastTimes), mostTimes)
	plus := (rampLow+rampHigh)/2 - times*(low+high)/2
	// A few metres of a line say little of the ground.
	share := min(float64(n)/wholeFrom, 1)
	return Stretch{1 + share*(times-1), share * plus}
}

// Painted is the stretch by what is painted of the mosaic.
func (m *Mosaic) Painted() Stretch {
	if !m.stretched {
		m.stretch, m.stretched = m.greys.stretch(), true
	}
	return m.stretch
}
