package sonar

import (
	"math"

	"dryline/seabed"
	"dryline/sonar/acoustics"
)

// secondBottom is the echo of the floor that has gone to the floor and the
// surface once more. It begins at the slant range h + D, the height of the fish
// and the depth of the water: down, up to the surface, down and up again. Two
// ways lead there:
//
//   - floor, surface, then back from where the floor scatters, or the same
//     the other way round;
//   - floor, then back from where the surface scatters, by the same way.
//
// A hard floor (Rayleigh reflection of TR 9407, Bottom.ForwardLoss) and a calm
// surface (surfaceMirror) make it strong; the floor's own slopes, the same for
// all grounds and our own choice, spread it. The floor below the fish stands for
// all of it. Left out: third and later echoes.
type secondBottom struct {
	loss    [][]float32                    // of the surface
	scatter [][]float32                    // of the surface
	floor   [seabed.Classes][]float32      // what one reflection from the floor leaves
	surface [seabed.Classes][]*surfaceSeen // by channel
}

// floorSlope is the mean square slope of the floor as a mirror, 2.5 degrees.
const floorSlope = 0.0019

// surfaceSeen is the strength of the surface seen by way of the floor.
type surfaceSeen [strengthSteps]float32

func (e *Engine) newSecondBottom() *secondBottom {
	s := &secondBottom{loss: e.surfaceMirror(floorSlope), scatter: e.newSurfaceEcho().strength}
	for _, name := range seabed.SedimentNames() {
		class, _ := seabed.ParseSediment(name)
		bottom, err := acoustics.Sediment(name).Bottom()
		if err != nil {
			continue // the channels were tuned with the same sediments
		}
		table := make([]float32, strengthSteps)
		for i := range table {
			table[i] = float32(acoustics.FromDecibels(-bottom.ForwardLoss(grazingOf(i))))
		}
		s.floor[class] = table
		for c, t := range e.channels {
			seen := new(surfaceSeen)
			for i := range seen {
				seen[i] = s.scatter[c][i] * table[i] * table[i] * float32(t.staysInBeam(grazingOf(i), 2*floorSlope))
			}
			s.surface[class] = append(s.surface[class], seen)
		}
	}
	return s
}

func (s *secondBottom) add(a *arrival) {
	depth := a.altitude + a.pose.Depth()
	if s.floor[a.floor] == nil || a.pose.Depth() <= 0 {
		return
	}
	floor, loss := s.floor[a.floor], s.loss[a.index]
	a.echoAgain(a.altitude+2*depth, func(sine float64) float64 {
		return math.Sqrt(a.patternAt(sine)) * bySine(floor, sine) * bySine(loss, sine)
	})
	a.sheet(-(a.altitude + depth), s.surface[a.floor][a.index][:], 0, 0)
}
