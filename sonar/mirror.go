package sonar

import (
	"math"

	"dryline/sonar/acoustics"
)

// surfaceMirror tabulates the share of the intensity that one reflection from the
// surface leaves, by channel and sine of the grazing angle: the share that bubbles
// let through (acoustics.SurfaceLoss) times the one that stays in the beam. floorSlope is the
// mean square slope of a floor that reflects as well on the same way.
func (e *Engine) surfaceMirror(floorSlope float64) [][]float32 {
	// In a dead calm the surface is flat (our own choice).
	slope := acoustics.SurfaceSlope(e.sea.Wind) * min(e.sea.Wind, 1)
	var tables [][]float32
	for _, t := range e.channels {
		table := make([]float32, strengthSteps)
		for i := range table {
			grazing := grazingOf(i)
			left := acoustics.FromDecibels(-acoustics.SurfaceLoss(t.spec.Frequency, e.sea.Wind, grazing))
			table[i] = float32(left * t.staysInBeam(grazing, slope+floorSlope))
		}
		tables = append(tables, table)
	}
	return tables
}

// staysInBeam is the share of the sound that a rough mirror throws into the
// beam. A facet tilted sideways by an angle turns the sound by 2 sin(gamma)
// times it, so a mean square slope s^2, half of it sideways, makes a patch of
// glitter 2.355 x 2 sin(gamma) s/sqrt(2) wide between half-power points, of
// which the array hears its own width,
//
//	theta/sqrt(theta^2 + glitter^2)
//
// for two Gaussian shapes: an estimate of our own. It keeps ghosts faint except
// in a calm. Left out: the blur of the glitter in range.
func (t *tuned) staysInBeam(grazing, slope float64) float64 {
	theta := t.array.HalfPowerWidth(t.wavelength)
	glitter := 2.355 * 2 * math.Sin(grazing) * math.Sqrt(slope/2)
	return theta / math.Hypot(theta, glitter)
}

// bySine reads a table by the sine of a grazing angle.
func bySine(table []float32, sine float64) float64 {
	return float64(table[min(max(int(sine*strengthSteps), 0), strengthSteps-1)])
}

// echoAgain repeats the record of the floor by a longer way that goes out or
// comes back over a mirror. What answered at the slant range R lies at the
// ground range g = sqrt(R^2 - h^2) of a level floor; by the long way it is
//
//	L = sqrt(g^2 + v^2)
//
// off, v being the height of the mirror image, and arrives at (R+L)/2, weaker
// by (R/L)^2, absorption, mirror and beam; once out and once back makes two.
// What lies nearer than the floor is not repeated. Left out: the true shape of
// the floor, and the smear of a rough mirror.
func (a *arrival) echoAgain(v float64, weaken func(sine float64) float64) {
	const stride = 16
	bin := a.engine.bin
	first := int(a.altitude / bin)
	at := func(k int) (bins, share float64) {
		r := max(float64(k)+0.5, 0.5) * bin
		g2 := max(r*r-a.altitude*a.altitude, 0)
		long := math.Sqrt(g2 + v*v)
		down := min(a.altitude/r, 1)
		share = 2 * r * r / (long * long) * a.absorbed(long-r) * weaken(v/long)
		share /= math.Sqrt(max(a.patternAt(down), 1e-12))
		return (r + long) / 2 / bin, share
	}
	// From far to near: what is added lies farther than what is read.
	for k := len(a.intensity) - 1; k >= first; k -= stride {
		low := max(k-stride, first-1)
		b1, s1 := at(k)
		b0, s0 := at(low)
		if int(b0) >= len(a.intensity) || s0 == 0 && s1 == 0 {
			continue
		}
		inverse := 1 / float64(max(k-low, 1))
		for j := k; j > low; j-- {
			f := float64(j-low) * inverse
			b := b0 + f*(b1-b0)
			if to := int(b); to < len(a.intensity) {
				a.intensity[to] += a.intensity[j] * float32(s0+f*(s1-s0))
			}
		}
	}
}
