package panes

import "math"

// cablePieces is how many straight pieces the cable is drawn in.
const cablePieces = 24

// hang appends the cable from the sheave at (x0, y0) to the fish at (x1, y1),
// metres astern and up, as the crew has to picture it: by the length the counter
// shows.
//
// A curve of length C over a chord c departs from it by about sqrt(3/8 c (C-c)).
// Towed, it bows up and back: the fish pulls steeply, and the drag of the water
// flattens the cable above it (Berteaux, Buoy Engineering, 1976, as in
// [dryline/vessel/tow.Spec.Steady]). What is out by the counter and the place of
// the fish by the catenary factor do not always go together, so the bow is held:
// the cable leaves the sheave at no less than half the chord's slope and never
// runs astern of the fish. Slack, it hangs below the chord, and lies where it
// comes down on a floor. The curve is a parabola with its middle square to the
// chord's: the true shape is fuller near the fish.
func hang(dst []float64, x0, y0, x1, y1, long float64, slack bool, floor float64) []float64 {
	dx, dy := x1-x0, y1-y0
	chord := math.Hypot(dx, dy)
	sag := math.Sqrt(0.375 * chord * max(long-chord, 0))
	// How the middle of the parabola's two tangents lies from the chord's.
	ox, oy := 0.0, 0.0
	if dx > 0 { // under the sheave or ahead of it: straight
		ox, oy = -2*sag*dy/chord, 2*sag*dx/chord
		if slack {
			ox, oy = -ox, -oy
		} else {
			ox, oy = held(ox, oy, dx, dy)
		}
	}
	for i := range cablePieces + 1 {
		t := float64(i) / cablePieces
		bow := 2 * t * (1 - t)
		y := y0 + t*dy + bow*oy
		if slack {
			y = max(y, min(floor, y0+t*dy))
		}
		dst = append(dst, x0+t*dx+bow*ox, y)
	}
	return dst
}

// held shortens the bow of a towed cable to what it can be.
func held(ox, oy, dx, dy float64) (float64, float64) {
	const leastSlope = 0.5 // of the chord's
	share := 1.0
	// Not astern of the fish: from the middle it is half the way there.
	if ox > dx/2 {
		share = dx / 2 / ox
	}
	// Not over the line that leaves the sheave at the least slope: half the way
	// out that is so far above the chord.
	room := dy/2*leastSlope - dy/2
	if rise := oy - leastSlope*dy/dx*ox; share*rise > room {
		share = max(room, 0) / rise
	}
	return share * ox, share * oy
}
