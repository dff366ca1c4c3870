package app

import (
	"fmt"
	"image"
	"image/color"
	"strings"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/look"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/text/v2"
)

// Again is the screen of a session that is looked at again: the watch as it was, flown
// again by its own orders, to be played, stood still, stepped and gone through. Nobody
// gives orders. It comes from a debrief and goes back to it.
type Again struct {
	*Watch
	owner  *crew.Crew
	from   *Debrief
	bar    timebar
	moment image.Rectangle
	clock  *widget.Text
	says   *widget.Text
	still  *widget.Button
	back   bool // to the debrief, or to another moment
}

// newAgain looks at the session of a debrief at a tick, the way it was looked at
// before if it was.
func newAgain(g *Game, d *Debrief, tick int64, before *Again) (*Again, error) {
	c, err := d.crew.LookAgain(tick, g.Apart)
	if err != nil {
		return nil, err
	}
	a := &Again{Watch: newWatch(g, c.Brief(), c), owner: c, from: d, bar: d.bar}
	a.chart.mosaic = newMosaic(c)
	a.fall.brightness = d.brightness
	a.bar.choose(float64(tick) / 10)
	if before != nil {
		a.chart.Projection, a.chart.fitted, a.chart.placed, a.chart.follow = before.chart.Projection, before.chart.fitted, before.chart.placed, before.chart.follow
		a.fall.channel, a.fall.all = before.fall.channel, before.fall.all
		a.pace.rate = before.pace.rate
	}
	a.play(a.pace.rate, true)
	return a, nil
}

// play sets how fast it is played; the exercise has no say in it.
func (a *Again) play(rate float64, paused bool) {
	a.pace.rate, a.pace.paused = min(max(rate, 1), rates[len(rates)-1]), paused
	a.crew.SetRate(a.pace.rate, paused)
}

// faster plays at the next rate, or at the one before.
func (a *Again) faster(by int) {
	at := 0
	for i, r := range rates {
		if r <= a.pace.rate {
			at = i
		}
	}
	a.play(rates[min(max(at+by, 0), len(rates)-1)], a.pace.paused)
}

// to goes to another moment. What is to come is played on to at once; for what was
// before, the session is flown again.
func (a *Again) to(g *Game, seconds float64) {
	if a.back { // another moment is coming
		return
	}
	a.bar.choose(seconds)
	a.play(a.pace.rate, true)
	tick := a.bar.tick()
	if tick >= a.view.Tick {
		a.owner.GoTo(tick)
		return
	}
	next, err := newAgain(g, a.from, tick, a)
	if err != nil {
		g.say("The session cannot be flown again: " + err.Error())
		return
	}
	a.back = true
	g.Go(next)
}

// step goes to the next stop of the bar, or to the one before.
func (a *Again) step(g *Game, by int) {
	b := a.bar
	b.step(by)
	a.to(g, b.at)
}

// leave goes back to the debrief.
func (a *Again) leave(g *Game) {
	a.back = true
	a.from.bar.at = a.bar.at
	a.from.away = false
	a.from.showMoment()
	g.Go(a.from)
}

// tryAgain begins a practice session at the moment that is shown.
func (a *Again) tryAgain(g *Game) {
	a.from.bar.at = a.bar.at
	a.from.tryAgain(g)
}

