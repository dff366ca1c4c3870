package sonar

import (
	"math"

	"dryline/sonar/acoustics"
)

// bubbles is the layer that breaking waves leave below the surface. Its
// extinction falls off downwards,
//
//	kappa(z) = tau/L exp(-z/L)
//
// with tau half of the loss of one reflection from the surface straight up
// (acoustics.SurfaceLoss passes the layer twice) and L = 0.4 + 0.115 (U - 2.5) m,
// at least 0.2 m (Crawford and Farmer, J. Geophys. Res. 92, 8231-8243, 1987;
// from memory). A fish in it hears the layer around and below itself, and
// the floor through it; what lies above is part of the surface echo. Bubbles much larger than the wavelength scatter back
// 1/(8 pi) of what they take out, to the steradian: their cross-sections are
// a^2/4 and 2 pi a^2. NoiseRise is what breaking waves add to the channel's own
// noise; it has no formula above 50 kHz and is the exercise's.
type bubbles struct {
	tau   []float64 // by channel: optical depth of the layer, one way, of intensity
	scale float64   // L, metres
	noise []float32 // by channel
}

// backOfExtinction is the backscatter of large bubbles over their extinction.
const backOfExtinction = 1 / (8 * math.Pi)

func (e *Engine) newBubbles(spec Bubbles) *bubbles {
	b := &bubbles{scale: max(0.4+0.115*(e.sea.Wind-2.5), 0.2)}
	for _, t := range e.channels {
		loss := acoustics.SurfaceLoss(t.spec.Frequency, e.sea.Wind, math.Pi/2)
		b.tau = append(b.tau, loss/2*math.Ln10/10)
		b.noise = append(b.noise, t.noise*float32(acoustics.FromDecibels(max(spec.NoiseRise, 0))-1))
	}
	return b
}

func (b *bubbles) add(a *arrival) {
	tau := b.tau[a.index]
	depth := max(a.pose.Depth(), 0)
	b.shade(a, tau*math.Exp(-depth/b.scale))
	const sheets, step = 4, 0.7 // of L: down to where a sixteenth is left
	left := tau * math.Exp(-depth/b.scale)
	for i := range sheets {
		down := (float64(i) + 0.5) * step * b.scale
		if left < 1e-4 || down > a.altitude {
			break
		}
		taken := left * (1 - math.Exp(-step))
		a.sheet(-down, nil, float32(taken*backOfExtinction), tau*math.Exp(-depth/b.scale)-left+taken/2)
		left -= taken
	}
	if noise := b.noise[a.index]; noise > 0 && !a.engine.NoiseOff {
		for k := range a.stray {
			a.stray[k] += noise
		}
	}
}

// shade weakens what lies below, seen through what there is of the layer
// between it and the fish, there and back: tau/sin(gamma) at the grazing
// angle of a level floor.
func (b *bubbles) shade(a *arrival, tau float64) {
	const stride = 32
	if tau < 1e-3 {
		return
	}
	for k := 0; k < len(a.intensity); k += stride {
		r := (float64(k) + stride/2) * a.engine.bin
		sine := min(a.altitude/r, 1)
		through := float32(math.Exp(-2 * tau / sine * (1 - math.Exp(-r*sine/b.scale))))
		for j := k; j < min(k+stride, len(a.intensity)); j++ {
			a.intensity[j] *= through
		}
	}
}
