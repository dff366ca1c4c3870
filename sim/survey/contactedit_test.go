package survey

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"dryline/vessel/nav/geodesy"
)

// north is a desk with one line run due north over a flat floor, the fish 6 m
// up, a ping every half metre, numbered from 100.
func north(t *testing.T) *Desk {
	t.Helper()
	d := new(Desk)
	r := Recorder{RangeScale: 50, Samples: 1000, Channels: []string{"a"}}
	line := newLineRecord("L1", geodesy.Track{BY: 100}, r)
	for i := range 200 {
		line.addPing(Ping{Number: uint64(100 + i), Fix: Fix{Time: float64(i), Y: float64(i) / 2}}, 6, true)
	}
	d.Recorder, d.Lines = r, []*LineRecord{line}
	return d
}

// A pick of the waterfall and the ground belong together by Pythagoras, on a
// flat floor: 10 m of slant range from 6 m up is 8 m over the ground.
func TestGroundAtAndBack(t *testing.T) {
	d := north(t)
	p := &d.Lines[0].Pings[60]
	for _, test := range []struct {
		name      string
		starboard bool
		slant     float64
		x, y      float64
		ok        bool
	}{
		{"starboard", true, 10, 8, 30, true}, {"port", false, 10, -8, 30, true},
		{"in the water", true, 5.9, 0, 0, false}, {"at the first return", true, 6, 0, 0, false},
	} {
		x, y, ok := p.GroundAt(test.starboard, test.slant)
		if ok != test.ok || math.Abs(x-test.x) > 1e-9 || math.Abs(y-test.y) > 1e-9 {
			t.Errorf("%s: got (%.3f, %.3f) %v, want (%g, %g) %v", test.name, x, y, ok, test.x, test.y, test.ok)
		}
		if !ok {
			continue
		}
		s := d.Sightings(x, y)
		if len(s) != 1 || s[0].Index != 60 || s[0].Starboard != test.starboard || math.Abs(s[0].Slant-test.slant) > 1e-9 {
			t.Errorf("%s: back from the ground got %+v", test.name, s)
		}
	}
	if s := d.Sightings(60, 30); len(s) != 0 {
		t.Errorf("a point beyond the swath is seen: %+v", s)
	}
	faulty := p.Fix
	faulty.Fault = "no fix"
	if _, _, ok := GroundAt(faulty, 6, true, 10); ok {
		t.Error("a pick is placed by a fix not to be trusted")
	}
}

func TestMarkByPing(t *testing.T) {
	d := north(t)
	n, err := d.Mark(8, 30, 160, 999)
	if err != nil {
		t.Fatal(err)
	}
	want := Contact{
		Number: n, Name: "C1", Class: Unclassified, ByHand: true, Lines: []string{"L1"}, Side: "starboard",
		Time: 60, Ping: 160, X: 8, Y: 30, Range: 8, Altitude: 6,
		Passes: []Pass{{Line: "L1", Run: 1, ByHand: true, Mark: Mark{Ping: 160, Starboard: true, Slant: 10}}},
	}
	if got := d.Contacts[0]; !reflect.DeepEqual(got, want) {
		t.Errorf("got %+v, want %+v", got, want)
	}
	if n, _ = d.Mark(3, 3, 0, 7); d.Contacts[1].Time != 7 || d.Contacts[1].Side != "" || n != 2 {
		t.Errorf("from the mosaic: got %+v", d.Contacts[1])
	}
}

// Height from shadow by similar triangles, H = h S/(G+S) (IHO C-13, chapter 4,
// 2.3.11.4): a shadow from 12 to 18 m of ground range with the fish 6 m up is
// of a thing 2 m high. From the mosaic it is the same, if the shadow points
// away from the line, and unknown if not.
func TestMeasureShadow(t *testing.T) {
	for _, test := range []struct {
		name   string
		ping   uint64 // of the mark
		x, x2  float64
		y2     float64
		height float64
	}{
		{"by the mark's ping", 160, 12, 18, 30, 2},
		{"from the tip inwards", 160, 18, 12, 30, 2},
		{"on the mosaic", 0, 12, 18, 30, 2},
		{"on the mosaic, to port", 0, -12, -18, 30, 2},
		{"on the mosaic, along the line", 0, 12, 12, 36, 0},
	} {
		d := north(t)
		n, err := d.Mark(test.x, 30, test.ping, 0)
		if err != nil {
			t.Fatal(err)
		}
		if err := d.Measure(n, Shadow, test.x, 30, test.x2, test.y2, 0, 0); err != nil {
			t.Fatal(err)
		}
		if c := d.Contacts[0]; c.Shadow != 6 || math.Abs(c.Height-test.height) > 1e-9 {
			t.Errorf("%s: got shadow %.2f, height %.3f m, want 6 and %g", test.name, c.Shadow, c.Height, test.height)
		}
	}
}

