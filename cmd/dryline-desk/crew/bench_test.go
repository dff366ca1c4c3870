package crew

import (
	"bytes"
	"errors"
	"math"
	"slices"
	"testing"
	"time"

	"dryline/sim/order"
	"dryline/sim/product"
	"dryline/sim/survey"
	"dryline/sonar/mosaic"

	"github.com/google/go-cmp/cmp"
)

// logged is the crew of a session with a line of 40 s on its log, and a contact on it.
func logged(t testing.TB) *Crew {
	t.Helper()
	c := man(session(t)).start(false)
	c.session.Attempt.Started = time.Date(2031, 5, 1, 7, 55, 3, 0, time.UTC)
	for c.View().Tick < 500 {
		c.Pass(1, time.Hour)
	}
	c.Give(order.Command{Do: order.LogOn, Line: "A"})
	for c.View().Tick < 900 {
		c.Pass(1, time.Hour)
	}
	c.SetRate(1, true)
	c.Give(order.Command{Do: order.LogOff})
	if v := c.View(); len(v.Lines) != 1 {
		t.Fatalf("%d lines are closed, and time stands still", len(v.Lines))
	}
	line := c.Papers().Desk.Lines[0]
	p := &line.Pings[len(line.Pings)/2]
	x, y, ok := p.GroundAt(true, 30)
	if !ok {
		t.Fatal("no ground")
	}
	c.Give(order.Command{Do: order.Mark, X: x, Y: y, Ping: p.Number})
	return c
}

// What the bench makes is what the orders make: the survey worked up again is the same with it and without,
// to the byte of the digest; and the mosaic is the one that is handed over.
func TestBenchMakesWhatTheOrderMakes(t *testing.T) {
	with, without := logged(t), logged(t)
	before := without.session.Desk.Contacts[0]
	orders := []order.Command{{Do: order.ReworkFactor, Value: 0.9}, {Do: order.BottomAt, Ping: with.Papers().Desk.Lines[0].Pings[30].Number, Ping2: with.Papers().Desk.Lines[0].Pings[90].Number, Value: 9, Value2: 9.5}}
	with.Give(orders...)
	without.Give(orders...)
	b := with.Bench()
	made, err := b.Remake(with.Papers()).Wait()
	if err != nil {
		t.Fatal(err)
	}
	if with.session.Desk.Worked != nil {
		t.Fatal("making it again changed the survey")
	}
	with.Adopt(made.Worked)
	with.Give(order.Command{Do: order.Rework})
	without.Give(order.Command{Do: order.Rework})
	if with.session.Desk.Worked != made.Worked {
		t.Error("it was worked up once more")
	}
	if a, b := with.session.Digest(), without.session.Digest(); a != b {
		t.Errorf("with the bench %s, without %s", a, b)
	}
	after := without.session.Desk.Contacts[0]
	if off := math.Hypot(after.X-before.X, after.Y-before.Y); off < 0.5 {
		t.Errorf("the contact moved by %.2f m, want a metre or so", off)
	}

	// The mosaic of the products, from the other session.
	work := product.PaintingOf(without.session.Desk, without.page.Record, without.session.Prior)
	m, err := mosaic.New(work.Set.MosaicCell, work.Set.Combine)
	if err != nil {
		t.Fatal(err)
	}
	x, y := without.session.Brief.Place.Grid.Whole(work.Set.MosaicCell)
	m.Anchor(x, y)
	if err := work.Mosaic(m); err != nil {
		t.Fatal(err)
	}
	want := pictureOf(m)
	byPlace := func(a, b *Tile) int { return (a.I-b.I)*100000 + a.J - b.J }
	slices.SortFunc(want.Tiles, byPlace)
	slices.SortFunc(made.Tiles, byPlace)
	if len(made.Tiles) == 0 || cmp.Diff(want.Tiles, made.Tiles) != "" {
		t.Errorf("%d tiles at the bench, %d handed over, and they differ", len(made.Tiles), len(want.Tiles))
	}
	// Changed since, what lies ready is not taken.
	with.Give(order.Command{Do: order.ReworkFactor, Value: 0.95})
	without.Give(order.Command{Do: order.ReworkFactor, Value: 0.95})
	with.Give(order.Command{Do: order.Rework})
	without.Give(order.Command{Do: order.Rework})
	if a, b := with.session.Digest(), without.session.Digest(); a != b || with.session.Desk.Worked == made.Worked {
		t.Error("an old survey was taken over")
	}
}

