package sim_test

import (
	"math"
	"strings"
	"testing"

	"dryline/sim/order"
	"dryline/sim/simtest"
	"dryline/sim/survey"
	"dryline/sonar/recorder"
)

// levels runs the small exercise up the first run-in with the receiver set as
// given and returns how its channel fills the recorder, and what the bottom
// track makes of it.
func levels(t *testing.T, orders ...order.Command) (level survey.RecordLevel, near, far float64, locked int) {
	t.Helper()
	s := begin(t, simtest.Small(t))
	simtest.Give(t, s, orders...)
	n := 0.0
	s.Desk.Watch(func(p survey.LivePing) {
		if p.Locked {
			locked++
		}
		if len(p.Plain[0].Port) == 0 {
			return
		}
		level = p.Levels[0]
		n++
		mean := func(from, to int) float64 {
			sum := 0.0
			for _, v := range p.Plain[0].Starboard[from:to] {
				sum += float64(v)
			}
			return sum / float64(to-from)
		}
		bins := len(p.Plain[0].Starboard)
		near += (mean(bins*4/10, bins/2) - near) / n
		far += (mean(bins*9/10, bins) - far) / n
	})
	s.Advance(300)
	return level, near, far, locked
}

// order.Gain is in dB on the amplitude: 20 dB are ten times the counts (the definition
// of the decibel, ISO 80000-8). Too much cuts the record off at full scale, too
// little loses the bottom.
func TestGainFillsTheRecorder(t *testing.T) {
	as, near, far, locked := levels(t)
	if as.Clipped > 1e-3 || as.Mean < 0.005 || as.Mean > 0.2 {
		t.Errorf("as it comes the record is at %.4f of full scale with %.4f cut off, want some hundredths and none", as.Mean, as.Clipped)
	}
	low, _, _, _ := levels(t, order.Command{Do: order.Gain, Text: "450", Value: -20})
	if got := as.Mean / low.Mean; math.Abs(got-10) > 0.1 {
		t.Errorf("20 dB less are %.3f times fewer counts, want 10", got)
	}
	high, _, _, _ := levels(t, order.Command{Do: order.Gain, Text: "450", Value: 40})
	if high.Clipped < 0.1 {
		t.Errorf("with 40 dB more %.4f of the record is cut off, want a good part", high.Clipped)
	}
	if _, _, _, got := levels(t, order.Command{Do: order.Gain, Text: "450", Value: -60}); got > locked/10 {
		t.Errorf("with 60 dB less %d pings have a bottom of %d, want few", got, locked)
	}

	// Without time-varying gain the far range is dark: half the range scale apart
	// 30 log10(2) make 9 dB, nearly three times the counts.
	_, nearFlat, farFlat, _ := levels(t, order.Command{Do: order.TVG, Text: "450", Value: 0}, order.Command{Do: order.Gain, Text: "450", Value: 40})
	if got := (near / far) / (nearFlat / farFlat); got > 0.75 {
		t.Errorf("without spreading the far range is %.2f as bright beside the near as with it, want much darker", got)
	}
	_, nearLoss, farLoss, _ := levels(t, order.Command{Do: order.TVGLoss, Text: "450", Value: 0})
	if nearLoss/farLoss < near/far {
		t.Errorf("with no gain for absorption the far range is not darker: %.2f against %.2f", nearLoss/farLoss, near/far)
	}
}

// A receiver set stays set when the range scale changes, is on record, and
// replays.
func TestReceiverIsKept(t *testing.T) {
	orders := map[int64]func(*session){
		0: func(s *session) {
			simtest.Give(t, s, order.Command{Do: order.Gain, Text: "450", Value: 6}, order.Command{Do: order.TVG, Text: "450", Value: 24})
		},
		2000: func(s *session) { simtest.Give(t, s, order.Command{Do: order.Range, Value: 30}) },
	}
	s := tended(t, 500, orders)
	if got, want := s.Desk.Recorder.Receivers[0], (recorder.Receiver{Gain: 6, TVGSpreading: 24, TVGAbsorption: 110}); got != want {
		t.Errorf("the receiver is %+v, want %+v", got, want)
	}
	if s.Exercise.Sonar.Channels[0].Gain != 0 {
		t.Error("the exercise itself was changed")
	}
	same(t, "in small groups", s, tended(t, 100, orders))
	same(t, "replay", s, replayed(t, s))
}

func TestReceiverRefused(t *testing.T) {
	for _, test := range []struct {
		name string
		do   order.Command
		log  bool
		want string
	}{
		{"no such channel", order.Command{Do: order.Gain, Text: "900"}, false, `no channel is called "900"`},
		{"too much", order.Command{Do: order.Gain, Text: "450", Value: 61}, false, "out of range (want -60 to 60)"},
		{"negative spreading", order.Command{Do: order.TVG, Text: "450", Value: -1}, false, "out of range (want 0 to 60)"},
		{"negative absorption", order.Command{Do: order.TVGLoss, Text: "450", Value: -1}, false, "out of range (want 0 to 1000)"},
		{"while logging", order.Command{Do: order.TVG, Text: "450", Value: 20}, true, "a line is logged with one gain: stop the log first"},
	} {
		s := begin(t, simtest.Small(t))
		if test.log {
			simtest.Give(t, s, order.Command{Do: order.LogOn, Line: "L1"})
		}
		if err := s.Give(test.do); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: got %v, want %q", test.name, err, test.want)
		}
	}
}
