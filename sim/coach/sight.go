package coach

import (
	"fmt"
	"math"

	"dryline/seabed/units"
	"dryline/sim"
	"dryline/vessel/nav/geodesy"
)

// sight is the view with what follows from it.
type sight struct {
	*View
	line    string // being logged or steered along, empty if none
	track   geodesy.Track
	logging bool
	onLine  bool // logging, or steering along a line

	fish, vessel       float64 // how far along the line, metres
	fishOff, vesselOff float64 // off it, positive to its right, metres
	turned             float64 // of the track made good off the line's, radians
}

func (c *Coach) see(v *View) sight {
	s := sight{View: v}
	b := &v.Bridge
	reversed := false
	switch {
	case b.Logging != "":
		s.line, reversed, s.logging, s.onLine = b.Logging, b.Reversed, true, true
	case b.Steering.Do == sim.SteerLine:
		s.line, reversed, s.onLine = b.Steering.Line, b.Steering.Reversed, true
	default:
		return s
	}
	for _, l := range c.ex.Lines {
		if l.Name != s.line {
			continue
		}
		s.track = l.Track(reversed)
		s.fish, s.fishOff = s.track.Offset(v.Fix.X, v.Fix.Y)
		s.vessel, s.vesselOff = s.track.Offset(v.Fix.VesselX, v.Fix.VesselY)
		s.turned = math.Abs(math.Remainder(v.Fix.Heading-l.Track(reversed).Bearing(), 2*math.Pi))
		return s
	}
	s.line, s.logging, s.onLine = "", false, false
	return s
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
