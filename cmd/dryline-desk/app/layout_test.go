package app

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"slices"
	"strings"
	"testing"
	"time"

	"dryline/scenarios"
	"dryline/sim/course"
	"dryline/sim/debrief"
	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/plan"

	"github.com/hajimehoshi/ebiten/v2"
)

// memory is a store that keeps one session.
type memory struct {
	settings, aside, kept []byte
	page                  bool
}

func (m *memory) Settings() ([]byte, error)                  { return m.settings, nil }
func (m *memory) KeepSettings(b []byte) error                { m.settings = b; return nil }
func (m *memory) SetAside() (string, error)                  { m.aside = m.settings; return "aside", nil }
func (m *memory) Save(name string, _ []byte) (string, error) { return name, nil }
func (m *memory) Begin(_, name string, records []byte, done func(error)) (Ledger, string) {
	m.kept = records
	done(nil)
	return added{&m.kept}, name
}
func (m *memory) Beside([]exercise.File) error { return nil }
func (m *memory) Finish(_, name string, log []byte, done func(string, error)) {
	m.kept = log
	done(name, nil)
}
func (m *memory) Sessions() []SavedSession {
	read := func() ([]byte, error) { return m.kept, nil }
	return []SavedSession{
		{Name: "out/disused-anchorage-7-watch.jsonl", When: time.Date(2031, 5, 12, 9, 40, 0, 0, time.UTC), Read: read},
		{Name: "out/a-name-that-someone-gave-and-that-is-much-too-long-for-the-list/session.jsonl", Read: read},
	}
}
func (m *memory) Pick(func(string, []byte, error)) {}
func (m *memory) Poll()                            {}
func (m *memory) Files() bool                      { return !m.page }
func (m *memory) Show(string) error                { return nil }

// added is a ledger in memory.
type added struct{ to *[]byte }

func (a added) Add(records []byte, done func(error)) {
	*a.to = append(*a.to, records...)
	done(nil)
}
func (added) Sync()        {}
func (added) Close() error { return nil }

type shownSize struct {
	wide, tall int
	device     float64
}

// sizes are the windows the layout is checked at: pixels, and pixels a point.
var sizes = []shownSize{
	{1024, 600, 1}, {1280, 720, 1}, {1920, 1080, 1}, {1920, 1080, 1.5}, {3840, 2160, 1}, {3840, 2160, 1.5}, {3840, 2160, 2}, {2560, 1440, 2},
}

// shownSizes are the sizes that are gone through: in short the least and the largest.
func shownSizes() []shownSize {
	if testing.Short() {
		return []shownSize{sizes[0], sizes[len(sizes)-2]}
	}
	return sizes
}

// watchUnderWay is a watch that has gone on for a while, by the crew's own hand.
func watchUnderWay(t testing.TB, g *Game, exercise string, seconds float64) *Duty {
	t.Helper()
	ex, err := scenarios.Find(exercise)
	if err != nil {
		t.Fatal(err)
	}
	s, err := Start(g, ex)
	if err != nil {
		t.Fatal(err)
	}
	w := s.(*Duty)
	w.give(order.Command{Do: order.LogOn, Line: ex.Lines[0].Name}, order.Command{Do: order.Mark, X: 150, Y: 210}, order.Command{Do: order.Mark, X: 190, Y: 260})
	w.crew.SetRate(1, false)
	for range int(seconds) {
		w.crew.Pass(1, 1e12)
		w.view = w.crew.View()
		w.takeRows()
	}
	w.contacts.chosen = 1
	return w
}

// lookedAt is a session that is over and looked at again so many seconds into it.
func lookedAt(t testing.TB, g *Game, seconds float64) *Again {
	t.Helper()
	d := debriefed(t, g, 30)
	d.bar.choose(seconds)
	d.lookAgain(g)
	a, ok := g.next.(*Again)
	if !ok {
		t.Fatalf("it is not looked at again: %s", g.Notice)
	}
	for a.view.Restored < 1 {
		a.crew.Pass(0, 1e12)
		a.view = a.crew.View()
	}
	return a
}

