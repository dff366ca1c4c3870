package transport

import "math"

// ThresholdShields is the Shields parameter at which grains begin to move (Soulsby,
// Dynamics of Marine Sands, 1997, equation 77):
//
//	theta = 0.3/(1 + 1.2 D*) + 0.055 (1 - exp(-0.020 D*)) ,  D* = D (g(s-1)/nu^2)^(1/3)
func ThresholdShields(d float64) float64 {
	star := d * math.Cbrt(gravity*(ratio-1)/(viscosity*viscosity))
	return 0.3/(1+1.2*star) + 0.055*(1-math.Exp(-0.020*star))
}

// Stress is the bed stress in Pa of a Shields parameter.
func Stress(shields, d float64) float64 { return shields * gravity * (quartz - water) * d }

// Orbit is the motion of the water at the bed under waves: the diameter of its
// orbit, metres, and its greatest speed, m/s, for waves of a height and a period in
// a depth of water, by linear theory:
//
//	d0 = H/sinh(kh) ,  omega^2 = g k tanh(kh)
func Orbit(height, period, depth float64) (diameter, speed float64) {
	omega := 2 * math.Pi / period
	k := omega * omega / gravity
	k /= math.Sqrt(math.Tanh(k * depth)) // a first guess (Eckart)
	for range 20 {                       // Newton's steps; three are enough
		t := math.Tanh(k * depth)
		k -= (gravity*k*t - omega*omega) / (gravity * (t + k*depth*(1-t*t)))
	}
	diameter = height / math.Sinh(k*depth)
	return diameter, diameter * omega / 2
}

// Flow is the water that shaped a bed: waves of a height and a period and a current
// of a mean speed, in a depth of water.
type Flow struct{ Height, Period, Current, Depth float64 }

// Shields is the Shields parameter of a flow on grains, of the friction on the grains
// alone: that of the current by a logarithmic profile over a roughness of D/12
// (Soulsby 1997, equation 37) and the greatest of the waves by f = 0.237 (A/2.5D)^-0.52
// (equation 62a), added. Both from memory; ripples' own drag is left out.
func (f Flow) Shields(d float64) float64 {
	drag := 0.40 / (math.Log(12*f.Depth/d) - 1)
	stress := water * drag * drag * f.Current * f.Current
	if f.Height > 0 {
		orbit, speed := Orbit(f.Height, f.Period, f.Depth)
		if orbit > 0 {
			friction := 0.237 * math.Pow(max(orbit/2/(2.5*d), 1), -0.52)
			stress += 0.5 * water * friction * speed * speed
		}
	}
	return stress / Stress(1, d)
}
