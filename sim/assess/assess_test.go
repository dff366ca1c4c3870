package assess_test

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"dryline/scenarios"
	"dryline/seabed"
	"dryline/sim/assess"
	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/product"
)

// An assessment that was handed in opens for its instructor, and its orders flown again
// give it to the byte.
func TestFlownHandedInAndOpened(t *testing.T) {
	k, files := flown(t, 1)
	st, out := k.openAgain(t, files)
	if !st.Holds || !st.HandedIn || len(st.Files) > 0 || len(st.Gaps) > 0 {
		t.Errorf("it does not hold: %+v", st)
	}
	if st.Sailed != 73 || math.Abs(st.Passed-st.Sailed) > 0.01 {
		t.Errorf("%v s sailed in %v s, want 73 in as many", st.Sailed, st.Passed)
	}
	for name, f := range files {
		switch name {
		case assess.LogFile, assess.SecretFile, assess.KeyFile, assess.FindingsFile, "contents.json":
			continue
		}
		if !bytes.Equal(out.Content(name), f.Data) {
			t.Errorf("%s is not the same flown again", name)
		}
	}
	for _, name := range []string{"debrief.json", "debrief.html", "truth.geojson", "session.jsonl"} {
		if out.Content(name) == nil || files[name] != nil {
			t.Errorf("%s: want it opened, and not with the trainee", name)
		}
	}
	// The session's log is one as any other session's, and says the seeds.
	l, err := order.ReadLog(bytes.NewReader(out.Content("session.jsonl")))
	if err != nil || string(l.Source) != source || l.Trainee != "A. Trainee" || l.Digest == "" {
		t.Errorf("session log: %v, %+v", err, l)
	}
	if files["survey-report.html"] == nil || files["contact-report.csv"] == nil {
		t.Error("no report was drawn up when the watch was over")
	}
	if text := string(out.Content(assess.StatementText)); !strings.Contains(text, "can be read") || !strings.Contains(text, "key of the installation") {
		t.Errorf("the statement does not say what it does not protect against:\n%s", text)
	}
}

// What the trainee has tells nothing of what lies there: no name, no place, no seed, none of
// the exercise's file. The same search finds all of it in what the instructor has.
func TestTheTraineesFolderTellsNothing(t *testing.T) {
	k, files := flown(t, 2)
	w := newWall()
	under := box{} // the same draw
	s := k.begin(t, under, w, 2)
	needles := map[string][]byte{"the exercise's file": []byte("98765.4321"), "its title": []byte("hidden-source")}
	for name, seed := range map[string]uint64{"seed": s.Seeds.One, "ground": s.Seeds.Ground, "placed": s.Seeds.Placed, "weather": s.Seeds.Weather, "sonar": s.Seeds.Sonar} {
		needles[name] = []byte(strconv.FormatUint(seed, 10))
		needles[name+", hex"] = []byte(strconv.FormatUint(seed, 16))
		needles[name+", bytes"] = binary.LittleEndian.AppendUint64(nil, seed)
		needles[name+", bytes turned"] = binary.BigEndian.AppendUint64(nil, seed)
	}
	hidden := 0
	for _, o := range s.Exercise.Seabed.Objects {
		if o.Charted {
			continue
		}
		hidden++
		needles[o.Name] = []byte(o.Name)
		lat, lon := s.Exercise.Place.Grid.ToLatLon(o.At.X, o.At.Y).Degrees()
		for i, v := range []float64{o.At.X, o.At.Y, lat, lon} {
			needles[fmt.Sprintf("%s, place %d", o.Name, i)] = []byte(strconv.FormatFloat(v, 'f', 6, 64))
			needles[fmt.Sprintf("%s, place %d, bytes", o.Name, i)] = binary.LittleEndian.AppendUint64(nil, math.Float64bits(v))
		}
	}
	if hidden < 2 {
		t.Fatalf("%d objects are hidden", hidden)
	}
	var sink product.Memory
	f := assess.Flight{Assessment: s, Sink: &sink, Wait: w.wait}
	if over, err := f.Fly(context.Background(), orders(), 400); err != nil || over {
		t.Fatal(over, err)
	}
	search := func(where string, content []byte) (found int) {
		for what, n := range needles {
			if bytes.Contains(content, n) {
				found++
				if where != "" {
					t.Errorf("%s has %s", where, what)
				}
			}
		}
		return found
	}
	for name, content := range under {
		search("under way, "+name, content)
	}
	for name, f := range files {
		search(name, f.Data)
	}
	_, out := k.openAgain(t, files)
	if n := search("", out.Content("session.jsonl")); n < 7 {
		t.Errorf("the search finds %d of the exercise and its seeds in the instructor's log", n)
	}
	if n := search("", out.Content("truth.geojson")); n < hidden {
		t.Errorf("the search finds %d of %d objects in the truth", n, hidden)
	}
}

