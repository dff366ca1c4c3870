package sonar

import "math"

// ghosts are echoes of the floor that come back by way of the surface, or go
// out that way: later than the direct ones by half the difference of the ways,
// weaker by what the surface takes (surfaceMirror; more with wind and frequency)
// and by what the vertical pattern takes off upwards. A
// strong target has its ghost too. Both ways over the surface is left out.
type ghosts struct{ loss [][]float32 }

func (e *Engine) newGhosts() *ghosts { return &ghosts{e.surfaceMirror(0)} }

func (g *ghosts) add(a *arrival) {
	depth := a.pose.Depth()
	if depth <= 0 {
		return
	}
	// The fish's image stands as high above the surface as the fish lies below.
	loss := g.loss[a.index]
	a.echoAgain(a.altitude+2*depth, func(sine float64) float64 {
		return math.Sqrt(a.patternAt(-sine)) * bySine(loss, sine)
	})
}
