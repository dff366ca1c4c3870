package scenarios

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"dryline/sim/order"
	"dryline/sim/passage"
	"dryline/sim/simtest"
)

// mishap is the first of a kind, nil if there is none.
func (f *flew) mishap(kind passage.Kind) *passage.Mishap {
	for _, m := range f.Passage.Mishaps() {
		if m.What == kind {
			return &m
		}
	}
	return nil
}

// A pot's line on the way of the fish fouls it: the tension rises far over what the tow
// has, the fish stays by the pot, within what line there is and its
// strain, and it comes free once way is off and the cable slacked.
func TestTheTowIsFouled(t *testing.T) {
	if testing.Short() {
		t.Skip("flies whole sessions")
	}
	const pot = "snags: [{ name: pot, at: [150, 190], line_m: 26, breaks_n: 8000 }]\n"
	f := begun(t, pot)
	for f.mishap(passage.Snagged) == nil && f.Now() < 200 {
		f.fly(1)
	}
	m := f.mishap(passage.Snagged)
	if m == nil {
		t.Fatal("the tow was not fouled")
	}
	if len(f.Bridge().Buoys) != 1 {
		t.Error("the buoy is not seen")
	}
	before := f.ticks[len(f.ticks)-2].scene.Tension
	for f.Scene().Tension < 4*before && f.Now() < 200 {
		f.fly(1)
	}
	if !f.Bridge().Fouled || f.Scene().Tension < 4*before {
		t.Fatalf("fouled %v: the tension is %.0f N, before it was %.0f", f.Bridge().Fouled, f.Scene().Tension, before)
	}
	s := f.Scene()
	away := math.Sqrt((s.FishX-150)*(s.FishX-150) + (s.FishY-190)*(s.FishY-190) + (s.FishZ+20)*(s.FishZ+20))
	if away > 26*1.2+0.5 {
		t.Errorf("the fish is %.1f m from the pot on 26 m of line", away)
	}
	simtest.Give(t, f, order.Command{Do: order.Speed}, order.Command{Do: order.Cable, Value: 60})
	f.fly(1500)
	if held := f.mishap(passage.ComeFree); held != nil && math.Abs(f.Passage.Aground()-(held.Time-m.Time)) > 20 {
		t.Errorf("fouled from %.0f to %.0f s and held for %.0f s", m.Time, held.Time, f.Passage.Aground())
	}
	if f.mishap(passage.ComeFree) == nil || f.Bridge().Fouled {
		t.Error("it does not come free with way off and slack cable")
	}
	sameAgain(t, f)
}

// With way kept on, a line that holds more than the cable has it part; one that holds
// less breaks; and a brake slips first.
func TestWhatGivesWhenFouled(t *testing.T) {
	if testing.Short() {
		t.Skip("flies whole sessions")
	}
	for _, row := range []struct {
		name, more string
		want       passage.Kind
	}{
		{"the line", "snags: [{ name: pot, at: [150, 190], line_m: 24, breaks_n: 2000 }]\n", passage.TornFree},
		{"the cable", "snags: [{ name: pot, at: [150, 190], line_m: 24, breaks_n: 300000 }]\ntow: { cable: { working_load_n: 1500, breaking_load_n: 4000 } }\n", passage.Parted},
		{"the brake", "snags: [{ name: pot, at: [150, 190], line_m: 24, breaks_n: 300000 }]\ntow: { winch: { brake_n: 2500 } }\n", passage.Slipped},
	} {
		f := begun(t, row.more)
		for f.mishap(row.want) == nil && f.Now() < 260 && !f.Done() {
			f.fly(1)
		}
		if f.mishap(row.want) == nil {
			t.Errorf("%s does not give", row.name)
		}
	}
}

// Two minutes on and off the floor at 4.4 knots ruin the fish: it strains the cable, loses pings as
// it goes and sends nothing in the end.
func TestDraggingRuinsTheFish(t *testing.T) {
	f := begun(t, "")
	simtest.Give(t, f, order.Command{Do: order.Speed, Value: 4.4 * 1852 / 3600}, order.Command{Do: order.Cable, Value: 115})
	for f.mishap(passage.Grounded) == nil && f.Now() < 300 {
		f.fly(1)
	}
	if f.mishap(passage.Grounded) == nil {
		t.Fatal("it never touches the floor")
	}
	f.fly(1)
	clear := f.at(f.mishap(passage.Grounded).Time - 1).scene.Tension
	f.fly(1300)
	var mean float64
	for _, k := range f.ticks[len(f.ticks)-300:] {
		mean += k.scene.Tension / 300
	}
	if f.mishap(passage.Ruined) == nil || mean < clear {
		t.Errorf("dragged for two minutes: ruined %v, tension %.0f N, clear %.0f N", f.mishap(passage.Ruined) != nil, mean, clear)
	}
	simtest.Give(t, f, order.Command{Do: order.Cable, Value: 15})
	f.fly(1500)
	if f.Bridge().Touching {
		t.Fatal("the fish is still on the floor")
	}
	for _, p := range f.pings[len(f.pings)-100:] {
		for _, v := range p.port {
			if v != 0 {
				t.Fatal("a ruined fish sends pings")
			}
		}
	}
}

