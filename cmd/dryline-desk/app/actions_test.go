package app

import (
	"fmt"
	"strings"
	"testing"

	"dryline/sim/order"

	"github.com/ebitenui/ebitenui/widget"
)

// Every key does one thing, stands in the overlay, and is named by what its button
// says.
func TestEveryActionIsTold(t *testing.T) {
	_, w := fallWatch(t, "first-line", 1)
	overlay := map[string]bool{}
	for _, row := range w.Keys() {
		for _, key := range strings.FieldsFunc(strings.ReplaceAll(row.Name, " and ", ", "), func(r rune) bool { return r == ' ' }) {
			overlay[strings.TrimSuffix(key, ",")] = true
		}
		overlay[row.Name] = true
	}
	taken := map[string]deed{}
	for i := range actions {
		a := &actions[i]
		if a.key == "" || a.help == "" && i == 0 {
			t.Errorf("action %d has no key or no help: %+v", i, a)
		}
		for _, part := range strings.Fields(a.key) {
			if part = strings.TrimSuffix(part, ","); part != "" && part != "+" && !overlay[part] && !overlay[a.key] {
				t.Errorf("action %d: the overlay does not name %q", i, a.key)
			}
		}
		if a.label != "" && a.says == "" || a.label == "" && a.says != "" {
			t.Errorf("action %d: its button is %q and says %q", i, a.label, a.says)
		}
		if key, _, _ := strings.Cut(a.key, ","); a.label != "" && a.on != nil && !strings.Contains(a.says, strings.TrimPrefix(key, ",")) {
			t.Errorf("action %d: what its button says, %q, does not name the key %q", i, a.says, a.key)
		}
		if held := deed(i) == rudderPort || deed(i) == rudderStarboard; a.on != nil && a.do == nil && !held {
			t.Errorf("action %d has keys and does nothing", i)
		}
		for _, k := range a.on {
			for _, shifted := range []bool{false, true} {
				if a.shift == withShift && !shifted || a.shift == withoutShift && shifted {
					continue
				}
				id := fmt.Sprint(k, shifted)
				if before, ok := taken[id]; ok {
					t.Errorf("key %v, shift %v: action %d and action %d", k, shifted, before, i)
				}
				taken[id] = deed(i)
			}
		}
	}
	if len(taken) < 60 {
		t.Errorf("%d keys do something, want more", len(taken))
	}
}

// Every action that has a button is there to be pressed, on the watch or a page of
// it, and its button can be pressed when the action is allowed.
func TestEveryActionHasItsButton(t *testing.T) {
	for _, exercise := range []string{"first-line", "disused-anchorage"} {
		g, w := fallWatch(t, exercise, 2)
		w.contacts.chosen = 1
		shown := map[string][]bool{} // by label, whether it can be pressed
		for tab := range tabCount {
			w.side.tab = tab
			g.ui.Container = w.Build(g, g.area())
			g.ui.Update()
			eachWidget(g.ui.Container, func(c widget.PreferredSizeLocateableWidget, label string) {
				if b, ok := c.(*widget.Button); ok {
					shown[label] = append(shown[label], !b.GetWidget().Disabled)
				}
			})
		}
		for i := range actions {
			a := &actions[i]
			if a.label == "" {
				continue
			}
			can, ok := shown[a.label]
			if !ok {
				t.Errorf("%s: there is no button %q", exercise, a.label)
				continue
			}
			if a.may != nil && can[0] != a.allowed(w.Watch) {
				t.Errorf("%s: %q can be pressed %v, want %v", exercise, a.label, can[0], a.allowed(w.Watch))
			}
		}
	}
}

// What is done is what the table says: each of its orders reaches the log.
func TestActionsGiveTheirOrders(t *testing.T) {
	g, w, h := begun(t, newShelf())
	w.pace.set(1, true)
	for _, row := range []struct {
		do    deed
		shift bool
		want  order.Command
	}{
		{payOut, true, order.Command{Do: order.Cable, Value: 21}},
		{haulIn, false, order.Command{Do: order.Cable, Value: 20}},
		{speedUp, false, order.Command{Do: order.Speed}},
		{holdHeading, false, order.Command{Do: order.SteerHeading}},
		{rangeUp, false, order.Command{Do: order.Range, Value: 100}},
		{rangeDown, false, order.Command{Do: order.Range, Value: 75}},
		{gainDown, false, order.Command{Do: order.Gain}},
		{toggleLog, false, order.Command{Do: order.LogOn, Line: "A"}},
		{toggleLog, false, order.Command{Do: order.LogOff}},
	} {
		actions[row.do].do(w.Watch, g, row.shift)
		h.update(t, g, 0)
		all := newestOrder(t, w)
		if all.Do != row.want.Do || row.want.Value != 0 && all.Value != row.want.Value || all.Line != row.want.Line {
			t.Errorf("action %d gave %+v, want %+v", row.do, all, row.want)
		}
	}
}

func newestOrder(t *testing.T, w *Duty) order.Command {
	t.Helper()
	l, err := order.ReadLog(strings.NewReader(string(logOf(t, w))))
	if err != nil {
		t.Fatal(err)
	}
	return l.Commands[len(l.Commands)-1]
}

// Switched off, the coach is not heard from that moment, and is again when switched
// on.
func TestTheCoachIsSwitchedOffAndOn(t *testing.T) {
	g, w := fallWatch(t, "first-line", 2)
	w.give(order.Command{Do: order.Cable, Value: 60})
	for range 40 {
		w.crew.Pass(1, 1e12)
	}
	w.view = w.crew.View()
	w.side.tab = tabDesk
	for _, on := range []bool{true, false, true} {
		g.Settings.Hints = on
		if said := w.Foot(g).Hint != ""; said != on {
			t.Errorf("switched on %v: %v is said", on, said)
		}
	}
}
