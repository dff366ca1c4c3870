package app

import (
	"fmt"
	"slices"
	"strings"

	"dryline/sim/order"
)

// pending is the last order of some kinds that is given and not yet carried out,
// nil if there is none: on a page it waits until the browser has written it down.
func (p *post) pending(kinds ...order.Do) *order.Command {
	for i, o := range slices.Backward(p.view.Pending) {
		if slices.Contains(kinds, o.Do) {
			return &p.view.Pending[i]
		}
	}
	return nil
}

// orderedTo is the value last ordered: by the last order of a kind that is
// pending, or as it stands.
func (p *post) orderedTo(do order.Do, stands float64) float64 {
	if o := p.pending(do); o != nil {
		return o.Value
	}
	return stands
}

// pendingSays says at the foot which orders are pending.
func (p *post) pendingSays() string {
	switch all := p.view.Pending; len(all) {
	case 0:
		return ""
	case 1:
		return "Pending until it is written down: " + orderSays(&all[0]) + "."
	default:
		return fmt.Sprintf("Pending until they are written down: %d orders, the last to %s.", len(all), orderSays(&all[len(all)-1]))
	}
}

// orderSays is an order in words.
func orderSays(o *order.Command) string {
	switch o.Do {
	case order.SteerLine, order.Turn:
		return "steer to line " + o.Line
	case order.SteerPoint:
		return "steer for a point"
	case order.SteerHeading:
		return fmt.Sprintf("steer %03.0f° grid", degrees(o.Value))
	case order.Rudder:
		return "steer by hand"
	case order.Speed:
		return fmt.Sprintf("make %.1f kn", o.Value/knot)
	case order.Cable:
		return fmt.Sprintf("wind to %.0f m of cable", o.Value)
	case order.ZeroCounter:
		return "set the cable counter"
	case order.Range:
		return fmt.Sprintf("set a range scale of %.0f m", o.Value)
	case order.Gain, order.TVG, order.TVGLoss:
		return "set the gain of channel " + o.Text
	case order.LogOn:
		return "log line " + o.Line
	case order.LogOff:
		return "stop the log"
	case order.Mark:
		return "mark a contact"
	case order.Measure:
		return "measure the " + o.Text + " of a contact"
	case order.NameContact, order.ClassContact, order.DeleteContact, order.UndoContact, order.RedoContact,
		order.SightContact, order.DescribeContact, order.RateContact, order.ContactAction, order.RemarkContact:
		return "change a contact"
	case order.Say:
		return fmt.Sprintf("say %q", o.Text)
	case order.CallTraffic:
		return "call " + o.Text
	case order.Rub:
		return "rub a side of the fish"
	case order.Mend:
		return "see to the plugs"
	case order.Event:
		return "have " + strings.ReplaceAll(o.Text, "_", " ") + " happen"
	case order.Finish:
		return "end the exercise"
	case order.Factor, order.SheaveHeight, order.TowOffset, order.TowSide, order.PositionBy, order.Lookout:
		return "set the desk"
	}
	return string(o.Do)
}
