package app

import (
	"fmt"
	"image"

	"dryline/cmd/dryline-desk/look"
	"dryline/sonar/waterfall/picture"

	"github.com/ebitenui/ebitenui/widget"
)

// windowPage sets how the window looks.
func windowPage(g *Game, w *Watch, r image.Rectangle) *widget.Container {
	l, s := g.Look, &g.Settings
	row := func(does, says string, buttons ...widget.PreferredSizeLocateableWidget) widget.PreferredSizeLocateableWidget {
		if does != "" { // an action says it itself
			for _, b := range buttons {
				explained(g, b, does)
			}
		}
		c := l.Row(0, 6, append(buttons, l.Label(says, l.Body, l.Ink, 0))...)
		centred(c)
		return c
	}
	step := func(v *float64, by, lo, hi float64) func() {
		return func() { g.Change(func(*Settings) { *v = min(max(*v+by, lo), hi) }) }
	}
	onOff := func(on bool) string {
		if on {
			return "on"
		}
		return "off"
	}
	return l.Column(2, 6,
		row("", "theme: "+s.Theme, w.button(g, dayOrNight, look.Plain)),
		row("", "colours: "+s.Ramp, w.button(g, nextColours, look.Plain)),
		row("Contrast of the sonar pictures (Shift + U and I).", fmt.Sprintf("contrast %.1f", s.Contrast), l.Button("−", look.Plain, step(&s.Contrast, -0.1, 0.4, 3)), l.Button("+", look.Plain, step(&s.Contrast, 0.1, 0.4, 3))),
		row("The newest pings of the waterfall at its top, or at its foot.", "newest pings at the "+topOrFoot(s.Foot), l.Button("Turn", look.Plain, func() { g.Change(func(s *Settings) { s.Foot = !s.Foot }) })),
		sizeRow(g),
		row("The coach says what to watch for, where the exercise has one, or keeps quiet.", "coach "+onOff(s.Hints), l.Button("Switch", look.Plain, func() { g.Change(func(s *Settings) { s.Hints = !s.Hints }) })),
		row("Play a sound when the coach speaks up or something goes wrong, or none.", "sounds "+onOff(s.Sounds)+silent(g), l.Button("Switch", look.Plain, func() { g.Change(func(s *Settings) { s.Sounds = !s.Sounds }) })),
		l.Label("Training aid with synthetic data. Not for navigation; never evidence that an area is clear of hazards.", l.Small, l.Soft, r.Dx()),
	)
}

func topOrFoot(foot bool) string {
	if foot {
		return "foot"
	}
	return "top"
}

// silent says why there are no sounds.
func silent(g *Game) string {
	if g.Silent {
		return " (none here)"
	}
	return ""
}

func otherTheme(name string) string {
	if name == look.Day.Name {
		return look.Night.Name
	}
	return look.Day.Name
}

func nextRamp(name string) string {
	all := picture.Ramps()
	for i, r := range all {
		if r.Name == name {
			return all[(i+1)%len(all)].Name
		}
	}
	return all[0].Name
}
