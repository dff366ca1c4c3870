package sim_test

import (
	"testing"

	"dryline/sim/order"
	"dryline/sim/simtest"
)

// However the ticks are grouped and whatever the number of workers, the
// outcome is the same; and the log replays to it.
func TestSameSessionHoweverItIsRun(t *testing.T) {
	first := fly(t, 1<<20, 1)
	if len(first.Desk.Lines) != 2 {
		t.Fatalf("lines run: %d, want 2", len(first.Desk.Lines))
	}
	same(t, "one tick at a time, three workers", first, fly(t, 1, 3))

	again := replayed(t, first)
	same(t, "replay", first, again)
	if again.Ticks() != first.Ticks() || !again.Done() {
		t.Errorf("replay ended at tick %d (done %v), the session at %d", again.Ticks(), again.Done(), first.Ticks())
	}
}

// A log of commands that make no sense for the exercise is refused, not run.
func TestReplayRefusesBadCommands(t *testing.T) {
	for _, c := range []order.Command{
		{Do: "fly"}, {Do: order.SteerLine, Line: "L9"}, {Do: order.Speed, Value: 400}, {Do: order.Cable, Value: -3}, {Do: order.Rudder, Value: 9},
	} {
		s := begin(t, simtest.Small(t))
		if err := s.Replay(&order.Log{Commands: []order.Command{c}, Ticks: 10}, nil); err == nil {
			t.Errorf("%+v was carried out", c)
		}
	}
}
