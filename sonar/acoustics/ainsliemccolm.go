package acoustics

import "math"

// AinslieMcColm returns the absorption of sound in sea water, in dB/km, by
// M. A. Ainslie and J. G. McColm, "A simplified formula for viscous and
// chemical absorption in sea water", J. Acoust. Soc. Am. 103(3), 1671-1672
// (1998):
//
//	α = 0.106 f1 f²/(f1²+f²) e^((pH-8)/0.56)
//	    + 0.52 (1+T/43)(S/35) f2 f²/(f2²+f²) e^(-z/6)
//	    + 0.00049 f² e^-(T/27+z/17)                    (f in kHz, z in km)
//	f1 = 0.78 √(S/35) e^(T/26),  f2 = 42 e^(T/17)
//
// The frequency is in hertz, the depth in metres. Within 10 % of
// [FrancoisGarrison] from 100 Hz to 1 MHz for T -6 to 35 °C, S 5 to 50, depth 0
// to 7 km, pH 7.7 to 8.3, each varied alone about T 10, S 35, z 0, pH 8; at the
// very ends of those ranges, -6 and 35 °C and 7 km, we find up to 10.6 %.
// Fresh water lies outside the fit.
func AinslieMcColm(frequencyHz, temperatureC, salinityPSU, depthM, pH float64) float64 {
	f, t, s, z := frequencyHz/1000, temperatureC, salinityPSU, depthM/1000
	f1 := 0.78 * math.Sqrt(s/35) * math.Exp(t/26)
	f2 := 42 * math.Exp(t/17)
	return 0.106*relaxation(f1, f)*math.Exp((pH-8)/0.56) +
		0.52*(1+t/43)*(s/35)*relaxation(f2, f)*math.Exp(-z/6) +
		0.00049*f*f*math.Exp(-(t/27+z/17))
}
