package scenarios

import (
	"bytes"
	"math"
	"slices"
	"testing"

	"dryline/sim"
	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/passage"
	"dryline/sim/simtest"
	"dryline/vessel/nav"
)

// calm is the small exercise with instruments that say what is, and what is added to it.
const calm = `instruments:
  gnss: { drift_m: 0, noise_m: 0, resolution_m: 0, speed_noise_kn: 0 }
  heading: { bias_deg: 0, noise_deg: 0, resolution_deg: 0 }
  compass: { bias_deg: 0, noise_deg: 0, resolution_deg: 0 }
  counter: { offset_m: 0, slip_percent: 0, noise_m: 0, resolution_m: 0, scale_percent: 0 }
plan:
`

// tick holds what is to be seen after one.
type tick struct {
	reading nav.Reading
	scene   passage.Scene
	bridge  passage.Bridge
}

// row is the record of a ping, of its first channel.
type row struct {
	port, starboard []uint16
	time            float64
	lit             int
}

// flew is the small exercise with more in its file, flown for some seconds.
type flew struct {
	*sim.Session
	ticks []tick
	pings []row
}

func begun(t testing.TB, more string) *flew {
	t.Helper()
	return begunWith(t, more, 1)
}

func begunWith(t testing.TB, more string, seed uint64) *flew {
	t.Helper()
	ex, err := Parse("my.yaml", []byte(edit(t, small(t), "plan:\n", more+calm)))
	if err != nil {
		t.Fatal(err)
	}
	s, err := sim.New(ex, seed)
	if err != nil {
		t.Fatal(err)
	}
	f := &flew{Session: s}
	s.Observe(sim.Observer{Truth: true, Ping: func(p *sim.Ping) {
		f.pings = append(f.pings, row{slices.Clone(p.Port[0]), slices.Clone(p.Starboard[0]), p.Truth.Pose.Time, len(p.Truth.Lit[0]) + len(p.Truth.Lit[1])})
	}})
	return f
}

// fly goes on for some ticks.
func (f *flew) fly(ticks int) *flew {
	for range ticks {
		f.Advance(1)
		f.ticks = append(f.ticks, tick{f.Reading(), f.Scene(), f.Bridge()})
	}
	return f
}

// at is the tick at a time, seconds.
func (f *flew) at(seconds float64) *tick { return &f.ticks[int(math.Round(seconds*10))-1] }

// near is about equality of a measured number.
func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: got %.4g, want %.4g within %.2g", what, got, want, within)
	}
}

