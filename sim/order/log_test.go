package order

import (
	"bytes"
	"strings"
	"testing"
)

func TestReadLog(t *testing.T) {
	for _, test := range []struct {
		name, text string
		commands   int
		ticks      int64
		reason     string
		fault      string // part of the error, empty for none
	}{
		{"whole", GoodLog, 2, 900, ReasonInterrupted, ""},
		{"cut before the end", GoodLog[:len(GoodLog)-36], 2, 40, ReasonTruncated, ""},
		{"cut inside a command", GoodLog[:strings.Index(GoodLog, "log_on")+3], 1, 0, ReasonTruncated, ""},
		{"cut inside the end", GoodLog[:len(GoodLog)-4], 2, 40, ReasonTruncated, ""},
		{"empty", "", 0, 0, "", "it is empty"},
		{"not a log", "hello\n", 0, 0, "", "line 1: not a session log"},
		{"broken in the middle", strings.Replace(GoodLog, `"do":"speed"`, `"do":`, 1), 0, 0, "", "line 2"},
		{"unknown field", strings.Replace(GoodLog, `"value":2`, `"speed":2`, 1), 0, 0, "", "line 2"},
		{"time runs back", strings.Replace(GoodLog, `"tick":40`, `"tick":-1`, 1), 0, 0, "", "tick: -1 is out of range"},
		{"something after the end", GoodLog + `{"tick":901,"do":"finish"}` + "\n", 0, 0, "", "line 5: something follows the end"},
		{"another format", strings.Replace(GoodLog, `session":1`, `session":9`, 1), 0, 0, "", "dryline_session is 9 (want 1 to 2)"},
		{"endless", strings.Replace(GoodLog, `"end":900`, `"end":99999999999`, 1), 0, 0, "", "end: 99999999999 is out of range"},
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
	f.Add([]byte(GoodLog))
	f.Add([]byte(GoodLog[:90]))
	f.Add([]byte("{}\n{}\n"))
	f.Add([]byte(`{"dryline_session":1,"parent":{"started_utc":"2031-05-01T07:55:03Z","digest":"","tick":3},"exercise":"x","sha256":"","seed":1,"source":"a"}` + "\n"))
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
