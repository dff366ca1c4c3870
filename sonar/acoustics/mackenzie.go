package acoustics

// Mackenzie returns the speed of sound in sea water, in m/s, by the nine-term
// equation of K. V. Mackenzie, "Nine-term equation for sound speed in the
// oceans", J. Acoust. Soc. Am. 70(3), 807-812 (1981):
//
//	c = 1448.96 + 4.591 T - 5.304e-2 T² + 2.374e-4 T³ + 1.340 (S-35)
//	    + 1.630e-2 D + 1.675e-7 D² - 1.025e-2 T (S-35) - 7.139e-13 T D³
//
// Valid for T -2 to 30 °C, S 25 to 40, D 0 to 8000 m, with a standard error of
// 0.07 m/s. In fresh water it reads about 0.8 m/s low.
func Mackenzie(temperatureC, salinityPSU, depthM float64) float64 {
	t, s, d := temperatureC, salinityPSU-35, depthM
	return 1448.96 + t*(4.591+t*(-5.304e-2+t*2.374e-4)) +
		1.340*s + d*(1.630e-2+d*1.675e-7) - 1.025e-2*t*s - 7.139e-13*t*d*d*d
}