// Instruments go wrong when the file says and by as much, against the same exercise
// without, whose chance is the same to the bit.
func TestEventsOfInstruments(t *testing.T) {
	if testing.Short() {
		t.Skip("flies whole sessions")
	}
	plain := begun(t, "").fly(250)
	for _, row := range []struct {
		event string
		look  func(t *testing.T, f *flew)
	}{
		{"kind: gnss_outage", func(t *testing.T, f *flew) {
			for i := range f.ticks {
				r := &f.ticks[i].reading
				if out := r.Time > 10.05 && r.Time < 19.95; r.Valid.Has(nav.Fix) == out && math.Abs(r.Time-10) > 1.05 && math.Abs(r.Time-20) > 1.05 {
					t.Fatalf("at %.1f s the fix is good: %v", r.Time, !out)
				}
			}
		}},
		{"kind: gnss_jump, jump_m: 40", func(t *testing.T, f *flew) {
			// The fix against where she is: she has steered for it since.
			off := func(at float64) float64 {
				k := f.at(at)
				x, y := k.reading.CarriedOn()
				return math.Hypot(x-k.scene.X, y-k.scene.Y)
			}
			was := off(9)
			near(t, "fix off before", off(9), was, 1e-9)
			if off(15) < 40-was-1 || off(15) > 40+was+1 {
				t.Errorf("in the jump the fix is %.1f m off, want 40 within %.1f", off(15), was+1)
			}
			near(t, "fix off after", off(24), was, 1)
		}},
		{"kind: heading_bias, bias_deg: -8", func(t *testing.T, f *flew) {
			for _, at := range []float64{9, 11, 19, 22} {
				k := f.at(at)
				want := -8.0
				if at < 10 || at > 20 {
					want = 0
				}
				off := math.Remainder(float64(k.reading.GridHeading())-k.scene.Heading, 2*math.Pi) * 180 / math.Pi
				near(t, "heading", off, want, 0.05)
			}
		}},
		{"kind: compass_bias, bias_deg: 11", func(t *testing.T, f *flew) {
			before := float64(f.at(15).reading.FishHeading - plain.at(15).reading.FishHeading)
			near(t, "fish heading", math.Remainder(before, 2*math.Pi)*180/math.Pi, 11, 1e-6)
		}},
		{"kind: altimeter_dropout", func(t *testing.T, f *flew) {
			for at, want := range map[float64]bool{9: true, 12: false, 19: false, 23: true} {
				if got := f.at(at).reading.Valid.Has(nav.FishAltitude); got != want {
					t.Errorf("at %g s there is an altitude: %v", at, got)
				}
			}
			near(t, "held altitude", f.at(19).reading.FishAltitude, f.at(13).reading.FishAltitude, 0)
		}},
		{"kind: squall, wind_kn: 30", func(t *testing.T, f *flew) {
			wind := func(f *flew, at float64) float64 { s := f.at(at).scene; return math.Hypot(s.WindX, s.WindY) }
			// Ten seconds long, it rises for five of the fifteen that would be whole.
			near(t, "wind at its height", wind(f, 15)-wind(plain, 15), 30*1852/3600.0/3, 0.2)
			near(t, "wind after", wind(f, 22), wind(plain, 22), 1e-9)
		}},
	} {
		t.Run(row.event, func(t *testing.T) {
			row.look(t, begun(t, "events: [{ at_s: 10, for_s: 10, "+row.event+" }]\n").fly(250))
		})
	}
	f := begun(t, "events: [{ at_s: 10, kind: counter_reset, shows_m: 5 }]\n").fly(120)
	near(t, "counter before", f.at(9).reading.CableOut, 20, 0.2)
	near(t, "counter after", f.at(12).reading.CableOut, 5, 0.05)

	f = begun(t, "events: [{ at_s: 1, kind: counter_slip, slip_percent: 50 }]\n").fly(20)
	was := f.at(2).reading.CableOut
	simtest.Give(t, f, order.Command{Do: order.Cable, Value: 14})
	f.fly(400)
	near(t, "counted of six metres hauled", was-f.ticks[len(f.ticks)-1].reading.CableOut, 3, 0.15)
}

// The winch does not move until the jam is over; without the engine she loses her way
// and the fish sinks towards the floor, by the tow table of that speed at least.
func TestWinchAndEngineFail(t *testing.T) {
	f := begun(t, "events: [{ at_s: 2, for_s: 20, kind: winch_jam }]\n").fly(30)
	simtest.Give(t, f, order.Command{Do: order.Cable, Value: 12})
	f.fly(250)
	near(t, "cable in the jam", f.at(21).reading.CableOut, f.at(2).reading.CableOut, 0.01)
	if !f.at(10).bridge.Jammed || f.at(25).bridge.Jammed {
		t.Error("the bridge does not see the jam")
	}
	if f.at(27).reading.CableOut > f.at(22).reading.CableOut-0.5 {
		t.Error("the winch does not haul after the jam")
	}

	plain := begun(t, "").fly(600)
	f = begun(t, "events: [{ at_s: 5, for_s: 50, kind: engine_failure }]\n").fly(600)
	for i := 1; i < len(f.ticks); i++ {
		if b, at := f.ticks[i].bridge, f.ticks[i].reading.Time; at > 5.15 && at < 54.9 && (b.Thrust != 0 || !b.EngineOut) {
			t.Fatalf("thrust %.2f at %.1f s", b.Thrust, at)
		}
	}
	// With no thrust she is slowed by a drag k u|u|: u = u0/(1 + k u0 t/m), the tow's pull
	// besides, so she is slower than that. k is half of rho 0.02 L (B + 2T).
	v := f.Exercise.Vessel
	k := 0.5 * 1025 * 0.02 * v.Length * (v.Beam + 2*v.Draft)
	u0 := f.at(5).reading.SpeedOverGround
	free := u0 / (1 + k*u0*40/v.Mass)
	if got := f.at(45).reading.SpeedOverGround; got > free || got < 0 {
		t.Errorf("40 s after the failure she makes %.2f m/s, want less than %.2f", got, free)
	}
	if sunk := plain.at(45).scene.FishZ - f.at(45).scene.FishZ; sunk < 3 {
		t.Errorf("the fish sank by %.1f m", sunk)
	}
	if f.at(60).reading.SpeedOverGround < f.at(54).reading.SpeedOverGround+0.1 {
		t.Error("the engine does not come back")
	}
}

