package app

import (
	"dryline/sim/order"

	"github.com/hajimehoshi/ebiten/v2"
)

// deed names an action.
type deed int

// The actions, in the order of the overlay.
const (
	rudderPort deed = iota
	rudderStarboard
	speedUp
	slowDown
	holdHeading
	steerToLine
	nextLine
	lineBefore
	reverseLine
	toggleLog
	haulIn
	payOut
	rangeDown
	rangeUp
	gainDown
	gainUp
	typeOrders
	standStill
	timeFaster
	timeSlower
	markContact
	measureLength
	measureWidth
	measureShadow
	contactBefore
	contactNext
	nameContact
	classContact
	dropContact
	undoContact
	redoContact
	nextChannel
	allChannels
	nextColours
	darker
	brighter
	asRecorded
	dayOrNight
	nextPage
	followVessel
	wholePlan
	wheel
	wheelWithCtrl
	dragRight
	wholeSwath
	newestPings
	lineStart
	underLoupe
	clickRight
	goToDesk
	endExercise
	leaveWatch
	cancel
)

// actions are all that can be done. What has no deed of its own is done by the
// mouse, and stands here for the overlay.
var actions = [...]action{
	rudderPort: {key: "Left", on: keys(ebiten.KeyLeft), help: "rudder while held; let go to hold the heading",
		label: "◄ Port", says: "Rudder to port while you hold it; let go to hold the heading (Left)."},
	rudderStarboard: {key: "Right", on: keys(ebiten.KeyRight),
		label: "Stbd ►", says: "Rudder to starboard while you hold it; let go to hold the heading (Right)."},
	speedUp: {key: "Up", on: keys(ebiten.KeyUp), repeats: true, help: "a fifth of a knot faster, slower",
		label: "+", says: "A fifth of a knot faster over ground (Up). The fish rises.",
		do: func(w *Watch, _ *Game, _ bool) { w.faster(0.2 * knot) }},
	slowDown: {key: "Down", on: keys(ebiten.KeyDown), repeats: true,
		label: "−", says: "A fifth of a knot slower over ground (Down). The fish sinks.",
		do: func(w *Watch, _ *Game, _ bool) { w.faster(-0.2 * knot) }},
	holdHeading: {key: "Home", on: keys(ebiten.KeyHome), help: "hold the present heading",
		label: "Hold", says: "Hold the heading she has now (Home).",
		do: func(w *Watch, _ *Game, _ bool) { w.helm.holdHeading() }},
	steerToLine: {key: "Enter", on: keys(ebiten.KeyEnter, ebiten.KeyNumpadEnter), help: "steer to the line and along it",
		label: "Steer to it", says: "The autopilot takes her round to the run-in of the chosen line and along it (Enter).",
		do: func(w *Watch, _ *Game, _ bool) { w.helm.steerToLine() }},
	nextLine: {key: "N", on: keys(ebiten.KeyN), help: "next line, previous line",
		label: "►", says: "Choose the next line (N). Nothing is steered yet.",
		do: func(w *Watch, _ *Game, _ bool) { w.helm.choose(1) }},
	lineBefore: {key: "B", on: keys(ebiten.KeyB),
		label: "◄", says: "Choose the previous line (B). Nothing is steered yet.",
		do: func(w *Watch, _ *Game, _ bool) { w.helm.choose(-1) }},
	reverseLine: {key: "R", on: keys(ebiten.KeyR), help: "run the line the other way",
		label: "Reverse", says: "Run the chosen line from its other end (R).",
		do: func(w *Watch, _ *Game, _ bool) { w.helm.reversed = !w.helm.reversed }},
	toggleLog: {key: "L", on: keys(ebiten.KeyL), help: "log on or off",
		label: "Log on", says: "Open or close the record of the chosen line: on when the fish is at its start, off when it is past its end (L).",
		do: func(w *Watch, _ *Game, _ bool) { w.helm.toggleLog() }},
	haulIn: {key: "PgUp", on: keys(ebiten.KeyPageUp), repeats: true, help: "haul in, pay out a metre; with Shift five",
		label: "▲ Haul in", says: "A metre of cable in (PgUp; five with Shift). The fish rises.",
		do: func(w *Watch, _ *Game, shifted bool) { w.payOut(-metres(shifted)) }},
	payOut: {key: "PgDn", on: keys(ebiten.KeyPageDown), repeats: true,
		label: "▼ Pay out", says: "A metre of cable out (PgDn; five with Shift). The fish sinks.",
		do: func(w *Watch, _ *Game, shifted bool) { w.payOut(metres(shifted)) }},
	rangeDown: {key: "F", on: keys(ebiten.KeyF), help: "range scale down, up, with the log off",
		label: "−", says: "A shorter range scale, with the log off (F): narrower, more pings, finer.",
		do: func(w *Watch, _ *Game, _ bool) { w.rangeScale(-1) }},
	rangeUp: {key: "G", on: keys(ebiten.KeyG),
		label: "+", says: "A longer range scale, with the log off (G): wider, fewer pings, coarser.",
		do: func(w *Watch, _ *Game, _ bool) { w.rangeScale(1) }},
	gainDown: {key: "[", on: keys(ebiten.KeyBracketLeft), help: "gain of the channel down, up, with the log off",
		label: "−", says: "Less " + gainSays,
		do: func(w *Watch, _ *Game, _ bool) { w.amplify(w.fall.channel, order.Gain, -gainStep) }},
	gainUp: {key: "]", on: keys(ebiten.KeyBracketRight),
		label: "+", says: "More " + gainSays,
		do: func(w *Watch, _ *Game, _ bool) { w.amplify(w.fall.channel, order.Gain, gainStep) }},
	typeOrders: {key: "Y", on: keys(ebiten.KeyY), help: "type heading, speed, cable, range scale, gain;\na click on what a station says does it too",
		do: func(w *Watch, g *Game, _ bool) { w.typed.show(g, w, order.SteerHeading) }},
	standStill: {key: "Space", on: keys(ebiten.KeySpace), help: "let time stand still",
		label: "Stand still", says: "Let time stand still, where the exercise allows it (Space).",
		may: func(w *Watch) bool { return w.brief.Help.Pause },
		do:  func(w *Watch, _ *Game, _ bool) { w.pace.set(w.pace.rate, !w.pace.paused) }},
	timeFaster: {key: "+", on: keys(ebiten.KeyEqual, ebiten.KeyNumpadAdd), help: "time faster, slower",
		label: "Faster", says: "Let time run faster, up to %g times in this exercise (+).",
		figure: func(w *Watch) any { return max(w.brief.Help.MostSpeedUp, 1) },
		do:     func(w *Watch, _ *Game, _ bool) { w.pace.step(1) }},
	timeSlower: {key: "-", on: keys(ebiten.KeyMinus, ebiten.KeyNumpadSubtract),
		label: "Slower", says: "Let time run slower, down to the pace of the water (-).",
		do: func(w *Watch, _ *Game, _ bool) { w.pace.step(-1) }},
	markContact: {key: "M", on: keys(ebiten.KeyM), help: "mark a contact with the next click",
		label: "Mark M", says: "The next click on the waterfall or the chart marks a contact (M).",
		do: func(w *Watch, g *Game, _ bool) {
			w.contacts.marking = !w.contacts.marking
			w.side.show(g, tabContacts)
		}},
	measureLength: {key: "1", on: keys(ebiten.KeyDigit1), help: "measure length, width, shadow: drag from end\nto end; on the chart with Shift held",
		label: "length", says: "A drag on the waterfall measures the length (1).",
		do: func(w *Watch, _ *Game, _ bool) { w.contacts.measure = "length" }},
	measureWidth: {key: "2", on: keys(ebiten.KeyDigit2),
		label: "width", says: "A drag on the waterfall measures the width (2).",
		do: func(w *Watch, _ *Game, _ bool) { w.contacts.measure = "width" }},
	measureShadow: {key: "3", on: keys(ebiten.KeyDigit3),
		label: "shadow", says: "A drag on the waterfall measures the shadow (3).",
		do: func(w *Watch, _ *Game, _ bool) { w.contacts.measure = "shadow" }},
	contactBefore: {key: ",", on: keys(ebiten.KeyComma), help: "previous contact, next contact",
		do: func(w *Watch, g *Game, _ bool) { w.goThroughContacts(g, -1) }},
	contactNext: {key: ".", on: keys(ebiten.KeyPeriod),
		do: func(w *Watch, g *Game, _ bool) { w.goThroughContacts(g, 1) }},
	nameContact: {key: "E", on: keys(ebiten.KeyE), help: "name, class of the chosen contact",
		do: func(w *Watch, g *Game, _ bool) { w.onContact(g, func(p *contactsPage) { p.editing = true }) }},
	classContact: {key: "O", on: keys(ebiten.KeyO),
		do: func(w *Watch, g *Game, _ bool) { w.onContact(g, func(p *contactsPage) { p.classing = !p.classing }) }},
	dropContact: {key: "Delete", on: keys(ebiten.KeyDelete), help: "drop the chosen contact",
		label: "Drop", says: "Remove the chosen contact (Delete): it is not one after all.",
		may: func(w *Watch) bool { return w.contacts.any() },
		do:  func(w *Watch, _ *Game, _ bool) { w.contacts.drop() }},
	undoContact: {key: "Z", on: keys(ebiten.KeyZ), shift: withoutShift, help: "undo, redo what was done to contacts",
		label: "Undo Z", says: "Undo what was last done to contacts (Z).",
		may: func(w *Watch) bool { return w.view.CanUndo },
		do:  func(w *Watch, _ *Game, _ bool) { w.contacts.undo() }},
	redoContact: {key: "Shift + Z", on: keys(ebiten.KeyZ), shift: withShift,
		label: "Redo", says: "Redo what was undone (Shift + Z).",
		may: func(w *Watch) bool { return w.view.CanRedo },
		do:  func(w *Watch, _ *Game, _ bool) { w.contacts.redo() }},
	nextChannel: {key: "C", on: keys(ebiten.KeyC), help: "next sonar channel, all of them",
		label: "Channel", says: "Show and set the next frequency of the sonar, if it has others (C; X shows all).",
		may: func(w *Watch) bool { return w.fall.several() },
		do:  func(w *Watch, _ *Game, _ bool) { w.fall.nextChannel() }},
	allChannels: {key: "X", on: keys(ebiten.KeyX),
		may: func(w *Watch) bool { return w.fall.several() },
		do:  func(w *Watch, _ *Game, _ bool) { w.fall.all = !w.fall.all }},
	nextColours: {key: "V", on: keys(ebiten.KeyV), help: "next colours of the sonar pictures",
		label: "Next", says: "The next colours of the sonar pictures (V).",
		do: func(_ *Watch, g *Game, _ bool) { g.Change(func(s *Settings) { s.Ramp = nextRamp(s.Ramp) }) }},
	darker: {key: "U", on: keys(ebiten.KeyU), repeats: true, help: "sonar pictures darker, brighter; with Shift\nless, more contrast",
		do: func(w *Watch, g *Game, shifted bool) { w.fall.adjust(g, -1, shifted) }},
	brighter: {key: "I", on: keys(ebiten.KeyI), repeats: true,
		do: func(w *Watch, g *Game, shifted bool) { w.fall.adjust(g, 1, shifted) }},
	asRecorded: {key: "A", on: keys(ebiten.KeyA), help: "waterfall levelled, or as recorded",
		label: "As recorded", says: "Show the waterfall as the gain recorded it, not levelled over range and angle (A). The mosaic is always levelled.",
		do: func(w *Watch, _ *Game, _ bool) { w.fall.asRecorded = !w.fall.asRecorded }},
	dayOrNight: {key: "T", on: keys(ebiten.KeyT), help: "day or night",
		label: "Other", says: "Day or night colours (T).",
		do: func(_ *Watch, g *Game, _ bool) { g.Change(func(s *Settings) { s.Theme = otherTheme(s.Theme) }) }},
	nextPage: {key: "Tab", on: keys(ebiten.KeyTab), help: "next page of the side panel",
		do: func(w *Watch, g *Game, _ bool) { w.side.show(g, (w.side.tab+1)%len(tabNames)) }},
	followVessel: {key: "J", on: keys(ebiten.KeyJ), help: "let the chart follow the vessel",
		do: func(w *Watch, _ *Game, _ bool) { w.chart.follow, w.chart.placed = !w.chart.follow, true }},
	wholePlan: {key: "K", on: keys(ebiten.KeyK), help: "show the whole plan on the chart",
		do: func(w *Watch, _ *Game, _ bool) { w.chart.follow = false; w.chart.fit() }},
	wheel:         {key: "Wheel", help: "scroll the waterfall back; zoom the chart"},
	wheelWithCtrl: {key: "Ctrl + wheel", help: "zoom the waterfall about the pointer"},
	dragRight:     {key: "Right drag", help: "move the waterfall; the middle button too"},
	wholeSwath: {key: "W", on: keys(ebiten.KeyW), help: "the whole swath again; so does a double click",
		do: func(w *Watch, _ *Game, _ bool) { w.fall.wholeSwath() }},
	newestPings: {key: "End", on: keys(ebiten.KeyEnd), help: "back to the newest pings of the waterfall",
		do: func(w *Watch, _ *Game, _ bool) { w.fall.live() }},
	lineStart: {key: "P", on: keys(ebiten.KeyP), help: "back to where a line begins; with Shift forward",
		do: func(w *Watch, _ *Game, shifted bool) {
			by := -1
			if shifted {
				by = 1
			}
			w.fall.lineStart(by)
		}},
	underLoupe: {key: "Q", on: keys(ebiten.KeyQ), help: "what is under the pointer larger",
		do: func(w *Watch, _ *Game, _ bool) { w.fall.loupe = !w.fall.loupe }},
	clickRight: {key: "Right click", help: "on the chart: steer for that point"},
	goToDesk: {key: "D", on: keys(ebiten.KeyD), help: "to the desk, with the log off",
		label: "Desk D", says: "To the desk, with the log off: look through the record, put it right, make the mosaic again, report (D). Time stands still there.",
		may: func(w *Watch) bool { return w.toDesk != nil },
		do:  func(w *Watch, g *Game, _ bool) { w.toDesk(g) }},
	endExercise: {key: "F9, F9", on: keys(ebiten.KeyF9), help: "end the exercise",
		label: "End F9", says: "End the watch (F9, twice): then there is the desk, and the debrief. Nothing sails any more.",
		do: func(w *Watch, g *Game, _ bool) { w.end(g) }},
	leaveWatch: {key: "Leave", help: "keep the session, to resume it later",
		label: "Leave", says: "Leave the watch. It is kept, and you can resume it later.",
		do: func(w *Watch, g *Game, _ bool) { g.Go(chooseAt(w.brief.Name)) }},
	cancel: {key: "Esc", on: keys(ebiten.KeyEscape), help: "stop marking or measuring",
		do: func(w *Watch, _ *Game, _ bool) { w.contacts.marking, w.pointer = false, pointer{} }},
}

const gainSays = "gain for the whole record, with the log off ([ and ]). Too much cuts off what is bright, too little loses what is weak."

func keys(k ...ebiten.Key) []ebiten.Key { return k }

// metres is how much cable a key winds.
func metres(shifted bool) float64 {
	if shifted {
		return 5
	}
	return 1
}
