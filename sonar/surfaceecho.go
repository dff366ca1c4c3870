package sonar

import (
	"dryline/sonar/acoustics"
)

// surfaceEcho is the echo of the sea surface itself. It begins at the slant
// range of the fish's depth, straight up, and runs outwards, as strong as wind
// and grazing angle make it (acoustics.SurfaceStrength) and as the vertical
// pattern, which looks down, lets it in. Left out: the shape of single waves.
type surfaceEcho struct{ strength [][]float32 } // by channel, then by sine of the grazing angle

func (e *Engine) newSurfaceEcho() *surfaceEcho {
	s := new(surfaceEcho)
	for _, t := range e.channels {
		table := make([]float32, strengthSteps)
		for i := range table {
			table[i] = float32(acoustics.FromDecibels(acoustics.SurfaceStrength(t.spec.Frequency, e.sea.Wind, grazingOf(i))))
		}
		s.strength = append(s.strength, table)
	}
	return s
}

func (s *surfaceEcho) add(a *arrival) {
	if depth := a.pose.Depth(); depth > 0 {
		a.sheet(depth, s.strength[a.index], 0, 0)
	}
}
