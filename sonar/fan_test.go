package sonar

import (
	"math"
	"testing"

	"dryline/seabed"
)

// The rays that a fan has of itself draw rough ground and ripples askew to the track as
// 61 rays do: contrast within a twelfth, and the same marks in the same places. On
// the left a range scale that three are enough for, on the right one where they
// would take ripples for others, twice as strong.
func TestAFanHasRaysEnoughForTheGround(t *testing.T) {
	const pings = 120
	for _, test := range []struct {
		scale       float64
		from, to    float64 // slant ranges looked at, metres
		correlation float64
	}{{50, 25, 48, 0.99}, {150, 105, 145, 0.93}} {
		ground := Ground{seabed.New(seabed.Spec{
			East: 200, North: 200, Depth: 20, Base: seabed.MediumSand, Relief: seabed.Relief{Height: 0.6, Wavelength: 40, Octaves: 3},
			Bedforms: []seabed.Bedform{{Kind: seabed.Waves, Height: 0.06, Wavelength: 0.5, Wander: 0.4, Crest: 0.5}},
		}, 4)}
		render := func(rays int) (cells [2][]float64) {
			spec := twoChannels()
			spec.RangeScale, spec.Rays = test.scale, rays
			spec.Channels[0].ArrayLength = 0.3
			e := newEngine(t, spec)
			e.SpeckleOff, e.NoiseOff = true, true
			ws, echo := e.NewWorkspace(), e.NewEcho()
			for i := range pings {
				e.Ping(ws, &echo, ground, Pose{X: 60 + 0.3*float64(i), Y: 190, Z: -12, Heading: math.Pi / 2}, Starboard, uint64(i))
				for c, samples := range echo.Samples {
					for k := int(test.from / e.Bin()); k < int(test.to/e.Bin()); k += 2 {
						gain := float64(e.channels[c].gain[k])
						cells[c] = append(cells[c], math.Hypot(float64(samples[k])/gain, float64(samples[k+1])/gain))
					}
				}
			}
			return cells
		}
		few, many := render(0), render(61)
		for c := range few {
			contrast, want, r := compare(few[c], many[c])
			if math.Abs(contrast/want-1) > 1.0/12 || r < test.correlation {
				t.Errorf("%g m, channel %d: contrast %.3f for %.3f of 61 rays, correlation %.3f, want %.2f", test.scale, c, contrast, want, r, test.correlation)
			}
		}
	}
}

// compare returns the relative standard deviations of two records and how they
// correlate.
func compare(a, b []float64) (da, db, r float64) {
	n := float64(len(a))
	var ma, mb, aa, bb, ab float64
	for i := range a {
		ma, mb = ma+a[i]/n, mb+b[i]/n
		aa, bb, ab = aa+a[i]*a[i]/n, bb+b[i]*b[i]/n, ab+a[i]*b[i]/n
	}
	da, db = math.Sqrt(aa-ma*ma), math.Sqrt(bb-mb*mb)
	return da / ma, db / mb, (ab - ma*mb) / (da * db)
}
