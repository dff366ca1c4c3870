package acoustics_test

import (
	"fmt"
	"math"

	"dryline/sonar/acoustics"
)

// A dual-frequency fish works in temperate shelf water. Warm water costs the
// low channel range and gives the high channel some back.
func ExampleAbsorption() {
	for _, temperature := range []float64{10, 25} {
		for _, frequency := range []float64{300e3, 900e3} {
			alpha, err := acoustics.Absorption(acoustics.ModelFrancoisGarrison, frequency, temperature, 35, 10, 8)
			if err != nil {
				fmt.Println(err)
				return
			}
			fmt.Printf("%2.0f °C, %3.0f kHz: %3.0f dB/km\n", temperature, frequency/1000, alpha)
		}
	}
	// Output:
	// 10 °C, 300 kHz:  73 dB/km
	// 10 °C, 900 kHz: 299 dB/km
	// 25 °C, 300 kHz: 120 dB/km
	// 25 °C, 900 kHz: 286 dB/km
}

// What a bottom sends back at 20 degrees grazing, within the published band.
func ExampleBottom_Strength() {
	for _, sediment := range []acoustics.Sediment{acoustics.Mud, acoustics.MediumSand, acoustics.Gravel, acoustics.Rock} {
		bottom, err := sediment.Bottom()
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%-12s %5.1f dB\n", sediment, bottom.Strength(20*math.Pi/180, 100e3, 1500))
	}
	fmt.Println("455 kHz is extrapolated:", acoustics.Extrapolated(455e3))
	// Output:
	// mud          -31.9 dB
	// medium_sand  -24.2 dB
	// gravel       -19.3 dB
	// rock         -12.0 dB
	// 455 kHz is extrapolated: true
}

// The height of a target from its shadow: slant range to the top 60 m, shadow
// 8 m along the slant, fish 12 m above the bottom.
func ExampleHeightFromShadow() {
	fmt.Printf("%.2f m\n", acoustics.HeightFromShadow(12, 8, 60))
	// Output: 1.41 m
}

// How far a 455 kHz sonar sees medium sand before thermal noise wins.
func ExampleBudget_RangeLimit() {
	const frequency, soundSpeed = 455e3, 1500
	sand, err := acoustics.MediumSand.Bottom()
	if err != nil {
		fmt.Println(err)
		return
	}
	bottom := sand.Scattering(frequency, soundSpeed)
	array := acoustics.LineArray{Length: 0.5}
	pulse := acoustics.Pulse{Duration: 1e-3, Bandwidth: 20e3, Shading: acoustics.HannShading()}
	noise := acoustics.ThermalNoise(frequency, 10, 1027, soundSpeed)
	budget := acoustics.Budget{
		SourceLevel:     210,
		Absorption:      acoustics.FrancoisGarrison(frequency, 10, 35, 10, 8),
		Height:          10,
		EquivalentWidth: array.EquivalentWidth(soundSpeed / frequency),
		Resolution:      pulse.Resolution(soundSpeed),
		NoiseLevel:      acoustics.BandNoise(noise, pulse.NoiseBandwidth(), 25),
		ProcessingGain:  pulse.ProcessingGain(),
		Strength:        bottom.Strength,
	}
	slant, ok := budget.RangeLimit(6, 500)
	fmt.Printf("%.0f m, %t\n", slant, ok)
	// Output: 116 m, true
}
