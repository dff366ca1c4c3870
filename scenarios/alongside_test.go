package scenarios

import (
	"testing"

	"dryline/sim/order"
)

// A hand that rubs one side is heard on the side of the record that the transducer is
// joined to (NOAA Field Procedures Manual, 1.5.7.2: a rub test shows channels that are
// dead or swapped), and what ails the channels is over when the plugs were seen to.
func TestRubTestTellsTheChannels(t *testing.T) {
	const full = 60000
	type heard struct{ port, starboard bool }
	for _, c := range []struct {
		event string
		port  heard // when port is rubbed
		after heard // and when it is rubbed again, the plugs seen to
	}{
		{"", heard{true, false}, heard{true, false}},
		{"swapped_channels", heard{false, true}, heard{true, false}},
		{"dead_channel, side: port", heard{false, false}, heard{true, false}},
	} {
		more := ""
		if c.event != "" {
			more = "events:\n  - { kind: " + c.event + ", at_s: 0 }\n"
		}
		f := begun(t, more)
		give := func(o order.Command) {
			t.Helper()
			if err := f.Give(o); err != nil {
				t.Fatal(err)
			}
		}
		if err := f.Give(order.Command{Do: order.Rub, Number: 1}); err == nil {
			t.Error("a fish that is streamed is rubbed")
		}
		give(order.Command{Do: order.Speed, Value: 1})
		give(order.Command{Do: order.Cable, Value: 2})
		for i := 0; !f.Bridge().Alongside; i++ {
			if f.Advance(10); i > 200 {
				t.Fatal("the fish does not come alongside")
			}
		}
		f.Advance(50)
		rub := func() heard {
			t.Helper()
			give(order.Command{Do: order.Rub, Number: 1})
			f.Advance(5)
			from := len(f.pings)
			f.Advance(30)
			if len(f.pings) <= from {
				t.Fatal("no ping")
			}
			loud := func(row []uint16) bool {
				n := 0
				for _, v := range row {
					if v > full {
						n++
					}
				}
				return n > len(row)/2
			}
			last := f.pings[len(f.pings)-1]
			return heard{loud(last.port), loud(last.starboard)}
		}
		if got := rub(); got != c.port {
			t.Errorf("%q: port rubbed is heard %+v, want %+v", c.event, got, c.port)
		}
		f.Advance(30)
		give(order.Command{Do: order.Mend})
		if !func() bool { f.Advance(2); return f.Bridge().Mending }() {
			t.Errorf("%q: nobody sees to the plugs", c.event)
		}
		f.Advance(920)
		if got := rub(); got != c.after {
			t.Errorf("%q: after the plugs were seen to, port rubbed is heard %+v, want %+v", c.event, got, c.after)
		}
	}
}

// A fault of the channels is left to the seed: over some seeds each kind comes.
func TestChannelFaultIsLeftToTheSeed(t *testing.T) {
	kinds := map[string]bool{}
	for seed := uint64(1); seed <= 12 && len(kinds) < 3; seed++ {
		f := begunWith(t, "events:\n  - { kind: channel_fault, at_s: 0 }\n", seed)
		f.Advance(3)
		for _, h := range f.Passage.Happened() {
			kinds[string(h.Kind)] = true
		}
	}
	if len(kinds) != 3 || kinds["channel_fault"] {
		t.Errorf("the seeds give %v", kinds)
	}
}