// Gone on with where it was left, it gives the same bytes as flown through; the break is shown.
func TestResumedGivesTheSame(t *testing.T) {
	if testing.Short() {
		t.Skip("it flies several surveys")
	}
	k, through := flown(t, 1)
	w := newWall()
	b := box{}
	s := k.begin(t, b, w, 1)
	for _, until := range []int64{333, 720, math.MaxInt64} { // before, while and after the line is logged
		var sink product.Memory
		f := assess.Flight{Assessment: s, Sink: &sink, Wait: w.wait}
		over, err := f.Fly(context.Background(), orders(), until)
		if err != nil || over != (until == math.MaxInt64) {
			t.Fatal(over, err)
		}
		if !over {
			w.at = w.at.Add(10 * time.Minute)
			b[assess.LogFile] = append(b[assess.LogFile], `{"at_utc":"2031`...) // the program died in the middle of a record
			if s, err = assess.Resume(b, k.installation, parseHidden(t), w.now); err != nil {
				t.Fatal(err)
			}
			continue
		}
		again := folderOf(&sink)
		if len(again) != len(through) {
			t.Errorf("%d files, want %d", len(again), len(through))
		}
		for name, f := range through {
			switch name {
			case assess.LogFile, assess.SecretFile, assess.KeyFile, assess.FindingsFile, "contents.json":
				continue
			}
			if !bytes.Equal(again[name].Data, f.Data) {
				t.Errorf("%s is not the same", name)
			}
		}
		one, err1 := assess.Open(through, k.instructor)
		two, err2 := assess.Open(again, k.instructor)
		if err := errors.Join(err1, err2); err != nil {
			t.Fatal(err)
		}
		for name, content := range one.Findings {
			if !bytes.Equal(two.Findings[name], content) {
				t.Errorf("sealed %s is not the same", name)
			}
		}
		st, _ := k.openAgain(t, again)
		if len(st.Gaps) != 2 || !st.Gaps[0].Resumed || st.Gaps[1].Passed != 600 || !st.Holds {
			t.Errorf("the breaks: %+v", st.Gaps)
		}
	}
}

// One that was never handed in opens as far as it came, and is no evidence.
func TestNeverHandedIn(t *testing.T) {
	k := newKeys(t)
	w, b := newWall(), box{}
	f := assess.Flight{Assessment: k.begin(t, b, w, 4), Sink: &product.Memory{}, Wait: w.wait}
	if _, err := f.Fly(context.Background(), orders(), 600); err != nil {
		t.Fatal(err)
	}
	var files product.Memory
	for name, c := range b {
		files.Write(name, bytesTo(c))
	}
	st, out := k.openAgain(t, folderOf(&files))
	if st.Holds || st.HandedIn || st.Sailed != 60 || out.Content("truth.geojson") == nil {
		t.Errorf("got %+v", st)
	}
}

// Nobody helps, and nobody orders an event.
func TestWithoutHelp(t *testing.T) {
	k := newKeys(t)
	s := k.begin(t, box{}, newWall(), 5)
	if h := s.Brief.Help; h.Coach || h.TrueScene || h.Pause || h.MostSpeedUp != 1 || h.SideView || !h.Assessed {
		t.Errorf("help is %+v", h)
	}
	err := s.Give(order.Command{Do: order.Event, Text: string(exercise.EngineFailure)})
	if err == nil || !strings.Contains(err.Error(), "in an assessment") {
		t.Errorf("an event: %v", err)
	}
	if err := s.Give(order.Command{Do: order.Speed, Value: 2}); err != nil {
		t.Error(err)
	}
	free := hidden(t)
	if err := (&order.Command{Do: order.Event, Text: string(exercise.EngineFailure)}).Check(free.Brief()); err != nil {
		t.Errorf("an event out of one: %v", err)
	}
}

