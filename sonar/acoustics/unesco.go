package acoustics

import "math"

// UNESCO returns the speed of sound in sea water, in m/s, by the equation of
// C.-T. Chen and F. J. Millero, J. Acoust. Soc. Am. 62, 1129-1135 (1977), as
// printed by N. P. Fofonoff and R. C. Millard, UNESCO Technical Papers in
// Marine Science 44 (1983), equations 33-37:
//
//	c = Cw(T,P) + A(T,P) S + B(T,P) S^1.5 + D(P) S²
//
// The temperature is on today's ITS-90 scale and is converted to the IPTS-68
// scale of the fit, T68 = 1.00024 T90. The pressure is above atmospheric, in
// bar (10 dbar, about 10 m of sea water); see [PressureAtDepth].
// Valid for T 0 to 40 °C, S 0 to 40, P 0 to 1000 bar.
func UNESCO(temperatureC, salinityPSU, pressureBar float64) float64 {
	t, s, p := 1.00024*temperatureC, salinityPSU, pressureBar
	b := -1.922e-2 - 4.42e-5*t + (7.3637e-5+1.7945e-7*t)*p
	d := 1.727e-3 - 7.9836e-6*p
	return chenMilleroWater.at(t, p) + s*(chenMilleroSalt.at(t, p)+b*math.Sqrt(s)+d*s)
}

// chenMilleroTerms[j][i] multiplies P^j T^i.
type chenMilleroTerms [4][6]float64

func (terms *chenMilleroTerms) at(t, p float64) float64 {
	var sum float64
	for j := len(terms) - 1; j >= 0; j-- {
		c := &terms[j]
		sum = sum*p + (c[0] + t*(c[1]+t*(c[2]+t*(c[3]+t*(c[4]+t*c[5])))))
	}
	return sum
}

var chenMilleroWater = chenMilleroTerms{
	{1402.388, 5.03711, -5.80852e-2, 3.3420e-4, -1.47800e-6, 3.1464e-9},
	{0.153563, 6.8982e-4, -8.1788e-6, 1.3621e-7, -6.1185e-10},
	{3.1260e-5, -1.7107e-6, 2.5974e-8, -2.5335e-10, 1.0405e-12},
	{-9.7729e-9, 3.8504e-10, -2.3643e-12},
}

var chenMilleroSalt = chenMilleroTerms{
	{1.389, -1.262e-2, 7.164e-5, 2.006e-6, -3.21e-8},
	{9.4742e-5, -1.2580e-5, -6.4885e-8, 1.0507e-8, -2.0122e-10},
	{-3.9064e-7, 9.1041e-9, -1.6002e-10, 7.988e-12},
	{1.100e-10, 6.649e-12, -3.389e-13},
}
