package sonar

import (
	"testing"
	"time"

	"dryline/seabed"
)

// BenchmarkKinds is what a ping costs, both sides, on the mean over twelve places abreast of a thing of a kind at its usual
// size, 22 m off, over what it costs without it: in turn, the least that each place took.
func BenchmarkKinds(b *testing.B) {
	for _, kind := range []string{"hulk", "fishing_boat", "steel_wreck", "aircraft", "car", "container", "boulders", "rubble", "anchor_chain", "pot_string"} {
		b.Run(kind, func(b *testing.B) {
			spec := twoChannels()
			spec.Rays = 5
			e := newEngine(b, spec)
			ws, echo := e.NewWorkspace(), e.NewEcho()
			const places = 12
			ground := seabed.Spec{East: 160, North: 160, Depth: 12, Base: seabed.MediumSand, Relief: seabed.Relief{Height: 1, Wavelength: 30, Octaves: 3}}
			floors := [2]Ground{{seabed.New(ground, 4)}}
			ground.Objects = []seabed.Object{{Kind: kind, At: seabed.Point{X: 102, Y: 80}, Heading: 0.5}}
			floors[1] = Ground{seabed.New(ground, 4)}
			var least [2][places]time.Duration
			half := seabed.Kinds[kind].Length / 2
			ping := func(place int) {
				pose := Pose{X: 80, Y: 80 + half*(float64(2*place+1)/places-1), Z: -5, Speed: 2}
				for i, floor := range floors {
					begun := time.Now()
					e.Ping(ws, &echo, floor, pose, Port, uint64(place))
					e.Ping(ws, &echo, floor, pose, Starboard, uint64(place))
					if took := time.Since(begun); least[i][place] == 0 || took < least[i][place] {
						least[i][place] = took
					}
				}
			}
			for place := range 3 * places {
				ping(place % places)
			}
			for n := 0; b.Loop(); n++ {
				ping(n % places)
			}
			var sum [2]time.Duration
			for i := range least {
				for _, took := range least[i] {
					sum[i] += took
				}
			}
			b.ReportMetric(float64(sum[0].Nanoseconds())/1000/places, "us-open")
			b.ReportMetric(float64(sum[1].Nanoseconds())/1000/places, "us-across")
			b.ReportMetric(float64(sum[1])/float64(sum[0]), "across-over-open")
		})
	}
}