// Build implements [Screen].
func (a *Again) Build(g *Game, size image.Rectangle) *widget.Container {
	l := g.Look
	a.clock = l.Reading("00:00:00", l.Figures, l.Ink)
	a.says = l.Reading("20 times, reaches 20.0", l.Small, l.Soft)
	a.still = explained(g, l.Button(a.stillLabel(), chosenIf(a.pace.paused), func() { a.play(a.pace.rate, !a.pace.paused) }), "Play it, or have time stand still (Space).")
	a.still.GetWidget().MinWidth = int(look.Wide("Stand still", l.Body)) + l.Px(22)
	button := func(label, says string, do func()) *widget.Button {
		return explained(g, l.Button(label, look.Plain, do), says)
	}
	top := l.Row(4, 8,
		l.Label(look.Fitted("Looked at again: "+a.brief.Title, l.Strong, l.Px(330)), l.Strong, l.Ink, 0),
		a.clock,
		a.still,
		button("Slower", "Play it slower (-).", func() { a.faster(-1) }),
		button("Faster", "Play it faster (=).", func() { a.faster(1) }),
		a.says,
		button("Back to the debrief", "Back to the debrief, at this moment (Esc).", func() { a.leave(g) }),
	)
	centred(top)
	does := centredRow(l.Row(0, 6,
		button("10 s back", "Ten seconds back (Shift and Left).", func() { a.to(g, a.bar.at-10) }),
		button("1 s back", "A second back (comma).", func() { a.to(g, a.bar.at-1) }),
		button("1 s on", "A second on (full stop).", func() { a.to(g, a.bar.at+1) }),
		button("10 s on", "Ten seconds on (Shift and Right).", func() { a.to(g, a.bar.at+10) }),
		explained(g, l.Button("Try again from here", look.Chosen, func() { a.tryAgain(g) }), "A practice session begins at this moment; it never counts (A)."),
	))
	backed := l.Backed(top, l.Panel)
	_, topTall := backed.PreferredSize()
	doesWide, doesTall := does.PreferredSize()
	pad := l.Px(4)
	a.at = arrange(size, l, &g.Settings, true, topTall, a.bar.tall(l)+doesTall+2*pad)
	a.fall.lay(a.at.fall, l)
	a.chart.lay(a.at.chart)
	rail := a.at.rail
	a.moment = image.Rect(rail.Min.X, rail.Min.Y, rail.Max.X-doesWide-2*pad, rail.Min.Y+doesTall+pad)
	doesAt := image.Rect(rail.Max.X-doesWide-pad, rail.Min.Y, rail.Max.X-pad, rail.Min.Y+doesTall)
	a.bar.lay(l, image.Rect(rail.Min.X, a.moment.Max.Y+pad/2, rail.Max.X, rail.Max.Y))
	return pinned(func(i int) image.Rectangle { return []image.Rectangle{a.at.top, doesAt}[i] }, backed, does)
}

func (a *Again) stillLabel() string {
	if a.pace.paused {
		return "Play"
	}
	return "Stand still"
}

// Update implements [Screen].
func (a *Again) Update(g *Game) error {
	a.crew.Pass(g.passed.Seconds(), g.budget())
	a.view = a.crew.View()
	a.takeRows()
	for _, t := range a.crew.Tiles(20) {
		a.chart.mosaic.Put(t)
	}
	a.helm.takeUp()
	a.dials.fill(&a.helm)
	a.chart.fill(0, false)
	a.hearComplaint(g)
	if a.arrived() {
		a.bar.choose(a.view.Now)
	}
	a.clock.Label = a.bar.clock(a.bar.at)
	a.says.Label = a.pace.says()
	if label := a.stillLabel(); a.still.Text() != nil && a.still.Text().Label != label {
		a.still.SetText(label)
		g.Look.Emphasise(a.still, chosenIf(a.pace.paused))
	}
	a.keys(g)
	a.mouse(g)
	return nil
}

// arrived reports whether the session is at the moment it was sent to.
func (a *Again) arrived() bool { return a.view.Restored == 1 }

func (a *Again) keys(g *Game) {
	shifted := shiftHeld()
	switch {
	case again(ebiten.KeyLeft) && shifted:
		a.to(g, a.bar.at-10)
	case again(ebiten.KeyRight) && shifted:
		a.to(g, a.bar.at+10)
	case again(ebiten.KeyLeft):
		a.step(g, -1)
	case again(ebiten.KeyRight):
		a.step(g, 1)
	case again(ebiten.KeyComma):
		a.to(g, a.bar.at-1)
	case again(ebiten.KeyPeriod):
		a.to(g, a.bar.at+1)
	case justPressed(ebiten.KeySpace):
		a.play(a.pace.rate, !a.pace.paused)
	case justPressed(ebiten.KeyEqual):
		a.faster(1)
	case justPressed(ebiten.KeyMinus):
		a.faster(-1)
	case justPressed(ebiten.KeyA):
		a.tryAgain(g)
	case justPressed(ebiten.KeyC) && a.fall.several():
		a.fall.nextChannel()
	case justPressed(ebiten.KeyX) && a.fall.several():
		a.fall.all = !a.fall.all
	case justPressed(ebiten.KeyEscape):
		a.leave(g)
	case justPressed(ebiten.KeyT):
		g.Change(func(s *Settings) { s.Theme = otherTheme(s.Theme) })
	}
}

// mouse moves and zooms the pictures, and chooses moments.
func (a *Again) mouse(g *Game) {
	x, y, taken := g.Pointer()
	at := image.Pt(x, y)
	a.wheel(at, taken)
	a.fall.pan(at, taken)
	a.fall.click(at, taken, false)
	a.chart.point(at, at.In(a.at.chart) && !taken)
	a.bar.point(at, taken)
	switch {
	case wentDown(ebiten.MouseButtonLeft) && !taken:
		a.pointer = pointer{down: at}
		switch {
		case a.bar.on:
			a.bar.press(at, g.Look)
			a.to(g, a.bar.at)
		case at.In(a.fall.liveRect(g.Look)):
			a.fall.live()
		case at.In(a.at.chart):
			a.pointer.what = chartMoved
		}
	case a.pointer.what == chartMoved && held(ebiten.MouseButtonLeft):
		a.pull(g, at)
	default:
		a.pointer = pointer{}
	}
}

