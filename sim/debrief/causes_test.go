package debrief

import (
	"math"
	"slices"
	"strings"
	"testing"

	"dryline/sim"
	"dryline/sim/exercise"
	"dryline/sim/mark"
	"dryline/sim/order"
	"dryline/sim/record"
	"dryline/sim/simtest"
	"dryline/vessel/sea"
)

// orders are those that the mate gives on an exercise.
func orders(t *testing.T, ex *exercise.Exercise) []order.Command {
	t.Helper()
	return slices.Clone(run(t, ex).Commands)
}

// follow runs a session by orders, without the mate.
func follow(t *testing.T, ex *exercise.Exercise, list []order.Command) *session {
	t.Helper()
	s := start(t, ex)
	s.Passage.SetHand(nil)
	slices.SortStableFunc(list, func(a, b order.Command) int { return int(a.Tick - b.Tick) })
	if err := s.Follow(list, order.ToTheEnd, nil); err != nil {
		t.Fatal(err)
	}
	return s
}

// Runs with one thing done wrong lose points to that, and the debrief names it, when it
// was and what to do.
func TestCausesByName(t *testing.T) {
	if testing.Short() {
		t.Skip("flies two dozen sessions")
	}
	for _, row := range []struct {
		name  string
		wrong func(*testing.T, *exercise.Exercise) *session
		item  mark.ID
		kind  string // of the dearest cause
		says  string
	}{
		{"catenary factor", func(t *testing.T, ex *exercise.Exercise) *session {
			ex.Desk.CatenaryFactor, ex.Score.ContactWithin = 0.85, 2
			return run(t, ex)
		}, mark.Position, "factor", "catenary factor of 0.850; about 0.9"},
		{"catenary factor that does not reach the fish", func(t *testing.T, ex *exercise.Exercise) *session {
			ex.Desk.CatenaryFactor = 0.6
			return run(t, ex)
		}, mark.Position, "factor", "do not reach a fish"},
		{"antenna offset", func(t *testing.T, ex *exercise.Exercise) *session {
			ex.Desk.AntennaToTow += 15
			return run(t, ex)
		}, mark.Position, "offset", "it is 6.3 m"},
		{"sound speed", func(t *testing.T, ex *exercise.Exercise) *session {
			ex.Desk.SoundSpeed *= 1.1
			ex.Score.ContactWithin = 1
			return run(t, ex)
		}, mark.Position, "sound_speed", "take a cast"},
		{"crab", func(t *testing.T, ex *exercise.Exercise) *session {
			current, err := sea.NewProfile([]sea.Current{{Speed: 1.1, Set: math.Pi / 2}})
			if err != nil {
				t.Fatal(err)
			}
			ex.Sea.Current, ex.Plan.RunIn = current, 120
			return run(t, oneLine(ex))
		}, mark.Position, "crab", "fish's compass"},
		{"too fast", func(t *testing.T, ex *exercise.Exercise) *session {
			ex.Plan.Speed, ex.Score.PingsPerMetre = 4.4, 4
			return run(t, oneLine(ex))
		}, mark.Pings, "too_fast", "Slow down to"},
		{"too high", func(t *testing.T, ex *exercise.Exercise) *session {
			ex.Plan.CableOut = 8
			return run(t, oneLine(ex))
		}, mark.Height, "too_high", "pay out cable"},
		{"too low", func(t *testing.T, ex *exercise.Exercise) *session {
			ex.Plan.CableOut = 33
			return run(t, oneLine(ex))
		}, mark.Height, "too_low", "haul in"},
		{"range scale too long for the height", func(t *testing.T, ex *exercise.Exercise) *session {
			list := orders(t, oneLine(ex))
			return follow(t, ex, append([]order.Command{{Do: order.Range, Value: 100}}, list...))
		}, mark.Height, "range_too_long", "Set 50 m"},
		{"log late", func(t *testing.T, ex *exercise.Exercise) *session {
			return follow(t, ex, delay(orders(t, oneLine(ex)), order.LogOn, 250))
		}, mark.Lines, "log_late", "before the fish, not the vessel"},
		{"log early", func(t *testing.T, ex *exercise.Exercise) *session {
			return follow(t, ex, delay(orders(t, oneLine(ex)), order.LogOff, -250))
		}, mark.Lines, "log_early", "hold on until the fish"},
		{"log off beside the line", func(t *testing.T, ex *exercise.Exercise) *session {
			list := orders(t, oneLine(ex))
			return follow(t, ex, slices.DeleteFunc(list, func(c order.Command) bool { return c.Do == order.LogOn || c.Do == order.LogOff }))
		}, mark.Lines, "log_off", "with the log off"},
		{"turn logged", func(t *testing.T, ex *exercise.Exercise) *session {
			list := orders(t, ex)
			first := true
			return follow(t, ex, slices.DeleteFunc(list, func(c order.Command) bool {
				drop := c.Do == order.LogOff && first || c.Do == order.LogOn && c.Line == "L2"
				first = first && c.Do != order.LogOff
				return drop
			}))
		}, mark.Lines, "turn", "with the log of L1 still on"},
		{"full gain", func(t *testing.T, ex *exercise.Exercise) *session {
			ex.Sonar.Channels[0].Receiver.Gain = 40
			return run(t, ex)
		}, mark.Coverage, "gain", "take gain off"},
		{"no gain over range", func(t *testing.T, ex *exercise.Exercise) *session {
			r := &ex.Sonar.Channels[0].Receiver
			r.TVGSpreading, r.TVGAbsorption, r.Gain = 0, 0, 0
			return run(t, ex)
		}, mark.Coverage, "tvg", "time-varied gain is wrong"},
	} {
		t.Run(row.name, func(t *testing.T) {
			t.Parallel()
			s := row.wrong(t, small(t))
			takeUp(s)
			r := report(s)
			if row.kind == "turn" && !slices.ContainsFunc(r.Score.Gates, func(g Gate) bool { return g.ID == gateTurn && !g.Met }) {
				t.Errorf("the turn's gate is met: %+v", r.Score.Gates)
			}
			it := item(t, r, row.item)
			if len(it.Causes) == 0 {
				t.Fatalf("%s of %s, %s: no cause is given", it.What, it.Got, it.Why)
			}
			c := it.Causes[0]
			if c.Kind != row.kind || !strings.Contains(c.Says, row.says) {
				t.Errorf("%s, %s: got %+v, want it laid to %s with %q", it.What, it.Got, it.Causes, row.kind, row.says)
			}
			if c.To < c.From || c.From < 0 || c.To > r.Simulated {
				t.Errorf("from %g to %g s of %g", c.From, c.To, r.Simulated)
			}
			for _, other := range r.Score.Items {
				if other.Why == nothingLogged && len(s.Desk.Lines) > 0 {
					t.Errorf("%s says %q of a run with %d lines", other.What, other.Why, len(s.Desk.Lines))
				}
			}
		})
	}
}

