package sim_test

import (
	"dryline/sim/order"
	"dryline/sim/simtest"
	"math"
	"strings"
	"testing"
)

// shorter sets a range scale of 30 m once the first line of the small exercise
// is closed.
var shorter = map[int64]func(*session){
	2000: func(s *session) {
		if err := s.Give(order.Command{Do: order.Range, Value: 30}); err != nil {
			panic(err)
		}
	},
}

// Each line keeps the range scale it was logged with, the pings come closer
// together with a shorter one (2 R/c: one ping in the water at a time), and the
// log replays to the same products.
func TestRangeBetweenLines(t *testing.T) {
	s := tended(t, 500, shorter)
	if len(s.Desk.Lines) != 2 {
		t.Fatalf("%d lines run, want 2", len(s.Desk.Lines))
	}
	for i, want := range []float64{50, 30} {
		l := s.Desk.Lines[i]
		if l.RangeScale != want {
			t.Errorf("line %s has a range scale of %g m, want %g", l.Name, l.RangeScale, want)
		}
		n := len(l.Pings)
		got := (l.Pings[n-1].Fix.Time - l.Pings[0].Fix.Time) / float64(n-1)
		if least := 2 * want / s.Exercise.Desk.SoundSpeed; got < least-1e-9 || got > 1.3*least {
			t.Errorf("line %s: a ping every %.4f s, want 2 R/c of %.4f s and little more", l.Name, got, least)
		}
		height := l.Pings[n/2].Height
		if truth := s.Truth.Pings[0].Altitude; math.Abs(height-truth) > 1 {
			t.Errorf("line %s: bottom track %.1f m, the fish is %.1f m up", l.Name, height, truth)
		}
	}
	if s.Exercise.Sonar.RangeScale != 50 || s.Desk.Recorder.RangeScale != 30 {
		t.Errorf("the exercise has %g and the recorder %g m, want 50 and 30", s.Exercise.Sonar.RangeScale, s.Desk.Recorder.RangeScale)
	}
	same(t, "in small groups", s, tended(t, 100, shorter))
	same(t, "replay", s, replayed(t, s))
}

// Setting the range scale there and back changes nothing but the times of the
// pings between.
func TestRangeThereAndBack(t *testing.T) {
	s := begin(t, simtest.Small(t))
	interval := s.Interval()
	simtest.Give(t, s, order.Command{Do: order.Range, Value: 120})
	if got := s.Interval(); math.Abs(got/interval-120.0/50) > 0.1 {
		t.Errorf("pings %.4f s apart on 120 m and %.4f on 50 m", got, interval)
	}
	simtest.Give(t, s, order.Command{Do: order.Range, Value: 50})
	if s.Interval() != interval {
		t.Errorf("pings %.4f s apart on the way back, want %.4f", s.Interval(), interval)
	}
}

func TestRangeRefused(t *testing.T) {
	for _, test := range []struct {
		name  string
		value float64
		cw    float64 // pulse of a tone, seconds; 0 leaves the chirp
		log   bool
		want  string
	}{
		{"too short", 5, 0, false, "out of range (want 10 to 300)"},
		{"too long", 400, 0, false, "out of range (want 10 to 300)"},
		{"while logging", 30, 0, true, "a line is logged with one range scale: stop the log first"},
		{"a long tone", 20, 3e-3, false, "the pulse of channel 450 is too long for 20 m (want at least 22.5)"},
	} {
		ex := simtest.Small(t)
		if test.cw > 0 {
			ex.Sonar.Channels[0].Bandwidth, ex.Sonar.Channels[0].PulseLength = 0, test.cw
		}
		s := begin(t, ex)
		if test.log {
			simtest.Give(t, s, order.Command{Do: order.LogOn, Line: "L1"})
		}
		given := len(s.Commands)
		err := s.Give(order.Command{Do: order.Range, Value: test.value})
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: got error %v, want %q in it", test.name, err, test.want)
		}
		if len(s.Commands) != given || s.Desk.Recorder.RangeScale != 50 {
			t.Errorf("%s: it left a trace", test.name)
		}
	}
}

// An engine is made anew for every range scale, while people wait.
func BenchmarkSetRange(b *testing.B) {
	s := begin(b, simtest.Small(b))
	for b.Loop() {
		if err := s.Give(order.Command{Do: order.Range, Value: 75}); err != nil {
			b.Fatal(err)
		}
	}
}