// The record with a fault against the same pings without one.
func TestEventsOfTheRecord(t *testing.T) {
	const from, to = 2.0, 6.0
	plain := begun(t, "").fly(80)
	fault := func(event string) *flew {
		f := begun(t, "events: [{ at_s: 2, for_s: 4, "+event+" }]\n").fly(80)
		if len(f.pings) != len(plain.pings) {
			t.Fatalf("%s: %d pings, want %d", event, len(f.pings), len(plain.pings))
		}
		for i := range f.pings {
			if p := &f.pings[i]; (p.time < from || p.time > to+0.1) && (!slices.Equal(p.port, plain.pings[i].port) || !slices.Equal(p.starboard, plain.pings[i].starboard)) {
				t.Fatalf("%s: the ping at %.2f s is not what it is without", event, p.time)
			}
		}
		return f
	}
	within := func(f *flew, look func(p, plain *row)) (n int) {
		for i := range f.pings {
			if at := f.pings[i].time; at > from+0.2 && at < to {
				look(&f.pings[i], &plain.pings[i])
				n++
			}
		}
		return n
	}
	sum := func(samples []uint16) (s float64) {
		for _, v := range samples {
			s += float64(v)
		}
		return s
	}

	lost := 0
	n := within(fault("kind: dropped_pings, share_percent: 50"), func(p, _ *row) {
		if sum(p.port)+sum(p.starboard) == 0 {
			lost++
		}
	})
	// Four standard deviations of a binomial share.
	near(t, "pings lost", float64(lost)/float64(n), 0.5, 4*math.Sqrt(0.25/float64(n)))

	// The swell of echoes is far over the noise in the first half of the record, so that
	// counts, which go as amplitude, fall by the loss.
	var weak, whole float64
	within(fault("kind: weak_channel, loss_db: 12, side: port"), func(p, plain *row) {
		weak, whole = weak+sum(p.port[300:900]), whole+sum(plain.port[300:900])
		if !slices.Equal(p.starboard, plain.starboard) {
			t.Fatal("the other side is not what it was")
		}
	})
	near(t, "counts of a side 12 dB weaker", weak/whole, math.Pow(10, -12/20.0), 0.02)

	var dead float64
	within(fault("kind: dead_channel, side: starboard"), func(p, plain *row) {
		dead, whole = dead+sum(p.starboard[300:900]), whole+sum(plain.starboard[300:900])
		if !slices.Equal(p.port, plain.port) {
			t.Fatal("the other side is not what it was")
		}
	})
	if dead > 0.05*whole {
		t.Errorf("a dead side has %.3f of the counts", dead/whole)
	}

	within(fault("kind: swapped_channels"), func(p, plain *row) {
		if !slices.Equal(p.port, plain.starboard) || !slices.Equal(p.starboard, plain.port) {
			t.Fatal("the sides are not swapped")
		}
	})

	// Dashes of the other sounder come at its own clock: the time at which each is heard,
	// ping and range together, is a whole number of intervals from the first.
	dashes := 0
	f := fault("kind: sounder, level_db: 170")
	bin := 2 * 50 / f.Exercise.Desk.SoundSpeed / float64(f.Exercise.Sonar.Samples)
	within(f, func(p, plain *row) {
		for k := 1; k < len(p.port); k++ {
			if bright := func(k int) bool { return float64(p.port[k]) > 3*float64(plain.port[k])+2000 }; bright(k) && !bright(k-1) && bright(min(k+2, len(p.port)-1)) {
				dashes++
				heard := p.time + float64(k)*bin - from
				if off := math.Abs(math.Remainder(heard, 0.253)); off > 1e-3 {
					t.Errorf("a dash at %.4f s, %.4f s off the sounder's clock", heard, off)
				}
			}
		}
	})
	if want := (to - from) / 0.253; math.Abs(float64(dashes)-want) > 3 {
		t.Errorf("%d dashes, want about %.0f", dashes, want)
	}
}

