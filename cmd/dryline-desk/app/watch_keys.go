package app

import (
	"math"

	"dryline/seabed/units"
	"dryline/sim/order"
	"dryline/vessel"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/inpututil"
)

// Keys implements [Screen].
func (w *Watch) Keys() []Key {
	return []Key{
		{"Left, Right", "rudder while held; let go to hold the heading"},
		{"Up, Down", "a fifth of a knot faster, slower"},
		{"Home", "hold the present heading"},
		{"Enter", "steer to the line and along it"},
		{"N, B", "next line, line before"},
		{"R", "run the line the other way"},
		{"L", "log on or off"},
		{"PgUp, PgDn", "haul in, pay out a metre; with Shift five"},
		{"F, G", "range scale down, up, with the log off"},
		{"[, ]", "gain of the channel down, up, with the log off"},
		{"Space", "let time stand still"},
		{"+, -", "time faster, slower"},
		{"M", "mark a contact with the next click"},
		{"1, 2, 3", "measure length, width, shadow: drag from end"},
		{"", "to end; on the chart with Shift held"},
		{", and .", "contact before, next contact"},
		{"E, O", "name, class of the chosen contact"},
		{"Delete", "drop the chosen contact"},
		{"Z, Shift + Z", "undo, redo what was done to contacts"},
		{"C, X", "next sonar channel, all of them"},
		{"V", "next colour ramp"},
		{"U, I", "sonar pictures darker, brighter; with Shift"},
		{"", "less, more contrast"},
		{"A", "waterfall levelled, or as recorded"},
		{"T", "day or night"},
		{"Tab", "next page of the side panel"},
		{"J", "let the chart follow the vessel"},
		{"K", "show the whole plan on the chart"},
		{"Wheel", "scroll the waterfall back; zoom the chart"},
		{"Ctrl + wheel", "zoom the waterfall about the pointer"},
		{"Right drag", "move the waterfall; the middle button too"},
		{"W", "the whole swath again; so does a double click"},
		{"End", "back to the newest pings of the waterfall"},
		{"Right click", "on the chart: steer for that point"},
		{"F9, F9", "end the exercise"},
		{"Leave", "keep the session, to go on with it later"},
	}
}

const (
	handRudder = 15 * math.Pi / 180
	knot       = units.Knot
)

// rates are the speeds of time to choose from.
var rates = []float64{1, 2, 5, 10, 20}

func (w *Watch) keys(g *Game) {
	if g.Typing() {
		return
	}
	pressed := inpututil.IsKeyJustPressed
	shift := ebiten.IsKeyPressed(ebiten.KeyShift)
	w.holdRudder(heldRudder(ebiten.IsKeyPressed(ebiten.KeyLeft) || w.rail.heldPort, ebiten.IsKeyPressed(ebiten.KeyRight) || w.rail.heldStarboard))
	switch {
	case again(ebiten.KeyUp):
		w.faster(0.2 * knot)
	case again(ebiten.KeyDown):
		w.faster(-0.2 * knot)
	case pressed(ebiten.KeyHome):
		w.holdHeading()
	case pressed(ebiten.KeyEnter), pressed(ebiten.KeyNumpadEnter):
		w.steerToLine()
	case pressed(ebiten.KeyN):
		w.chooseLine(1)
	case pressed(ebiten.KeyB):
		w.chooseLine(-1)
	case pressed(ebiten.KeyR):
		w.reversed = !w.reversed
	case pressed(ebiten.KeyL):
		w.toggleLog()
	case again(ebiten.KeyPageUp):
		w.payOut(-step(shift))
	case again(ebiten.KeyPageDown):
		w.payOut(step(shift))
	case pressed(ebiten.KeyF):
		w.rangeScale(-1)
	case pressed(ebiten.KeyG):
		w.rangeScale(1)
	case pressed(ebiten.KeySpace):
		w.setRate(w.rate, !w.paused)
	case pressed(ebiten.KeyEqual), pressed(ebiten.KeyNumpadAdd):
		w.stepRate(1)
	case pressed(ebiten.KeyMinus), pressed(ebiten.KeyNumpadSubtract):
		w.stepRate(-1)
	case pressed(ebiten.KeyBracketRight):
		w.amplify(order.Gain, gainStep)
	case pressed(ebiten.KeyBracketLeft):
		w.amplify(order.Gain, -gainStep)
	case pressed(ebiten.KeyM):
		w.marking = !w.marking
		w.side.show(g, tabContacts)
	case pressed(ebiten.KeyDigit1):
		w.measure = "length"
	case pressed(ebiten.KeyDigit2):
		w.measure = "width"
	case pressed(ebiten.KeyDigit3):
		w.measure = "shadow"
	case pressed(ebiten.KeyPeriod), pressed(ebiten.KeyComma):
		by := 1
		if pressed(ebiten.KeyComma) {
			by = -1
		}
		w.side.show(g, tabContacts)
		w.side.contacts.step(w, by)
	case pressed(ebiten.KeyE):
		w.onContact(g, func(p *contactsPage) { p.editing = true })
	case pressed(ebiten.KeyO):
		w.onContact(g, func(p *contactsPage) { p.classing = !p.classing })
	case pressed(ebiten.KeyDelete):
		w.dropContact()
	case pressed(ebiten.KeyZ) && shift:
		w.redoContact()
	case pressed(ebiten.KeyZ):
		w.undoContact()
	case pressed(ebiten.KeyC):
		w.nextChannel()
	case pressed(ebiten.KeyX):
		w.allChannels = !w.allChannels && len(w.falls) > 1
	case pressed(ebiten.KeyV):
		g.Change(func(s *Settings) { s.Ramp = nextRamp(s.Ramp) })
	case again(ebiten.KeyU):
		w.tone(g, -1, shift)
	case again(ebiten.KeyI):
		w.tone(g, 1, shift)
	case pressed(ebiten.KeyA):
		w.asRecorded = !w.asRecorded
	case pressed(ebiten.KeyT):
		g.Change(func(s *Settings) { s.Theme = otherTheme(s.Theme) })
	case pressed(ebiten.KeyTab):
		w.side.show(g, (w.side.tab+1)%len(tabNames))
	case pressed(ebiten.KeyJ):
		w.follow = !w.follow
		w.placed = true
	case pressed(ebiten.KeyW):
		w.wholeSwath()
	case pressed(ebiten.KeyEnd):
		w.live()
	case pressed(ebiten.KeyK):
		w.follow = false
		w.fitChart()
	case pressed(ebiten.KeyEscape):
		w.marking = false
		w.drag = drag{}
	case pressed(ebiten.KeyF9):
		w.end(g)
	}
}

