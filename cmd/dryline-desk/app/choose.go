package app

import (
	"image"
	"slices"

	"dryline/cmd/dryline-desk/look"
	"dryline/scenarios"
	"dryline/sim/exercise"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// Choose is the screen where an exercise is chosen: a page of cards, and the one that is
// chosen opened beside them.
type Choose struct {
	quiet
	exercises []*exercise.Exercise
	sketches  sketchbook
	deck      deck

	text, chart, head image.Rectangle
	opened            *column
	check             *startCheck
}

// NewChoose returns the first screen, with the exercises in the order of the course.
func NewChoose() *Choose {
	c := &Choose{sketches: sketchbook{}, check: new(startCheck)}
	for _, info := range scenarios.Embedded() {
		if ex, err := scenarios.Find(info.Name); err == nil {
			c.exercises = append(c.exercises, ex)
		}
	}
	slices.SortStableFunc(c.exercises, func(a, b *exercise.Exercise) int { return inCourse(a.Name) - inCourse(b.Name) })
	return c
}

// chooseAt returns the first screen with an exercise chosen, if it is listed.
func chooseAt(name string) *Choose {
	c := NewChoose()
	c.deck.chosen = max(slices.IndexFunc(c.exercises, func(ex *exercise.Exercise) bool { return ex.Name == name }), 0)
	return c
}

// chosen is the exercise that is chosen.
func (c *Choose) chosen() *exercise.Exercise { return c.exercises[c.deck.chosen] }

// Build implements [Screen].
func (c *Choose) Build(g *Game, size image.Rectangle) *widget.Container {
	l := g.Look
	cards, opened := halves(l, size)
	c.deck.arrange(l, cards, len(c.exercises))
	foot := image.Rect(opened.Min.X, c.deck.barAt.Min.Y, opened.Max.X, c.deck.barAt.Max.Y)
	c.text = image.Rect(opened.Min.X, opened.Min.Y, opened.Max.X, foot.Min.Y-l.Px(6))

	var at []image.Rectangle
	var all []widget.PreferredSizeLocateableWidget
	add := func(w widget.PreferredSizeLocateableWidget, r image.Rectangle) {
		all, at = append(all, w), append(at, r)
	}
	c.deck.controls(g, func(i int) (string, *card) { return c.exercises[i].Title, c.cardOf(g, c.exercises[i]) }, "exercises", add)
	c.open(g)
	add(centredRow(l.Row(2, 8,
		explained(g, l.Button("Begin the watch", look.Chosen, func() { c.begin(g) }), "Begin the exercise whose card is open (Enter)."),
		explained(g, l.Button("Prepare", look.Plain, func() { c.prepare(g) }), "Read and fill in the mobilisation sheet before the watch (P)."),
		able(explained(g, l.Button("On new ground", look.Plain, func() { c.beginAnew(g) }), "The same exercise with what lies there, the weather and the ground drawn anew (N)."), c.chosen().Varies()),
		explained(g, l.Button("Free practice", look.Plain, func() { c.practise(g) }), "The same exercise with figures of your own (F)."),
	)), foot)
	top := centredRow(l.Row(0, 8,
		explained(g, l.Button("Resume a session", look.Plain, func() { g.Go(NewSessions(c)) }), "Sessions that were left, and debriefs (R)."),
		explained(g, l.Button("Set practice", look.Plain, func() { g.Go(NewSetting(c)) }), "Ground never seen, for one skill and as hard as you want it (S)."),
		explained(g, l.Button("Theme: "+g.Settings.Theme, look.Plain, func() { g.otherTheme() }), "Day or night (T)."),
	))
	wide, tall := top.PreferredSize()
	row := image.Rect(size.Max.X-l.Px(20)-wide, l.Px(14), size.Max.X-l.Px(20), l.Px(14)+tall)
	c.head = image.Rect(l.Px(20), 0, row.Min.X-l.Px(16), cards.Min.Y)
	add(top, row)
	return pinned(func(i int) image.Rectangle { return at[i] }, all...)
}

// halves are where the cards of a page lie, and the one that is opened beside them.
func halves(l *look.Look, size image.Rectangle) (cards, opened image.Rectangle) {
	pad, gap := l.Px(20), l.Px(14)
	top := l.Px(58)
	wide := max(size.Dx()*29/100, l.Px(560))
	opened = image.Rect(size.Max.X-pad-wide, top, size.Max.X-pad, size.Max.Y-l.Px(8))
	return image.Rect(pad, top, opened.Min.X-gap, opened.Max.Y), opened
}

func (g *Game) otherTheme() { g.Change(func(s *Settings) { s.Theme = otherTheme(s.Theme) }) }

func (c *Choose) begin(g *Game) {
	s, err := Start(g, c.chosen())
	if err != nil {
		g.say(err.Error())
		return
	}
	g.Go(s)
}

// prepare opens the mobilisation sheet of the chosen exercise.
func (c *Choose) prepare(g *Game) { g.Go(NewPrepare(c.chosen(), c)) }

// beginAnew begins the chosen exercise on ground that nobody has seen.
func (c *Choose) beginAnew(g *Game) {
	if !c.chosen().Varies() {
		g.say("Another seed changes nothing in this exercise.")
		return
	}
	seed := g.Seed
	defer func() { g.Seed = seed }()
	g.Seed = newSeed()
	c.begin(g)
}

// practise opens the chosen exercise for changing.
func (c *Choose) practise(g *Game) {
	p, err := NewPractice(c.chosen())
	if err != nil {
		g.say(err.Error())
		return
	}
	g.Go(p)
}

// Update implements [Screen].
func (c *Choose) Update(g *Game) error {
	c.check.pass(g.passed.Seconds())
	c.sketch()
	x, y, _ := g.Pointer()
	if c.deck.input(image.Pt(x, y)) {
		g.Rebuild()
	}
	switch {
	case justPressed(ebiten.KeyEnter):
		c.begin(g)
	case justPressed(ebiten.KeyP):
		c.prepare(g)
	case justPressed(ebiten.KeyN):
		c.beginAnew(g)
	case justPressed(ebiten.KeyF):
		c.practise(g)
	case justPressed(ebiten.KeyS):
		g.Go(NewSetting(c))
	case justPressed(ebiten.KeyR):
		g.Go(NewSessions(c))
	case justPressed(ebiten.KeyT):
		g.otherTheme()
	}
	return nil
}

// sketch draws one picture that is not there yet: of the card that is open, of those on the
// page, of the others.
func (c *Choose) sketch() {
	from, to := c.deck.shown()
	for _, i := range append([]int{c.deck.chosen}, spread(from, to, len(c.exercises))...) {
		if s := c.sketches.of(c.exercises[i], c.exercises[i].Seed); !s.done() {
			s.work()
			return
		}
	}
}

// spread are the numbers under a count, those from one to another first.
func spread(from, to, count int) []int {
	var all []int
	for i := from; i < to; i++ {
		all = append(all, i)
	}
	for i := range count {
		if i < from || i >= to {
			all = append(all, i)
		}
	}
	return all
}

// Draw implements [Screen].
func (c *Choose) Draw(g *Game, dst *ebiten.Image) {
	l := g.Look
	c.check.draw(g)
	look.Write(dst, "Dryline", l.Title, float64(c.head.Min.X), float64(l.Px(14)), l.Ink, look.Left)
	x := c.head.Min.X + int(look.Wide("Dryline", l.Title)) + l.Px(16)
	y, row := float64(l.Px(12)), look.Tall(l.Small)+float64(l.Px(1))
	if slow := c.check.says(); slow != "" {
		y = float64(l.Px(5))
		for _, line := range wrapped(slow, l.Small, float64(c.head.Max.X-x)) {
			look.Write(dst, line, l.Small, float64(x), y, l.Caution, look.Left)
			y += row
		}
	} else {
		look.Write(dst, look.Fitted("Practise side-scan survey on dry land", l.Small, c.head.Max.X-x), l.Small, float64(x), y, l.Soft, look.Left)
		y += row
	}
	look.Write(dst, "Training aid. Not for navigation.", l.Small, float64(x), y, l.Soft, look.Left)
	c.drawOpened(g, dst)
}

// Over implements [Screen].
func (c *Choose) Over(g *Game, dst *ebiten.Image) { c.deck.draw(dst, g.Look) }

// Keys implements [Screen].
func (c *Choose) Keys() []Key {
	return append(deckKeys("an exercise"),
		Key{"Enter", "begin the watch"}, Key{"P", "prepare it first"}, Key{"N", "begin it on new ground"}, Key{"F", "free practice with it"},
		Key{"S", "set practice"}, Key{"R", "resume a session"}, Key{"T", "day or night"})
}

// Inspect implements [Screen].
func (c *Choose) Inspect() (string, map[string]Rect, any) {
	return "choose", map[string]Rect{"cards": rect(c.deck.at), "text": rect(c.text), "chart": rect(c.chart)}, c.chosen().Name
}
