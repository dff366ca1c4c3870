package app

import (
	"fmt"
	"strings"

	"dryline/cmd/dryline-desk/look"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// action is something that can be done on watch. Keys, buttons and the overlay of
// the keys are all made of the table of them.
type action struct {
	key     string // as it is lettered; empty joins the row of the overlay before
	on      []ebiten.Key
	shift   shift
	repeats bool   // while the key is held
	help    string // what the overlay says, in rows; the next action without any shares them

	label  string             // of its button, if it has one
	says   string             // what the foot of the window says of the button
	figure func(w *Watch) any // in what it says, if there is one

	may func(w *Watch) bool // nil: always
	do  func(w *Watch, g *Game, shifted bool)
}

// shift says whether an action needs the shift key.
type shift int

const (
	shiftOrNot shift = iota
	withoutShift
	withShift
)

// allowed reports whether an action can be done now.
func (a *action) allowed(w *Watch) bool { return a.may == nil || a.may(w) }

// pressed reports a key of an action pressed or, where that counts, repeating.
func (a *action) pressed(shifted bool) bool {
	if a.shift == withShift && !shifted || a.shift == withoutShift && shifted {
		return false
	}
	for _, k := range a.on {
		if justPressed(k) || a.repeats && again(k) {
			return true
		}
	}
	return false
}

// held reports a key of an action held down.
func (a *action) held() bool {
	for _, k := range a.on {
		if ebiten.IsKeyPressed(k) {
			return true
		}
	}
	return false
}

// keys does what the keys ask for, one thing a frame.
func (w *Watch) keys(g *Game) {
	if g.Typing() {
		return
	}
	w.helm.hold(actions[rudderPort].held() || w.rail.heldPort, actions[rudderStarboard].held() || w.rail.heldStarboard)
	shifted := shiftHeld()
	for i := range actions {
		if a := &actions[i]; a.do != nil && a.pressed(shifted) {
			if a.allowed(w) {
				a.do(w, g, shifted)
			}
			return
		}
	}
}

// button is the button of an action.
func (w *Watch) button(g *Game, d deed, e look.Emphasis) *widget.Button {
	return w.labelled(g, d, actions[d].label, e)
}

// labelled is the button of an action under a label of its own.
func (w *Watch) labelled(g *Game, d deed, label string, e look.Emphasis) *widget.Button {
	a := &actions[d]
	says := a.says
	if a.figure != nil {
		says = fmt.Sprintf(says, a.figure(w))
	}
	return explained(g, able(g.Look.Button(label, e, func() { a.do(w, g, false) }), a.allowed(w)), says)
}

// Keys implements [Screen].
func (w *Watch) Keys() []Key {
	var rows []Key
	named := 0 // the row with the key of the last help
	for i := range actions {
		a := &actions[i]
		if a.help == "" { // it shares the help of the one before
			rows[named].Name += between(rows[named].Name) + a.key
			continue
		}
		named = len(rows)
		for n, says := range strings.Split(a.help, "\n") {
			if n == 0 {
				rows = append(rows, Key{a.key, says})
			} else {
				rows = append(rows, Key{"", says})
			}
		}
	}
	return rows
}

// between stands between the keys of a row.
func between(keys string) string {
	if keys == "," {
		return " and "
	}
	return ", "
}

// goThroughContacts chooses the contact so many after the one chosen.
func (w *Watch) goThroughContacts(g *Game, by int) {
	w.side.show(g, tabContacts)
	if c, ok := w.contacts.next(by); ok {
		w.choose(c)
	}
}
