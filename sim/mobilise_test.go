package sim_test

import (
	"testing"

	"dryline/sim"
	"dryline/sim/order"
	"dryline/sim/simtest"
)

// Sound speed, cells and channel that are entered before the first tick are as if the exercise had
// been written with them, whatever else was ordered before and after; the log replays to the same,
// another session over the exercise begins with its own, and once the watch has begun they stay.
func TestFiguresEnteredBeforeTheWatchAreAsIfWrittenInTheExercise(t *testing.T) {
	given := simtest.Small(t)
	second := given.Sonar.Channels[0]
	second.Name, second.Frequency, second.PulseLength = "900", 900e3, 0.5e-3
	given.Sonar.Channels = append(given.Sonar.Channels[:1:1], second)
	given.Plan.Order = given.Plan.Order[:1]
	written := *given
	written.Desk.SoundSpeed, written.Desk.MosaicCell, written.Desk.MosaicChannel = 1530, 0.4, 1
	written.Desk.AntennaToTow = 8
	written.Sonar.Channels = append(written.Sonar.Channels[:0:0], given.Sonar.Channels...)
	written.Sonar.Channels[1].Receiver.Gain = 3

	fly := func(s *session) {
		s.AttachMate()
		for !s.Done() {
			s.Advance(200)
		}
	}
	told := begin(t, given)
	simtest.Give(t, told,
		order.Command{Do: order.TowOffset, Value: 8},
		order.Command{Do: order.Gain, Text: "900", Value: 3},
		order.Command{Do: order.SoundSpeed, Value: 1400}, // and thought better of
		order.Command{Do: order.SoundSpeed, Value: 1530},
		order.Command{Do: order.MosaicChannel, Text: "900"},
		order.Command{Do: order.MosaicCell, Value: 0.4})
	fly(told)
	plain := begin(t, &written)
	fly(plain)
	if len(plain.Desk.Lines) != 1 {
		t.Fatalf("%d lines logged", len(plain.Desk.Lines))
	}
	replay := replayed(t, told)
	same(t, "replay", told, replay)
	plain.Commands = told.Commands // the orders themselves are all that differs
	same(t, "written and told", plain, told)
	if a, b := told.Desk.Recorder.Beams, plain.Desk.Recorder.Beams; a[0] != b[0] || a[1] != b[1] {
		t.Errorf("beams of %v told and %v written", a, b)
	}
	if got := told.Desk.Reviewed(&told.Desk.Review, 0).SoundSpeed; got != 1530 {
		t.Errorf("at the desk the watch had %g m/s", got)
	}

	again, err := sim.New(told.Exercise, 1)
	if err != nil {
		t.Fatal(err)
	}
	if d := again.Exercise.Desk; d != given.Desk {
		t.Errorf("another session of the exercise begins with %+v", d)
	}
	for _, o := range []order.Command{
		{Do: order.SoundSpeed, Value: 1399}, {Do: order.SoundSpeed, Value: 1601}, {Do: order.MosaicCell, Value: 0.04},
		{Do: order.MosaicCell, Value: 6}, {Do: order.MosaicChannel, Text: "1200"}, {Do: order.MosaicChannel},
	} {
		if again.Give(o) == nil {
			t.Errorf("%+v was taken", o)
		}
	}
	again.Advance(1)
	for _, o := range []order.Command{{Do: order.SoundSpeed, Value: 1500}, {Do: order.MosaicCell, Value: 0.5}, {Do: order.MosaicChannel, Text: "900"}} {
		if again.Give(o) == nil {
			t.Errorf("%+v was taken once the watch had begun", o)
		}
	}
}
