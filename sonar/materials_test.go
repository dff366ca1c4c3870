package sonar

import (
	"math"
	"testing"

	"dryline/seabed"
	"dryline/sonar/acoustics"
)

// The trend above 100 kHz is our own choice, 10 n log10(f/100 kHz) dB: without
// it sand at 450 kHz is that much fainter, and everything at 100 kHz, and rock
// at any frequency, is what it was.
func TestTrendCanBeSwitchedOff(t *testing.T) {
	sand := 10 * acoustics.DefaultTrendExponent * math.Log10(4.5)
	for _, test := range []struct {
		name      string
		class     seabed.Class
		frequency float64
		want      float64 // dB lost
	}{
		{"sand at 450 kHz", seabed.MediumSand, 450e3, sand},
		{"mud at 450 kHz", seabed.Mud, 450e3, sand},
		{"sand at 100 kHz", seabed.MediumSand, 100e3, 0},
		{"sand at 50 kHz", seabed.MediumSand, 50e3, 0},
		{"rock at 450 kHz", seabed.Rock, 450e3, 0},
		{"steel at 450 kHz", seabed.Steel, 450e3, 0},
	} {
		var engines [2]*Engine
		for i, flat := range []bool{false, true} {
			spec, sea := twoChannels(), temperate()
			spec.Channels = spec.Channels[:1]
			spec.Channels[0].Frequency = test.frequency
			sea.FlatTrend = flat
			e, err := NewEngine(spec, sea, 1490, 1)
			if err != nil {
				t.Fatal(err)
			}
			engines[i] = e
		}
		for _, grazing := range []float64{5, 10, 20, 45, 80} {
			step := int(math.Sin(grazing*deg) * strengthSteps)
			with := engines[0].channels[0].strength()[test.class][step]
			without := engines[1].channels[0].strength()[test.class][step]
			got := acoustics.Decibels(float64(with) / float64(without))
			if math.Abs(got-test.want) > 1e-4 { // of a float32
				t.Errorf("%s, %g deg grazing: %.5f dB lost, want %.5f", test.name, grazing, got, test.want)
			}
		}
	}
}
