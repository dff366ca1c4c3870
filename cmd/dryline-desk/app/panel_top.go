package app

import (
	"fmt"
	"math"

	"dryline/cmd/dryline-desk/look"

	"github.com/ebitenui/ebitenui/widget"
)

// topPanel is the strip on top: which exercise, what time, how fast it runs,
// whether the log is on.
type topPanel struct {
	clock, pace, logged *widget.Text
	still, end          *widget.Button
	asked               bool // the end button asks whether it is meant
	headTall            float64
}

func (p *topPanel) build(g *Game, w *Watch) *widget.Container {
	l := g.Look
	p.headTall = look.Tall(l.Small) + float64(l.Px(8))
	p.clock = l.Reading("00:00:00", l.Figures, l.Ink)
	p.pace = l.Reading("20 times, reaches 20.0", l.Small, l.Soft)
	p.logged = l.Reading("LOGGING "+longestLine(w), l.Strong, l.Soft)
	p.still = l.Button("Stand still", look.Plain, func() { w.setRate(w.rate, !w.paused) })
	p.still.GetWidget().MinWidth = int(look.Wide("Stand still", l.Body)) + l.Px(22) // also while it says less
	p.asked = false
	p.end = l.Button("End F9", look.Plain, func() { w.end(g) })
	row := l.Row(4, 10,
		l.Label(fittedTo(w.exercise.Title, l, l.Strong, l.Px(250)), l.Strong, l.Ink, 0),
		p.clock,
		explained(g, p.still, "Let time stand still, where the exercise allows (Space)."),
		explained(g, l.Button("Slower", look.Plain, func() { w.stepRate(-1) }), "Let time run slower, down to the pace of the water (-)."),
		explained(g, l.Button("Faster", look.Plain, func() { w.stepRate(1) }), fmt.Sprintf("Let time run faster, up to %g times in this exercise (+).", max(w.exercise.Help.MostSpeedUp, 1))),
		p.pace,
		p.logged,
		explained(g, l.Button("Keys F1", look.Plain, func() { g.help = true }), "Show the keys (F1)."),
		explained(g, l.Button("Settings", look.Plain, func() { w.side.show(g, tabWindow) }), "Theme, colours, size, hints and sounds."),
		explained(g, l.Button("Leave", look.Plain, func() { g.Go(chooseAt(w.exercise.Name)) }), "Leave the watch. It is kept, and you can go on with it later."),
		explained(g, p.end, "End the exercise and see the debrief (F9, twice). It cannot be gone on with."),
	)
	centred(row)
	return l.Backed(row, l.Panel)
}

// longestLine is the longest name of a line.
func longestLine(w *Watch) string {
	longest := ""
	for _, line := range w.exercise.Lines {
		if len(line.Name) > len(longest) {
			longest = line.Name
		}
	}
	return longest
}

func (p *topPanel) update(g *Game, w *Watch) {
	l, v := g.Look, w.view
	start := w.exercise.Start.Add(seconds(v.Now))
	p.clock.Label = start.Format("15:04:05")
	still := "Stand still"
	if w.paused {
		still = "Go on"
	}
	if p.still.Text().Label != still {
		p.still.SetText(still)
		tone := look.Plain
		if w.paused {
			tone = look.Chosen
		}
		l.Retone(p.still, tone)
	}
	switch {
	case w.paused:
		p.pace.Label = "time stands still"
	case v.Reached > 0 && v.Reached < 0.9*w.rate:
		p.pace.Label = fmt.Sprintf("%.0f times, reaches %.1f", w.rate, v.Reached)
		if w.rate == 1 {
			p.pace.Label = fmt.Sprintf("slower: %.1f times", v.Reached)
		}
	case w.rate == 1:
		p.pace.Label = "as on the water"
	default:
		p.pace.Label = fmt.Sprintf("%.0f times", math.Round(w.rate))
	}
	if asked := w.ending > 0; asked != p.asked {
		p.asked = asked
		tone := look.Plain
		if asked {
			tone = look.Urgent
		}
		l.Retone(p.end, tone)
	}
	p.logged.Label = "LOG OFF"
	p.logged.SetColor(l.Soft)
	if name := v.Bridge.Logging; name != "" {
		p.logged.Label = "LOGGING " + name
		p.logged.SetColor(l.Alarm)
	}
}
