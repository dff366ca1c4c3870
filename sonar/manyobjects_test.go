package sonar

import (
	"fmt"
	"testing"

	"dryline/seabed"
	"dryline/seabed/placing"
)

// strewn is sand, so many metres each way, with so many small things strewn over all of it.
func strewn(t testing.TB, side float64, objects int) Ground {
	t.Helper()
	spec := seabed.Spec{East: side, North: side, Depth: 12, Base: seabed.MediumSand, Relief: seabed.Relief{Height: 1, Wavelength: 30, Octaves: 3}}
	group := placing.Group{Name: "thing", Fewest: objects, Most: objects, Spacing: 1, Burial: placing.Distribution{High: 0.4}}
	for _, kind := range []string{"boulder", "block", "cylinder", "sphere", "tyre", "anchor", "car"} {
		group.Kinds = append(group.Kinds, placing.Choice{Kind: kind, Weight: 1})
	}
	spec, err := placing.Resolve(spec, []placing.Group{group}, 4, 4)
	if err != nil {
		t.Fatal(err)
	}
	return Ground{seabed.New(spec, 4)}
}

// BenchmarkManyObjects measures what a ping costs, both sides, on the mean along a line up the middle of
// an area with ten, a hundred and a thousand things in it, in turn on one machine, the least that each place of the
// line took; and what a thousand cost over ten. An area of 1000 m is one that is surveyed, one of 300 m is
// strewn with a thing every 90 square metres.
func BenchmarkManyObjects(b *testing.B) {
	numbers := [...]int{10, 100, 1000}
	for _, side := range []float64{1000, 500, 300} {
		b.Run(fmt.Sprint(side, "m"), func(b *testing.B) {
			const places = 150
			var floors []Ground
			for _, n := range numbers {
				floors = append(floors, strewn(b, side, n))
			}
			mean := pingsInTurn(b, floors, places, func(place int) Pose {
				return Pose{X: side / 2, Y: 60 + (side-120)*float64(place)/places, Z: -5, Speed: 2}
			})
			for i, n := range numbers {
				b.ReportMetric(mean[i], fmt.Sprintf("us-of-%d", n))
			}
			b.ReportMetric(mean[2]/mean[0], "1000-over-10")
		})
	}
}