// Everything done by hand is undone step by step and done again, and numbers
// are not given twice.
func TestUndoAndRedo(t *testing.T) {
	d := north(t)
	steps := []func() error{
		func() error { _, err := d.Mark(8, 30, 160, 0); return err },
		func() error { return d.Rename(1, "wreck of a barge") },
		func() error { return d.Classify(1, "wreck") },
		func() error { return d.Measure(1, Length, 8, 30, 8, 42, 0, 0) },
		func() error { return d.Measure(1, Shadow, 12, 30, 18, 30, 0, 0) },
		func() error { return d.Describe(1, "a long echo with ribs") },
		func() error { return d.Rate(1, 0.7) },
		func() error { return d.Decide(1, Dismiss, "charted") },
		func() error { return d.Decide(1, Investigate, "") },
		func() error { return d.Remark(1, "look again at slack water") },
		func() error { return d.Sight(1, 8, 31, 162) },
		func() error { _, err := d.Mark(-8, 40, 0, 5); return err },
		func() error { return d.Delete(1) },
	}
	states := [][]Contact{nil}
	for i, step := range steps {
		if err := step(); err != nil {
			t.Fatalf("step %d: %v", i, err)
		}
		states = append(states, append([]Contact(nil), d.Contacts...))
	}
	same := func(when string, want []Contact) {
		t.Helper()
		if len(d.Contacts)+len(want) > 0 && !reflect.DeepEqual(d.Contacts, want) {
			t.Fatalf("%s: got %+v, want %+v", when, d.Contacts, want)
		}
	}
	for i := len(steps) - 1; i >= 0; i-- {
		if err := d.Undo(); err != nil {
			t.Fatal(err)
		}
		same("undo", states[i])
	}
	if d.CanUndo() || d.Undo() == nil {
		t.Error("there is still something to undo")
	}
	for i := range steps {
		if err := d.Redo(); err != nil {
			t.Fatal(err)
		}
		same("redo", states[i+1])
	}
	if d.CanRedo() || d.Redo() == nil {
		t.Error("there is still something to redo")
	}
	d.Delete(2)
	if n, _ := d.Mark(0, 20, 0, 0); n != 3 {
		t.Errorf("the next contact is number %d, want 3", n)
	}
}

// Undoing a name leaves what the lookout found since; a mark by hand is not
// marked again, but the line it was seen on as well is noted.
func TestHandAndLookout(t *testing.T) {
	d := north(t)
	d.correlate([]Contact{{Lines: []string{"L1"}, X: 10, Y: 50, Length: 2}})
	d.Rename(1, "boulder")
	d.correlate([]Contact{{Lines: []string{"L2"}, X: 11, Y: 50, Length: 3}})
	if err := d.Undo(); err != nil {
		t.Fatal(err)
	}
	if c := d.Contacts[0]; c.Name != "C1" || len(c.Lines) != 2 || c.Length != 3 || c.X != 10.5 {
		t.Errorf("got %+v", c)
	}
	d.Mark(30, 70, 0, 0)
	d.correlate([]Contact{{Lines: []string{"L2"}, X: 32, Y: 70, Length: 1}, {Lines: []string{"L2"}, X: 35, Y: 70, Length: 1}})
	if len(d.Contacts) != 3 || d.Contacts[1].X != 30 || len(d.Contacts[1].Lines) != 1 || d.Contacts[2].X != 35 {
		t.Errorf("got %+v, want the mark left alone and the second thing marked", d.Contacts[1:])
	}
	d.Measure(1, Length, 0, 0, 0, 7, 0, 0)
	d.correlate([]Contact{{Lines: []string{"L3"}, X: 10, Y: 50, Length: 20}})
	if c := d.Contacts[0]; c.Length != 7 || len(c.Lines) != 3 {
		t.Errorf("the lookout measured over a person: %+v", c)
	}
}

func TestHandFaults(t *testing.T) {
	for _, test := range []struct {
		name string
		do   func(d *Desk) error
		want string
	}{
		{"ping off the log", func(d *Desk) error { _, err := d.Mark(8, 30, 99, 0); return err }, "ping 99 is not on the log"},
		{"too far", func(d *Desk) error { _, err := d.Mark(80, 30, 160, 0); return err }, "beyond its range scale of 50 m"},
		{"no contact", func(d *Desk) error { return d.Delete(7) }, "no contact has the number 7"},
		{"class", func(d *Desk) error { return d.Classify(1, "fish") }, `"fish" is no class`},
		{"no name", func(d *Desk) error { return d.Rename(1, "  ") }, "2 characters"},
		{"long name", func(d *Desk) error { return d.Rename(1, strings.Repeat("é", 41)) }, "41 characters"},
		{"control character", func(d *Desk) error { return d.Rename(1, "a\nb") }, "cannot be printed"},
		{"no length", func(d *Desk) error { return d.Measure(1, Length, 3, 3, 3, 3, 0, 0) }, "the points are 0 m apart"},
		{"no reason", func(d *Desk) error { return d.Decide(1, Dismiss, " ") }, "for a reason"},
		{"no action", func(d *Desk) error { return d.Decide(1, "ignore", "") }, `"ignore" is no action`},
		{"too sure", func(d *Desk) error { return d.Rate(1, 1.01) }, "want 0 to 1"},
		{"sight off the log", func(d *Desk) error { return d.Sight(1, 0, 0, 7) }, "ping 7 is not on the log"},
		{"long remark", func(d *Desk) error { return d.Remark(1, strings.Repeat("é", 401)) }, "401 characters"},
		{"remark of two lines", func(d *Desk) error { return d.Describe(1, "a\nb") }, "cannot be printed"},
		{"no extent", func(d *Desk) error { return d.Measure(1, "girth", 3, 3, 4, 3, 0, 0) }, `"girth" is not measured`},
	} {
		d := north(t)
		if _, err := d.Mark(8, 30, 160, 0); err != nil {
			t.Fatal(err)
		}
		before := append([]Contact(nil), d.Contacts...)
		err := test.do(d)
		if err == nil || !strings.Contains(err.Error(), test.want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: got error %v, want one line with %q", test.name, err, test.want)
		}
		if !reflect.DeepEqual(d.Contacts, before) || len(d.changes) != 1 {
			t.Errorf("%s: it left a trace", test.name)
		}
	}
}
