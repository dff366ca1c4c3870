package order_test

import (
	"bytes"
	"dryline/sim/exercise"
	"slices"
	"strings"
	"testing"

	"dryline/sim/order"
	"dryline/sim/simtest"
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
	ex := simtest.Small(t)
	ex.Source = []byte("title: <small> & sound\n")
	var w calls
	j, err := order.NewLogWriter(&w, order.HeadOf(ex, exercise.SeedsOf(7), order.Attempt{}))
	if err != nil {
		t.Fatal(err)
	}
	for _, do := range []func() error{
		func() error { return j.Command(order.Command{Do: order.Speed, Value: 2}) },
		func() error { return j.Reached(40) },
		func() error { return j.Command(order.Command{Tick: 55, Do: order.LogOn, Line: "L1"}) },
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
			l, err := order.ReadLog(strings.NewReader(string(w[:i+1].all()) + torn))
			if err != nil {
				t.Fatalf("after record %d and %q: %v", i, torn, err)
			}
			if len(l.Commands) != want[i].orders || l.Ticks != want[i].ticks || l.Reason != order.ReasonTruncated || l.Seeds.One != 7 || !bytes.Equal(l.Source, ex.Source) {
				t.Errorf("after record %d and %q: %d orders, tick %d, %s; want %+v, cut off", i, torn, len(l.Commands), l.Ticks, l.Reason, want[i])
			}
		}
	}
}

// How far a session got never goes back.
func TestReachedNeverGoesBack(t *testing.T) {
	head, _, _ := strings.Cut(order.GoodLog, "\n")
	for _, test := range []struct{ records, fault string }{
		{`{"reached":10}` + "\n" + `{"reached":9}`, "line 3: reached: 9 is out of range (want 10 to"},
		{`{"reached":10}` + "\n" + `{"tick":9,"do":"log_off"}`, "line 3: tick: 9 is out of range"},
		{`{"reached":99999999999}`, "line 2: reached: 99999999999 is out of range"},
		{`{"reached":-1}`, "line 2: reached: -1 is out of range"},
		{`{"reached":1.5}`, "line 2"},
	} {
		if _, err := order.ReadLog(strings.NewReader(head + "\n" + test.records + "\n")); err == nil || !strings.Contains(err.Error(), test.fault) {
			t.Errorf("%q: got error %v, want one with %q", test.records, err, test.fault)
		}
	}
}
