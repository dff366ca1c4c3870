package transport

import "math"

// Ripple is the size of a ripple: crest to crest and trough to crest, metres.
type Ripple struct{ Length, Height float64 }

// WaveRipple is the ripple that waves of an orbital diameter make of grains, by Wiberg
// and Harris (J. Geophys. Res. 99 C1, 1994) in the form of Malarkey and Davies (Coast.
// Eng. 48, 2003) that needs no iteration. Where the law has no root, at orbits of some
// thousands of grains, the ripple is as flat as it gets.
func WaveRipple(d, orbit float64) Ripple {
	const (
		a1, a2, a3 = 0.095, 0.442, 2.28
		b1         = 1 / a1
		b2         = 0.5 * (1 + a2) * b1
		b3         = b2*b2 - a3*b1
		anorbital  = 535.0
	)
	if d <= 0 || orbit <= 0 {
		return Ripple{}
	}
	// Orbit over height, of a length.
	flat := func(x float64) float64 { return math.Exp(b2 - math.Sqrt(max(b3-b1*math.Log(x), 0))) }
	x := orbit / (anorbital * d)
	length := anorbital * d
	switch y := flat(x); {
	case y < 20:
		length = 0.62 * orbit
	case y <= 100:
		length = orbit / (x * math.Exp(math.Log(0.62*x)*math.Log(0.01*y)/math.Log(5)))
	}
	flattest := math.Exp(b3 / b1) // beyond it there is no root
	return Ripple{length, min(orbit, flattest*length) / flat(orbit/length)}
}

// CurrentRipple is the ripple that a current makes of sand: a thousand grains long and
// a seventh of that high (Soulsby 1997, from memory). Coarser than 0.8 mm there are
// none.
func CurrentRipple(d float64) Ripple {
	if d > 0.8e-3 {
		return Ripple{}
	}
	return Ripple{1000 * d, 1000 * d / 7}
}

// Ripple is the ripple of a flow on grains: none where the grains do not move and
// none where they are swept flat, above a Shields parameter of 0.8 (Soulsby 1997, from
// memory); that of waves or of the current, whichever moves the grains more.
func (f Flow) Ripple(d float64) Ripple {
	shields := f.Shields(d)
	if shields < ThresholdShields(d) || shields > 0.8 {
		return Ripple{}
	}
	waves := f
	waves.Current = 0
	if 2*waves.Shields(d) < shields {
		return CurrentRipple(d)
	}
	orbit, _ := Orbit(f.Height, f.Period, f.Depth)
	return WaveRipple(d, orbit)
}