// What is called off changes nothing and comes to nothing.
func TestCalledOff(t *testing.T) {
	c := logged(t)
	was := c.session.Digest()
	b := c.Bench()
	tasks := b.Remake(c.Papers())
	tasks.Cancel()
	if _, err := tasks.Wait(); !errors.Is(err, ErrCalledOff) {
		t.Errorf("called off: %v", err)
	}
	lines := b.LineRows(c.Papers(), 1, 0)
	lines.Cancel()
	if _, err := lines.Wait(); !errors.Is(err, ErrCalledOff) {
		t.Errorf("called off: %v", err)
	}
	if c.session.Digest() != was {
		t.Error("the survey changed")
	}
}

// The rows of a line are those that the pings gave, one by one, and both sides of a flat floor bear the
// bottom out.
func TestRowsOfALine(t *testing.T) {
	c := logged(t)
	p := c.Papers()
	got, err := c.Bench().LineRows(p, 1, 0).Wait()
	if err != nil {
		t.Fatal(err)
	}
	line := p.Desk.Lines[0]
	if len(got.Rows) != len(line.Pings) {
		t.Fatalf("%d rows of %d pings", len(got.Rows), len(line.Pings))
	}
	good := 0
	for i := range got.Rows {
		r := &got.Rows[i]
		ping, err := c.page.Record.Ping(line.Pings[i].Number)
		if err != nil {
			t.Fatal(err)
		}
		loudest, at := uint16(0), 0
		for k, v := range ping.Starboard[0] {
			if v > loudest {
				loudest, at = v, k
			}
		}
		// The loudest sample lies in a bright place of its row.
		if cell := at * len(r.Plain[1]) / len(ping.Starboard[0]); r.Plain[1][cell] < 60 {
			t.Fatalf("ping %d: the loudest sample, %d of %d, is shown as %d", i, loudest, at, r.Plain[1][cell])
		}
		if r.Grade[0] > 0.9 && r.Grade[1] > 0.9 {
			good++
		}
	}
	if 10*good < 8*len(got.Rows) {
		t.Errorf("%d of %d pings over a flat floor have a bottom that both sides bear out", good, len(got.Rows))
	}
}

// Work of the desk after the end comes back with the session, however it ended.
func TestDeskWorkComesBack(t *testing.T) {
	c := logged(t)
	c.Give(order.Command{Do: order.Finish})
	orders := []order.Command{{Do: order.ReworkFactor, Value: 0.9}, {Do: order.Rework}, {Do: order.DescribeContact, Number: 1, Text: "a block"}, {Do: order.DrawUp, Text: "first day"}}
	c.Give(orders...)
	c.Give(order.Command{Do: order.Cable, Value: 30})
	if v := c.View(); v.Complaints != 1 || v.Complaint == "" {
		t.Errorf("sailing on when it is over: %q", v.Complaint)
	}
	var log bytes.Buffer
	if err := c.WriteLog(&log); err != nil {
		t.Fatal(err)
	}
	back, left, err := Resume(log.Bytes(), false)
	if err != nil {
		t.Fatal(err)
	}
	arrived(t, back)
	if !left.Over || !back.View().Done || back.session.Digest() != c.session.Digest() {
		t.Errorf("over %v, done %v: digest %s, want %s", left.Over, back.View().Done, back.session.Digest(), c.session.Digest())
	}
	if d := back.Papers().Desk; d.Worked == nil || d.Report == nil || d.Contacts[0].Description != "a block" {
		t.Errorf("brought back it stands otherwise: %+v", d.Contacts)
	}
}

