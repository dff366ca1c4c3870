package app

import (
	"dryline/cmd/dryline-desk/look"

	"github.com/ebitenui/ebitenui/widget"
)

// topPanel is the strip on top: which exercise, what time, how fast it runs,
// whether the log is on.
type topPanel struct {
	clock, pace, logged *widget.Text
	still, end          *widget.Button
	asked               bool // the end button asks whether it is meant
}

func (p *topPanel) build(g *Game, w *Watch) *widget.Container {
	const most = 250 // of the title, points
	l := g.Look
	title := l.Px(most)
	row := p.row(g, w, title)
	for title > l.Px(60) {
		if wide, _ := row.PreferredSize(); wide <= g.size.Dx() {
			break
		}
		title -= l.Px(20)
		row = p.row(g, w, title)
	}
	return l.Backed(row, l.Panel)
}

// row is the strip with a title so wide at most, pixels.
func (p *topPanel) row(g *Game, w *Watch, most int) *widget.Container {
	l := g.Look
	p.clock = l.Reading("00:00:00", l.Figures, l.Ink)
	p.pace = l.Reading("20 times, reaches 20.0", l.Small, l.Soft)
	p.logged = l.Reading("LOGGING "+longestLine(w), l.Strong, l.Soft)
	p.still = w.button(g, standStill, look.Plain)
	p.still.GetWidget().MinWidth = int(look.Wide("Stand still", l.Body)) + l.Px(22) // also while it says less
	p.asked = false
	p.end = w.button(g, endExercise, look.Plain)
	var title widget.PreferredSizeLocateableWidget = l.Label(look.Fitted(w.brief.Title, l.Strong, most), l.Strong, l.Ink, 0)
	if w.practice != "" {
		title = l.Column(0, 0,
			l.Label(look.Fitted(w.brief.Title, l.Small, most), l.Small, l.Ink, 0),
			l.Label(look.Fitted(w.practice, l.Small, most), l.Small, l.Caution, 0))
	}
	row := l.Row(4, 10,
		title,
		p.clock,
		p.still,
		w.button(g, timeSlower, look.Plain),
		w.button(g, timeFaster, look.Plain),
		p.pace,
		p.logged,
		explained(g, l.Button("Settings", look.Plain, func() { w.side.show(g, tabWindow) }), "Theme, colours, size, hints and sounds."),
		w.button(g, goToDesk, look.Plain),
		w.button(g, leaveWatch, look.Plain),
		p.end,
	)
	centred(row)
	return row
}

// longestLine is the longest name of a line.
func longestLine(w *Watch) string {
	longest := ""
	for _, line := range w.lines() {
		if len(line.Name) > len(longest) {
			longest = line.Name
		}
	}
	return longest
}

func (p *topPanel) update(g *Game, w *Watch) {
	l, v := g.Look, w.view
	p.clock.Label = w.brief.Start.Add(seconds(v.Now)).Format("15:04:05")
	still := "Stand still"
	if w.pace.paused {
		still = "Go on"
	}
	if p.still.Text().Label != still {
		p.still.SetText(still)
		l.Emphasise(p.still, chosenIf(w.pace.paused))
	}
	p.pace.Label = w.pace.says()
	if asked := w.ending > 0; asked != p.asked {
		p.asked = asked
		emphasis := look.Plain
		if asked {
			emphasis = look.Urgent
		}
		l.Emphasise(p.end, emphasis)
	}
	p.logged.Label = "LOG OFF"
	p.logged.SetColor(l.Soft)
	if name := v.Bridge.Logging; name != "" {
		p.logged.Label = "LOGGING " + name
		p.logged.SetColor(l.Alarm)
	}
}
