package order_test

import (
	"bytes"
	"math"
	"os"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"dryline/sim"
	"dryline/sim/order"
	"dryline/sim/record"
	"dryline/sim/simtest"
)

// flown is the small exercise flown to its end, with its record; it is flown once.
var flown = sync.OnceValues(func() (*sim.Session, error) {
	s, err := sim.New(simtest.Small(tb{}), 1)
	if err != nil {
		return nil, err
	}
	sim.KeepLogged(s, record.New(record.InMemory()))
	s.AttachMate()
	for !s.Done() {
		s.Advance(500)
	}
	return s, nil
})

// tb is a test to those who ask for one and need none.
type tb struct{ testing.TB }

func (tb) Helper() {}

// FuzzDeskOrders gives whatever a file says to the desk of a finished session. What is
// asked whether it would be refused is answered as giving it comes to, and nothing makes
// a number that is not one.
func FuzzDeskOrders(f *testing.F) {
	for _, seed := range []string{
		`{"do":"rework_factor","value":0.9}` + "\n" + `{"do":"rework"}` + "\n" + `{"do":"mark","x_m":120,"y_m":300,"ping":900}`,
		`{"do":"bottom_at","ping":800,"ping2":900,"value":4,"value2":6}` + "\n" + `{"do":"undo_bottom"}` + "\n" + `{"do":"redo_bottom"}` + "\n" + `{"do":"rework"}`,
		`{"do":"mark","x_m":120,"y_m":300}` + "\n" + `{"do":"measure","number":4,"text":"shadow","x_m":120,"y_m":300,"x2_m":125,"y2_m":300}` + "\n" + `{"do":"rate_contact","number":4,"value":1}` + "\n" + `{"do":"contact_action","number":4,"text":"dismiss","reason":"x"}`,
		`{"do":"sight_contact","number":1,"x_m":130,"y_m":300,"ping":2000}` + "\n" + `{"do":"calibrate_layback","value":1}` + "\n" + `{"do":"apply_calibration"}` + "\n" + `{"do":"check_system","number":1}`,
		`{"do":"rework_sound_speed","value":1400}` + "\n" + `{"do":"rework"}` + "\n" + `{"do":"undo_contact"}` + "\n" + `{"do":"rework_latency","value":-5}` + "\n" + `{"do":"rework_course_time","value":1}` + "\n" + `{"do":"rework"}`,
		`{"do":"show_line","number":1,"value":0}` + "\n" + `{"do":"reject_line","number":2,"reason":"low"}` + "\n" + `{"do":"remark","text":"area clear"}` + "\n" + `{"do":"draw_up","text":"all"}`,
		`{"do":"bottom_by","text":"450","method":"altimeter"}` + "\n" + `{"do":"rework_level","text":"line"}` + "\n" + `{"do":"rework_combine","text":"best"}` + "\n" + `{"do":"state_error","text":"fish","value":3}` + "\n" + `{"do":"sea_state","number":4}`,
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		base, err := flown()
		if err != nil {
			t.Fatal(err)
		}
		desk, session := *base.Desk, *base
		desk.Contacts, desk.Review = slices.Clone(desk.Contacts), desk.Review.Clone()
		was := base.Desk
		base.Desk = &desk
		defer func() { *base = session; base.Desk = was }()
		orders, err := order.ReadFile(bytes.NewReader(data), "orders", base.Brief)
		if err != nil {
			return
		}
		if len(orders) > 40 {
			orders = orders[:40]
		}
		for _, c := range orders {
			says := base.Refusal(c)
			err := base.Give(c)
			if (says == nil) != (err == nil) || says != nil && says.Error() != err.Error() {
				t.Fatalf("%+v: asked %v, given %v", c, says, err)
			}
			if err != nil && strings.Contains(err.Error(), "\n") {
				t.Fatalf("%+v: the error takes more than a line: %q", c, err)
			}
		}
		for i := range desk.Contacts {
			c := &desk.Contacts[i]
			size, depth := desk.Dimensions(c), desk.DepthOver(c)
			for _, v := range []float64{c.X, c.Y, c.Height, size.Length.Sigma, size.Height.Sigma, depth.Metres, depth.Sigma} {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Fatalf("contact %+v, %+v, %+v", c, size, depth)
				}
			}
		}
		if base.Digest() == "" {
			t.Fatal("no digest")
		}
	})
}

// Nothing that sails is taken when the exercise is over; work at the desk is, and the
// log that carries it replays to the same digest, in small steps or large.
func TestTheDeskWorksOnWhenTheWatchIsOver(t *testing.T) {
	run := func() *sim.Session {
		s := begin(t, 1)
		sim.KeepLogged(s, record.New(record.InMemory()))
		return s
	}
	s := run()
	s.AttachMate()
	for !s.Done() {
		s.Advance(700)
	}
	for _, c := range []order.Command{{Do: order.Speed, Value: 2}, {Do: order.AddLine, Line: "x", X2: 50}, {Do: order.LogOn, Line: "L1"}, {Do: order.Lookout}} {
		if err := s.Give(c); err == nil || !strings.Contains(err.Error(), "the exercise is over") {
			t.Errorf("%s: got %v", c.Do, err)
		}
	}
	p := s.Desk.Lines[0].Pings[300]
	simtest.Give(t, s,
		order.Command{Do: order.Mark, X: 130, Y: 300}, order.Command{Do: order.RateContact, Number: s.Desk.LastContact(), Value: 0.5},
		order.Command{Do: order.BottomAt, Ping: p.Number, Ping2: p.Number + 50, Value: 3},
		order.Command{Do: order.ReworkFactor, Value: 0.9}, order.Command{Do: order.Rework}, order.Command{Do: order.RejectLine, Number: 2, Reason: "low"},
		order.Command{Do: order.Remark, Text: "done"}, order.Command{Do: order.DrawUp})
	var b bytes.Buffer
	if err := s.WriteLog(&b); err != nil {
		t.Fatal(err)
	}
	log, err := order.ReadLog(&b)
	if err != nil {
		t.Fatal(err)
	}
	again := run()
	if err := again.Replay(log, nil); err != nil {
		t.Fatal(err)
	}
	if again.Digest() != s.Digest() || again.Digest() != log.Digest || !slices.Equal(again.Commands, s.Commands) {
		t.Error("the log does not replay to the same")
	}
	if plain := run(); plain.Refusal(order.Command{Do: order.Rework}) == nil {
		t.Error("a survey without lines is worked up")
	}
}

// The orders that README shows are orders.
func TestReadmeShowsOrdersThatAre(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	found := regexp.MustCompile(`"do":"(\w+)"`).FindAllStringSubmatch(string(text), -1)
	if len(found) < 10 {
		t.Fatalf("%d orders in README, want more", len(found))
	}
	for _, m := range found {
		if !slices.ContainsFunc(order.Table, func(r order.Row) bool { return string(r.Do) == m[1] }) {
			t.Errorf("README shows %q, which is no order", m[1])
		}
	}
}
