package sim

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"dryline/sim/survey"
)

// calls notes every call of Write.
type calls [][]byte

func (w *calls) Write(p []byte) (int, error) {
	*w = append(*w, slices.Clone(p))
	return len(p), nil
}

func (w calls) all() []byte { return bytes.Join(w, nil) }

// A journal is a record a call, each a whole line, and reads as a log that was
// cut off where it got to: at every record's end, and in the middle of one up to
// the one before.
func TestJournalIsReadUpToItsLastRecord(t *testing.T) {
	ex := small(t)
	ex.Source, ex.Hash = []byte("title: <small> & sound\n"), "none"
	s, err := New(ex, 7)
	if err != nil {
		t.Fatal(err)
	}
	var w calls
	j, err := NewLogWriter(&w, s)
	if err != nil {
		t.Fatal(err)
	}
	for _, do := range []func() error{
		func() error { return j.Command(Command{Do: Speed, Value: 2}) },
		func() error { return j.Reached(40) },
		func() error { return j.Command(Command{Tick: 55, Do: LogOn, Line: "L1"}) },
		func() error { return j.Reached(55) },
		func() error { return j.Reached(60) },
	} {
		if err := do(); err != nil {
			t.Fatal(err)
		}
	}
	want := []struct {
		orders int
		ticks  int64
	}{{0, 0}, {1, 0}, {1, 40}, {2, 55}, {2, 55}, {2, 60}}
	if len(w) != len(want) {
		t.Fatalf("%d calls for %d records", len(w), len(want))
	}
	for i := range w {
		if w[i][len(w[i])-1] != '\n' || bytes.Count(w[i], []byte{'\n'}) != 1 {
			t.Errorf("record %d is no line: %q", i, w[i])
		}
		for _, torn := range []string{"", string(w[min(i+1, len(w)-1)][:9])} {
			l, err := ReadLog(strings.NewReader(string(w[:i+1].all()) + torn))
			if err != nil {
				t.Fatalf("after record %d and %q: %v", i, torn, err)
			}
			if len(l.Commands) != want[i].orders || l.Ticks != want[i].ticks || l.Reason != ReasonTruncated || l.Seed != 7 || !bytes.Equal(l.Source, ex.Source) {
				t.Errorf("after record %d and %q: %d orders, tick %d, %s; want %+v, cut off", i, torn, len(l.Commands), l.Ticks, l.Reason, want[i])
			}
		}
	}
}

// How far a session got never goes back.
func TestReachedNeverGoesBack(t *testing.T) {
	head, _, _ := strings.Cut(goodLog, "\n")
	for _, test := range []struct{ records, fault string }{
		{`{"reached":10}` + "\n" + `{"reached":9}`, "line 3: reached: 9 is out of range (want 10 to"},
		{`{"reached":10}` + "\n" + `{"tick":9,"do":"log_off"}`, "line 3: tick: 9 is out of range"},
		{`{"reached":99999999999}`, "line 2: reached: 99999999999 is out of range"},
		{`{"reached":-1}`, "line 2: reached: -1 is out of range"},
		{`{"reached":1.5}`, "line 2"},
	} {
		if _, err := ReadLog(strings.NewReader(head + "\n" + test.records + "\n")); err == nil || !strings.Contains(err.Error(), test.fault) {
			t.Errorf("%q: got error %v, want one with %q", test.records, err, test.fault)
		}
	}
}

// What is asked whether it would be refused is answered as giving it would be,
// and asking changes nothing.
func TestRefusalIsWhatGivingComesTo(t *testing.T) {
	s, err := New(small(t), 1)
	if err != nil {
		t.Fatal(err)
	}
	channel := s.Desk.Recorder.Channels[0]
	refused := 0
	for i, c := range []Command{
		{Do: Mark, X: 10, Y: 10}, {Do: Mark, X: 1e6}, {Do: Mark, X: 10, Y: 10, Ping: 3}, {Do: Measure, Number: 1, Text: "length", X2: 3},
		{Do: Measure, Number: 1, Text: "girth", X2: 3}, {Do: NameContact, Number: 4, Text: "x"}, {Do: NameContact, Number: 1, Text: "x"},
		{Do: ClassContact, Number: 1, Text: "whale"}, {Do: RedoContact}, {Do: UndoContact}, {Do: RedoContact}, {Do: DeleteContact, Number: 1},
		{Do: Range, Value: 40}, {Do: Range, Value: 4000}, {Do: Gain, Text: channel, Value: 3}, {Do: "fly"}, {Do: Cable, Value: -1},
		{Do: LogOn, Line: "nowhere"}, {Do: LogOn, Line: s.Exercise.Lines[0].Name}, {Do: Range, Value: 50}, {Do: TVG, Text: channel, Value: 20},
		{Do: Finish}, {Do: Speed, Value: 2},
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
