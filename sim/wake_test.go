package sim

import (
	"math"
	"testing"

	"dryline/sonar"
)

// The plane across the fish cuts the vessel's track where the vessel was: on a
// straight line close abeam, as old as the layback takes at her speed; in a
// current the track has drifted away with the water (exact geometry).
func TestCutsOfTheWake(t *testing.T) {
	w := wake{oldest: 600, reach: 60}
	for i := range 200 { // north at 2 m/s along x = 100
		w.points = append(w.points, wakePoint{x: 100, y: 2 * float64(i), time: float64(i), run: 2 * float64(i), strength: 1})
	}
	pose := sonar.Pose{X: 97, Y: 350, Heading: 0, Time: 199}
	cuts := w.cuts(pose, 0, 0)
	for side, want := range map[sonar.Side]float64{sonar.Starboard: 3, sonar.Port: -3} {
		c := cuts[side][0]
		if math.Abs(c.Range-want) > 1e-9 || math.Abs(c.Age-24) > 1e-9 || c.Slant != 1 || math.Abs(c.Along-350) > 1e-9 {
			t.Errorf("%v: got %+v, want range %g, age 24 s", side, c, want)
		}
		if cuts[side][1] != (sonar.Crossing{}) {
			t.Errorf("%v: a second cut %+v through one straight track", side, cuts[side][1])
		}
	}
	// The water was stirred 24 s ago and more by the drift along the track.
	if c := w.cuts(pose, 0.25, 0)[sonar.Starboard][0]; math.Abs(c.Range-(3+0.25*24)) > 1e-9 {
		t.Errorf("in a current: %.3f m off, want 9", c.Range)
	}
	// On a course aslant of it the plane meets it farther off, and cuts it aslant.
	back := sonar.Pose{X: 70, Y: 120, Heading: math.Pi / 4, Time: 199}
	c := w.cuts(back, 0, 0)[sonar.Starboard][0]
	if want := 30 * math.Sqrt2; math.Abs(c.Range-want) > 1e-6 || math.Abs(c.Slant-math.Sqrt2) > 1e-6 {
		t.Errorf("aslant: got %+v, want range %.2f and slant 1.41", c, want)
	}
}