// again reports a key pressed or repeating.
func again(k ebiten.Key) bool {
	d := inpututil.KeyPressDuration(k)
	return d == 1 || d > 25 && d%5 == 0
}

func step(shift bool) float64 {
	if shift {
		return 5
	}
	return 1
}

func heldRudder(port, starboard bool) float64 {
	switch {
	case port && !starboard:
		return -handRudder
	case starboard && !port:
		return handRudder
	}
	return 0
}

// holdRudder steers by hand while a rudder is held and holds the heading when
// it is let go.
func (w *Watch) holdRudder(rudder float64) {
	if rudder == w.byHand {
		return
	}
	w.byHand = rudder
	if rudder == 0 {
		w.holdHeading()
		return
	}
	w.give(order.Command{Do: order.Rudder, Value: rudder})
}

func (w *Watch) holdHeading() {
	w.give(order.Command{Do: order.SteerHeading, Value: float64(w.view.Reading.GridHeading())})
}

func (w *Watch) faster(by float64) {
	want := math.Round((w.orderedTo(order.Speed, w.view.Bridge.Speed)+by)/(0.1*knot)) * 0.1 * knot
	w.give(order.Command{Do: order.Speed, Value: min(max(want, 0), w.exercise.Vessel.SpeedMax)})
}

func (w *Watch) payOut(by float64) {
	want := math.Round(w.orderedTo(order.Cable, w.view.Bridge.CableOrdered) + by)
	w.give(order.Command{Do: order.Cable, Value: min(max(want, w.exercise.Tow.Winch.Min), w.exercise.Tow.Cable.Length)})
}

func (w *Watch) chooseLine(by int) {
	n := len(w.exercise.Lines)
	w.line = (w.line + by + n) % n
	// Her nearer end is where she would begin.
	l := w.exercise.Lines[w.line]
	r := &w.view.Reading
	w.reversed = math.Hypot(l.B.X-r.X, l.B.Y-r.Y) < math.Hypot(l.A.X-r.X, l.A.Y-r.Y)
}

// steerToLine brings her onto the line: along it if she is heading for it, else
// round by the turn of the plan.
func (w *Watch) steerToLine() {
	l := w.exercise.Lines[w.line]
	track := l.Track(w.reversed)
	r := &w.view.Reading
	along, across := track.Offset(r.X, r.Y)
	off := math.Abs(vessel.Wrap(track.Bearing() - float64(r.GridCourse())))
	if off < math.Pi/3 && math.Abs(across) < w.exercise.Plan.TurnRadius/2 && along < track.Length()/2 {
		w.give(order.Command{Do: order.SteerLine, Line: l.Name, Reversed: w.reversed})
		return
	}
	w.give(order.Command{Do: order.Turn, Line: l.Name, Reversed: w.reversed, Pattern: w.exercise.Plan.Turn})
}

func (w *Watch) toggleLog() {
	logging := w.view.Bridge.Logging != ""
	if o := w.pending(order.LogOn, order.LogOff); o != nil {
		logging = o.Do == order.LogOn
	}
	if logging {
		w.give(order.Command{Do: order.LogOff})
		return
	}
	w.give(order.Command{Do: order.LogOn, Line: w.exercise.Lines[w.line].Name, Reversed: w.reversed})
}

// scales are the range scales to choose from, metres.
var scales = []float64{15, 20, 25, 30, 40, 50, 75, 100, 150, 200}

func (w *Watch) rangeScale(by int) {
	have := w.orderedTo(order.Range, w.view.Recorder.RangeScale)
	if by > 0 {
		for _, s := range scales {
			if s > have+0.5 {
				w.give(order.Command{Do: order.Range, Value: s})
				return
			}
		}
		return
	}
	for i := len(scales) - 1; i >= 0; i-- {
		if scales[i] < have-0.5 {
			w.give(order.Command{Do: order.Range, Value: scales[i]})
			return
		}
	}
}

func (w *Watch) stepRate(by int) {
	at := 0
	for i, r := range rates {
		if r <= w.rate {
			at = i
		}
	}
	w.setRate(rates[min(max(at+by, 0), len(rates)-1)], w.paused)
}

func (w *Watch) dropContact() {
	if w.chosen != 0 {
		w.give(order.Command{Do: order.DeleteContact, Number: w.chosen})
		w.chosen = 0
	}
}

func (w *Watch) undoContact() {
	if w.view.CanUndo {
		w.give(order.Command{Do: order.UndoContact})
	}
}

func (w *Watch) redoContact() {
	if w.view.CanRedo {
		w.give(order.Command{Do: order.RedoContact})
	}
}