// Draw implements [Screen].
func (a *Again) Draw(g *Game, dst *ebiten.Image) {
	a.drawPanes(g, dst)
	a.drawAccount(g.Look, dst)
	a.bar.drawSays(dst, g.Look, a.moment)
	a.bar.draw(dst, g.Look)
}

// drawAccount letters beside the chart what went on at the moment, and which points it
// cost.
func (a *Again) drawAccount(l *look.Look, dst *ebiten.Image) {
	r := a.at.side
	look.Fill(dst, r, l.Panel)
	in := float64(l.Px(10))
	s := &sheet{pane: dst.SubImage(r).(*ebiten.Image), l: l, x: float64(r.Min.X) + in, y: float64(r.Min.Y) + in, wide: float64(r.Dx()) - 2*in}
	// What finds no room is left out: the debrief has it all.
	full := false
	write := func(says string, f text.Face, c color.Color) {
		for _, line := range wrapped(says, f, s.wide) {
			if full = full || s.y+look.Tall(f) > float64(r.Max.Y)-in/2; !full {
				s.line(line, f, c)
			}
		}
	}
	part := func(title string, says ...string) {
		write(title, l.Strong, l.Ink)
		for _, line := range says {
			write(line, l.Body, l.Ink)
			s.gap(3)
		}
		s.gap(8)
	}
	now := a.bar.at
	var hints, cost []string
	for _, h := range a.bar.report.Timeline.Hints {
		if h.From <= now && now <= h.To {
			hints = append(hints, strings.ToUpper(h.Kind[:1])+h.Kind[1:]+": "+h.Says)
		}
	}
	for _, it := range a.bar.report.Score.Items {
		for _, c := range it.Causes {
			if a.bar.timed(&c) && c.From-1 <= now && now <= c.To+1 {
				cost = append(cost, fmt.Sprintf("−%.1f  %s", c.Points, c.Says))
			}
		}
	}
	if len(cost) == 0 {
		cost = []string{"None."}
	}
	if len(hints) == 0 {
		hints = []string{"Nothing."}
	}
	part("Points lost here", cost...)
	part("What the coach said, or would have", hints...)
	part("Hands off", "The session goes by the orders that were given. To do it otherwise, try again from here.")
}

// Over implements [Screen].
func (a *Again) Over(g *Game, dst *ebiten.Image) {
	const nearly = 0.97 // a step is there before anybody could read of it
	if a.view.Restored < nearly {
		a.drawFlying(g, dst, "Flying the session again to "+a.bar.clock(a.bar.at))
	}
	a.bar.drawTip(dst, g.Look, g.area())
}

// Keys implements [Screen].
func (a *Again) Keys() []Key {
	return []Key{
		{"Space", "play, or stand still"}, {"-, =", "slower, faster"}, {",  .", "a second back, a second on"},
		{"Left, Right", "to the event before, to the next; with Shift ten seconds"}, {"Click", "on the bar: to that moment"},
		{"Wheel", "back through the waterfall; zoom the chart, drag to move it"}, {"A", "try again from here, for practice"},
		{"C, X", "next sonar channel, all of them"}, {"T", "day or night"}, {"Esc", "back to the debrief"},
	}
}

// Foot implements [Screen].
func (a *Again) Foot(*Game) Foot { return Foot{} }

// UnderWay implements [Screen]: there is nothing to keep.
func (a *Again) UnderWay() bool { return false }

// Keep implements [Screen].
func (a *Again) Keep() {}

// Close implements [Screen].
func (a *Again) Close(g *Game) {
	a.crew.Close()
	a.fall.release()
	a.chart.mosaic.Deallocate()
	if !a.back {
		a.from.away = false
		a.from.Close(g)
	}
}

// Inspect implements [Screen].
func (a *Again) Inspect() (string, map[string]Rect, any) {
	v := a.view
	return "again", map[string]Rect{
			"section": rect(a.at.section), "dials": rect(a.at.dials), "fall": rect(a.fall.rect()),
			"chart": rect(a.at.chart), "side": rect(a.at.side), "top": rect(a.at.top), "bar": rect(a.bar.lane[0]),
		}, map[string]any{
			"tick": v.Tick, "moment": a.bar.at, "rate": a.pace.rate, "paused": a.pace.paused, "restored": v.Restored,
			"logging": v.Bridge.Logging, "pings": len(a.fall.history), "contacts": len(v.Contacts), "cable_ordered": v.Bridge.CableOrdered,
		}
}
