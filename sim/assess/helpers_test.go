package assess_test

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/binary"
	"errors"
	"io/fs"
	"maps"
	"math"
	"testing"
	"testing/fstest"
	"time"

	"filippo.io/age"

	"dryline/seabed"
	"dryline/seabed/placing"
	"dryline/sim/assess"
	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/product"
	"dryline/sim/simtest"
)

// source stands for the file of the exercise: no real one, so that nothing is found of it by chance.
const source = "title: hidden-source-of-the-exercise\nrelief: {wavelength_m: 98765.4321}\n"

// hidden is an invented exercise whose objects are left to the seed.
func hidden(t testing.TB) *exercise.Exercise {
	ex := simtest.Small(t)
	ex.Seabed.Objects = []seabed.Object{{Name: "mark-on-the-chart", Kind: "block", At: seabed.Point{X: 60, Y: 80}, Length: 2, Width: 2, Height: 1.2, Charted: true}}
	ex.Placed = []placing.Group{{
		Name: "zzhidden", Fewest: 2, Most: 4, Kinds: []placing.Choice{{Kind: "block", Weight: 1}}, Spacing: 3,
	}}
	ex.Source, ex.Help = []byte(source), exercise.Help{Coach: true, TrueScene: true, Pause: true}
	return ex
}

// parseHidden reads the exercise as it was sealed.
func parseHidden(t testing.TB) assess.Parse {
	return func(name string, text []byte) (*exercise.Exercise, error) {
		if name != "small" || string(text) != source {
			return nil, errors.New("it is another exercise")
		}
		return hidden(t), nil
	}
}

// box is an [assess.Box] in memory.
type box map[string][]byte

func (b box) Read(name string) ([]byte, error) {
	if c, ok := b[name]; ok {
		return c, nil
	}
	return nil, fs.ErrNotExist
}
func (b box) Put(name string, c []byte) error { b[name] = bytes.Clone(c); return nil }
func (b box) Append(name string, c []byte) error {
	b[name] = append(bytes.Clone(b[name]), c...)
	return nil
}

// drawn is a source of chance that is the same at every run of a test, one for each number.
type drawn struct{ of, n uint64 }

func (d *drawn) Read(p []byte) (int, error) {
	for i := range p {
		var b [16]byte
		binary.LittleEndian.PutUint64(b[:], d.of)
		binary.LittleEndian.PutUint64(b[8:], d.n)
		d.n++
		sum := sha256.Sum256(b[:])
		p[i] = sum[0]
	}
	return len(p), nil
}

// wall is a clock on the wall that goes as it is told: as the exercise, by Wait.
type wall struct{ at time.Time }

func newWall() *wall { return &wall{time.Date(2031, 6, 1, 9, 0, 0, 0, time.UTC)} }

func (w *wall) now() time.Time                          { return w.at }
func (w *wall) wait(_ context.Context, d time.Duration) { w.at = w.at.Add(d) }

type keys struct{ instructor, installation *age.X25519Identity }

func newKeys(t testing.TB) keys {
	t.Helper()
	a, err1 := age.GenerateX25519Identity()
	b, err2 := age.GenerateX25519Identity()
	if err := errors.Join(err1, err2); err != nil {
		t.Fatal(err)
	}
	return keys{a, b}
}

func (k keys) begin(t testing.TB, b box, w *wall, of uint64) *assess.Session {
	t.Helper()
	s, err := (&assess.Start{
		Exercise: hidden(t), Trainee: "A. Trainee", Began: w.now(), Instructor: k.instructor.Recipient(),
		Installation: k.installation.Recipient(), Chance: &drawn{of: of}, Now: w.now,
	}).Begin(b)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// orders log the first line and mark something on it.
func orders() []order.Command {
	return []order.Command{
		{Tick: 0, Do: order.Speed, Value: 2.1},
		{Tick: 0, Do: order.Cable, Value: 20},
		{Tick: 0, Do: order.SteerLine, Line: "L1"},
		{Tick: 450, Do: order.LogOn, Line: "L1"},
		{Tick: 700, Do: order.LogOff},
		{Tick: 720, Do: order.Mark, X: 120, Y: 270},
		{Tick: 730, Do: order.Finish},
		{Tick: 730, Do: order.DrawUp, Text: "A first line."},
	}
}

// ours are the keys of most tests, and handedIn what was flown by them, by its draw.
var (
	ours     keys
	handedIn = map[uint64]fstest.MapFS{}
)

// flown is an assessment flown to its end: the folder that is handed in.
func flown(t testing.TB, of uint64) (keys, fstest.MapFS) {
	t.Helper()
	if ours.instructor == nil {
		ours = newKeys(t)
	}
	if handedIn[of] == nil {
		handedIn[of] = ours.flown(t, of)
	}
	return ours, handedIn[of]
}

func (k keys) flown(t testing.TB, of uint64) fstest.MapFS {
	t.Helper()
	w := newWall()
	s := k.begin(t, box{}, w, of)
	var sink product.Memory
	f := assess.Flight{Assessment: s, Sink: &sink, Wait: w.wait}
	over, err := f.Fly(context.Background(), orders(), math.MaxInt64)
	if err != nil || !over {
		t.Fatalf("handed in %v, %v", over, err)
	}
	return folderOf(&sink)
}

func folderOf(m *product.Memory) fstest.MapFS {
	files := fstest.MapFS{}
	for _, e := range m.Files() {
		files[e.Name] = &fstest.MapFile{Data: m.Content(e.Name)}
	}
	return files
}

// with returns the folder with one file changed.
func with(files fstest.MapFS, name string, change func([]byte) []byte) fstest.MapFS {
	out := maps.Clone(files)
	data := change(bytes.Clone(files[name].Data))
	if data == nil {
		delete(out, name)
		return out
	}
	out[name] = &fstest.MapFile{Data: data}
	return out
}

// openAgain opens a folder and flies it again.
func (k keys) openAgain(t testing.TB, files fs.FS) (*assess.Statement, *product.Memory) {
	t.Helper()
	o, err := assess.Open(files, k.instructor)
	if err != nil {
		t.Fatal(err)
	}
	var out product.Memory
	st, err := o.FlyAgain(context.Background(), parseHidden(t), &out, nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	return st, &out
}
