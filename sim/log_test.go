package sim

import (
	"bytes"
	"strings"
	"testing"

	"dryline/sonar/waterfall"

	"github.com/google/go-cmp/cmp"
)

// fly runs the small exercise to its end in groups of n ticks.
func fly(t *testing.T, n, workers int) *Session {
	t.Helper()
	ex := small(t)
	ex.Source, ex.Hash = []byte("title: small\n"), "none"
	s, err := New(ex, 1)
	if err != nil {
		t.Fatal(err)
	}
	s.Workers = workers
	s.AttachMate()
	for !s.Done() {
		s.Advance(n)
	}
	return s
}

// fingerprint is everything the desk made, as bytes to compare.
func fingerprint(t *testing.T, s *Session) (mosaic []byte, contacts any, track any) {
	t.Helper()
	p, ok := s.Desk.Mosaic.Render(waterfall.Tone)
	if !ok {
		t.Fatal("the mosaic is empty")
	}
	return p.Gray.Pix, s.Desk.Contacts, s.Desk.Track
}

func same(t *testing.T, what string, a, b *Session) {
	t.Helper()
	ma, ca, ta := fingerprint(t, a)
	mb, cb, tb := fingerprint(t, b)
	if !bytes.Equal(ma, mb) {
		t.Errorf("%s: the mosaics differ", what)
	}
	if d := cmp.Diff(ca, cb); d != "" {
		t.Errorf("%s: contacts differ:\n%s", what, d)
	}
	if d := cmp.Diff(ta, tb); d != "" {
		t.Errorf("%s: watch logs differ:\n%s", what, d)
	}
	if d := cmp.Diff(a.Truth.Pings, b.Truth.Pings); d != "" {
		t.Errorf("%s: truths differ:\n%s", what, d)
	}
	if d := cmp.Diff(a.Commands, b.Commands); d != "" {
		t.Errorf("%s: commands differ:\n%s", what, d)
	}
	if a.Digest() != b.Digest() {
		t.Errorf("%s: the digests differ", what)
	}
}

// However the ticks are grouped and whatever the number of workers, the
// outcome is the same; and the log replays to it.
func TestSameSessionHoweverItIsRun(t *testing.T) {
	first := fly(t, 1<<20, 1)
	if len(first.Desk.Lines) != 2 {
		t.Fatalf("lines run: %d, want 2", len(first.Desk.Lines))
	}
	same(t, "one tick at a time, three workers", first, fly(t, 1, 3))

	var log bytes.Buffer
	if err := first.WriteLog(&log); err != nil {
		t.Fatal(err)
	}
	l, err := ReadLog(&log)
	if err != nil {
		t.Fatal(err)
	}
	again, err := New(first.Exercise, l.Seed)
	if err != nil {
		t.Fatal(err)
	}
	if err := again.Replay(l, nil); err != nil {
		t.Fatal(err)
	}
	same(t, "replay", first, again)
	if again.Ticks() != first.Ticks() || !again.Done() {
		t.Errorf("replay ended at tick %d (done %v), the session at %d", again.Ticks(), again.Done(), first.Ticks())
	}
}

const goodLog = `{"dryline_session":1,"exercise":"x","sha256":"00","seed":3,"source":"title: x\n"}
{"tick":0,"do":"speed","value":2}
{"tick":40,"do":"log_on","line":"L1"}
{"end":900,"reason":"interrupted"}
`

func TestReadLog(t *testing.T) {
	for _, test := range []struct {
		name, text string
		commands   int
		ticks      int64
		reason     string
		fault      string // part of the error, empty for none
	}{
		{"whole", goodLog, 2, 900, ReasonInterrupted, ""},
		{"cut before the end", goodLog[:len(goodLog)-36], 2, 40, ReasonTruncated, ""},
		{"cut inside a command", goodLog[:strings.Index(goodLog, "log_on")+3], 1, 0, ReasonTruncated, ""},
		{"cut inside the end", goodLog[:len(goodLog)-4], 2, 40, ReasonTruncated, ""},
		{"empty", "", 0, 0, "", "it is empty"},
		{"not a log", "hello\n", 0, 0, "", "line 1: not a session log"},
		{"broken in the middle", strings.Replace(goodLog, `"do":"speed"`, `"do":`, 1), 0, 0, "", "line 2"},
		{"unknown field", strings.Replace(goodLog, `"value":2`, `"speed":2`, 1), 0, 0, "", "line 2"},
		{"time runs back", strings.Replace(goodLog, `"tick":40`, `"tick":-1`, 1), 0, 0, "", "tick: -1 is out of range"},
		{"something after the end", goodLog + `{"tick":901,"do":"finish"}` + "\n", 0, 0, "", "line 5: something follows the end"},
		{"another format", strings.Replace(goodLog, `session":1`, `session":9`, 1), 0, 0, "", "dryline_session is 9 (want 1 to 2)"},
		{"endless", strings.Replace(goodLog, `"end":900`, `"end":99999999999`, 1), 0, 0, "", "end: 99999999999 is out of range"},
	} {
		l, err := ReadLog(strings.NewReader(test.text))
		if test.fault != "" {
			if err == nil || !strings.Contains(err.Error(), test.fault) {
				t.Errorf("%s: got error %v, want one with %q", test.name, err, test.fault)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s: %v", test.name, err)
			continue
		}
		if len(l.Commands) != test.commands || l.Ticks != test.ticks || l.Reason != test.reason {
			t.Errorf("%s: %d commands, %d ticks, %s; want %d, %d, %s", test.name, len(l.Commands), l.Ticks, l.Reason, test.commands, test.ticks, test.reason)
		}
	}
}

func FuzzReadLog(f *testing.F) {
	f.Add([]byte(goodLog))
	f.Add([]byte(goodLog[:90]))
	f.Add([]byte("{}\n{}\n"))
	f.Add([]byte(`{"dryline_session":1,"source":"a"}` + "\n" + `{"end":0,"reason":"finished"}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		l, err := ReadLog(bytes.NewReader(data))
		if err != nil {
			if strings.Count(err.Error(), "\n") > 0 {
				t.Errorf("the error takes more than a line: %q", err)
			}
			return
		}
		last := int64(0)
		for _, c := range l.Commands {
			if c.Tick < last {
				t.Fatalf("ticks run back: %d after %d", c.Tick, last)
			}
			last = c.Tick
		}
		if l.Ticks < last || l.Ticks > maxLogTicks {
			t.Fatalf("ends at %d, last command at %d", l.Ticks, last)
		}
	})
}

// A log of commands that make no sense for the exercise is refused, not run.
func TestReplayRefusesBadCommands(t *testing.T) {
	for _, c := range []Command{
		{Do: "fly"}, {Do: SteerLine, Line: "L9"}, {Do: Speed, Value: 400}, {Do: Cable, Value: -3}, {Do: Rudder, Value: 9},
	} {
		s, err := New(small(t), 1)
		if err != nil {
			t.Fatal(err)
		}
		if err := s.Replay(&Log{Commands: []Command{c}, Ticks: 10}, nil); err == nil {
			t.Errorf("%+v was carried out", c)
		}
	}
}
