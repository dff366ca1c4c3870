package debrief

import (
	"fmt"
	"math"

	"dryline/sim/passage"
)

// clear marks a fish that kept clear of everything: its points halve with every
// grounding and every object struck.
func (m *marking) clear() outcome {
	r := m.r
	knocks := r.Groundings + r.Strikes
	o := outcome{
		share: math.Pow(0.5, float64(knocks)), wanted: "no groundings and no strikes",
		got: quantity(r.Groundings, "grounding") + ", " + quantity(r.Strikes, "strike"),
		why: "The fish never touched anything.",
	}
	for i := range m.w.Mishaps {
		h := &m.w.Mishaps[i]
		c := Cause{From: h.Time, To: h.Time, Points: 1}
		before := m.advised(h.Time-60, h.Time, "fish_close", "fish_low")
		switch h.What {
		case passage.Struck:
			c.Kind = "fish_struck"
			c.Says = fmt.Sprintf("At %s the fish struck %s, which stands up from the floor: look for shadows ahead and keep the height for them.", m.clock(h.Time), h.Object)
		case passage.Grounded:
			c.Kind = "fish_aground"
			c.Says = fmt.Sprintf("At %s the fish touched the floor: haul in before you slow down or turn, and before the floor rises.", m.clock(h.Time))
		default:
			continue
		}
		if before != "" {
			c.Says += " The sign was there before: “" + before + "”"
		}
		o.causes = append(o.causes, c)
	}
	o.why = firstOf(o.causes, o.why)
	return o
}
