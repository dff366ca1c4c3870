package crew

import (
	"bytes"
	"context"
	"crypto/rand"
	"errors"
	"io/fs"
	"math"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"filippo.io/age"

	"dryline/scenarios"
	"dryline/sim/assess"
	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/product"
)

// box is an assessment under way, in memory.
type box map[string][]byte

func (b box) Read(name string) ([]byte, error) {
	if c, ok := b[name]; ok {
		return c, nil
	}
	return nil, fs.ErrNotExist
}
func (b box) Put(name string, c []byte) error    { b[name] = bytes.Clone(c); return nil }
func (b box) Append(name string, c []byte) error { b[name] = append(b[name], c...); return nil }

// A crew under assessment: time goes as on the water whatever is asked, an event is refused, the view
// has no truth; left and resumed, the orders are in the log, which opens for the instructor.
func TestCrewUnderAssessment(t *testing.T) {
	ex, err := scenarios.Find("rising-floor")
	if err != nil {
		t.Fatal(err)
	}
	ex.Help = exercise.Help{Coach: true, TrueScene: true, Pause: true, MostSpeedUp: 20}
	instructor, err1 := age.GenerateX25519Identity()
	installation, err2 := age.GenerateX25519Identity()
	if err := errors.Join(err1, err2); err != nil {
		t.Fatal(err)
	}
	at := time.Date(2031, 6, 1, 9, 0, 0, 0, time.UTC)
	now := func() time.Time { return at }
	b := box{}
	s, err := (&assess.Start{
		Exercise: ex, Began: at, Instructor: instructor.Recipient(), Installation: installation.Recipient(), Chance: rand.Reader, Now: now,
	}).Begin(b)
	if err != nil {
		t.Fatal(err)
	}
	c, err := Assess(s, false)
	if err != nil {
		t.Fatal(err)
	}
	sail := func(c *Crew, seconds int) {
		for range seconds * 10 {
			at = at.Add(time.Second / 10)
			c.Pass(0.1, time.Second)
		}
	}
	for _, asked := range []struct {
		rate   float64
		paused bool
	}{{20, false}, {1, true}} {
		before := c.View().Tick
		c.SetRate(asked.rate, asked.paused)
		sail(c, 3)
		if n := c.View().Tick - before; n < 29 || n > 31 {
			t.Errorf("rate %v, paused %v: %d ticks in 3 s, want 30", asked.rate, asked.paused, n)
		}
	}
	c.Give(order.Command{Do: order.Speed, Value: 2}, order.Command{Do: order.Event, Text: string(exercise.EngineFailure)})
	if v := c.View(); !strings.Contains(v.Complaint, "in an assessment") || v.Scene != nil || v.Hints != nil {
		t.Errorf("complaint %q, scene %v, hints %v", v.Complaint, v.Scene, v.Hints)
	}
	if c.Name() != "rising-floor" {
		t.Errorf("its name is %q", c.Name())
	}
	c.Close()
	ticks := c.View().Tick

	at = at.Add(time.Hour)
	if s, err = assess.Resume(b, installation, scenarios.FromSeal, now); err != nil {
		t.Fatal(err)
	}
	if c, err = Assess(s, false); err != nil {
		t.Fatal(err)
	}
	for c.View().Restored < 1 {
		c.Pass(0, time.Second)
	}
	if got := c.View().Tick; got != ticks {
		t.Errorf("it goes on at tick %d, and was left at %d", got, ticks)
	}
	sail(c, 2)
	c.Give(order.Command{Do: order.Finish})
	c.Give(order.Command{Do: order.DrawUp, Text: "first part"}) // the desk works on
	c.Close()

	// Left at the desk and resumed, it is at the desk again.
	if s, err = assess.Resume(b, installation, scenarios.FromSeal, now); err != nil {
		t.Fatal(err)
	}
	if c, err = Assess(s, false); err != nil {
		t.Fatal(err)
	}
	for c.View().Restored < 1 {
		c.Pass(0, time.Second)
	}
	if r := c.Papers().Desk.Report; !c.View().Done || r == nil || r.Text != "first part" {
		t.Errorf("back at the desk: over %v, report %v", c.View().Done, r)
	}
	c.Give(order.Command{Do: order.DrawUp, Text: "first day"})
	if v := c.View(); v.Complaints > 0 {
		t.Errorf("refused: %q", v.Complaint)
	}
	c.Close()

	if s, err = assess.Resume(b, installation, scenarios.FromSeal, now); err != nil {
		t.Fatal(err)
	}
	var sink product.Memory
	f := assess.Flight{Assessment: s, Sink: &sink}
	if over, err := f.Fly(context.Background(), nil, math.MaxInt64); err != nil || !over {
		t.Fatal(over, err)
	}
	files := fstest.MapFS{}
	for _, e := range sink.Files() {
		files[e.Name] = &fstest.MapFile{Data: sink.Content(e.Name)}
	}
	o, err := assess.Open(files, instructor)
	if err != nil {
		t.Fatal(err)
	}
	st, err := o.FlyAgain(context.Background(), scenarios.FromSeal, &product.Memory{}, nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	if !st.Holds || len(st.Files) > 0 || len(st.Gaps) != 1 || !st.Gaps[0].Resumed || math.Abs(st.Gaps[0].Passed-3600) > 1 {
		t.Errorf("got %+v", st)
	}
	if got := o.Log.Orders; len(got) != 5 || got[1].Do != order.Speed {
		t.Errorf("orders: %+v", got)
	}
}
