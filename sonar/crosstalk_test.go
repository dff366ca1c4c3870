package sonar

import (
	"math"
	"testing"

	"dryline/seabed"
)

// Each sample of a side holds what it hears without cross-talk and the share asked for of
// what the other side hears without it: sums of intensities, to single precision.
func TestCrossTalkIsAShareOfTheOtherSide(t *testing.T) {
	const level = -27.0
	floor := Ground{seabed.New(seabed.Spec{
		East: 200, North: 200, Depth: 10, Base: seabed.MediumSand, Relief: seabed.Relief{Height: 0.4, Wavelength: 50, Octaves: 2},
		Objects: []seabed.Object{{Name: "container", Kind: "container", At: seabed.Point{X: 118, Y: 100}}},
	}, 3)}
	pose := Pose{X: 100, Y: 100, Z: -4, Roll: 0.02, YawRate: 0.03, Speed: 2}
	quiet, leaky := spoilt(t, tone(), 0, Effects{}), spoilt(t, tone(), 0, Effects{CrossTalk: level})
	alone := [2][]float64{heard(quiet, floor, pose, Port), heard(quiet, floor, pose, Starboard)}
	for _, side := range []Side{Port, Starboard} {
		got := heard(leaky, floor, pose, side)
		most := 0.0
		for k, v := range got {
			want := alone[side][k] + math.Pow(10, level/10)*alone[1-side][k]
			if math.Abs(v-want) > 1e-5*want+1e-9*alone[side][k] {
				t.Fatalf("%v, sample %d: %g, want %g", side, k, v, want)
			}
			if alone[side][k] > 0 {
				most = max(most, v/alone[side][k])
			}
		}
		if side == Port && most < 1.5 {
			t.Errorf("the container to starboard raises no sample to port by more than %.2f", most)
		}
	}
}
