package coach

import (
	"fmt"
	"math"

	"dryline/sim/passage"
	"dryline/vessel/nav/geodesy"
)

// What is near on the water: our own choice.
const (
	passesNear = 300.0 // metres, at the closest, of another vessel
	looksAhead = 600.0 // seconds
	breakOff   = 120.0 // seconds before the meeting
	buoyNear   = 25.0  // metres off her way
	buoyAhead  = 250.0 // metres
)

// hazardChecks are about engine and winch, other vessels, and lines in the water.
func (c *Coach) hazardChecks(s *sight) []check {
	b := &s.Bridge
	who, soon, near := c.meets(s)
	closing := who != nil && near < passesNear
	buoy, ahead := c.buoy(s)
	fouled := b.Fouled
	return []check{
		{"engine_out", Alarm, b.EngineOut, b.EngineOut, func() string {
			return "The engine gives no thrust: haul in now, for without way the fish sinks."
		}},
		{"winch_jammed", Alarm, b.Jammed, b.Jammed, func() string {
			return "The winch is jammed: hold the fish's height by speed alone, and break off before the floor rises to it."
		}},
		{"fouled", Alarm, fouled, fouled, func() string {
			return "Something holds the tow: take the way off her, slack the cable, and wait until it falls off."
		}},
		{"traffic_closing", Caution, closing && soon > breakOff, closing && soon > breakOff, func() string {
			if who.Called {
				return fmt.Sprintf("%s passes at %.0f m in %.0f min: hear what her master says, and be ready to break off the line.", who.Name, near, math.Ceil(soon/60))
			}
			return fmt.Sprintf("%s passes at %.0f m in %.0f min: call her now, and be ready to break off the line.", who.Name, near, math.Ceil(soon/60))
		}},
		{"traffic_near", Alarm, closing && soon <= breakOff, closing && soon <= breakOff, func() string {
			return fmt.Sprintf("%s passes at %.0f m in %.0f s: break off the line and keep clear of her, the tow as well.", who.Name, near, soon)
		}},
		{"buoy_ahead", Caution, buoy, buoy, func() string {
			return fmt.Sprintf("A buoy %.0f m ahead, near her way: its line fouls the fish. Break off, or give it room.", ahead)
		}},
	}
}

// meets is the vessel that comes nearest to ours or to the fish, by what the bridge shows
// of her and how we go.
func (c *Coach) meets(s *sight) (who *passage.Traffic, soon, near float64) {
	near = math.Inf(1)
	sin, cos := math.Sincos(s.Fix.Course)
	for i := range s.Bridge.Traffic {
		t := &s.Bridge.Traffic[i]
		tsin, tcos := math.Sincos(t.Course)
		vx, vy := t.Speed*tsin-s.Fix.Speed*sin, t.Speed*tcos-s.Fix.Speed*cos
		for _, at := range [2][2]float64{{s.Fix.VesselX, s.Fix.VesselY}, {s.Fix.X, s.Fix.Y}} {
			if when, m := passage.Meeting(t.X-at[0], t.Y-at[1], vx, vy); m < near && when > 0 && when < looksAhead {
				who, soon, near = t, when, m
			}
		}
	}
	return who, soon, near
}

// buoy is whether one lies near her way, and how far ahead the first of them is, metres.
func (c *Coach) buoy(s *sight) (near bool, ahead float64) {
	ahead = buoyAhead
	sin, cos := math.Sincos(s.Fix.Course)
	way := geodesy.Track{AX: s.Fix.VesselX, AY: s.Fix.VesselY, BX: s.Fix.VesselX + sin, BY: s.Fix.VesselY + cos}
	for _, b := range s.Bridge.Buoys {
		if along, off := way.Offset(b[0], b[1]); along > 0 && along < ahead && math.Abs(off) < buoyNear {
			near, ahead = true, along
		}
	}
	return near, ahead
}
