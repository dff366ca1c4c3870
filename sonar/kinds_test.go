package sonar

import (
	"testing"

	"dryline/seabed"
)

// BenchmarkKinds measures what a ping costs, both sides, on the mean over twelve places abreast of a thing of a kind at its usual
// size, 22 m off, over what it costs without it: in turn, the least that each place took.
func BenchmarkKinds(b *testing.B) {
	for _, kind := range []string{"hulk", "fishing_boat", "steel_wreck", "aircraft", "car", "container", "boulders", "rubble", "anchor_chain", "pot_string"} {
		b.Run(kind, func(b *testing.B) {
			const places = 12
			ground := seabed.Spec{East: 160, North: 160, Depth: 12, Base: seabed.MediumSand, Relief: seabed.Relief{Height: 1, Wavelength: 30, Octaves: 3}}
			floors := []Ground{{seabed.New(ground, 4)}}
			ground.Objects = []seabed.Object{{Kind: kind, At: seabed.Point{X: 102, Y: 80}, Heading: 0.5}}
			floors = append(floors, Ground{seabed.New(ground, 4)})
			half := seabed.Kinds[kind].Length / 2
			mean := pingsInTurn(b, floors, places, func(place int) Pose {
				return Pose{X: 80, Y: 80 + half*(float64(2*place+1)/places-1), Z: -5, Speed: 2}
			})
			b.ReportMetric(mean[0], "us-open")
			b.ReportMetric(mean[1], "us-across")
			b.ReportMetric(mean[1]/mean[0], "across-over-open")
		})
	}
}
