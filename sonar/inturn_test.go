package sonar

import (
	"testing"
	"time"
)

// pingsInTurn measures what a ping costs over each of some floors, both sides, on the mean over places: over all floors in
// turn on one machine, the least that each place took, microseconds.
func pingsInTurn(b *testing.B, floors []Ground, places int, poseAt func(place int) Pose) []float64 {
	spec := twoChannels()
	spec.Rays = 5
	e := newEngine(b, spec)
	ws, echo := e.NewWorkspace(), e.NewEcho()
	least := make([][]time.Duration, len(floors))
	for i := range least {
		least[i] = make([]time.Duration, places)
	}
	ping := func(place int) {
		pose := poseAt(place)
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
	mean := make([]float64, len(floors))
	for i := range least {
		for _, took := range least[i] {
			mean[i] += float64(took.Nanoseconds()) / 1000 / float64(places)
		}
	}
	return mean
}
