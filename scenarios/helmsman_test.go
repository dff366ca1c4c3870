package scenarios

import (
	"math"
	"strings"
	"testing"

	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/simtest"
)

// say speaks an order and flies on.
func (f *flew) say(t *testing.T, text string, ticks int) *flew {
	t.Helper()
	simtest.Give(t, f, order.Command{Do: order.Say, Text: text})
	return f.fly(ticks)
}

// What is said is read back after a second and a half, done after six to eight seconds
// and not before.
func TestTheHelmsmanDoesWhatHeIsTold(t *testing.T) {
	if testing.Short() {
		t.Skip("flies whole sessions")
	}
	f := begun(t, "help: { helmsman: true, mishears_percent: 0 }\n").fly(50)
	if h := f.Bridge().Helmsman; h.Said != "" || h.ReadBack != "" || h.Due != 0 {
		t.Errorf("before anything is said: %+v", h)
	}
	was := f.Passage.Steering()
	f.say(t, "steer zero nine five", 10)
	if h := f.Bridge().Helmsman; h.ReadBack != "" || h.Due < 11 || h.Due > 13 {
		t.Errorf("a second later: %+v", h)
	}
	f.fly(10)
	if h := f.Bridge().Helmsman; h.ReadBack != "steer zero nine five" {
		t.Errorf("two seconds later: %+v", h)
	}
	f.fly(38)
	if f.Passage.Steering() != was {
		t.Error("it is carried out before six seconds")
	}
	f.fly(700)
	if h := f.Bridge().Helmsman; h.Due != 0 {
		t.Errorf("it is still to be done: %+v", h)
	}
	heading := float64(f.Reading().Heading) * 180 / math.Pi // true
	near(t, "heading", heading, 95, 2)

	f.say(t, "slow to three knots", 700)
	near(t, "speed", f.Reading().SpeedOverGround, 3*1852/3600.0, 0.05)
	f.say(t, "haul in five", 300)
	near(t, "cable", f.Reading().CableOut, 15, 0.1)
	f.say(t, "pay out thirty", 100)
	f.say(t, "stop the winch", 200)
	if out := f.Reading().CableOut; out < 17 || out > 30 {
		t.Errorf("stopped at %.1f m", out)
	}
	f.say(t, "port ten", 90)
	near(t, "rudder", f.Bridge().Rudder, -10*math.Pi/180, 1e-3)
	f.say(t, "come up to line L2", 90)
	if c := f.Passage.Steering(); c.Do != order.SteerLine || c.Line != "L2" {
		t.Errorf("steering %+v", c)
	}
	sameAgain(t, f)
}

// With every order misheard the read-back is not what was said, and is what is done;
// belayed in time nothing is.
func TestAMisheardOrderCanBeCaught(t *testing.T) {
	if testing.Short() {
		t.Skip("flies whole sessions")
	}
	const deaf = "help: { helmsman: true, mishears_percent: 100 }\n"
	f := begun(t, deaf).fly(50)
	was := f.Passage.Steering()
	f.say(t, "steer zero five zero", 20)
	h := f.Bridge().Helmsman
	if h.Said != "steer zero five zero" || h.ReadBack == h.Said {
		t.Fatalf("nothing is misheard: %+v", h)
	}
	f.say(t, "belay", 20)
	if h := f.Bridge().Helmsman; h.ReadBack != "belay" || h.Due != 0 {
		t.Errorf("belayed: %+v", h)
	}
	if f.fly(100); f.Passage.Steering() != was {
		t.Error("it is done though it was belayed")
	}
	f.say(t, "haul in fifteen", 200)
	if _, cable := f.Passage.Ordered(); cable == 5 {
		t.Error("it is done as it was said")
	}
	sameAgain(t, f)

	// The share that is misheard is what the file says, within four standard deviations.
	f = begun(t, "help: { helmsman: true, mishears_percent: 30 }\n")
	const n = 400
	wrong := 0
	for range n {
		simtest.Give(t, f, order.Command{Do: order.Say, Text: "starboard ten"})
		f.Advance(16)
		if f.Bridge().Helmsman.ReadBack != "starboard ten" {
			wrong++
		}
	}
	near(t, "share misheard", float64(wrong)/n, 0.3, 4*math.Sqrt(0.3*0.7/n))
}

func TestWithoutAHelmsmanNobodyHears(t *testing.T) {
	f := begun(t, "")
	if err := f.Give(order.Command{Do: order.Say, Text: "steady"}); err == nil || !strings.Contains(err.Error(), "no helmsman") {
		t.Errorf("got %v", err)
	}
	f = begun(t, "help: { helmsman: true }\n")
	if err := f.Give(order.Command{Do: order.Say, Text: "go faster"}); err == nil || !strings.Contains(err.Error(), "steer zero nine five") {
		t.Errorf("got %v", err)
	}
	if h := f.Exercise.Help; h != (exercise.Help{Coach: true, Pause: true, MostSpeedUp: 20, Helmsman: true, Mishears: 0.08}) {
		t.Errorf("%+v", h)
	}
}
