package coach

import (
	"fmt"
	"math"

	"dryline/seabed/units"
	"dryline/sim/order"
	"dryline/vessel/nav/geodesy"
)

// sight is the view with what follows from it.
type sight struct {
	*View
	line    string // logged, run along or steered for, empty if none
	track   geodesy.Track
	logging bool
	onLine  bool // there is a line
	within  bool // its run-in is reached and its end is not

	fish, vessel       float64 // how far along the line, metres
	fishOff, vesselOff float64 // off it, positive to its right, metres
	turned             float64 // of the track made good off the line's, radians
}

const (
	alongside = 15.0        // metres off a line at most for her to run along it: our own choice, as is
	aligned   = math.Pi / 6 // how far from its direction
)

// see makes out the line. What is logged is logged; else it is the line she runs
// along, whoever steers and by whatever; else the one the autopilot is to take her
// to, or one whose run-in or far end she is on.
func (c *Coach) see(v *View) sight {
	b := &v.Bridge
	if b.Logging != "" {
		return c.along(v, b.Logging, b.Reversed, true)
	}
	on := c.runs(v)
	switch {
	case on.line != "" && on.fish >= 0 && on.fish < on.track.Length():
		return on
	case b.Steering.Do == order.SteerLine:
		return c.along(v, b.Steering.Line, b.Steering.Reversed, false)
	case on.line != "" && b.Steering.Do != order.Turn && b.Steering.Do != order.SteerPoint:
		return on
	}
	return sight{View: v}
}

// along is the sight of a line of the exercise run one way.
func (c *Coach) along(v *View, name string, reversed, logging bool) sight {
	for _, l := range c.ex.All() {
		if l.Name != name {
			continue
		}
		s := sight{View: v, line: name, track: l.Track(reversed), logging: logging, onLine: true}
		s.fish, s.fishOff = s.track.Offset(v.Fix.X, v.Fix.Y)
		s.vessel, s.vesselOff = s.track.Offset(v.Fix.VesselX, v.Fix.VesselY)
		s.turned = math.Abs(math.Remainder(v.Fix.Course-s.track.Bearing(), 2*math.Pi))
		s.within = s.vessel > -c.ex.Plan.RunIn && s.fish < s.track.Length()
		return s
	}
	return sight{View: v}
}

// runs is the nearest line that she runs along, by where she is and where she goes:
// one still to be logged from its run-in on, any beyond its end.
func (c *Coach) runs(v *View) (nearest sight) {
	for _, l := range c.ex.Sailed() {
		for _, reversed := range []bool{false, true} {
			s := c.along(v, l.Name, reversed, false)
			if s.turned > aligned || math.Abs(s.vesselOff) > alongside || s.vessel < -c.ex.Plan.RunIn {
				continue
			}
			if s.fish < s.track.Length() && c.logged.share[l.Name] >= wellLogged {
				continue
			}
			if nearest.line == "" || math.Abs(s.vesselOff) < math.Abs(nearest.vesselOff) {
				nearest = s
			}
		}
	}
	return nearest
}

// knots writes a speed for people.
func knots(v float64) string { return fmt.Sprintf("%.1f kn", v/units.Knot) }

// side is the side of the line something is on.
func side(off float64) string {
	if off < 0 {
		return "left"
	}
	return "right"
}