// debriefed is the debrief of a watch of so many seconds.
func debriefed(t testing.TB, g *Game, seconds float64) *Debrief {
	t.Helper()
	w := watchUnderWay(t, g, "disused-anchorage", seconds)
	w.give(order.Command{Do: order.Finish})
	w.crew.Pass(1, 1e12)
	w.view = w.crew.View()
	g.Resize(1280, 720, 1)
	w.Build(g, g.area())
	return w.debrief("out/disused-anchorage-7.jsonl")
}

// keepOne has a session kept.
func keepOne(t testing.TB, g *Game) {
	t.Helper()
	w := watchUnderWay(t, g, "disused-anchorage", 5)
	g.Store.Finish("", "a", logOf(t, w), func(_ string, err error) {
		if err != nil {
			t.Fatal(err)
		}
	})
}

func logOf(t testing.TB, w *Duty) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := w.crew.WriteLog(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// frame runs one frame of a game without a window.
func frame(g *Game, dst *ebiten.Image) {
	if g.next != nil {
		g.screen, g.next, g.stale = g.next, nil, true
	}
	if g.stale {
		g.stale = false
		g.ui.Container = g.screen.Build(g, g.area())
	}
	g.ui.Update()
	g.screen.Update(g)
	if g.stale {
		g.stale = false
		g.ui.Container = g.screen.Build(g, g.area())
		g.ui.Update()
	}
	g.Draw(dst)
}

// No lettering is cut or laid over other lettering, none is smaller than twelve
// pixels at scale 1, and no control lies outside the window or on another.
func TestNothingIsCutOrOverlaps(t *testing.T) {
	type view struct {
		name string
		open func(t *testing.T, g *Game) Screen
	}
	views := []view{
		{"choose", func(*testing.T, *Game) Screen { return NewChoose() }},
		{"choose, a record", func(t *testing.T, g *Game) Screen {
			record := &course.Record{}
			for i, s := range taught().Steps {
				for k := range 1 + i%3 {
					record.Add(course.Attempt{Exercise: s.Exercise, Points: float64(100 - 10*k), Low: 90, Verdict: debrief.VerdictPassed, When: time.Date(2031, 5, 12, i, k, 0, 0, time.UTC)})
				}
			}
			g.Settings.Record = record
			return chooseAt("gap-and-spacing")
		}},
		{"concluding", func(t *testing.T, g *Game) Screen {
			return &concluding{title: strings.Repeat("The long way round ", 9), apart: true}
		}},
		{"choose, a slow machine", func(*testing.T, *Game) Screen {
			c := NewChoose()
			c.check.rate = 7
			return c
		}},
		{"sessions, a long title and a broken one", func(t *testing.T, g *Game) Screen {
			ex := exerciseNamed(t, "first-line")
			long := strings.Repeat("Fenwarrashoal", 3) + " and everything that is towed abaft"
			ex, err := scenarios.Parse("long.yaml", []byte(strings.Replace(string(ex.Source), "The first line", long, 1)))
			if err != nil {
				t.Fatal(err)
			}
			s, err := Start(g, ex)
			if err != nil {
				t.Fatal(err)
			}
			c := NewSessions(NewChoose())
			data := logOf(t, s.(*Duty))
			for i, read := range []func() ([]byte, error){
				func() ([]byte, error) { return data, nil },
				func() ([]byte, error) { return nil, errors.New(strings.Repeat("what is wrong with it; ", 200)) },
			} {
				c.saved = append(c.saved, SavedSession{Name: strings.Repeat("folder/", 40) + fmt.Sprint(i), Read: read})
			}
			return c
		}},
		{"sessions, a broken one open", func(*testing.T, *Game) Screen {
			c := NewSessions(NewChoose())
			c.saved = []SavedSession{{Name: strings.Repeat("folder/", 40) + "s.jsonl", Read: func() ([]byte, error) { return nil, errors.New(strings.Repeat("what is wrong with it; ", 200)) }}}
			return c
		}},
		{"a hundred sessions", func(t *testing.T, g *Game) Screen {
			g.Store = &many{}
			keepOne(t, g)
			return NewSessions(NewChoose())
		}},
		{"set practice", func(*testing.T, *Game) Screen { return NewSetting(NewChoose()) }},
		{"sessions, none", func(*testing.T, *Game) Screen { s := NewSessions(NewChoose()); s.saved = []SavedSession{}; return s }},
		{"sessions", func(t *testing.T, g *Game) Screen { keepOne(t, g); return NewSessions(NewChoose()) }},
	}
	views = append(views, view{"practice", func(t *testing.T, _ *Game) Screen {
		ex, err := scenarios.Find("sloping-bank")
		if err != nil {
			t.Fatal(err)
		}
		p, err := NewPractice(ex)
		if err != nil {
			t.Fatal(err)
		}
		p.about = 7
		return p
	}}, view{"practice, faulty", func(t *testing.T, g *Game) Screen {
		ex, err := scenarios.Find("disused-anchorage")
		if err != nil {
			t.Fatal(err)
		}
		p, err := NewPractice(ex)
		if err != nil {
			t.Fatal(err)
		}
		for i, f := range p.fields {
			if f.Path == "sonar.channels[1].pulse_ms" || f.Path == "sonar.range_scale_m" {
				p.now[i] = "0"
			}
		}
		p.begin(g)
		if p.groups[p.group] != "Sonar" || len(p.faults) != 2 {
			t.Errorf("shows %s with faults %q, want Sonar with two", p.groups[p.group], p.faults)
		}
		return p
	}})
	views = append(views, view{"practice, faulty, the pointer on a choice", func(t *testing.T, g *Game) Screen {
		ex, err := scenarios.Find("disused-anchorage")
		if err != nil {
			t.Fatal(err)
		}
		p, err := NewPractice(ex)
		if err != nil {
			t.Fatal(err)
		}
		for i, f := range p.fields {
			if f.Number {
				p.now[i] = "-1e9"
			}
		}
		p.begin(g)
		p.about = slices.IndexFunc(p.fields, func(f scenarios.Field) bool { return len(f.Choices) > 3 })
		if len(p.faults) < 8 || p.about < 0 {
			t.Fatalf("%d faults, choice %d; want many and one", len(p.faults), p.about)
		}
		return p
	}})
	views = append(views, view{"practice, as many layers of current as there may be", func(t *testing.T, _ *Game) Screen {
		ex, err := scenarios.Find("sloping-bank")
		if err != nil {
			t.Fatal(err)
		}
		layer := "    - { depth_m: 24, speed_kn: 0.5, set_deg: 250 }\n"
		layers := layer
		for depth := 25; depth < 25+17; depth++ {
			layers += strings.Replace(layer, "24", fmt.Sprint(depth), 1)
		}
		source := strings.Replace(string(ex.Source), layer, layers, 1)
		if ex, err = scenarios.Parse("bank.yaml", []byte(source)); err != nil {
			t.Fatal(err)
		}
		p, err := NewPractice(ex)
		if err != nil {
			t.Fatal(err)
		}
		if p.group = slices.Index(p.groups, "Current by depth"); p.group < 0 || !slices.Contains(p.groups, "Current by depth, 3") {
			t.Fatalf("groups %q", p.groups)
		}
		return p
	}})
	for _, info := range scenarios.Embedded() {
		views = append(views, view{"choose, " + info.Name, func(*testing.T, *Game) Screen { return chooseAt(info.Name) }})
	}
	for tab := range tabCount {
		name := append(tabNames[:], "Settings")[tab]
		views = append(views, view{"watch, " + name, func(t *testing.T, g *Game) Screen {
			w := watchUnderWay(t, g, "first-line", 20)
			w.side.tab = tab
			return w
		}})
	}
	views = append(views, view{"watch, others on the water", onTheWater})
	views = append(views, view{"watch, a class to choose", func(t *testing.T, g *Game) Screen {
		w := watchUnderWay(t, g, "disused-anchorage", 20)
		w.side.tab, w.side.contacts.of, w.side.contacts.classing = tabContacts, w.contacts.chosen, true
		g.Notice = "Something there is to say that is rather long, as long as a thing that has gone wrong with a file somewhere deep in a folder may well be said to be."
		return w
	}})
	views = append(views, view{"watch, the newest at the foot, scrolled back", func(t *testing.T, g *Game) Screen {
		g.Settings.Foot = true
		w := watchUnderWay(t, g, "disused-anchorage", 90)
		w.fall.all, w.fall.looking.scrolled = true, 30
		return w
	}})
	views = append(views, view{"watch, orders typed", func(t *testing.T, g *Game) Screen {
		w := watchUnderWay(t, g, "disused-anchorage", 20)
		w.typed.show(g, w.Watch, order.Cable)
		return w
	}})
	views = append(views, view{"watch, all channels", func(t *testing.T, g *Game) Screen {
		w := watchUnderWay(t, g, "disused-anchorage", 20)
		w.fall.all = true
		return w
	}})
	for _, info := range scenarios.Embedded() {
		views = append(views, view{"prepare, " + info.Name, func(t *testing.T, _ *Game) Screen { return NewPrepare(exerciseNamed(t, info.Name), NewChoose()) }})
	}
	views = append(views, view{"prepare, faulty", func(t *testing.T, _ *Game) Screen {
		p := NewPrepare(exerciseNamed(t, "hidden-offset"), NewChoose())
		for _, f := range p.sheet.figures {
			f.text = "-123456789"
		}
		return p
	}})
	for _, name := range []string{"first-line", "disused-anchorage", "sloping-bank"} {
		views = append(views, view{"lines, " + name, func(t *testing.T, g *Game) Screen { return linesOf(t, g, name) }})
	}
	views = append(views, view{"lines, drawn and as typed", func(t *testing.T, g *Game) Screen {
		s := linesOf(t, g, "sloping-bank")
		s.sheet.drawn, s.sheet.corners = true, []plan.Point{{X: 100, Y: 100}, {X: 300, Y: 120}, {X: 280, Y: 400}}
		s.sheet.way, s.sheet.spaced, s.sheet.sail, s.sheet.edges, s.sheet.nadir = asTyped, true, true, true, plan.Interleave
		s.sheet.cross.text, s.sheet.set.text, s.sheet.current.text, s.sheet.crest.text = "100", "250", "1.5", "40"
		settleLines(t, g, s)
		return s
	}}, view{"lines, faulty", func(t *testing.T, g *Game) Screen {
		s := linesOf(t, g, "sloping-bank")
		for _, e := range s.sheet.standing() {
			e.text = "-123456789"
		}
		settleLines(t, g, s)
		return s
	}}, view{"keys of the lines", func(t *testing.T, g *Game) Screen {
		g.help = true
		return linesOf(t, g, "first-line")
	}})
	for page, p := range debriefPages {
		views = append(views, view{"debrief, " + p.name, func(t *testing.T, g *Game) Screen {
			d := debriefed(t, g, 30)
			d.page = page
			return d
		}})
	}
	views = append(views, view{"looked at again", func(t *testing.T, g *Game) Screen { return lookedAt(t, g, 12) }},
		view{"watch, for practice", func(t *testing.T, g *Game) Screen {
			a := lookedAt(t, g, 20)
			a.tryAgain(g)
			w := g.next.(*Duty)
			for w.view.Restored < 1 {
				w.crew.Pass(0, 1e12)
				w.view = w.crew.View()
			}
			w.takeRows()
			return w
		}})
	views = append(views, view{"keys", func(t *testing.T, g *Game) Screen {
		g.help = true
		return watchUnderWay(t, g, "disused-anchorage", 5)
	}})
	for i := range deskStations {
		for _, over := range []bool{false, true} {
			views = append(views, view{fmt.Sprintf("the desk, %d, over %v", i, over), func(t *testing.T, g *Game) Screen {
				d := atTheDesk(t, g, over)
				d.turn(g, i)
				settleDesk(t, g, d)
				return d
			}})
		}
	}
	for i := range deskStations {
		views = append(views, view{fmt.Sprintf("keys at the desk, %d", i), func(t *testing.T, g *Game) Screen {
			d := atTheDesk(t, g, false)
			d.turn(g, i)
			settleDesk(t, g, d)
			g.help = true
			return d
		}})
	}
	for _, v := range views {
		t.Run(v.name, func(t *testing.T) {
			g := NewGame(&memory{}, false)
			s := v.open(t, g)
			for _, size := range shownSizes() {
				g.Resize(size.wide, size.tall, size.device)
				g.next = s
				if w, ok := s.(*Duty); ok {
					w.chart.fitted = image.Rectangle{}
				}
				dst := ebiten.NewImage(size.wide, size.tall)
				frame(g, dst)
				frame(g, dst)
				check(t, g, dst, fmt.Sprintf("%dx%d at %g", size.wide, size.tall, size.device))
				dst.Deallocate()
			}
		})
	}
}
