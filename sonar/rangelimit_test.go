package sonar

import (
	"math"
	"testing"

	"dryline/seabed"
	"dryline/sonar/acoustics"
)

// The budget and the samples are one: over a flat floor each sample is what the
// budget says of its slant range, and without a floor each is its noise.
func TestBudgetIsWhatTheSamplesShow(t *testing.T) {
	const height = 8.0
	for _, test := range []struct {
		name     string
		focus    float64
		sediment acoustics.Sediment
		class    seabed.Class
		flat     bool
	}{
		{"not focused, sand", 0, acoustics.MediumSand, seabed.MediumSand, false},
		{"focused dynamically, gravel", Dynamic, acoustics.Gravel, seabed.Gravel, false},
		{"focused at 30 m, mud without trend", 30, acoustics.Mud, seabed.Mud, true},
	} {
		spec, sea := twoChannels(), temperate()
		for i := range spec.Channels {
			spec.Channels[i].Focus = test.focus
		}
		sea.FlatTrend = test.flat
		e, err := NewEngine(spec, sea, acoustics.Mackenzie(11, 34, 10), 1)
		if err != nil {
			t.Fatal(err)
		}
		e.SpeckleOff, e.NoiseOff = true, true
		bottom, err := test.sediment.Bottom()
		if err != nil {
			t.Fatal(err)
		}
		echo := ping(e, plane{z: -10, class: test.class}, height)
		e.NoiseOff = false
		quiet := ping(e, plane{z: -2000, class: test.class}, height)
		for c := range spec.Channels {
			b, err := e.Budget(c, bottom, height)
			if err != nil {
				t.Fatal(err)
			}
			level := func(row []uint16, k int) float64 {
				return 20 * math.Log10(float64(row[k])/float64(e.channels[c].gain[k]))
			}
			for _, r := range []float64{12, 20, 30, 45} {
				k := int(r / e.Bin())
				if got, want := level(echo.Samples[c], k), b.Echo((float64(k)+0.5)*e.Bin()); math.Abs(got-want) > 0.15 {
					t.Errorf("%s, channel %d at %g m: sample %.2f dB, budget %.2f", test.name, c, r, got, want)
				}
			}
			// Half a count of rounding in what counts there are.
			k := len(quiet.Samples[c]) - 10
			tol := 20 * math.Log10(1+0.5/float64(quiet.Samples[c][k]))
			if got := level(quiet.Samples[c], k); math.Abs(got-b.NoiseLevel) > tol+0.01 {
				t.Errorf("%s, channel %d: noise of %.2f dB in the samples, budget %.2f", test.name, c, got, b.NoiseLevel)
			}
		}
	}
}
