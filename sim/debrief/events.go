package debrief

import (
	"fmt"
	"math"
	"strings"

	"dryline/sim"
	"dryline/sim/exercise"
)

// Event is something that went wrong on purpose.
type Event struct {
	What    string   `json:"what"`
	From    float64  `json:"from_s"`
	To      *float64 `json:"to_s,omitempty"` // left out for what lasted to the end
	Ordered bool     `json:"ordered,omitempty"`
	Says    string   `json:"says"`
}

// Ended is when it was over, seconds, and 0 for what lasted to the end.
func (e Event) Ended() float64 {
	if e.To == nil {
		return 0
	}
	return *e.To
}

// events are those that began, in order. What the crew did itself is none.
func events(s *sim.Session) (out []Event) {
	for _, h := range s.Passage.Happened() {
		kind, ok := exercise.KindOf(h.Kind)
		if !ok {
			continue
		}
		size := fmt.Sprintf("%.3g", h.Size)
		if kind.Per != 0 {
			size = fmt.Sprintf("%.3g", h.Size/kind.Per)
		}
		says := kind.Says
		switch kind.Size {
		case "bias_deg":
			says = strings.Replace(says, "Value radians", size+" degrees", 1)
		case "wind_kn":
			says = strings.Replace(says, "Value m/s", size+" knots", 1)
		case "slip_percent", "share_percent":
			says = strings.Replace(says, "the share Value", size+" %", 1)
		default:
			says = strings.Replace(says, "Value", size, 1)
		}
		switch {
		case !kind.Sided:
		case h.Side == exercise.PortSide:
			says = strings.Replace(says, "one side", "the port side", 1)
		default:
			says = strings.Replace(says, "one side", "the starboard side", 1)
		}
		e := Event{What: string(h.Kind), From: round(h.From), Ordered: h.Ordered, Says: capital(says)}
		if to := round(h.To); !math.IsInf(h.To, 0) {
			e.To = &to
		}
		out = append(out, e)
	}
	return out
}
