package passage_test

import (
	"math"
	"testing"

	"dryline/seabed"
	"dryline/vessel/sea"

	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/passage"
	"dryline/sim/simtest"
	"github.com/google/go-cmp/cmp"
)

// flown runs an exercise to its end with the mate.
func flown(t *testing.T, ex *exercise.Exercise) *under {
	t.Helper()
	s := begin(t, ex, 1)
	s.attachMate()
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
		what   passage.Kind
		object string
	}
	for _, row := range []struct {
		name   string
		cable  []float64 // ordered in turn, two and a half minutes each
		object seabed.Object
		least  map[passage.Kind]int
	}{
		{"dragged all the way", nil, seabed.Object{Name: "far", Kind: "block", At: seabed.Point{X: 300, Y: 300}}, map[passage.Kind]int{passage.Grounded: 1}},
		{"let down and hauled up", []float64{60, 15, 60, 15, 60, 15}, seabed.Object{Name: "far", Kind: "block", At: seabed.Point{X: 300, Y: 300}}, map[passage.Kind]int{passage.Grounded: 3}},
		{"over stones on the way", nil, seabed.Object{Name: "heap", Kind: "boulders", At: seabed.Point{X: 100, Y: 240}, Length: 40, Width: 12, Height: 1.5}, map[passage.Kind]int{passage.Grounded: 1, passage.Struck: 1}},
	} {
		t.Run(row.name, func(t *testing.T) {
			ex := simtest.Small(t)
			ex.Plan.CableOut, ex.Plan.Speed = 60, 1.2
			ex.Seabed.Objects = []seabed.Object{row.object}
			s := begin(t, ex, 1)
			var want []knock
			touched := map[uint16]float64{} // when last, by number; the floor is 0
			changed := 0
			last := uint16(0)
			for tick := 0; tick < 9000 && !s.Done(); tick++ {
				if n := tick / 1500; tick%1500 == 0 && n < len(row.cable) {
					simtest.Give(t, s, order.Command{Do: order.Cable, Value: row.cable[n]})
				}
				s.Advance(1)
				thing, touches := s.World.Touch(s.Gear().X, s.Gear().Y, s.Surface()-s.Gear().Depth, passage.FishRadius)
				if !touches && !s.Gear().Grounded {
					continue
				}
				if when, before := touched[thing]; !before || s.Now()-when > 10 {
					if thing == 0 {
						want = append(want, knock{passage.Grounded, ""})
					} else {
						want = append(want, knock{passage.Struck, row.object.Name})
					}
				}
				if thing != last {
					changed, last = changed+1, thing
				}
				touched[thing] = s.Now()
			}
			var got []knock
			for _, h := range s.Mishaps() {
				if h.What == passage.Grounded || h.What == passage.Struck {
					got = append(got, knock{h.What, h.Object})
				}
			}
			if diff := cmp.Diff(want, got, cmp.AllowUnexported(knock{})); diff != "" {
				t.Errorf("noted otherwise than touched (changing over %d times):\n%s", changed, diff)
			}
			for what, least := range row.least {
				if n := s.count(what); n < least {
					t.Errorf("%s %d times, the test needs %d", what, n, least)
				}
			}
		})
	}
}

// A block that stands as high as the fish flies is struck, by name.
func TestStrikeNamesTheObject(t *testing.T) {
	ex := simtest.Small(t)
	o := &ex.Seabed.Objects[0]
	o.At.X, o.At.Y, o.Length, o.Width, o.Height = 100, 300, 12, 12, 9
	s := flown(t, ex)
	if s.count(passage.Struck) == 0 {
		t.Fatal("the fish passed through a block")
	}
	for _, h := range s.Mishaps() {
		if h.What == passage.Struck && (h.Object != "block" || math.Hypot(h.X-100, h.Y-300) > 10) {
			t.Errorf("struck %q at %.0f, %.0f, want the block at 100, 300", h.Object, h.X, h.Y)
		}
	}
}

func TestCableAlarmsAndParts(t *testing.T) {
	ex := simtest.Small(t)
	ex.Tow.Cable.WorkingLoad = 200
	s := flown(t, ex)
	if n := s.count(passage.Overloaded); n != 1 {
		t.Errorf("%d alarms of a cable always over its working load, want one that goes on", n)
	}
	ex.Tow.Cable.Breaking = 250
	s = flown(t, ex)
	if s.count(passage.Parted) != 1 || s.Now() > 60 {
		t.Errorf("the cable parted %d times by %.0f s, want once and the exercise over", s.count(passage.Parted), s.Now())
	}
}

// Waves at the stern move the fish; flat water does not; a tide takes the
// altitude along and leaves the depth.
func TestSeaMovesTheFish(t *testing.T) {
	spread := func(ex *exercise.Exercise) (depth, heave float64) {
		s := begin(t, ex, 1)
		var n, sum, squares, up float64
		for i := range 1500 {
			s.Advance(1)
			if i < 500 {
				continue
			}
			n++
			sum += s.Gear().Depth
			squares += s.Gear().Depth * s.Gear().Depth
			up = max(up, math.Abs(s.Reading().Heave))
		}
		return math.Sqrt(max(squares/n-sum*sum/n/n, 0)), up
	}
	ex := simtest.Small(t)
	calm, still := spread(ex)
	ex.Vessel.Block, ex.Vessel.GM = 0.45, 0.8
	ex.Sea.Waves = sea.Conditions{Hs: 0.8, Tp: 4, Toward: math.Pi, Depth: 14}
	rough, heave := spread(ex)
	if still != 0 || heave < 0.1 || rough < calm+0.02 {
		t.Errorf("depth of the fish varies by %.3f m in flat water and %.3f in waves; heave %.2f and %.2f m", calm, rough, still, heave)
	}

	ex = simtest.Small(t)
	ex.Sea.Tide = sea.Tide{Amplitude: 2}
	high := begin(t, ex, 1)
	low := begin(t, simtest.Small(t), 1)
	high.Advance(300)
	low.Advance(300)
	a, b := high.Reading(), low.Reading()
	if got := a.FishAltitude - b.FishAltitude; math.Abs(got-2) > 0.05 || math.Abs(a.FishDepth-b.FishDepth) > 0.02 {
		t.Errorf("2 m of tide: altitude %.3f m more and depth %.3f, want 2 and the same", got, a.FishDepth-b.FishDepth)
	}
}