// Two assessments share no place where there is something to be found, on every exercise that can be
// flown as one, and those whose file fixes places are refused.
func TestEachHasGroundOfItsOwn(t *testing.T) {
	if testing.Short() {
		t.Skip("it places objects on many floors")
	}
	ready := 0
	for _, info := range scenarios.Embedded() {
		ex, err := scenarios.Find(info.Name)
		if err != nil {
			t.Fatal(err)
		}
		fixed := ex.Elsewhere == nil && slices.ContainsFunc(ex.Seabed.Objects, func(o seabed.Object) bool { return !o.Charted })
		if err := assess.Ready(ex); err != nil {
			if !fixed && ex.Varies() && len(ex.Seabed.Pipelines) == 0 {
				t.Errorf("%s is refused: %v", info.Name, err)
			}
			continue
		}
		if ready++; fixed {
			t.Errorf("%s has objects at fixed places and is taken", info.Name)
		}
		var places [2][]seabed.Point
		for i := range places {
			seeds, err := assess.Draw(ex, &drawn{of: uint64(i)})
			if err != nil {
				t.Fatal(err)
			}
			settled, err := ex.Settle(seeds)
			if err != nil {
				t.Fatal(err)
			}
			for _, o := range settled.Seabed.Objects {
				if !o.Charted {
					places[i] = append(places[i], o.At)
				}
			}
		}
		if len(places[0]) == 0 {
			t.Errorf("%s: nothing is to be found", info.Name)
		}
		for _, a := range places[0] {
			for _, b := range places[1] {
				if math.Hypot(a.X-b.X, a.Y-b.Y) < 0.5 {
					t.Errorf("%s: something lies at %v, %v both times", info.Name, a, b)
				}
			}
		}
	}
	if ready < 5 {
		t.Errorf("%d exercises can be assessed", ready)
	}
}

// Each seed is drawn by itself, from all 64 bits.
func TestSeedsAreDrawn(t *testing.T) {
	seeds, err := assess.Draw(hidden(t), bytes.NewReader(slices.Concat(
		eight(1), eight(1<<63|2), eight(3), eight(4), eight(5))))
	if want := (exercise.Seeds{One: 1, Ground: 1<<63 | 2, Placed: 3, Weather: 4, Sonar: 5}); err != nil || seeds != want {
		t.Errorf("got %v, %v; want %v", seeds, err, want)
	}
	if _, err := assess.Draw(hidden(t), bytes.NewReader(nil)); err == nil {
		t.Error("no chance, and yet a seed")
	}
}

func eight(v uint64) []byte { return binary.LittleEndian.AppendUint64(nil, v) }

// An order that is refused is not written down, and the session stays under way.
func TestRefusedOrder(t *testing.T) {
	k := newKeys(t)
	w, b := newWall(), box{}
	f := assess.Flight{Assessment: k.begin(t, b, w, 6), Sink: &product.Memory{}, Wait: w.wait}
	_, err := f.Fly(context.Background(), []order.Command{{Tick: 5, Do: order.Speed, Value: 2}, {Tick: 9, Do: order.DeleteContact, Number: 99}}, math.MaxInt64)
	if err == nil || !strings.Contains(err.Error(), "delete_contact") {
		t.Fatalf("got %v", err)
	}
	s, err := assess.Resume(b, k.installation, parseHidden(t), w.now)
	if err != nil {
		t.Fatal(err)
	}
	f = assess.Flight{Assessment: s, Sink: &product.Memory{}, Wait: w.wait}
	if over, err := f.Fly(context.Background(), []order.Command{{Tick: 5, Do: order.Speed, Value: 2}, {Tick: 12, Do: order.Finish}}, math.MaxInt64); err != nil || !over {
		t.Fatal(over, err)
	}
	if got := s.Commands; len(got) != 2 || got[1].Do != order.Finish {
		t.Errorf("orders: %+v", got)
	}
}
