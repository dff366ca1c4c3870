package survey

import (
	"math"

	"dryline/vessel/nav"
)

// Navigator places the fish.
//
// The sheave lies where the heading turns the offsets from the antenna. From
// there the fish is placed the horizontal part of the cable astern:
//
// By track: back along the track made good over Settings.CourseTime. Right in
// still water, whatever leeway she makes, and in turns for as long as the time
// spans little of the turn.
//
// By heading: back along the vessel's heading. With a crab angle a and L metres
// along the cable it is 2 L sin(a/2) from the place by track, L sin(a) of it
// across the track. Right in a current the same at all depths, when she makes no
// leeway: the cable streams along the way through the water, and the water
// carries vessel and fish alike (the current is a moving frame).
//
// By beacon and filtered: see [correction].
//
// What the swath is laid square to is chosen apart from that: see [SwathBy].
//
// Each fix counts once. Between fixes, and while there are none, the vessel is
// carried on with the last course and speed over ground.
type Navigator struct {
	Settings Settings // those that say how; they may be changed between readings

	previous, latest Fix

	track      track
	beacon     beaconPlace
	correction correction
}

// Reasons why a position cannot be trusted.
const (
	faultNoFix     = "no fix from GNSS: carried on by course and speed"
	faultNoWay     = "no way on: the track made good is unknown"
	faultNoHeading = "no heading"
	faultNoCounter = "the cable counter says nothing"
	faultNoDepth   = "the fish's depth is unknown"
	faultNoBeacon  = "no beacon has answered"
	faultSilent    = "the beacon has fallen silent"
	faultPosition  = "no way of placing the fish has that name"
)

// NewNavigator returns a navigator with settings.
func NewNavigator(s Settings) *Navigator { return &Navigator{Settings: s} }

// Navigate takes a reading and returns where the fish is believed to be.
func (n *Navigator) Navigate(r nav.Reading) Fix {
	n.previous, n.latest = n.latest, n.update(r)
	if n.previous.Time == 0 {
		n.previous = n.latest
	}
	return n.latest
}

// FixAt is the fix at a moment between the last two readings.
func (n *Navigator) FixAt(t float64) Fix { return between(n.previous, n.latest, t) }

func (n *Navigator) update(r nav.Reading) Fix {
	s := &n.Settings
	x, y := r.CarriedOn()
	if r.Valid.Has(nav.Fix) {
		n.track.add(trackFix{r.FixTime, r.X, r.Y})
	}
	n.track.forget(r.Time - s.CourseTime)

	f := Fix{
		Time: r.Time, Depth: r.FishDepth, Altitude: r.FishAltitude,
		VesselX: x, VesselY: y, Speed: r.SpeedOverGround, CableOut: r.CableOut,
		Lead: r.SpeedOverGround / s.SoundSpeed,
	}
	dx, dy := n.track.since(x, y)
	f.Course = math.Atan2(dx, dy)
	f.Heading = s.Swath.bearing(f.Course, &r)
	lost := n.layback(&f, &r)
	if math.Hypot(dx, dy) < 0.05*s.CourseTime {
		lost = first(lost, false, faultNoWay)
		f.Fault = faultNoWay
	}

	bow := f.Course // until the heading is known
	if r.Valid.Has(nav.Heading) {
		bow = float64(r.GridHeading())
	}
	sin, cos := math.Sincos(bow)
	x += s.TowToStarboard*cos - s.AntennaToTow*sin // the sheave
	y -= s.TowToStarboard*sin + s.AntennaToTow*cos
	along := f.Layback - s.AntennaToTow
	sin, cos = math.Sincos(f.Course)
	f.X, f.Y = x-along*sin, y-along*cos

	n.beacon.hear(&r)
	if lost == "" {
		n.correction.update(&f, &r, s.BeaconShare)
	}
	if s.Position == ByHeading {
		sin, cos = math.Sincos(bow)
		f.X, f.Y = x-along*sin, y-along*cos
		lost = first(lost, r.Valid.Has(nav.Heading), faultNoHeading)
	}
	switch s.Position {
	case ByBeacon: // asks nothing of the cable
		n.beacon.place(&f, &r)
	case ByFiltered:
		f.Fault = lost
		n.correction.place(&f, &r)
	case "", ByTrack, ByHeading:
		f.Fault = lost
	default:
		f.Fault = faultPosition
	}
	if !r.Valid.Has(nav.Fix) {
		f.Fault = faultNoFix
	}
	return f
}

// layback fills in the layback. If it is impossible the fish is hung straight
// below the sheave and the reason returned: neither NaN nor silence.
func (n *Navigator) layback(f *Fix, r *nav.Reading) (fault string) {
	s := &n.Settings
	layback, err := Layback(r.CableOut, r.FishDepth, s.SheaveHeight, s.CatenaryFactor, s.AntennaToTow)
	if err != nil {
		layback, fault = s.AntennaToTow, err.Error()
		if math.IsNaN(layback) || math.IsInf(layback, 0) {
			layback = 0
		}
	}
	f.Layback = layback
	fault = first(fault, r.Valid.Has(nav.CableCounter), faultNoCounter)
	return first(fault, r.Valid.Has(nav.FishDepth), faultNoDepth)
}

// first is the fault there is already, or the one that comes of not being ok.
func first(fault string, ok bool, otherwise string) string {
	if fault == "" && !ok {
		return otherwise
	}
	return fault
}
