package acoustics

import "math"

// largeRoughness is the empirical branch for gravel and rock, TR 9407, Section
// IV, Eqs. 53-56. The report counts its angles in degrees.
type largeRoughness struct {
	critical2 float64 // θc², degrees squared
	m         float64
	oblique   float64 // σ1
	facing    float64 // 0.0260 |R(90°)|² / s²
	spread    float64 // 2.6 θs², degrees squared
}

func newLargeRoughness(b *Bottom, slope, r90 float64) largeRoughness {
	nu := b.SoundSpeedRatio
	critical := 2.5613
	if nu >= 1.001 {
		critical = math.Acos(1/nu) * 180 / math.Pi
	}
	slopeDeg := slope * 180 / math.Pi
	contrast := (1-2/b.DensityRatio)/(nu*nu) + 1
	return largeRoughness{
		critical2: critical * critical,
		m:         0.7263 / math.Cbrt(slope),
		oblique: 0.04682 * math.Pow(slope, 1.25) * math.Pow(nu, 3.25) * contrast * contrast /
			(1 + 3.54*slopeDeg/critical),
		facing: 0.0260 * r90 / (slope * slope),
		spread: 2.6 * slopeDeg * slopeDeg,
	}
}

// at returns the cross section at a grazing angle.
func (l *largeRoughness) at(grazing float64) float64 {
	deg := grazing * 180 / math.Pi
	c := 1 + 0.81*l.critical2/(deg*deg)
	off := deg - 90
	oblique := l.oblique * math.Exp(l.m*math.Log(math.Sin(math.Pi/c)))
	facing := l.facing * math.Exp(-1.9*math.Log1p(off*off/l.spread)) / c
	return oblique + facing
}