// delay moves the first order of a kind by so many ticks.
func delay(list []order.Command, what order.Do, ticks int64) []order.Command {
	for i := range list {
		if list[i].Do == what {
			list[i].Tick += ticks
			break
		}
	}
	return list
}

// What was put right after the watch is put right in what is marked: the survey as it is
// handed in.
func TestWorkedUpAgainIsWhatIsMarked(t *testing.T) {
	ex := oneLine(small(t))
	ex.Desk.AntennaToTow += 15
	kept := func(ex *exercise.Exercise) *session {
		s := start(t, ex)
		sim.KeepLogged(s.Session, record.New(record.InMemory()))
		for !s.Done() {
			s.Advance(600)
		}
		return s
	}
	s := kept(ex)
	if r := report(s); r.Position.Fish.Along.Mean > -14 {
		t.Fatalf("as sailed: %+v", r.Position.Fish.Along)
	}
	simtest.Give(t, s, order.Command{Do: order.ReworkTowOffset, Value: 6.3}, order.Command{Do: order.Rework})
	r := report(s)
	if math.Abs(r.Position.Fish.Along.Mean) > 0.3 {
		t.Errorf("worked up again: %+v", r.Position.Fish.Along)
	}
	if it := item(t, r, mark.Position); it.Points < it.Of {
		t.Errorf("%+v", it)
	}
	wrong := oneLine(small(t))
	wrong.Desk.SoundSpeed *= 1.05
	s = kept(wrong)
	before := report(s).Position.StarboardFull.Across.Mean
	simtest.Give(t, s, order.Command{Do: order.ReworkSoundSpeed, Value: wrong.Desk.SoundSpeed / 1.05}, order.Command{Do: order.Rework})
	if after := report(s).Position.StarboardFull.Across.Mean; before < 1.5 || math.Abs(after) > 0.3 {
		t.Errorf("far range %.2f m out by the wrong sound speed, %.2f m with it put right", before, after)
	}
}
