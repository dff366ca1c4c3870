package app

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/exercise"
	"dryline/sim/house"
	"dryline/sim/order"
	"dryline/sim/plan"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// linesOf is the page of the lines of an exercise, with lines laid.
func linesOf(t testing.TB, g *Game, name string) *Laying {
	t.Helper()
	s := NewPrepare(exerciseNamed(t, name), NewChoose()).lines
	if g.size.Empty() {
		g.Resize(1280, 720, 1)
	}
	s.charts(g)
	settleLines(t, g, s)
	if s.plan() == nil {
		t.Fatalf("%s: no lines: %s", name, s.refused)
	}
	return s
}

// settleLines has the lines laid anew, and waits for it.
func settleLines(t testing.TB, g *Game, s *Laying) {
	t.Helper()
	s.dirty = true
	for tries := 0; s.dirty || s.task != nil; tries++ {
		if s.task != nil {
			s.task.Wait()
		}
		s.lay(g)
		if tries > 100 { // what is changed meanwhile is laid again
			t.Fatal("the lines are never laid")
		}
	}
	s.stale = true
	s.lay(g)
}

// Nothing that lines are laid by leads to the truth by its type.
func TestTheLinesDoNotReachTheTruth(t *testing.T) {
	for _, from := range []reflect.Type{reflect.TypeFor[lineSheet](), reflect.TypeFor[crew.Laid](), reflect.TypeFor[panes.Scheme](), reflect.TypeFor[panes.Depths]()} {
		if way := house.Reaches(from, house.Truths); way != "" {
			t.Errorf("%s", way)
		}
	}
}

// said are the sentences of the page, with figures and choices as they stand.
func (s *Laying) said() string {
	var b strings.Builder
	for _, c := range s.sentences() {
		for _, p := range c.pieces {
			switch {
			case p.figure != nil:
				b.WriteString(p.figure.text + " ")
			case p.picker != nil:
				b.WriteString(p.picker.says() + " ")
			default:
				b.WriteString(p.words + " ")
			}
		}
	}
	return b.String()
}

// What the page says of its lines is so by the lines that it orders: how far they lie apart, the looks that a place
// gets by the patterns of the chart, time by way and speed, and pings on an object by speed of sound and of the vessel.
func TestWhatTheLinesComeTo(t *testing.T) {
	g := NewGame(&memory{}, false)
	s := linesOf(t, g, "disused-anchorage")
	s.sheet.sail = true
	s.sheet.object.text = "2"
	orders, why := s.orders()
	if why != "" {
		t.Fatal(why)
	}
	var lines []exercise.Line
	for _, o := range orders {
		if o.Do == order.AddLine {
			l := exercise.Line{Name: o.Line}
			l.A.X, l.A.Y, l.B.X, l.B.Y = o.X, o.Y, o.X2, o.Y2
			lines = append(lines, l)
		}
	}
	if n := len(lines); n < 4 || n != len(s.plan().Lines) || orders[n].Do != order.OwnLines || orders[n+1].Do != order.Turn || orders[n+1].Line != lines[0].Name || len(orders) != n+2 {
		t.Fatalf("orders %+v", orders)
	}
	// The swath is twice the range scale of 50 m, and 20 % of it overlap.
	track := lines[0].Track(false)
	var across []float64
	long := 0.0
	for _, l := range lines {
		_, d := track.Offset(l.A.X, l.A.Y)
		across, long = append(across, d), long+l.Track(false).Length()
	}
	slices.Sort(across)
	for i := 1; i < len(across); i++ {
		if math.Abs(across[i]-across[i-1]-80) > 0.01 {
			t.Errorf("lines lie %.2f m apart, want 80", across[i]-across[i-1])
		}
	}
	height, _ := s.sheet.height.value()
	gap, _ := s.sheet.gap.value()
	reach := math.Sqrt(50*50 - height*height)
	seen := func(x, y float64) (looks int, under bool) {
		for _, l := range lines {
			along, off := l.Track(false).Offset(x, y)
			switch off = math.Abs(off); {
			case along < 0 || along > l.Track(false).Length():
			case off < gap:
				under = true
			case off <= reach:
				looks++
			}
		}
		return
	}
	sc, rng := s.scheme, rand.New(rand.NewPCG(4, 5))
	asked := map[panes.Sight]int{}
	for range 4000 {
		i, j := rng.IntN(sc.NX), rng.IntN(sc.NY)
		sight := sc.Seen[j*sc.NX+i]
		if sight == panes.Elsewhere {
			continue
		}
		want := panes.Unseen
		switch looks, under := seen(sc.X0+(float64(i)+0.5)*sc.Cell, sc.Y0+(float64(j)+0.5)*sc.Cell); {
		case looks > 1:
			want = panes.SeenTwice
		case looks == 1:
			want = panes.SeenOnce
		case under:
			want = panes.UnderFish
		}
		if asked[sight]++; sight != want {
			t.Fatalf("cell %d, %d is shown as %d, want %d", i, j, sight, want)
		}
	}
	if asked[panes.SeenOnce] == 0 || asked[panes.SeenTwice] == 0 || asked[panes.UnderFish] == 0 {
		t.Errorf("asked of %v", asked)
	}
	p, b := s.plan(), s.sheet.brief
	if math.Abs(p.LineLength-long) > 0.01*float64(len(lines)) || math.Abs(p.Time-(long+p.Between)/b.Plan.Speed) > 0.1 || p.Between < math.Pi*b.Plan.TurnRadius*float64(len(lines)-1) {
		t.Errorf("%.1f m of lines and %.1f m between take %.1f s at %.2f m/s; the lines ordered are %.1f m long", p.LineLength, p.Between, p.Time, b.Plan.Speed, long)
	}
	pings := int(b.Desk.SoundSpeed / 2 / 50 / b.Plan.Speed * 2)
	for _, want := range []string{fmt.Sprintf("gets %d pings on a pass", pings), fmt.Sprintf("%d lines, %.1f km on them", len(lines), long/1000), fmt.Sprintf("%.0f min with turns", math.Ceil(p.Time/60)), "that is no finding about the ground"} {
		if !strings.Contains(s.said(), want) {
			t.Errorf("%q is not said in %q", want, s.said())
		}
	}
}

