package sim

import (
	"math"
	"testing"

	"dryline/seabed"
	"dryline/vessel/sea"

	"github.com/google/go-cmp/cmp"
)

// flown runs an exercise to its end with the mate.
func flown(t *testing.T, ex *Exercise) *Session {
	t.Helper()
	s, err := New(ex, 1)
	if err != nil {
		t.Fatal(err)
	}
	s.AttachMate()
	for !s.Done() {
		s.Advance(1000)
	}
	return s
}

// What the fish touches is noted once: when it is first touched, and again only
// after ten seconds clear of it. The fish is followed here tick by tick, with
// nothing but the world to say what it touches.
func TestEachThingTouchedIsNotedOnce(t *testing.T) {
	type knock struct {
		what   Mishap
		object string
	}
	for _, row := range []struct {
		name   string
		cable  []float64 // ordered in turn, two and a half minutes each
		object seabed.Object
		least  map[Mishap]int
	}{
		{"dragged all the way", nil, seabed.Object{Name: "far", Kind: "block", At: seabed.Point{X: 300, Y: 300}}, map[Mishap]int{Grounded: 1}},
		{"let down and hauled up", []float64{60, 15, 60, 15, 60, 15}, seabed.Object{Name: "far", Kind: "block", At: seabed.Point{X: 300, Y: 300}}, map[Mishap]int{Grounded: 3}},
		{"over stones on the way", nil, seabed.Object{Name: "heap", Kind: "boulders", At: seabed.Point{X: 100, Y: 240}, Length: 40, Width: 12, Height: 1.5}, map[Mishap]int{Grounded: 1, Struck: 1}},
	} {
		t.Run(row.name, func(t *testing.T) {
			ex := small(t)
			ex.Plan.CableOut, ex.Plan.Speed = 60, 1.2
			ex.Seabed.Objects = []seabed.Object{row.object}
			s, err := New(ex, 1)
			if err != nil {
				t.Fatal(err)
			}
			s.withoutPings()
			var want []knock
			touched := map[uint16]float64{} // when last, by number; the floor is 0
			changed := 0
			last := uint16(0)
			for tick := 0; tick < 9000 && !s.Done(); tick++ {
				if n := tick / 1500; tick%1500 == 0 && n < len(row.cable) {
					must(t, s, Command{Do: Cable, Value: row.cable[n]})
				}
				s.Advance(1)
				thing, touches := s.world.Touch(s.gear.X, s.gear.Y, s.weather.surface-s.gear.Depth, fishRadius)
				if !touches && !s.gear.Grounded {
					continue
				}
				if when, before := touched[thing]; !before || s.Now()-when > 10 {
					if thing == 0 {
						want = append(want, knock{Grounded, ""})
					} else {
						want = append(want, knock{Struck, row.object.Name})
					}
				}
				if thing != last {
					changed, last = changed+1, thing
				}
				touched[thing] = s.Now()
			}
			var got []knock
			for _, h := range s.Truth.Happenings {
				if h.What == Grounded || h.What == Struck {
					got = append(got, knock{h.What, h.Object})
				}
			}
			if diff := cmp.Diff(want, got, cmp.AllowUnexported(knock{})); diff != "" {
				t.Errorf("noted otherwise than touched (changing over %d times):\n%s", changed, diff)
			}
			for what, least := range row.least {
				if n := s.Truth.Count(what); n < least {
					t.Errorf("%s %d times, the test needs %d", what, n, least)
				}
			}
		})
	}
}

// Too much cable over a shallow floor: what the fish would have heard while it
// drags is lost.
func TestGroundingCostsPings(t *testing.T) {
	ex := small(t)
	ex.Plan.CableOut, ex.Plan.Speed = 60, 1.2
	s := flown(t, ex)
	lost := 0
	for _, l := range s.Desk.Lines {
		for i, p := range l.Pings {
			if len(l.Rows[0][i].Port) == 0 && !p.Locked {
				lost++
			}
		}
	}
	if lost == 0 {
		t.Error("no pings were lost to the grounding")
	}
}

// A block that stands as high as the fish flies is struck, by name.
func TestStrikeNamesTheObject(t *testing.T) {
	ex := small(t)
	o := &ex.Seabed.Objects[0]
	o.At.X, o.At.Y, o.Length, o.Width, o.Height = 100, 300, 12, 12, 9
	s := flown(t, ex)
	if s.Truth.Count(Struck) == 0 {
		t.Fatal("the fish passed through a block")
	}
	for _, h := range s.Truth.Happenings {
		if h.What == Struck && (h.Object != "block" || math.Hypot(h.X-100, h.Y-300) > 10) {
			t.Errorf("struck %q at %.0f, %.0f, want the block at 100, 300", h.Object, h.X, h.Y)
		}
	}
}

func TestCableAlarmsAndParts(t *testing.T) {
	ex := small(t)
	ex.Tow.Cable.WorkingLoad = 200
	s := flown(t, ex)
	if n := s.Truth.Count(Overloaded); n != 1 {
		t.Errorf("%d alarms of a cable always over its working load, want one that goes on", n)
	}
	ex.Tow.Cable.Breaking = 250
	s = flown(t, ex)
	if s.Truth.Count(Parted) != 1 || s.Now() > 60 {
		t.Errorf("the cable parted %d times by %.0f s, want once and the exercise over", s.Truth.Count(Parted), s.Now())
	}
}

// Waves at the stern move the fish; flat water does not; a tide takes the
// altitude along and leaves the depth.
func TestSeaMovesTheFish(t *testing.T) {
	spread := func(ex *Exercise) (depth, heave float64) {
		s, err := New(ex, 1)
		if err != nil {
			t.Fatal(err)
		}
		var n, sum, squares, up float64
		for i := range 1500 {
			s.Advance(1)
			if i < 500 {
				continue
			}
			n++
			sum += s.gear.Depth
			squares += s.gear.Depth * s.gear.Depth
			up = max(up, math.Abs(s.Reading().Heave))
		}
		return math.Sqrt(max(squares/n-sum*sum/n/n, 0)), up
	}
	ex := small(t)
	calm, still := spread(ex)
	ex.Vessel.Block, ex.Vessel.GM = 0.45, 0.8
	ex.Sea.Waves = sea.Conditions{Hs: 0.8, Tp: 4, Toward: math.Pi, Depth: 14}
	rough, heave := spread(ex)
	if still != 0 || heave < 0.1 || rough < calm+0.02 {
		t.Errorf("depth of the fish varies by %.3f m in flat water and %.3f in waves; heave %.2f and %.2f m", calm, rough, still, heave)
	}

	ex = small(t)
	ex.Sea.Tide = sea.Tide{Amplitude: 2}
	high, err := New(ex, 1)
	if err != nil {
		t.Fatal(err)
	}
	low, err := New(small(t), 1)
	if err != nil {
		t.Fatal(err)
	}
	high.Advance(300)
	low.Advance(300)
	a, b := high.Reading(), low.Reading()
	if got := a.FishAltitude - b.FishAltitude; math.Abs(got-2) > 0.05 || math.Abs(a.FishDepth-b.FishDepth) > 0.02 {
		t.Errorf("2 m of tide: altitude %.3f m more and depth %.3f, want 2 and the same", got, a.FishDepth-b.FishDepth)
	}
}
