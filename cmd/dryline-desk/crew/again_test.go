package crew

import (
	"bytes"
	"slices"
	"testing"
	"time"

	"dryline/sim"
	"dryline/sim/debrief"
	"dryline/sim/order"
	"dryline/sim/record"

	"github.com/google/go-cmp/cmp"
)

// over is the crew of a session of 40 s that was flown by the orders and ended, with
// all its rows.
func over(t *testing.T) (*Crew, []Ping) {
	t.Helper()
	c := man(session(t)).start(false)
	c.session.Attempt.Started = time.Date(2031, 5, 1, 7, 55, 3, 0, time.UTC)
	run(t, c, 400, func() { c.Pass(sim.Tick, time.Hour) })
	finish(t, c)
	return c, c.Rows(nil)
}

func finish(t *testing.T, c *Crew) {
	t.Helper()
	if c.Give(order.Command{Do: order.Finish}); !c.View().Done {
		t.Fatalf("it is not over: %s", c.View().Complaint)
	}
}

// arrived works a crew until its session is where it is brought to.
func arrived(t *testing.T, c *Crew) {
	t.Helper()
	for n := 0; c.View().Restored < 1; n++ {
		if c.Pass(0, time.Hour); n > 1000 {
			t.Fatal("it never gets there")
		}
	}
}

// seen returns all a view shows of the session, without how fast time passes.
func seen(v *View) View {
	s := *v
	s.Pending = nil
	s.Scene = nil // it has the sea of the whole session in it
	s.Asked, s.Reached, s.Restored, s.Complaint, s.Complaints = 0, 0, 0, "", 0
	return s
}

// Looked at again at any tick a session shows what it showed there the first time,
// instruments, contacts and pings, and so it does when it is played on from there; no
// order is taken meanwhile.
func TestLookedAtAgainItShowsWhatItShowed(t *testing.T) {
	c, rows := over(t)
	first := man(session(t)).start(false)
	views := map[int64]View{}
	run(t, first, 400, func() {
		first.Pass(sim.Tick, time.Hour)
		v := seen(first.View())
		views[v.Tick] = v
	})
	upTo := func(now float64) []Ping {
		n := slices.IndexFunc(rows, func(p Ping) bool { return p.Fix.Time >= now })
		if n < 0 {
			n = len(rows)
		}
		return rows[:n]
	}
	for _, at := range []int64{7, 233} {
		again, err := c.LookAgain(at, false)
		if err != nil {
			t.Fatal(err)
		}
		again.SetRate(1, true)
		arrived(t, again)
		got := again.Rows(nil)
		if d := cmp.Diff(views[at], seen(again.View())); d != "" {
			t.Errorf("at tick %d it shows something else:\n%.3000s", at, d)
		}
		again.Give(order.Command{Do: order.Cable, Value: 25})
		if v := again.View(); v.Complaints != 1 || v.Bridge.CableOrdered == 25 {
			t.Errorf("an order was taken while it was looked at: %q", v.Complaint)
		}
		again.SetRate(1, false)
		for again.View().Tick < at+60 {
			again.Pass(sim.Tick, time.Hour)
		}
		if d := cmp.Diff(views[at+60], seen(again.View())); d != "" {
			t.Errorf("played on from tick %d to %d it shows something else:\n%.3000s", at, at+60, d)
		}
		again.GoTo(at + 61)
		arrived(t, again)
		if again.View().Tick != at+61 {
			t.Errorf("sent to tick %d it is at %d", at+61, again.View().Tick)
		}
		got = again.Rows(got)
		if d := cmp.Diff(upTo(again.View().Now), got); d != "" {
			t.Errorf("to tick %d other pings are shown:\n%.2000s", at+61, d)
		}
		again.Close()
	}
}

// The pings that are shown come from the record that was kept, not out of the sonar
// anew.
func TestLookedAtAgainItIsTheRecordThatIsShown(t *testing.T) {
	c, _ := over(t)
	silent := record.New(record.InMemory())
	for p, err := range c.page.Record.All() {
		if err != nil {
			t.Fatal(err)
		}
		for _, side := range [2][][]uint16{p.Port, p.Starboard} {
			for _, samples := range side {
				clear(samples)
			}
		}
		if err := silent.Append(&p.Ping, p.Recorder); err != nil {
			t.Fatal(err)
		}
	}
	c.page.Record = silent
	again, err := c.LookAgain(200, false)
	if err != nil {
		t.Fatal(err)
	}
	arrived(t, again)
	rows := again.Rows(nil)
	if len(rows) < 100 || slices.ContainsFunc(rows, func(p Ping) bool { return slices.Contains(p.Echo, true) }) {
		t.Errorf("of a record without an echo %d rows are shown, some with echoes", len(rows))
	}
}

