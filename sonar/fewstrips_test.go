package sonar

import (
	"math"
	"testing"

	"dryline/seabed"
)

// The strips of a ping against ten times as many, over wrecks and small things, as the fish tows past: the
// amplitude expected at 900 kHz correlated over 0.99, of a beam twice as wide over 0.98, the level of all
// pings within 0.05 dB and of one within 0.1 dB rms.
func TestFewStripsSeeWhatManyDo(t *testing.T) {
	for _, test := range []struct {
		object seabed.Object
		most   float64 // strips, on the mean of the pings; over wrecks they are what a ping costs
	}{
		{seabed.Object{Kind: "hulk", At: seabed.Point{X: 122, Y: 100}, Heading: 0.4}, 12},
		{seabed.Object{Kind: "steel_wreck", At: seabed.Point{X: 122, Y: 100}, Length: 30, Width: 8, Height: 5, Heading: 0.3}, 12},
		{seabed.Object{Kind: "boulders", At: seabed.Point{X: 132, Y: 100}}, 30},
		{seabed.Object{Kind: "pot_string", At: seabed.Point{X: 122, Y: 100}, Heading: 0.7}, 40},
		{seabed.Object{Kind: "anchor_chain", At: seabed.Point{X: 122, Y: 100}, Heading: 0.9}, 40},
	} {
		spec := scenes()[0].spec
		spec.Objects = []seabed.Object{test.object}
		scene := evenScene{floor: Ground{seabed.New(spec, 4)}}
		e := scene.engine(t, twoChannels(), true)
		const pings = 24
		fly := func(finer float64) (amplitudes, energies [2][]float64, strips int) {
			ws, echo := e.NewWorkspace(), e.NewEcho()
			ws.strips.finer = finer
			for i := range pings {
				pose := Pose{X: 100, Y: 91 + 0.75*float64(i), Z: -5, Speed: 2}
				for c, answer := range answered(e, ws, &echo, scene.floor, pose, Starboard) {
					sum := 0.0
					for _, v := range answer {
						amplitudes[c] = append(amplitudes[c], math.Sqrt(float64(v)))
						sum += float64(v)
					}
					energies[c] = append(energies[c], sum)
				}
				strips += len(ws.strips.list)
			}
			return amplitudes, energies, strips
		}
		got, energy, strips := fly(0)
		want, energyOfMany, many := fly(10)
		for c, least := range []float64{0.98, 0.99} {
			level, rms := 0.0, 0.0
			for i := range energy[c] {
				d := 10 * math.Log10(energy[c][i]/energyOfMany[c][i])
				level, rms = level+d/pings, rms+d*d/pings
			}
			rms = math.Sqrt(rms)
			r := correlated(got[c], want[c])
			t.Logf("%s, channel %d, %.1f strips for %.1f: correlation %.4f, level %+.3f dB, %.3f dB rms", test.object.Kind, c, float64(strips)/pings, float64(many)/pings, r, level, rms)
			if !(r >= least) || math.Abs(level) > 0.05 || rms > 0.1 {
				t.Errorf("%s, channel %d: correlation %.4f, level %+.3f dB, %.3f dB rms", test.object.Kind, c, r, level, rms)
			}
		}
		if float64(strips) > test.most*pings || many < 4*strips {
			t.Errorf("%s: %.1f strips, and %.1f", test.object.Kind, float64(strips)/pings, float64(many)/pings)
		}
	}
}

// correlated is the correlation of two lists.
func correlated(a, b []float64) float64 {
	var sa, sb, aa, bb, ab float64
	n := float64(len(a))
	for i := range a {
		sa, sb = sa+a[i], sb+b[i]
	}
	for i := range a {
		x, y := a[i]-sa/n, b[i]-sb/n
		aa, bb, ab = aa+x*x, bb+y*y, ab+x*y
	}
	return ab / math.Sqrt(aa*bb)
}
