package app

import (
	"math"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/passage"
)

// section is the view from the side.
type section struct {
	*post
	panes.Section
}

// add takes in where a ping heard the bottom.
func (s *section) add(p *crew.Ping) {
	if p.Fix.Fault == "" {
		s.Hear(p.Fix.X, p.Fix.Y, p.Fix.Depth+p.Height, toneOf(p), p.Locked)
	}
}

// toneOf is how bright the record of a ping has the ground beside the fish, 0 to 1, by the first channel
// that heard any: the mean of what lies from one to three heights out.
func toneOf(p *crew.Ping) float64 {
	for _, sides := range p.Rows {
		sum, n := 0.0, 0
		for _, row := range sides {
			from := int(1.15 * p.Height / max(p.RangeScale, 1) * float64(len(row)))
			for i := from; i < min(3*from, len(row)); i++ {
				sum, n = sum+float64(row[i]), n+1
			}
		}
		if n > 0 {
			return sum / float64(n) / 255
		}
	}
	return panes.OrdinaryEcho
}

// side gathers what the view from the side shows, the fish over a pixel across.
func (s *section) side(locked bool, hangsAt float64) *panes.Side {
	v := s.view
	spec, r := &s.brief.Vessel, &v.Reading
	scale := v.Recorder.RangeScale
	out := &panes.Side{
		Bow: spec.Length / 2, Stern: -spec.Length / 2, Draft: spec.Draft,
		SheaveAft: -spec.Sheave.Forward, SheaveUp: spec.Sheave.Up, Heave: r.Heave, Pitch: r.Pitch,
		CableOut: r.CableOut, FishAft: v.Fix.Layback - spec.Antenna.Forward, FishDepth: r.FishDepth, FishPitch: r.FishPitch,
		Height: v.Height, Locked: locked, Layback: v.Fix.Layback - v.Settings.AntennaToTow,
		BandLow: v.Stands.Low * scale, BandHigh: v.Stands.High * scale, RangeScale: scale,
		Slack: r.SpeedOverGround < slackWay,
		Now:   v.Now, Speed: r.SpeedOverGround, HangsAt: hangsAt,
		Sea: panes.Crests{From: crew.CrestsAhead, Step: crew.CrestsStep, Up: v.Crests},
	}
	out.Knocked, out.Aground = s.knocked()
	if t := v.Scene; t != nil {
		sin, cos := math.Sincos(t.Heading)
		truth := &panes.SideTruth{
			Floor: func(astern float64) float64 { return t.Floor(t.X-astern*sin, t.Y-astern*cos) - t.Level },
		}
		for _, p := range t.Cable {
			truth.Cable = append(truth.Cable, -((p[0]-t.X)*sin + (p[1]-t.Y)*cos), p[2]-t.Level)
		}
		out.Truth = truth
	}
	return out
}

const (
	slackWay   = knot // under which the cable hangs rather than streams: our own choice
	knockStays = 6.0  // seconds that a knock is told of for sure: our own choice
)

// knocked says how the crew notices a knock of the fish: that it touched
// something while that is fresh, and that it is aground for as long as the cable
// jerks.
func (s *section) knocked() (says string, aground bool) {
	aground = s.view.Bridge.Touching
	if aground {
		says = "FISH AGROUND"
	}
	for _, a := range s.view.Bridge.Alarms {
		if a.What == passage.Knocked && s.view.Now-a.Time < knockStays {
			says = "FISH TOUCHED SOMETHING"
		}
	}
	return says, aground
}
