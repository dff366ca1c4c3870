package acoustics

// Medwin returns the speed of sound in sea water, in m/s, by the short
// equation of H. Medwin, "Speed of sound in water: a simple equation for
// realistic parameters", J. Acoust. Soc. Am. 58, 1318-1319 (1975):
//
//	c = 1449.2 + 4.6 T - 5.5e-2 T² + 2.9e-4 T³ + (1.34 - 0.010 T)(S-35) + 0.016 D
//
// Valid for T 0 to 35 °C, S 0 to 45, D 0 to 1000 m, within about 0.2 m/s of
// Del Grosso (1974).
func Medwin(temperatureC, salinityPSU, depthM float64) float64 {
	t := temperatureC
	return 1449.2 + t*(4.6+t*(-5.5e-2+t*2.9e-4)) + (1.34-0.010*t)*(salinityPSU-35) + 0.016*depthM
}
