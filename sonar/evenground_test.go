package sonar

import (
	"math"
	"testing"

	"dryline/seabed"
)

// Level medium sand looks even: means over 2 m by 2 m of the far part of a swath, 6 m
// below the fish, scatter by less than a decibel about their range's. And what a
// surveyor looks for stands out of it: sand waves half a metre high scatter them by
// twice that. That level sand looks so is common practice, no source.
func TestLevelSandIsEvenAndSandWavesStandOut(t *testing.T) {
	const square = 2.0
	scatter := func(forms ...seabed.Bedform) float64 {
		ground := Ground{seabed.New(seabed.Spec{East: 260, North: 120, Depth: 12, Base: seabed.MediumSand, Relief: seabed.Relief{Wavelength: 100}, Bedforms: forms}, 8)}
		e := newEngine(t, twoChannels())
		e.SpeckleOff, e.NoiseOff = true, true
		ws, echo := e.NewWorkspace(), e.NewEcho()
		const columns, rows, each = 80, 8, 10
		var sums [rows][columns]float64
		for i := range columns * each {
			x := 40 + square/each*float64(i)
			e.Ping(ws, &echo, ground, Pose{X: x, Y: 100, Z: -6, Heading: math.Pi / 2}, Starboard, uint64(i))
			for k, v := range echo.Samples[0] {
				r := (float64(k) + 0.5) * e.Bin()
				if j := int((r - 32) / square); r > 32 && j < rows {
					a := float64(v) / float64(e.channels[0].gain[k])
					sums[j][i/each] += a * a
				}
			}
		}
		square := 0.0
		for j := range sums {
			mean := 0.0
			for _, s := range sums[j] {
				mean += s / columns
			}
			for _, s := range sums[j] {
				d := 10 * math.Log10(s/mean)
				square += d * d / (rows * columns)
			}
		}
		return math.Sqrt(square)
	}
	bare := scatter()
	waves := scatter(seabed.Bedform{Kind: seabed.Waves, Height: 0.55, Wavelength: 12, Asymmetry: 0.55, Wander: 0.5, Crest: 0.3})
	if bare > 0.9 || waves < 1.8*bare {
		t.Errorf("level sand scatters by %.2f dB, with sand waves by %.2f dB", bare, waves)
	}
}