// Lines run as the way chosen has it: along the longest side of a drawn area, with the current, along crests or across
// them, and along what is charted to slope; where nothing is known to run along, none is laid and it is said what to do.
func TestEveryWayHasItsReason(t *testing.T) {
	if testing.Short() {
		t.Skip("lays lines seven times and compares them: a minute with the race detector")
	}
	g := NewGame(&memory{}, false)
	s := linesOf(t, g, "sloping-bank")
	s.sheet.drawn, s.sheet.corners = true, []plan.Point{{X: 100, Y: 100}, {X: 140, Y: 100}, {X: 360, Y: 360}, {X: 320, Y: 390}}
	for _, w := range []way{alongCurrent, alongCrests, acrossCrests} {
		s.sheet.way = w
		settleLines(t, g, s)
		if s.plan() != nil || !strings.HasPrefix(s.refused, "Type ") || !strings.Contains(s.said(), "No line is laid. Type ") {
			t.Errorf("%s: nothing is typed, and %q is said", ways[w].says, s.refused)
		}
	}
	s.sheet.set.text, s.sheet.current.text, s.sheet.crest.text, s.sheet.bearing.text = "250", "1.2", "33", "200"
	for w, want := range map[way]float64{longestSide: math.Atan2(220, 260) * 180 / math.Pi, alongCurrent: 70, alongCrests: 33, acrossCrests: 123, asTyped: 20} {
		s.sheet.way = w
		settleLines(t, g, s)
		if s.plan() == nil {
			t.Fatalf("%s: %s", ways[w].says, s.refused)
		}
		for _, l := range s.plan().Lines {
			got := math.Mod(math.Atan2(l.B.X-l.A.X, l.B.Y-l.A.Y)*180/math.Pi+360, 180)
			if math.Abs(math.Remainder(got-want, 180)) > 0.05 {
				t.Errorf("%s: a line runs on %.2f deg, want %.2f", ways[w].says, got, want)
			}
		}
		if !strings.Contains(s.said(), ways[w].says) || w != asTyped && !strings.Contains(s.said(), ways[w].because) {
			t.Errorf("%s: the reason is not in %q", ways[w].says, s.said())
		}
	}
	// Along the contours the charted depth changes less from end to end than across them.
	change := func(w way) (sum float64) {
		s.sheet.way = w
		settleLines(t, g, s)
		for _, l := range s.plan().Lines {
			a, _ := s.sheet.brief.Depths.DepthAt(l.A.X, l.A.Y)
			b, _ := s.sheet.brief.Depths.DepthAt(l.B.X, l.B.Y)
			sum += math.Abs(a-b) / l.Length()
		}
		return sum / float64(len(s.plan().Lines))
	}
	s.sheet.drawn = false
	if along, across := change(alongContours), change(acrossContours); along > across/2 {
		t.Errorf("the depth changes by %.4f a metre along the contours and by %.4f across them", along, across)
	}
}