// Tried again with the orders that were given the first time a session gives the same
// survey and the same debrief, but for its being practice; its log names the session it
// comes from, and so it does when it was left and resumed.
func TestTriedAgainByTheSameOrdersItIsTheSame(t *testing.T) {
	c, _ := over(t)
	var digests []string
	for _, at := range []int64{1, 221, 10000} {
		again, err := c.TryAgain(at, false)
		if err != nil {
			t.Fatal(err)
		}
		at = min(at, 399)
		arrived(t, again)
		v := again.View()
		if v.Tick != at || again.earlier != nil {
			t.Fatalf("it begins at tick %d, want %d", v.Tick, at)
		}
		done := 0
		for _, o := range again.session.Commands {
			if o.Tick >= at {
				t.Errorf("from tick %d: an order of tick %d was copied", at, o.Tick)
			}
			done++
		}
		for _, o := range c.session.Commands[done:] {
			for again.View().Tick < o.Tick {
				again.Pass(sim.Tick, time.Hour)
			}
			again.Give(o)
		}
		if !again.View().Done {
			t.Fatalf("from tick %d it is not over at %d", at, again.View().Tick)
		}
		digests = append(digests, again.session.Digest())
		head := again.session.Head()
		want := order.Parent{Started: c.session.Attempt.Started, Digest: c.session.Digest(), Tick: at}
		if head.Parent == nil || *head.Parent != want {
			t.Errorf("its head names %+v, want %+v", head.Parent, want)
		}
		one, two := c.Report(), again.Report()
		if two.Practice == nil || two.Score.Passed || two.Score.Gates[0].ID != "practice" {
			t.Errorf("its debrief does not call it practice: %+v", two.Score.Gates)
		}
		two.Practice, two.Started, two.Score.Gates = nil, one.Started, two.Score.Gates[1:]
		if d := cmp.Diff(one, two); d != "" {
			t.Errorf("from tick %d the debrief differs:\n%.2000s", at, d)
		}
		var log bytes.Buffer
		if err := again.WriteLog(&log); err != nil {
			t.Fatal(err)
		}
		back, _, err := Resume(log.Bytes(), false)
		if err != nil {
			t.Fatal(err)
		}
		if p := back.Parent(); p == nil || *p != want {
			t.Errorf("resumed it names %+v, want %+v", p, want)
		}
	}
	for _, d := range digests {
		if d != c.session.Digest() {
			t.Errorf("digests %v, want all %s", digests, c.session.Digest())
		}
	}
}

// Tried again and flown otherwise it becomes another survey, and what its pings lit on
// the way to the moment is in its debrief all the same.
func TestTriedAgainOtherwiseItIsAnother(t *testing.T) {
	c := man(session(t)).start(false)
	c.Give(order.Command{Do: order.LogOn, Line: "A"})
	for c.View().Tick < 1400 {
		c.Pass(10, time.Hour)
	}
	finish(t, c)
	lit := func(r debrief.Report) (n int) {
		for _, target := range r.Targets {
			n += target.Pings
		}
		return n
	}
	all := lit(c.Report())
	if all == 0 {
		t.Fatal("nothing was lit")
	}
	again, err := c.TryAgain(1390, false)
	if err != nil {
		t.Fatal(err)
	}
	arrived(t, again)
	again.Give(order.Command{Do: order.Cable, Value: 25})
	for again.View().Tick < 1400 {
		again.Pass(sim.Tick, time.Hour)
	}
	finish(t, again)
	if again.session.Digest() == c.session.Digest() {
		t.Error("flown otherwise it gives the same survey")
	}
	if got := lit(again.Report()); got == 0 || got > all+20 || got < all-40 {
		t.Errorf("its debrief counts %d pings on objects, the first one's %d", got, all)
	}
}
