package app

import (
	"image"
	"math"
	"strings"
	"testing"

	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/order"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// deskStations is how many pieces the desk's work has.
const deskStations = 7

// atTheDesk is the desk of a watch with a line logged and contacts on it, over or not.
func atTheDesk(t testing.TB, g *Game, over bool) *Desk {
	t.Helper()
	w := watchUnderWay(t, g, "first-line", 30)
	w.give(order.Command{Do: order.LogOff})
	if over {
		w.give(order.Command{Do: order.Finish})
	}
	w.view = w.crew.View()
	g.Resize(1280, 720, 1)
	g.screen = w
	g.ui.Container = w.Build(g, g.area())
	w.goToDesk(g)
	d, ok := g.next.(*Desk)
	if !ok {
		t.Fatalf("there is no desk: %q", g.Notice)
	}
	g.screen, g.next = d, nil
	g.ui.Container = d.Build(g, g.area())
	return d
}

// settleDesk has the desk work until nothing is under way at the bench.
func settleDesk(t testing.TB, g *Game, d *Desk) {
	t.Helper()
	for range 200 {
		for _, s := range d.stations {
			s.work(g)
		}
		if !d.wait() {
			d.Build(g, g.area())
			return
		}
	}
	t.Fatal("the bench is never done")
}

// wait waits for what is under way at the bench, and reports whether anything was.
func (d *Desk) wait() (any bool) {
	for _, s := range d.stations {
		switch s := s.(type) {
		case *recordStation:
			if s.task != nil {
				s.task.Wait()
				any = true
			}
		case *mosaicStation:
			if s.task != nil {
				s.task.Wait()
				any = true
			}
		case *contactStation:
			if s.task != nil {
				s.task.Wait()
				any = true
			}
		case *holidayStation:
			if s.task != nil {
				s.task.Wait()
				any = true
			}
		case *reportStation:
			if s.task != nil {
				s.task.Wait()
				any = true
			}
		}
	}
	return any
}

// Whatever has a button at the desk has a key as well, one that nothing else has at that station, and
// stands in the overlay of the keys; and the keys lead into every field.
func TestKeysReachTheWholeDesk(t *testing.T) {
	g := NewGame(&memory{}, false)
	d := atTheDesk(t, g, false)
	d.handIn = func(*Game) {} // as when the watch is over, besides what there is while it is open
	taken := map[ebiten.Key]bool{ebiten.KeyF1: true, ebiten.KeyE: true, ebiten.KeyTab: true}
	for _, k := range stationKeys {
		taken[k] = true
	}
	for i := range d.stations {
		d.turn(g, i)
		settleDesk(t, g, d)
		g.ui.Container = d.Build(g, g.area())
		acts := append(d.station().acts(), d.acts()...)
		type pressed struct {
			key   ebiten.Key
			shift shift
		}
		had := map[pressed]string{}
		byLabel := map[string]bool{"Choose: Enter": true}
		for _, s := range d.stations {
			byLabel[s.name()] = true
		}
		overlay := ""
		for _, k := range d.Keys() {
			overlay += " " + k.Name
		}
		for _, a := range acts {
			at := pressed{a.key, a.shift}
			if was, twice := had[at]; twice || taken[a.key] {
				t.Errorf("%s: key %s is that of %q and of %q", d.station().name(), a.name, was, a.label+a.help)
			}
			had[at] = a.label + a.help
			byLabel[a.label] = true
			if a.name == "" || !strings.Contains(overlay, a.name) {
				t.Errorf("%s: %q is not in the overlay %q", d.station().name(), a.name, overlay)
			}
		}
		fields := 0
		eachWidget(g.ui.Container, func(w widget.PreferredSizeLocateableWidget, label string) {
			switch w.(type) {
			case *widget.Button:
				if !byLabel[label] {
					t.Errorf("%s: no key does what the button %q does", d.station().name(), label)
				}
			case *widget.TextInput:
				fields++
			}
		})
		d.typing = -1
		for range fields {
			d.nextField(g)
		}
		if fields != len(d.fields) || fields > 0 && d.typing != fields-1 {
			t.Errorf("%s: %d fields, the keys come to %d of %d", d.station().name(), fields, d.typing+1, len(d.fields))
		}
		g.Unfocus()
	}
}

// What is left to do is said until it is done.
func TestWhatIsLeftIsSaid(t *testing.T) {
	g := NewGame(&memory{}, false)
	d := atTheDesk(t, g, true)
	says := func(want string, is bool) {
		t.Helper()
		d.papers = d.clerks.Papers()
		if left := strings.Join(d.left(), " "); strings.Contains(left, want) != is {
			t.Errorf("left to do: %q; want %q in it: %v", left, want, is)
		}
	}
	says("2 contacts are undecided", true)
	says("No reports", true)
	says("changed since", false)
	d.order(order.Command{Do: order.ReworkFactor, Value: 0.9})
	says("changed since", true)
	d.order(order.Command{Do: order.Rework})
	says("changed since", false)
	d.order(order.Command{Do: order.UndoBottom})
	d.order(order.Command{Do: order.ContactAction, Number: 1, Text: "none"})
	says("1 contact is undecided", true)
	d.order(order.Command{Do: order.DrawUp})
	says("No reports", false)
	if !d.over() || d.leave != nil || d.handIn == nil {
		t.Error("over, it does not hand in, or leads back to the watch")
	}
}

// Where a pass puts a contact that was picked on it alone is where the contact lies, as it was logged and
// once it is worked up again with another factor and another speed of sound.
func TestPassesPutItWhereItLies(t *testing.T) {
	g := NewGame(&memory{}, false)
	d := atTheDesk(t, g, false)
	p := &d.papers.Desk.Lines[0].Pings[60]
	x, y, ok := p.GroundAt(true, 33)
	if !ok {
		t.Fatal("no ground")
	}
	d.order(order.Command{Do: order.Mark, X: x, Y: y, Ping: p.Number})
	lies := func() (x, y float64) {
		t.Helper()
		d.papers = d.clerks.Papers()
		c := d.contact(d.papers.Desk.LastContact())
		at := d.places(c)
		if len(at) != 1 || math.Hypot(at[0].x-c.X, at[0].y-c.Y) > 0.01 {
			t.Errorf("it lies at %.2f, %.2f; its passes put it at %+v", c.X, c.Y, at)
		}
		return c.X, c.Y
	}
	x, y = lies()
	d.order(order.Command{Do: order.ReworkFactor, Value: 0.9})
	d.order(order.Command{Do: order.ReworkSoundSpeed, Value: 1530})
	d.order(order.Command{Do: order.Rework})
	if nx, ny := lies(); math.Hypot(nx-x, ny-y) < 0.5 {
		t.Errorf("worked up again it moved by %.2f m", math.Hypot(nx-x, ny-y))
	}
}

// A pixel within the bracket of a contact on the record is that contact's, wherever on the record it was seen.
func TestBracketsOfTheRecord(t *testing.T) {
	g := NewGame(&memory{}, false)
	d := atTheDesk(t, g, false)
	s := d.record()
	for i := range d.stations {
		if d.stations[i] == station(s) {
			d.turn(g, i)
		}
	}
	settleDesk(t, g, d)
	for i, share := range map[int]float64{40: 0.5, 120: 0.7} {
		s.mark.point(g, s, i, share, i == 40)
		d.takePapers()
	}
	tried := 0
	for _, b := range s.brackets() {
		tried++
		for i := range s.fall.rows.Rows { // scrolled to it
			if _, y := s.fall.pixel(i, 0, true); y == b.y {
				s.fall.inSight(i)
				break
			}
		}
	}
	for n, b := range s.brackets() {
		at, r := image.Pt(int(b.x), int(b.y)), int(b.radius(s, g.Look))
		if !at.In(s.fall.at) {
			continue
		}
		if got := s.under(at.Add(image.Pt(r/2, -3)), g.Look); got != b.contact.Number {
			t.Errorf("within the bracket of %d it is %d's", b.contact.Number, got)
		}
		if got := s.under(at.Add(image.Pt(0, 3*r)), g.Look); got == b.contact.Number {
			t.Errorf("well beside the bracket of %d it is still its", b.contact.Number)
		}
		if !b.seen {
			t.Errorf("contact %d was marked here, and its bracket has a question", n)
		}
	}
	if tried != 2 {
		t.Fatalf("%d marks on the record, want 2", tried)
	}
}

// Whatever was chosen before, a drag measures the contact that was marked last, until another is chosen: on the
// record, where its bracket is, or in the list.
func TestTheContactMarkedLastIsTheOneMeasured(t *testing.T) {
	g := NewGame(&memory{}, false)
	d := atTheDesk(t, g, false)
	d.turn(g, 1)
	settleDesk(t, g, d)
	s := d.record()
	mark := func(i int, share float64) int {
		s.mark.point(g, s, i, share, true)
		d.takePapers()
		return d.papers.Desk.LastContact()
	}
	measure := func(i int, from, to float64) {
		scale := s.fall.rows.Line.RangeScale
		s.mark.what, s.mark.from, s.mark.to = markLength, spot3{i, from * scale, true, true}, spot3{i, to * scale, true, true}
		s.mark.measure(s)
		d.takePapers()
	}
	length := func(number int) float64 { return d.contact(number).Length }
	one := mark(40, 0.5)
	measure(40, 0.5, 0.52)
	first := length(one)
	two := mark(120, 0.7)
	measure(120, 0.7, 0.75)
	if first <= 0 || length(one) != first || length(two) <= 2*first {
		t.Fatalf("two contacts measured one after the other are %.1f (%.1f at first) and %.1f m long", length(one), first, length(two))
	}
	// A pixel of the record at rest, 1 zoomed in, is the range scale over half the pane's width, or what she makes between
	// pings over the height of a row; twice as near, half of it.
	pixel := func(number int) float64 { return d.contact(number).Measures[0].Pixel }
	v, line := s.fall.part(), s.fall.rows.Line
	first0, last := &line.Pings[0].Fix, &line.Pings[len(line.Pings)-1].Fix
	wide, tall := line.RangeScale/(float64(s.fall.at.Dx())/2), math.Hypot(last.X-first0.X, last.Y-first0.Y)/float64(len(line.Pings)-1)/v.PerRow
	if got := pixel(two); math.Abs(got-max(wide, tall)) > 0.005 {
		t.Errorf("measured on pixels of %.3f m, want %.3f across or %.3f along", got, wide, tall)
	}
	if list := d.stations[3].(*contactStation).list.chosen; d.papers.Desk.Contacts[list].Number != two {
		t.Errorf("the list has contact %d chosen, and %d was marked last", d.papers.Desk.Contacts[list].Number, two)
	}
	s.fall.inSight(40)
	for _, b := range s.brackets() {
		if b.contact.Number == one {
			d.chosen = s.under(image.Pt(int(b.x), int(b.y)), g.Look)
		}
	}
	measure(40, 0.5, 0.53)
	if length(one) <= first {
		t.Errorf("chosen by its bracket and measured, contact %d is %.1f m long as before", one, length(one))
	}
	d.order(order.Command{Do: order.DeleteContact, Number: one})
	d.takePapers()
	if d.contact(d.chosen) == nil {
		t.Errorf("with the chosen contact dropped none is chosen")
	}
}

// A contact that was not seen on the line shown is asked about where its place falls there: within a ping or two, and a
// metre, of where one that was marked there has its own bracket.
func TestContactsOfOtherPassesAreAskedAbout(t *testing.T) {
	g := NewGame(&memory{}, false)
	d := atTheDesk(t, g, false)
	d.turn(g, 1)
	settleDesk(t, g, d)
	s := d.record()
	s.mark.point(g, s, 100, 0.6, false)
	d.takePapers()
	number := d.papers.Desk.LastContact()
	bracket := func() (found *bracketed) {
		s.expect()
		for _, b := range s.brackets() {
			if b.contact.Number == number {
				if found != nil {
					t.Error("it has two brackets")
				}
				found = &b
			}
		}
		return found
	}
	marked := bracket()
	d.contact(number).Passes = nil // as if it had been seen on another line
	s.mark.of = ""
	asked := bracket()
	if marked == nil || asked == nil || !marked.seen || asked.seen || asked.starboard {
		t.Fatalf("marked %+v, asked about %+v", marked, asked)
	}
	v := s.fall.part()
	perMetre := v.PerBin * panes.RowBins / s.logged().RangeScale
	if math.Abs(asked.x-marked.x) > perMetre || math.Abs(asked.y-marked.y) > 2*v.PerRow {
		t.Errorf("marked at (%.0f, %.0f) and asked about at (%.0f, %.0f)", marked.x, marked.y, asked.x, asked.y)
	}
	if got := s.under(image.Pt(int(asked.x), int(asked.y)), g.Look); asked.y > float64(s.fall.at.Min.Y) && asked.y < float64(s.fall.at.Max.Y) && got != number {
		t.Errorf("a press there chooses %d", got)
	}
}