// Reports at the bench are those of the products, and holidays those of the report.
func TestReportsAtTheBench(t *testing.T) {
	c := logged(t)
	p := c.Papers()
	drawn, err := c.Bench().Reports(p).Wait()
	if err != nil {
		t.Fatal(err)
	}
	cover, err := c.Bench().Cover(p).Wait()
	if err != nil {
		t.Fatal(err)
	}
	if len(drawn.Survey.Holidays) != len(cover.Holidays) || len(cover.Holidays) == 0 || len(cover.Holidays[0].Cells()) == 0 {
		t.Errorf("%d holidays in the report, %d at the desk", len(drawn.Survey.Holidays), len(cover.Holidays))
	}
	chip, err := c.Bench().Chip(p, 1, 0).Wait()
	if err != nil || chip == nil || len(chip.Tiles) == 0 || chip.Half < 8 {
		t.Errorf("chip %+v, %v", chip, err)
	}
	if drawn.Survey.Contacts[0].Chip == nil {
		t.Error("the report has no chip")
	}
	if none, err := c.Bench().Chip(p, 99, 0).Wait(); none != nil || err != nil {
		t.Errorf("a contact that is not there: %+v, %v", none, err)
	}
}

// The papers are a copy: what is done afterwards is not on them.
func TestPapersStayAsTheyWere(t *testing.T) {
	c := logged(t)
	p := c.Papers()
	c.Give(order.Command{Do: order.NameContact, Number: 1, Text: "Box"}, order.Command{Do: order.ReworkFactor, Value: 0.9}, order.Command{Do: order.AddLine, Line: "X", X: 1, Y: 1, X2: 90, Y2: 90})
	if _, set := p.Desk.Review.Knob(survey.KnobFactor); set || p.Desk.Contacts[0].Name == "Box" || len(p.Brief.Added) != 0 {
		t.Errorf("the papers changed: %+v", p.Desk.Contacts)
	}
	if v := c.View(); len(v.Added) != 1 || v.Added[0].Name != "X" {
		t.Errorf("lines added: %+v", v.Added)
	}
}

// Orders are carried out while the bench works, and neither disturbs the other (the race detector looks on).
func TestOrdersBesideTheBench(t *testing.T) {
	c := logged(t)
	p := c.Papers()
	b := c.Bench()
	made, drawn, cover, rows := b.Remake(p), b.Reports(p), b.Cover(p), b.LineRows(p, 1, 0)
	line := p.Desk.Lines[0]
	for i := range 40 {
		q := &line.Pings[len(line.Pings)/3+i]
		x, y, _ := q.GroundAt(false, 25)
		c.Give(order.Command{Do: order.NameContact, Number: 1, Text: "Box"}, order.Command{Do: order.SightContact, Number: 1, X: x, Y: y, Ping: q.Number},
			order.Command{Do: order.BottomAt, Ping: q.Number, Ping2: q.Number + 1, Value: 9}, order.Command{Do: order.Remark, Text: "on we go"})
	}
	c.Give(order.Command{Do: order.Rework})
	if v := c.View(); v.Complaints > 0 {
		t.Errorf("refused: %q", v.Complaint)
	}
	_, err1 := made.Wait()
	report, err2 := drawn.Wait()
	_, err3 := cover.Wait()
	_, err4 := rows.Wait()
	if err := errors.Join(err1, err2, err3, err4); err != nil {
		t.Fatal(err)
	}
	if k := report.Survey.Contacts[0]; k.Name == "Box" || len(k.Passes) != 1 || len(report.Survey.Entries) != 0 {
		t.Errorf("the reports have what was done since: %+v", k)
	}
}
