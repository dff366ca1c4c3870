package app

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"dryline/sim/debrief"
	"dryline/sim/order"

	"github.com/hajimehoshi/ebiten/v2"
)

// Sessions are told apart by the end of their path, and a long path has no room.
func TestShortNameTellsSessionsApart(t *testing.T) {
	for _, test := range []struct{ file, want string }{
		{"/srv/practice/out/first-line-3-watch.jsonl", "first-line-3-watch"},
		{"out/monday/session.jsonl", "monday"},
		{"session.jsonl", "session"},
	} {
		if got := shortName(test.file); got != test.want {
			t.Errorf("%s: got %q, want %q", test.file, got, test.want)
		}
	}
}

// A session is told by its exercise, how far it went and which lines were begun.
func TestSessionsAreToldByWhatTheyAre(t *testing.T) {
	g := NewGame(&memory{}, false)
	keepOne(t, g)
	half := summarise(g.Store.Sessions()[0].Read())
	if half.spent < 3 || half.spent > 5 || half.title != "The disused anchorage" {
		t.Errorf("five seconds of a watch are said to be %d of %q", half.spent, half.title)
	}
	half.spent = 156
	if got := half.far(); got != "Goes on at 2 min 36 s" {
		t.Errorf("left half way: %q", got)
	}
	half.over = true
	if got := half.far(); got != "Over after 2 min 36 s" {
		t.Errorf("over: %q", got)
	}
	if got := summarise([]byte("no log"), nil).far(); got != "It cannot be read" {
		t.Errorf("broken: %q", got)
	}
	if !slices.ContainsFunc(half.says, func(s string) bool { return strings.HasPrefix(s, "Lines begun: ") }) {
		t.Errorf("it does not say which lines were begun: %q", half.says)
	}
}

// The points on a card are those that the record has of that very session; of another
// attempt, or of one under way, there are none.
func TestACardHasThePointsOfItsSession(t *testing.T) {
	g := NewGame(&memory{}, false)
	w := watchUnderWay(t, g, "first-line", 30)
	under := summarise(logOf(t, w), nil)
	w.give(order.Command{Do: order.Finish})
	w.crew.Pass(1, 1e12)
	over := summarise(logOf(t, w), nil)
	w.view = w.crew.View()
	g.Resize(1280, 720, 1)
	w.Build(g, g.area())
	r := w.debrief("out/first-line-3.jsonl").report
	g.remember(&r)
	want := fmt.Sprintf("%.0f points, not passed", r.Score.Points)
	if r.Score.Verdict != debrief.VerdictFailed {
		t.Fatalf("half a minute is %s", r.Score.Verdict)
	}
	if got, ok := over.points(g.Settings.Record); !ok || got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got, ok := under.points(g.Settings.Record); ok {
		t.Errorf("under way it has %q", got)
	}
	over.started = over.started.Add(time.Second)
	if got, ok := over.points(g.Settings.Record); ok {
		t.Errorf("another attempt has %q", got)
	}
}

// many is a store with many sessions, which counts how often one is read.
type many struct {
	memory
	reads int
}

func (m *many) Sessions() []SavedSession {
	list := make([]SavedSession, 100)
	for i := range list {
		list[i] = SavedSession{Name: fmt.Sprintf("out/s%d.jsonl", i), When: time.Date(2031, 5, 12, 9, i%60, 0, 0, time.UTC), Read: func() ([]byte, error) {
			m.reads++
			if i == 3 {
				return nil, errors.New("it is gone")
			}
			return m.kept, nil
		}}
	}
	return list
}

// Of a hundred sessions those on the page are read, one a frame, and each ground is drawn
// once; one that cannot be read says so and the others stay.
func TestAHundredSessionsAreReadAsTheyAreShown(t *testing.T) {
	m := &many{}
	g := NewGame(m, false)
	keepOne(t, g)
	g.Resize(1280, 720, 1)
	c := NewSessions(NewChoose())
	g.next = c
	dst := ebiten.NewImage(1280, 720)
	defer dst.Deallocate()
	frame(g, dst)
	if m.reads > 1 {
		t.Errorf("the first frame reads %d", m.reads)
	}
	for range 60 {
		frame(g, dst)
	}
	from, to := c.deck.shown()
	if m.reads != to-from || to-from > 20 || len(c.sketches) != 1 {
		t.Errorf("of %d on the page %d are read, and %d grounds drawn; want each once, and one", to-from, m.reads, len(c.sketches))
	}
	if s := c.read[3]; s == nil || !s.broken || !strings.Contains(s.says[0], "it is gone") {
		t.Errorf("what cannot be read: %+v", c.read[3])
	}
	c.deck.chosen = 99
	g.Rebuild()
	for range 60 {
		frame(g, dst)
	}
	if from, to = c.deck.shown(); to != 100 || c.read[99] == nil || c.read[50] != nil {
		t.Errorf("at the end %d to %d are shown", from, to)
	}
}
