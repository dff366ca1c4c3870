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
// surface (acoustics.SurfaceLoss) make it strong. The floor below the fish
// stands for all of it. Left out: the roughness of the floor as a mirror, which
// blurs what comes off it, and third and later echoes.
type secondBottom struct {
	loss    [][]float32                    // of the surface
	scatter [][]float32                    // of the surface
	floor   [seabed.Classes][]float32      // what one reflection from the floor leaves
	surface [seabed.Classes][]*surfaceSeen // by channel
}

// surfaceSeen is the strength of the surface seen by way of the floor.
type surfaceSeen [strengthSteps]float32

func (e *Engine) newSecondBottom() *secondBottom {
	s := &secondBottom{loss: e.surfaceLosses(), scatter: e.newSurfaceEcho().strength}
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
		for c := range e.channels {
			seen := new(surfaceSeen)
			for i := range seen {
				seen[i] = s.scatter[c][i] * table[i] * table[i]
			}
			s.surface[class] = append(s.surface[class], seen)
		}
	}
	return s
}

func (s *secondBottom) add(a *arrival) {
	depth := a.altitude - a.pose.Z
	if s.floor[a.floor] == nil || a.pose.Z >= 0 {
		return
	}
	floor, loss := s.floor[a.floor], s.loss[a.index]
	a.echoAgain(a.altitude+2*depth, func(sine float64) float64 {
		return math.Sqrt(a.patternAt(sine)) * bySine(floor, sine) * bySine(loss, sine)
	})
	a.sheet(-(a.altitude + depth), s.surface[a.floor][a.index][:], 0)
}
