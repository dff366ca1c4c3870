package sonar

import (
	"math"
	"testing"

	"dryline/seabed"
	"dryline/sonar/acoustics"
	"dryline/sonar/recorder"
)

// The tables of an expectation agree with the sonar equation worked out plainly, with
// every integral, and with what is rendered: a level plane of medium sand, its speckle
// averaged over pings, writes the counts foretold.
func TestExpectationIsWhatPlainSandWrites(t *testing.T) {
	const height = 8.0
	e := newEngine(t, twoChannels())
	bottom, err := acoustics.MediumSand.Bottom()
	if err != nil {
		t.Fatal(err)
	}
	var slants []float64
	for r := 9.5; r < 45; r += 2.5 {
		slants = append(slants, r)
	}
	ws, echo := e.NewWorkspace(), e.NewEcho()
	const pings = 600
	sums := make([][]float64, len(e.channels))
	for i := range pings {
		e.Ping(ws, &echo, plane{z: -height - 2, class: seabed.MediumSand}, Pose{Z: -2, Y: float64(i), Run: float64(i)}, Starboard, uint64(i))
		for c, samples := range echo.Samples {
			if sums[c] == nil {
				sums[c] = make([]float64, len(samples))
			}
			for k, v := range samples {
				sums[c][k] += float64(v) / pings
			}
		}
	}
	for c, tuned := range e.channels {
		set := tuned.spec.Receiver
		x, err := e.Expectation(c)
		if err != nil {
			t.Fatal(err)
		}
		b, err := e.Budget(c, bottom, height)
		if err != nil {
			t.Fatal(err)
		}
		got := make([]float64, len(slants))
		x.Counts(got, set, slants, height)
		for i, r := range slants {
			intensity := acoustics.FromDecibels(b.Echo(r)) + acoustics.FromDecibels(b.NoiseLevel)
			plain := NominalCounts * math.Sqrt(math.Pi/4*intensity) * math.Pow(10, (set.TVG(r)+set.Gain-tuned.nominal)/20)
			if d := 20 * math.Log10(got[i]/plain); math.Abs(d) > 0.05 {
				t.Errorf("channel %d at %g m: tabulated %+.3f dB off the plain sonar equation", c, r, d)
			}
			k, mean := int(r/e.Bin()), 0.0
			for j := k - 5; j <= k+5; j++ {
				mean += sums[c][j] / 11
			}
			if got[i] < recorder.FullScale/20 && mean > 50 {
				if d := 20 * math.Log10(got[i]/mean); math.Abs(d) > 0.5 {
					t.Errorf("channel %d at %g m: %.0f counts foretold, %.0f written, %+.2f dB", c, r, got[i], mean, d)
				}
			}
		}
	}
}
