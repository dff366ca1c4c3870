package crew

import (
	"bytes"
	"math"
	"strings"
	"testing"
	"time"

	"dryline/scenarios"
	"dryline/sim"
	"dryline/sim/debrief"
	"dryline/sim/order"
)

func session(t testing.TB) *sim.Session {
	t.Helper()
	ex, err := scenarios.Find("first-line")
	if err != nil {
		t.Fatal(err)
	}
	s, err := sim.New(ex, ex.Seed)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// orders are given at fixed ticks, however the crew is worked.
var orders = map[int64][]order.Command{
	5:   {{Do: order.Cable, Value: 18}, {Do: order.Speed, Value: 2}},
	60:  {{Do: order.LogOn, Line: "A"}},
	220: {{Do: order.Mark, X: 150, Y: 190}},
	300: {{Do: order.LogOff}},
}

// run works a crew for some ticks and returns the session log.
func run(t *testing.T, c *Crew, ticks int64, pass func()) []byte {
	t.Helper()
	done := map[int64]bool{}
	for c.View().Tick < ticks {
		at := c.View().Tick
		// Time stands still while an order is given, so that its tick is the same.
		if o := orders[at]; o != nil && !done[at] {
			done[at] = true
			c.Give(o...)
		}
		pass()
	}
	var b bytes.Buffer
	if err := c.WriteLog(&b); err != nil {
		t.Fatal(err)
	}
	c.Close()
	return b.Bytes()
}

// The same orders at the same ticks give the same log, with a goroutine of its
// own or inside the frame.
func TestCrewWorksAlikeApartAndInside(t *testing.T) {
	inside := man(session(t)).start(false)
	a := run(t, inside, 320, func() { inside.Pass(sim.Tick, time.Hour) })
	apart := man(session(t)).start(true)
	b := run(t, apart, 320, func() {
		at := apart.View().Tick
		apart.Pass(sim.Tick, 0)
		for apart.View().Tick == at {
			time.Sleep(50 * time.Microsecond)
		}
	})
	if !bytes.Equal(a, b) {
		t.Errorf("logs differ:\n%s\n%s", tail(a), tail(b))
	}
	one, two := inside.Report(), apart.Report()
	if one.Score.Points != two.Score.Points || len(one.Lines) != len(two.Lines) {
		t.Errorf("scores %g and %g", one.Score.Points, two.Score.Points)
	}
}

func tail(b []byte) string { return string(b[max(len(b)-600, 0):]) }

// A session left half way comes back to the tick and the state it was left in,
// and goes on to the same end.
func TestResumedSessionIsWhereItWas(t *testing.T) {
	whole := man(session(t)).start(false)
	run(t, whole, 500, func() { whole.Pass(sim.Tick, time.Hour) })

	half := man(session(t)).start(false)
	log := run(t, half, 250, func() { half.Pass(sim.Tick, time.Hour) })
	l, err := order.ReadLog(bytes.NewReader(log))
	if err != nil {
		t.Fatal(err)
	}
	back := manLeft(session(t), l).start(false)
	for n := 0; back.View().Restored < 1; n++ {
		back.Pass(0, time.Hour)
		if n > 1000 {
			t.Fatal("it never comes back")
		}
	}
	if v, was := back.View(), half.View(); v.Tick != 250 || v.Reading.X != was.Reading.X || v.Fix.Y != was.Fix.Y || len(v.Contacts) != 1 {
		t.Errorf("back at tick %d with %d contacts, want where it was left: tick 250, one contact", v.Tick, len(v.Contacts))
	}
	run(t, back, 500, func() { back.Pass(sim.Tick, time.Hour) })
	if a, b := whole.View(), back.View(); a.Reading.X != b.Reading.X || a.Reading.Y != b.Reading.Y || a.Reading.FishDepth != b.Reading.FishDepth {
		t.Error("after being resumed the session went another way")
	}
	var one, two bytes.Buffer
	if err := debrief.WriteJSON(&one, whole.Report()); err != nil {
		t.Fatal(err)
	}
	if err := debrief.WriteJSON(&two, back.Report()); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(one.Bytes(), two.Bytes()) {
		t.Error("the debrief of the resumed session differs")
	}
}

// However little can be done at a time, a session whose last orders were given
// where it was left comes back, and so does one of which an order is refused.
func TestResumedSessionComesBackInSmallSteps(t *testing.T) {
	for _, last := range []order.Command{{Do: order.Cable, Value: 21}, {Do: order.Cable, Value: -1}} {
		last.Tick = 40
		back := manLeft(session(t), &order.Log{Commands: []order.Command{{Do: order.Cable, Value: 19}, last}, Ticks: 40}).start(false)
		back.SetRate(1, true)
		for range 10 {
			back.Pass(0, 1)
		}
		if v := back.View(); v.Restored != 1 || v.Tick != 40 || v.CutShort != (last.Value < 0) || v.Bridge.CableOrdered != max(last.Value, 19) {
			t.Errorf("left with %g m ordered: %.2f of the way back at tick %d, cut short %v, %g m ordered", last.Value, v.Restored, v.Tick, v.CutShort, v.Bridge.CableOrdered)
		}
	}
}

// Ticks of an order are held only while it is being written down, with a
// goroutine of its own as well; the time owed meanwhile is not lost.
func TestNoTickPassesWhileAnOrderIsPending(t *testing.T) {
	for _, apart := range []bool{false, true} {
		c := man(session(t)).start(apart)
		budget := time.Hour
		if apart {
			budget = 0
		}
		pass := func() {
			if c.Pass(sim.Tick/2, budget); apart {
				time.Sleep(time.Millisecond)
			}
		}
		b := &book{}
		c.SetBook(b)
		c.Give(order.Command{Do: order.Cable, Value: 21}, order.Command{Do: order.Cable, Value: 22})
		for range 4 {
			pass()
		}
		if v := c.View(); v.Tick != 0 || len(v.Pending) != 2 || len(b.orders) != 1 {
			t.Errorf("apart %v: at tick %d with %d pending and %d written, want 0, 2 and 1", apart, v.Tick, len(v.Pending), len(b.orders))
		}
		c.Written()
		c.Written()
		if v := c.View(); v.Bridge.CableOrdered != 22 || len(v.Pending) != 0 {
			t.Errorf("apart %v: %g m ordered with %d pending, want 22 and none", apart, v.Bridge.CableOrdered, len(v.Pending))
		}
		for range 10000 {
			if pass(); c.View().Tick >= 3 {
				break
			}
		}
		if at := c.View().Tick; at < 3 {
			t.Errorf("apart %v: it stays at tick %d", apart, at)
		}
		c.Close()
	}
}

// book writes orders down in its own time.
type book struct{ orders [][]byte }

func (b *book) Order(_ int64, r Record) bool {
	record, err := r(b.orders == nil)
	if err != nil {
		panic(err)
	}
	b.orders = append(b.orders, record)
	return false
}

// What is owed is carried out in batches as large as the time allows, by what a
// tick has cost.
func TestWhatIsOwedIsCarriedOutInBatches(t *testing.T) {
	c := man(session(t)).start(false)
	at, advanced := time.Unix(0, 0), int64(0)
	c.SetNow(func() time.Time { // a tick takes five milliseconds here
		at = at.Add(5 * time.Millisecond * time.Duration(c.session.Ticks()-advanced))
		advanced = c.session.Ticks()
		return at
	})
	c.SetRate(20, false)
	c.Pass(0.005, 9*time.Millisecond) // one, to learn what it costs
	if c.cost != 5*time.Millisecond {
		t.Fatalf("a tick costs %v, want 5ms", c.cost)
	}
	before := c.View().Tick
	c.Pass(0.1, 52*time.Millisecond)
	if got := c.View().Tick - before; got < 10 || got > 11 {
		t.Errorf("%d ticks in 52 ms, want ten of 5 ms", got)
	}
}

// A refused order is said in plain words and changes nothing.
func TestRefusedOrderIsSaid(t *testing.T) {
	c := man(session(t)).start(false)
	c.SetRate(1, true)
	c.Give(order.Command{Do: order.LogOn, Line: "Z"})
	v := c.View()
	if v.Complaints != 1 || !strings.Contains(v.Complaint, `"Z"`) || strings.HasPrefix(v.Complaint, "sim:") || strings.Contains(v.Complaint, string(order.LogOn)) {
		t.Errorf("got %d complaints, %q, want one about line Z without the names of package and order", v.Complaints, v.Complaint)
	}
	c.Pass(10, time.Hour)
	if c.View().Tick != 0 {
		t.Error("time went on while it stood still")
	}
}

// A machine that cannot keep up lets time go: no debt grows.
func TestTimeOwedIsBounded(t *testing.T) {
	c := man(session(t)).start(false)
	c.SetRate(2, false)
	for range 1000 {
		c.Pass(1, 1) // a nanosecond's budget: one tick a pass at most
	}
	if c.clock.credit > mostAhead*2 {
		t.Errorf("%.0f ticks owed, want at most %d", c.clock.credit, mostAhead*2)
	}
	at := c.View().Tick
	c.SetRate(2, true)
	for range 100 {
		c.Pass(1, time.Second)
	}
	if late := c.View().Tick - at; late > 1 {
		t.Errorf("%d ticks after time was told to stand still", late)
	}
}

// Rows come once each, in order, with the pictures of both sides.
func TestRowsComeOnceAndInOrder(t *testing.T) {
	c := man(session(t)).start(false)
	var rows []Ping
	for range 40 {
		c.Pass(1, time.Hour)
		rows = c.Rows(rows)
	}
	if len(rows) < 100 {
		t.Fatalf("%d rows in half a minute, want hundreds", len(rows))
	}
	for i := 1; i < len(rows); i++ {
		if rows[i].Number != rows[i-1].Number+1 {
			t.Fatalf("row %d is ping %d after %d", i, rows[i].Number, rows[i-1].Number)
		}
	}
	last := rows[len(rows)-1]
	if len(last.Rows) != 1 || len(last.Rows[0][0]) == 0 || len(last.Rows[0][1]) != len(last.Rows[0][0]) {
		t.Error("a row lacks its sides")
	}
	if math.Abs(last.Fix.Time-c.View().Now) > 1 {
		t.Errorf("the last row is of %.1f s at %.1f s", last.Fix.Time, c.View().Now)
	}
}

// After time has stood still the rate reached is not yet known: the pause is
// not counted as slowness.
func TestPauseIsNotSlowness(t *testing.T) {
	c := man(session(t)).start(false)
	c.clock.reached = rateMeter{began: time.Now().Add(-time.Minute), ticks: 1, last: 1}
	c.SetRate(1, true)
	c.SetRate(1, false)
	c.Pass(sim.Tick, time.Hour)
	if v := c.View(); v.Tick != 1 || v.Reached != 0 {
		t.Errorf("got a rate of %g at tick %d, want none known at tick 1", v.Reached, v.Tick)
	}
}

// With the log on a session keeps what its page needs and no more: the rows of the
// mosaic's channel.
func TestOnlyTheRowsOfThePageAreKept(t *testing.T) {
	ex, err := scenarios.Find("disused-anchorage")
	if err != nil {
		t.Fatal(err)
	}
	c, err := Begin(ex, ex.Seed, false)
	if err != nil {
		t.Fatal(err)
	}
	c.Give(order.Command{Do: order.LogOn, Line: ex.Lines[0].Name})
	for range 25 {
		c.Pass(1, time.Hour)
	}
	line := c.session.Desk.OpenLine()
	for channel, rows := range line.Rows {
		want := 1
		if channel == ex.Desk.MosaicChannel {
			want = len(line.Pings)
		}
		if len(rows) != want || want > 1 && want < 100 {
			t.Errorf("channel %d: %d rows of %d pings, want %d", channel, len(rows), len(line.Pings), want)
		}
	}
}
