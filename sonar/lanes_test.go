package sonar

import (
	"math"
	"slices"

	"dryline/seabed"
)

// scene is ground that lanes are held to the walk over.
type scene struct {
	name string
	spec seabed.Spec
}

func scenes() []scene {
	ground := func(base seabed.Class) seabed.Spec {
		return seabed.Spec{East: 200, North: 200, Depth: 12, Base: base, Relief: seabed.Relief{Height: 1, Wavelength: 30, Octaves: 3}}
	}
	sand, rock, wreck, mixed := ground(seabed.MediumSand), ground(seabed.Rock), ground(seabed.MediumSand), ground(seabed.MediumSand)
	rock.Bedforms = []seabed.Bedform{{Kind: seabed.Outcrop, Height: 2, Wavelength: 8}}
	wreck.Objects = []seabed.Object{{Kind: "hulk", At: seabed.Point{X: 122, Y: 100}, Length: 21, Width: 6, Height: 2.6, Heading: 0.4}}
	mixed.Bedforms = []seabed.Bedform{{Kind: seabed.Ripples, Height: 0.06, Wavelength: 0.7}}
	mixed.Patches = []seabed.Patch{{Class: seabed.Gravel, Area: seabed.Area{Polygon: []seabed.Point{{X: 115, Y: 0}, {X: 130, Y: 0}, {X: 130, Y: 200}, {X: 115, Y: 200}}}}}
	return []scene{{"sand", sand}, {"rock", rock}, {"wreck", wreck}, {"ripples and gravel", mixed}}
}

// compareEnergy gives the level of one record over another, the rms of the difference, in dB,
// over bins that hold a hundredth of the median of those that answer, and the correlation
// of what they hold. What is left out is the last grain of facets all but shadowed, some
// 50 dB down, which float32 does not resolve.
func compareEnergy(got, want []float32) (level, rms, correlation float64) {
	var sum, sumWant, square, n, xx, yy, xy float64
	var answer []float32
	for k := range want {
		sum, sumWant = sum+float64(got[k]), sumWant+float64(want[k])
		if want[k] > 0 {
			answer = append(answer, want[k])
		}
	}
	slices.Sort(answer)
	least := 0.01 * answer[len(answer)/2]
	for k := range want {
		x, y := float64(got[k])-sum/float64(len(got)), float64(want[k])-sumWant/float64(len(got))
		xx, yy, xy = xx+x*x, yy+y*y, xy+x*y
		if want[k] > least {
			d := 10 * math.Log10(float64(got[k])/float64(want[k]))
			square, n = square+d*d, n+1
		}
	}
	return 10 * math.Log10(sum/sumWant), math.Sqrt(square / n), xy / math.Sqrt(xx*yy)
}
