package acoustics

import "math"

// FrancoisGarrison returns the absorption of sound in sea water, in dB/km, by
// R. E. Francois and G. R. Garrison, "Sound absorption based on ocean
// measurements. Part II", J. Acoust. Soc. Am. 72(6), 1879-1890 (1982): the sum
// of boric acid, magnesium sulphate and pure water,
//
//	α = A1 P1 f1 f²/(f1²+f²) + A2 P2 f2 f²/(f2²+f²) + A3 P3 f²   (f in kHz)
//
// The frequency is in hertz, the depth in metres. Published for 200 Hz to
// 1 MHz, to about 5 % between 10 and 500 kHz in T -2 to 22 °C, S 30 to 35,
// depths to 3.5 km, and above 500 kHz in T 0 to 30 °C, S 0 to 40, depths to
// 10 km. Below 100 kHz warm water absorbs more; near 1 MHz cold water does.
// Bubbles and suspended matter are left out.
func FrancoisGarrison(frequencyHz, temperatureC, salinityPSU, depthM, pH float64) float64 {
	boric, magnesium, water := francoisGarrisonParts(frequencyHz, temperatureC, salinityPSU, depthM, pH)
	return boric + magnesium + water
}

func francoisGarrisonParts(frequencyHz, temperatureC, salinityPSU, depthM, pH float64) (boric, magnesium, water float64) {
	f, t, s, z := frequencyHz/1000, temperatureC, salinityPSU, depthM
	c := 1412 + 3.21*t + 1.19*s + 0.0167*z
	kelvin := 273 + t // the paper's rounding of 273.15

	// 8.86: a textbook reprint turned it into 8.68.
	a1 := 8.86 / c * math.Pow(10, 0.78*pH-5)
	f1 := 2.8 * math.Sqrt(s/35) * math.Pow(10, 4-1245/kelvin)
	boric = a1 * relaxation(f1, f)

	a2 := 21.44 * s / c * (1 + 0.025*t)
	p2 := 1 + z*(-1.37e-4+z*6.2e-9)
	f2 := 8.17 * math.Pow(10, 8-1990/kelvin) / (1 + 0.0018*(s-35))
	magnesium = a2 * p2 * relaxation(f2, f)

	a3 := 4.937e-4 + t*(-2.59e-5+t*(9.11e-7-t*1.50e-8))
	if t > 20 {
		a3 = 3.964e-4 + t*(-1.146e-5+t*(1.45e-7-t*6.5e-10))
	}
	p3 := 1 + z*(-3.83e-5+z*4.9e-10)
	water = a3 * p3 * f * f
	return boric, magnesium, water
}