// sailing is the small exercise with a vessel that would meet ours on her line.
// after four minutes.
func sailing(t *testing.T, gives string) string {
	s := begun(t, "").fly(2400).Scene()
	const speed = 8 * 1852 / 3600.0
	return fmt.Sprintf("traffic: [{ name: Ferry, at: [%.1f, %.1f], course_deg: 270, speed_kn: 8, gives_way: %s }]\n", s.X+speed*240, s.Y, gives)
}

// nearestOf is how near she comes to vessel or fish in a flight.
func nearestOf(f *flew) float64 {
	near := math.Inf(1)
	for _, k := range f.ticks {
		for _, o := range k.bridge.Traffic {
			near = min(near, math.Hypot(o.X-k.scene.X, o.Y-k.scene.Y), math.Hypot(o.X-k.scene.FishX, o.Y-k.scene.FishY))
		}
	}
	return near
}

func TestTrafficIsCalledEarly(t *testing.T) {
	if testing.Short() {
		t.Skip("flies whole sessions")
	}
	gives := sailing(t, "true")
	alone := begun(t, gives).fly(50)
	// She goes straight: 8 knots to the west.
	o, from := alone.at(5).bridge.Traffic[0], alone.at(1).bridge.Traffic[0]
	near(t, "her way in 4 s", from.X-o.X, 4*8*1852/3600.0, 1e-6)
	near(t, "her way north", o.Y, from.Y, 1e-6)

	uncalled := begun(t, gives).fly(3000)
	if d := nearestOf(uncalled); d > 120 {
		t.Fatalf("uncalled she comes within %.0f m only: no test", d)
	}
	called := begun(t, gives).fly(50)
	for _, c := range []order.Command{{Do: order.CallTraffic, Text: "Barge"}, {Do: order.CallTraffic}} {
		if called.Give(c) == nil {
			t.Errorf("%+v was taken", c)
		}
	}
	simtest.Give(t, called, order.Command{Do: order.CallTraffic, Text: "Ferry"})
	if called.Refusal(order.Command{Do: order.CallTraffic, Text: "Ferry"}) == nil {
		t.Error("she is called twice")
	}
	called.fly(2950)
	if d := nearestOf(called); d < 200 {
		t.Errorf("called early she comes within %.0f m", d)
	}
	if says := called.Bridge().Traffic[0].Says; !strings.Contains(says, "I alter") {
		t.Errorf("her master says %q", says)
	}
	stands := begun(t, sailing(t, "false")).fly(50)
	simtest.Give(t, stands, order.Command{Do: order.CallTraffic, Text: "Ferry"})
	stands.fly(400)
	if o := stands.Bridge().Traffic[0]; !strings.Contains(o.Says, "keep clear") || o.Course != 1.5*math.Pi {
		t.Errorf("one who cannot alter: %+v", o)
	}
	late := begun(t, gives).fly(1500)
	if late.Done() {
		t.Fatal("over")
	}
	simtest.Give(t, late, order.Command{Do: order.CallTraffic, Text: "Ferry"})
	late.fly(300)
	if o := late.Bridge().Traffic[0]; !strings.Contains(o.Says, "Too late") {
		t.Errorf("called late: %+v", o)
	}
}

// One who passes close astern cuts the cable where it is less deep than she.
func TestTrafficCutsTheCable(t *testing.T) {
	probe := begun(t, "").fly(600)
	s := probe.Scene() // a minute on, five metres astern
	at := s.Sheave
	aft := [2]float64{at[0] - 4*math.Sin(s.Heading), at[1] - 4*math.Cos(s.Heading)}
	f := begun(t, "traffic: [{ name: Trawler, at: ["+strconv.FormatFloat(aft[0]+60*5*1852/3600.0, 'f', 3, 64)+", "+strconv.FormatFloat(aft[1], 'f', 3, 64)+"], course_deg: 270, speed_kn: 5 }]\n").fly(700)
	m := f.mishap(passage.Parted)
	if m == nil || m.Object != "Trawler" || !f.Done() || f.mishap(passage.CloseQuarters) == nil {
		t.Errorf("the cable is whole: %+v", f.Passage.Mishaps())
	}
}
