package app

import (
	"fmt"
	"math"
)

// cutOff is the share of the record at full scale from which on the heading says
// what the chequer in the picture is: our own choice.
const cutOff = 0.0005

// pictureSays letters what the record lost at full scale and how its picture is made
// other than usual.
func (w *waterfall) pictureSays(g *Game, channel int) string {
	says := ""
	if all := w.view.Levels; channel < len(all) && all[channel].Clipped > cutOff {
		says = fmt.Sprintf(", chequered: cut off, %.2g %%", 100*all[channel].Clipped)
	}
	if w.asRecorded {
		says += ", as recorded"
	}
	if by := math.Round(100 * w.brightness); by != 0 {
		says += fmt.Sprintf(", brightness %+.0f %%", by)
	}
	if c := g.Settings.Contrast; math.Abs(c-DefaultSettings().Contrast) > 0.01 {
		says += fmt.Sprintf(", contrast %.1f", c)
	}
	return says
}

// adjust makes the sonar pictures darker or brighter by a step, or gives them less
// or more contrast.
func (w *waterfall) adjust(g *Game, by float64, contrast bool) {
	if contrast {
		g.Change(func(s *Settings) { s.Contrast = min(max(s.Contrast+0.1*by, 0.4), 3) })
		return
	}
	w.brightness = min(max(w.brightness+0.03*by, -0.45), 0.45)
}
