package acoustics

import (
	"math"

	"dryline/seabed/units"
)

const boltzmann = 1.380649e-23 // J/K, exact in the SI

// ThermalNoise returns the spectrum level, in dB re 1 µPa²/Hz, of the thermal
// noise of the sea at a frequency in hertz, for a water temperature in °C, a
// density in kg/m³ and a speed of sound in m/s, by R. H. Mellen, "The
// thermal-noise limit in the detection of underwater acoustic signals",
// J. Acoust. Soc. Am. 24, 478-480 (1952):
//
//	<p²> = 4π k T ρ f²/c   Pa²/Hz
//
// close to -14.7 + 20 log10 f in kHz. It is what a lossless point receiver
// hears; an inefficient one hears more.
func ThermalNoise(frequencyHz, temperatureC, density, soundSpeed float64) float64 {
	kelvin := temperatureC + 273.15
	p2 := 4 * math.Pi * boltzmann * kelvin * density * frequencyHz * frequencyHz / soundSpeed
	return Decibels(p2) + 120 // Pa² to µPa²
}

// WindNoise returns the spectrum level, in dB re 1 µPa²/Hz, of the noise of the
// wind-blown surface, by the rule of fives drawn from V. O. Knudsen and others
// (1948) and G. M. Wenz, J. Acoust. Soc. Am. 34, 1936-1956 (1962): 25 dB re
// 20 µPa (51.02 re 1 µPa) at 1 kHz in a wind of 5 knots, 5 dB less for an octave
// of frequency, 5 dB more for a doubling of wind:
//
//	51.02 + (50/3) log10(U/5 kn) - (50/3) log10(f/1 kHz)
//
// The wind is in m/s; none gives -Inf. Wenz's data end at 20 kHz, and the rule
// is extrapolated above some 50 kHz, where thermal noise takes over.
func WindNoise(frequencyHz, windSpeed float64) float64 {
	const slope = 50.0 / 3
	reference := 25 + 20*math.Log10(20)
	return reference + slope*math.Log10(windSpeed/(5*units.Knot)) - slope*math.Log10(frequencyHz/1000)
}

// AmbientNoise returns the power sum of [ThermalNoise] and [WindNoise] in dB re
// 1 µPa²/Hz. Ships, rain, animals and the sonar's own electronics are left out.
func AmbientNoise(frequencyHz, windSpeed, temperatureC, density, soundSpeed float64) float64 {
	thermal := ThermalNoise(frequencyHz, temperatureC, density, soundSpeed)
	wind := WindNoise(frequencyHz, windSpeed)
	return AddLevels(thermal, wind)
}

// AddLevels returns the level of the sum of independent powers, in dB.
func AddLevels(levels ...float64) float64 {
	var sum float64
	for _, level := range levels {
		sum += FromDecibels(level)
	}
	return Decibels(sum)
}

// BandNoise returns the noise level in dB re 1 µPa in a band in hertz, from a
// spectrum level that is flat over it, behind an array of a directivity index
// in dB.
func BandNoise(spectrumLevel, bandwidthHz, directivityIndex float64) float64 {
	return spectrumLevel + Decibels(bandwidthHz) - directivityIndex
}
