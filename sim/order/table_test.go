package order_test

import (
	"slices"
	"testing"

	"dryline/sim/order"
	"dryline/sim/survey"
)

// Every order says what it does, once.
func TestTheTableIsWhole(t *testing.T) {
	seen := map[order.Do]bool{}
	for _, r := range order.Table {
		if r.Do == "" || r.Says == "" || seen[r.Do] {
			t.Errorf("row %q, %q", r.Do, r.Says)
		}
		seen[r.Do] = true
	}
}

// What is asked whether it would be refused is answered as giving it would be,
// and asking changes nothing.
func TestRefusalIsWhatGivingComesTo(t *testing.T) {
	s := begin(t, 1)
	channel := s.Desk.Recorder.Channels[0]
	refused := 0
	for i, c := range []order.Command{
		{Do: order.Mark, X: 10, Y: 10}, {Do: order.Mark, X: 1e6}, {Do: order.Mark, X: 10, Y: 10, Ping: 3}, {Do: order.Measure, Number: 1, Text: "length", X2: 3},
		{Do: order.Measure, Number: 1, Text: "girth", X2: 3}, {Do: order.NameContact, Number: 4, Text: "x"}, {Do: order.NameContact, Number: 1, Text: "x"},
		{Do: order.ClassContact, Number: 1, Text: "whale"}, {Do: order.RedoContact}, {Do: order.UndoContact}, {Do: order.RedoContact}, {Do: order.DeleteContact, Number: 1},
		{Do: order.Range, Value: 40}, {Do: order.Range, Value: 4000}, {Do: order.Gain, Text: channel, Value: 3}, {Do: "fly"}, {Do: order.Cable, Value: -1},
		{Do: order.LogOn, Line: "nowhere"}, {Do: order.LogOn, Line: s.Exercise.Lines[0].Name}, {Do: order.Range, Value: 50}, {Do: order.TVG, Text: channel, Value: 20},
		{Do: order.Finish}, {Do: order.Speed, Value: 2},
	} {
		contacts, orders, scale := slices.Clone(s.Desk.Contacts), len(s.Commands), s.Desk.Recorder.RangeScale
		undo, redo := s.Desk.CanUndo(), s.Desk.CanRedo()
		says := s.Refusal(c)
		if !slices.EqualFunc(contacts, s.Desk.Contacts, func(a, b survey.Contact) bool { return a.Name == b.Name && a.Length == b.Length && a.Class == b.Class }) ||
			len(s.Commands) != orders || s.Desk.Recorder.RangeScale != scale || s.Desk.CanUndo() != undo || s.Desk.CanRedo() != redo {
			t.Errorf("order %d, %+v: asking changed something", i, c)
		}
		err := s.Give(c)
		if (says == nil) != (err == nil) || says != nil && says.Error() != err.Error() {
			t.Errorf("order %d, %+v: asked %v, given %v", i, c, says, err)
		}
		if err != nil {
			refused++
		}
	}
	if refused != 13 {
		t.Errorf("%d refused, want 13", refused)
	}
}