// Lines of one's own are ordered when they are to be sailed, whatever was looked at; what stands against it is said.
func TestGivenLinesStayUnlessOwnAreSailed(t *testing.T) {
	g := NewGame(&memory{}, false)
	s := linesOf(t, g, "first-line")
	s.sheet.overlap.text = "40"
	settleLines(t, g, s)
	if o, why := s.orders(); len(o) > 0 || why != "" {
		t.Errorf("orders %v, %q", o, why)
	}
	s.sheet.sail = true
	if o, why := s.orders(); len(o) == 0 || why != "" {
		t.Errorf("orders %v, %q", o, why)
	}
	s.sheet.scale().text = "50"
	if o, why := s.orders(); len(o) > 0 || !strings.Contains(why, "changed since") {
		t.Errorf("with another range scale on the sheet: %v, %q", o, why)
	}
	s.sheet.runIn.text = "x"
	settleLines(t, g, s)
	if o, why := s.orders(); len(o) > 0 || !strings.Contains(why, `Run-in: "x" is no number`) {
		t.Errorf("with a run-in that is none: %v, %q", o, why)
	}
	s.sheet.runIn.text = "50"
	s.sheet.drawn, s.sheet.corners = true, []plan.Point{{X: 0, Y: 0}, {X: 100, Y: 100}, {X: 100, Y: 0}, {X: 0, Y: 100}}
	settleLines(t, g, s)
	if o, why := s.orders(); len(o) > 0 || !strings.Contains(why, "cross each other") {
		t.Errorf("over sides that cross: %v, %q", o, why)
	}
	// A name that a line given has is not given twice.
	b := *s.sheet.brief
	b.Lines = []exercise.Line{{Name: "a01"}}
	s.sheet.brief = &b
	o, err := s.sheet.orders(&plan.Plan{Lines: []plan.Line{{Name: "A01", B: plan.Point{Y: 50}}, {Name: "A02", B: plan.Point{Y: 60}}}})
	if err != nil || o[0].Line != "own A01" || o[1].Line != "A02" {
		t.Errorf("%v: %+v", err, o)
	}
}

// A change calls off what is under way, and the window goes on meanwhile.
func TestAChangeCallsOffWhatIsUnderWay(t *testing.T) {
	g := NewGame(&memory{}, false)
	s := linesOf(t, g, "disused-anchorage")
	s.dirty = true
	s.lay(g)
	first := s.task
	s.dirty = true
	s.lay(g)
	if first == nil || s.task == first {
		t.Fatal("nothing is laid anew")
	}
	if _, err := first.Wait(); !errors.Is(err, crew.ErrCalledOff) {
		t.Errorf("the first comes to %v", err)
	}
	if s.plan() == nil {
		t.Error("the lines that were laid are gone before others are")
	}
	second := s.task
	s.Close(g)
	if _, err := second.Wait(); !errors.Is(err, crew.ErrCalledOff) || !s.dirty {
		t.Errorf("left, it goes on: %v", err)
	}
}

// Everything on the page can be reached by keys: tab comes to every figure, and every choice and every button has a
// key that nothing else has and that stands in the overlay.
func TestKeysReachTheLines(t *testing.T) {
	g := NewGame(&memory{}, false)
	g.Resize(1024, 600, 1)
	s := linesOf(t, g, "sloping-bank")
	s.sheet.way, s.sheet.drawn = asTyped, true
	s.sheet.corners = []plan.Point{{X: 100, Y: 100}, {X: 300, Y: 100}, {X: 300, Y: 300}}
	settleLines(t, g, s)
	g.next = s
	dst := ebiten.NewImage(1024, 600)
	defer dst.Deallocate()
	frame(g, dst)
	overlay, keys := "", map[ebiten.Key]bool{ebiten.KeyF1: true}
	for _, k := range s.Keys() {
		overlay += " " + k.Name
	}
	for _, c := range s.choices() {
		if keys[c.key] || !strings.Contains(overlay, " "+c.name) {
			t.Errorf("key %s is that of two, or not in %q", c.name, overlay)
		}
		keys[c.key] = true
	}
	for _, c := range s.sentences() {
		for _, p := range c.pieces {
			if p.picker == nil {
				continue
			}
			was := p.picker.says()
			i := slices.IndexFunc(s.choices(), func(c laidBy) bool { return strings.HasSuffix(p.picker.tip, "("+c.name+").") })
			if i < 0 {
				t.Errorf("%q has no key: %q", was, p.picker.tip)
				continue
			}
			for range 8 { // through all and round
				if s.choices()[i].do(g); p.picker.says() == was {
					break
				}
				if !slices.Contains(p.picker.all, p.picker.says()) {
					t.Errorf("%q is none of %q", p.picker.says(), p.picker.all)
				}
			}
		}
	}
	eachWidget(g.ui.Container, func(w widget.PreferredSizeLocateableWidget, label string) {
		button := map[string]bool{"Begin the watch": true, "Sail these lines": true, "Corner back": true, "The sheet": true, "Up the sheet": true, "Down the sheet": true}
		if _, is := w.(*widget.Button); is && !button[label] && !strings.Contains(s.said(), label) {
			t.Errorf("no key is known to do what %q does", label)
		}
	})
	settleLines(t, g, s)
	frame(g, dst)
	var came []*entered
	for range s.figures() {
		s.next(g, 1)
		g.ui.Update()
		if e := s.typing(); e == nil || slices.Contains(came, e) {
			t.Fatalf("after %d figures the keys go to %v", len(came), e)
		} else {
			came = append(came, e)
		}
		frame(g, dst)
	}
	if len(came) < 12 {
		t.Errorf("%d figures", len(came))
	}
}