// An event on a line begins the first time that the fish, not the vessel, is so far
// along it with the log on, and moves no other event's chance.
func TestAnEventOnALine(t *testing.T) {
	const jump = "{ on_line: L1, along_m: 30, for_s: 5, kind: gnss_jump }"
	f := begun(t, "events: ["+jump+"]\n")
	f.AttachMate()
	want := 0.0
	for want == 0 && !f.Done() {
		f.fly(1)
		// L1 is run from y = 200 m to the north.
		if f.Bridge().Logging == "L1" && f.Scene().FishY-200 >= 30 {
			want = f.Now()
		}
	}
	f.fly(100)
	if h := f.Passage.Happened(); len(h) != 1 || h[0].From != want || h[0].To != want+5 {
		t.Errorf("happened %+v, want it at %.1f s", h, want)
	}
	two := begun(t, "events: ["+jump+", { at_s: 7000, kind: squall }, { at_s: 1, kind: weak_channel }]\n")
	two.AttachMate()
	two.Advance(len(f.ticks))
	if got, once := two.Reading(), f.ticks[len(f.ticks)-1].reading; got.X != once.X || got.Y != once.Y {
		t.Errorf("other events moved the fix from %v, %v to %v, %v", once.X, once.Y, got.X, got.Y)
	}
}

// sameAgain flies the log of a session again, in one go.
func sameAgain(t *testing.T, f *flew) {
	t.Helper()
	var b bytes.Buffer
	if err := f.WriteLog(&b); err != nil {
		t.Fatal(err)
	}
	log, err := order.ReadLog(&b)
	if err != nil {
		t.Fatal(err)
	}
	ex, err := FromLog(log)
	if err != nil {
		t.Fatal(err)
	}
	again, err := sim.NewSeeded(ex, log.Seeds)
	if err != nil {
		t.Fatal(err)
	}
	again.Workers = 3
	if err := again.Replay(log, nil); err != nil {
		t.Fatal(err)
	}
	if again.Digest() != f.Digest() || again.Reading() != f.Reading() {
		t.Error("flown again from its log it is not the same")
	}
}

// Every kind, scheduled and ordered, leaves a log that flown again gives the same.
func TestEventsAreFlownAgain(t *testing.T) {
	scheduled := "events:\n"
	for i, k := range exercise.Troubles() {
		scheduled += "  - { kind: " + string(k.Kind) + ", at_s: " + string(rune('1'+i%9)) + " }\n"
	}
	f := begun(t, scheduled)
	simtest.Give(t, f, order.Command{Do: order.LogOn, Line: "L1"})
	f.fly(120)
	sameAgain(t, f)

	f = begun(t, "")
	simtest.Give(t, f, order.Command{Do: order.LogOn, Line: "L1"})
	for _, k := range exercise.Troubles() {
		f.fly(4)
		simtest.Give(t, f, order.Command{Do: order.Event, Text: string(k.Kind), Value: k.Use * k.Per})
	}
	f.fly(60)
	if n := len(f.Passage.Happened()); n != len(exercise.Troubles()) {
		t.Errorf("%d events happened", n)
	}
	sameAgain(t, f)
}
