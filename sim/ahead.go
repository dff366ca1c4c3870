package sim

import (
	"math"
	"sync/atomic"

	"dryline/seabed"
	"dryline/sonar"
)

// lead is how far ahead of the fish the floor is built, metres: more than she runs while
// a batch of pings is made and a row of tiles built.
const lead = 48

// lookEvery is how many pings pass between two looks.
const lookEvery = 16

// ahead builds the floor that the swath comes to on a core beside: otherwise all cores
// want the same new tiles at the same time. What is not built when it is asked for, as
// in a turn, is built then.
type ahead struct{ busy atomic.Bool }

// look has the floor under a swath a little ahead of a pose built, on both sides out to
// a range, unless some of it still is.
func (a *ahead) look(world *seabed.World, at sonar.Pose, reach float64) {
	if a.busy.Swap(true) {
		return
	}
	sin, cos := math.Sincos(at.Heading)
	x, y := at.X+lead*sin, at.Y+lead*cos
	go func() {
		defer a.busy.Store(false)
		world.Build(x-reach*cos, y+reach*sin, x+reach*cos, y-reach*sin)
	}()
}
