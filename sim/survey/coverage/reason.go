package coverage

import (
	"fmt"
	"math"

	"dryline/sim/survey"
	"dryline/vessel/nav/geodesy"
)

// Planned is a line that was to be run.
type Planned struct {
	Name  string
	Track geodesy.Track
}

// Explain says why a holiday is one: by the pings abreast of its middle, and if there
// are none by the lines that were to be run.
func (h *Holiday) Explain(lines []*survey.LineRecord, paint func(i int) bool, planned []Planned) {
	type near struct {
		line   *survey.LineRecord
		ping   *survey.PingRecord
		across float64
		hidden bool
	}
	var best *near
	for i, l := range lines {
		closest := 2.0 // metres ahead or astern that still count as abreast
		var of *near
		for k := range l.Pings {
			p := &l.Pings[k]
			sin, cos := math.Sincos(p.Fix.Heading)
			dx, dy := h.X-p.Fix.X, h.Y-p.Fix.Y
			if along := math.Abs(dx*sin + dy*cos); along < closest {
				closest, of = along, &near{l, p, math.Abs(dx*cos - dy*sin), paint != nil && !paint(i)}
			}
		}
		if of != nil && of.across <= l.RangeScale && (best == nil || of.across < best.across) {
			best = of
		}
	}
	if best == nil {
		for _, l := range lines {
			from, to := l.Span()
			if along, across := l.Track.Offset(h.X, h.Y); along > from && along < to && math.Abs(across) <= l.RangeScale {
				h.Reason = fmt.Sprintf("pings of line %s are missing", l.Name)
				return
			}
		}
	}
	switch {
	case best == nil:
		h.Reason = notRun(h.X, h.Y, planned)
	case best.hidden:
		h.Reason = fmt.Sprintf("line %s passed %.0f m off and does not count", best.line.Name, best.across)
	case best.ping.Fix.Fault != "":
		h.Reason = fmt.Sprintf("on line %s the position could not be trusted: %s", best.line.Name, best.ping.Fix.Fault)
	case best.ping.Height <= 0:
		h.Reason = fmt.Sprintf("on line %s no bottom was found", best.line.Name)
	case best.across > survey.GroundReach(best.line.RangeScale, best.ping.Height):
		h.Reason = fmt.Sprintf("the fish %.1f m over the floor on line %s sees %.0f m out, and this lies %.0f m off", best.ping.Height, best.line.Name,
			survey.GroundReach(best.line.RangeScale, best.ping.Height), best.across)
	default:
		h.Reason = fmt.Sprintf("pings of line %s lie too far apart, or the fish turned", best.line.Name)
	}
}

// notRun says which line should have seen a point.
func notRun(x, y float64, planned []Planned) string {
	best, name := math.Inf(1), ""
	for _, l := range planned {
		along, across := l.Track.Offset(x, y)
		beyond := max(-along, along-l.Track.Length(), 0)
		if d := math.Hypot(across, beyond); d < best {
			best, name = d, l.Name
		}
	}
	if name == "" {
		return "no line was planned"
	}
	return fmt.Sprintf("no line was logged abreast of it; line %s was planned %.0f m off", name, best)
}
