package app

import (
	"fmt"
	"image"
	"path"
	"path/filepath"
	"strings"

	"dryline/cmd/dryline-desk/look"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// Sessions is the screen where a session that was kept is resumed: a page of cards, and
// what is known of the one that is chosen beside them.
type Sessions struct {
	quiet
	from     Screen // that it was opened on
	saved    []SavedSession
	read     map[int]*summary
	sketches sketchbook
	deck     deck

	list, text, chart image.Rectangle
	opened            *column
}

// NewSessions returns the screen; it leads back to the one that it was opened on.
func NewSessions(from Screen) *Sessions {
	return &Sessions{from: from, read: map[int]*summary{}, sketches: sketchbook{}}
}

// Build implements [Screen].
func (c *Sessions) Build(g *Game, size image.Rectangle) *widget.Container {
	l := g.Look
	if c.saved == nil {
		c.saved = g.Store.Sessions()
	}
	cards, opened := halves(l, size)
	c.list = cards
	c.deck.arrange(l, cards, len(c.saved))
	foot := image.Rect(opened.Min.X, c.deck.barAt.Min.Y, opened.Max.X, c.deck.barAt.Max.Y)
	c.text = image.Rect(opened.Min.X, opened.Min.Y, opened.Max.X, foot.Min.Y-l.Px(6))

	var at []image.Rectangle
	var all []widget.PreferredSizeLocateableWidget
	add := func(w widget.PreferredSizeLocateableWidget, r image.Rectangle) {
		all, at = append(all, w), append(at, r)
	}
	c.deck.controls(g, func(i int) (string, *card) { return c.cardOf(g, i) }, "sessions kept", add)
	c.open(g)
	var does []widget.PreferredSizeLocateableWidget
	if s := c.read[c.deck.chosen]; s != nil && !s.broken {
		does = append(does, explained(g, l.Button(s.does(), look.Chosen, func() { c.goOn(g) }), "The session whose card is open (Enter)."))
	}
	if !g.Store.Files() {
		does = append(does, l.Button("From a file", look.Plain, func() {
			g.Store.Pick(func(name string, data []byte, err error) { resumeFrom(g, "", name, data, err) })
		}))
	}
	does = append(does, l.Button("Back to the exercises", look.Plain, func() { g.Go(c.from) }))
	add(centredRow(l.Row(2, 8, does...)), foot)
	return pinned(func(i int) image.Rectangle { return at[i] }, all...)
}

// cardOf is the card of a session: what its file is called until it was read.
func (c *Sessions) cardOf(g *Game, i int) (title string, k *card) {
	l, saved, s := g.Look, c.saved[i], c.read[i]
	k = &card{bare: "..."}
	when := func() {
		if !saved.When.IsZero() {
			k.facts = append(k.facts, said{saved.When.Local().Format("Mon 2 Jan 2006, 15:04"), l.Soft})
		}
	}
	if s == nil || s.broken {
		if s != nil {
			k.bare = "no picture"
			k.facts = append(k.facts, said{s.far(), l.Alarm})
		}
		when()
		return shortName(saved.Name), k
	}
	k.sketch, k.how = c.sketches.of(s.exercise, s.ground), sketched{begun: s.begun}
	k.facts = append(k.facts, said{s.far(), l.Ink})
	if says, ok := s.points(g.Settings.Record); ok {
		k.facts = append(k.facts, said{says, l.Ink})
	}
	if s.practice {
		k.facts = append(k.facts, said{"Practice: it never counts", l.Ink})
	}
	when()
	k.facts = append(k.facts, said{s.linesSay(), l.Soft})
	if other := s.seed != s.exercise.Seed; other {
		k.facts = append(k.facts, said{fmt.Sprintf("New ground, seed %d", s.seed), l.Soft})
	}
	return s.title, k
}

// open lays out what is known of the session that is chosen.
func (c *Sessions) open(g *Game) {
	l, s, file := g.Look, c.read[c.deck.chosen], ""
	in := c.text.Inset(l.Px(14))
	var beside, says image.Rectangle
	c.chart = image.Rectangle{}
	switch {
	case len(c.saved) == 0:
		s = &summary{title: "No session yet", says: []string{
			"A watch is saved while it is under way, and again when it is over.",
			"Here you can then resume it, if it was left, or see its debrief again.",
		}}
	case s == nil:
		s, file = &summary{title: shortName(c.saved[c.deck.chosen].Name)}, c.saved[c.deck.chosen].Name
	default:
		file = c.saved[c.deck.chosen].Name
		if e := s.exercise; e != nil {
			c.chart, says = chartOf(in, e.Seabed.East/max(e.Seabed.North, 1), 0.6, l)
			if beside = c.chart.Union(says); beside.Dx() == in.Dx() {
				in.Min.Y, beside = beside.Max.Y+l.Px(8), image.Rectangle{}
			}
		}
	}
	c.opened = newColumn(l, in, beside)
	c.opened.say(s.title, l.Title, l.Ink, 0)
	c.opened.skip(8)
	for _, p := range s.says {
		c.opened.say(p, l.Body, l.Ink, 0)
		c.opened.skip(6)
	}
	if points, ok := s.points(g.Settings.Record); ok {
		c.opened.say("By your record: "+points+".", l.Body, l.Ink, 0)
		c.opened.skip(6)
	} else if s.over && !s.practice {
		c.opened.say("Its points are in its debrief.", l.Body, l.Ink, 0)
		c.opened.skip(6)
	}
	c.opened.path(file, l.Small, l.Soft)
}

// shortName is the part of a file's name that tells sessions apart: its own name, or
// its folder's where each has one.
func shortName(file string) string {
	file = filepath.ToSlash(file)
	if folder, ok := strings.CutSuffix(file, "/session.jsonl"); ok {
		return path.Base(folder)
	}
	return strings.TrimSuffix(path.Base(file), ".jsonl")
}

// work reads one session that was not read yet, or draws one picture: of the card that is
// open, of those on the page. It reports whether there is something new to lay out.
func (c *Sessions) work() bool {
	from, to := c.deck.shown()
	next := []int{c.deck.chosen}
	for i := from; i < to; i++ {
		next = append(next, i)
	}
	for _, i := range next {
		switch {
		case i >= len(c.saved):
		case c.read[i] == nil:
			c.read[i] = summarise(c.saved[i].Read())
			return true
		case c.read[i].exercise == nil: // it is broken
		default:
			if k := c.sketches.of(c.read[i].exercise, c.read[i].ground); !k.done() {
				k.work()
				return false
			}
		}
	}
	return false
}

func (c *Sessions) goOn(g *Game) {
	if c.deck.chosen < len(c.saved) {
		s := c.saved[c.deck.chosen]
		data, err := s.Read()
		resumeFrom(g, s.Where, s.Name, data, err)
	}
}

func resumeFrom(g *Game, where, name string, data []byte, err error) {
	var screen Screen
	if err == nil {
		screen, err = Resume(g, where, data)
	}
	if err != nil {
		g.say(fmt.Sprintf("The session %s cannot be resumed: %v", name, err))
		return
	}
	g.Go(screen)
}

// Update implements [Screen].
func (c *Sessions) Update(g *Game) error {
	x, y, _ := g.Pointer()
	if moved := c.deck.input(image.Pt(x, y)); c.work() || moved {
		g.Rebuild()
	}
	switch {
	case justPressed(ebiten.KeyEnter):
		c.goOn(g)
	case justPressed(ebiten.KeyEscape):
		g.Go(c.from)
	case justPressed(ebiten.KeyT):
		g.otherTheme()
	}
	return nil
}

// Draw implements [Screen].
func (c *Sessions) Draw(g *Game, dst *ebiten.Image) {
	l := g.Look
	look.Write(dst, "Resume a session", l.Title, float64(l.Px(20)), float64(l.Px(14)), l.Ink, look.Left)
	look.Write(dst, "Training aid. Not for navigation.", l.Small, float64(c.text.Max.X), float64(l.Px(24)), l.Soft, look.Right)
	if len(c.saved) == 0 {
		look.Write(dst, "No session is kept here yet.", l.Body, float64(c.list.Min.X), float64(c.list.Min.Y), l.Soft, look.Left)
	}
	look.Fill(dst, c.text, l.Panel)
	if s := c.read[c.deck.chosen]; s != nil && s.exercise != nil {
		k := c.sketches.of(s.exercise, s.ground)
		frame := k.draw(dst, c.chart, l, sketched{names: true, begun: s.begun})
		k.letter(dst, frame, l)
	}
	c.opened.draw(dst.SubImage(c.text).(*ebiten.Image))
}

// Over implements [Screen].
func (c *Sessions) Over(g *Game, dst *ebiten.Image) { c.deck.draw(dst, g.Look) }

// Keys implements [Screen].
func (c *Sessions) Keys() []Key {
	return append(deckKeys("a session"), Key{"Enter", "resume it, or see its debrief"}, Key{"Esc", "back to the exercises"}, Key{"T", "day or night"})
}

// Inspect implements [Screen].
func (c *Sessions) Inspect() (string, map[string]Rect, any) {
	name := ""
	if c.deck.chosen < len(c.saved) {
		name = c.saved[c.deck.chosen].Name
	}
	return "sessions", map[string]Rect{"list": rect(c.list), "text": rect(c.text), "chart": rect(c.chart)}, name
}
