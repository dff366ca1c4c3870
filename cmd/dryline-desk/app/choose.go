package app

import (
	"fmt"
	"image"
	"slices"
	"strings"

	"dryline/cmd/dryline-desk/look"
	"dryline/scenarios"
	"dryline/sim/exercise"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// Choose is the screen where an exercise is chosen.
type Choose struct {
	quiet
	exercises []*exercise.Exercise
	sketches  map[*exercise.Exercise]*sketch
	chosen    int
	first     int // listed
	fit       int // as many as can be listed
	seen      int // chosen when it was listed last

	list, text, chart image.Rectangle
	check             *startCheck
}

// NewChoose returns the first screen, with the exercises in the order of the course.
func NewChoose() *Choose {
	c := &Choose{sketches: map[*exercise.Exercise]*sketch{}, check: new(startCheck)}
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
	c.chosen = max(slices.IndexFunc(c.exercises, func(ex *exercise.Exercise) bool { return ex.Name == name }), 0)
	return c
}

// Build implements [Screen].
func (c *Choose) Build(g *Game, size image.Rectangle) *widget.Container {
	l := g.Look
	pad := l.Px(20)
	wide := l.Px(300)
	headTall := int(look.Tall(l.Title)) + l.Px(34)
	c.list = image.Rect(pad, headTall, pad+wide, size.Max.Y-pad)
	right := image.Rect(c.list.Max.X+pad, headTall, size.Max.X-pad, size.Max.Y-pad)
	footTall := l.Px(44)
	foot := image.Rect(right.Min.X, right.Max.Y-footTall, right.Max.X, right.Max.Y)
	chartWide := min(right.Dx()*2/5, right.Dy())
	c.text = image.Rect(right.Min.X, right.Min.Y, right.Max.X-chartWide-pad, foot.Min.Y-l.Px(8))
	c.chart = image.Rect(right.Max.X-chartWide, right.Min.Y, right.Max.X, foot.Min.Y-l.Px(8))

	ex := c.exercises[c.chosen]
	var rows []widget.PreferredSizeLocateableWidget
	button := func(label string, t look.Emphasis, do func()) {
		b := l.Button(look.Fitted(label, l.Body, wide-l.Px(36)), t, do)
		b.GetWidget().MinWidth = wide - l.Px(16)
		rows = append(rows, b)
	}
	rows = append(rows, l.Label("Exercises", l.Strong, l.Ink, 0))
	c.listRows(l)
	for i := c.first; i < min(c.first+c.fit, len(c.exercises)); i++ {
		button(c.exercises[i].Title, chosenIf(i == c.chosen), func() { c.chosen = i; g.Rebuild() })
	}
	if len(c.exercises) > c.fit {
		rows = append(rows, l.Row(0, 6,
			able(l.Button("Earlier", look.Plain, func() { c.first -= c.fit; g.Rebuild() }), c.first > 0),
			able(l.Button("Later", look.Plain, func() { c.first += c.fit; g.Rebuild() }), c.first+c.fit < len(c.exercises))))
	} else {
		rows = append(rows, l.Label(" ", l.Small, l.Soft, 0))
	}
	button("Resume a session", look.Plain, func() { g.Go(NewSessions(c)) })
	button("Theme: "+g.Settings.Theme, look.Plain, func() { g.Change(func(s *Settings) { s.Theme = otherTheme(s.Theme) }) })
	return pinned(func(i int) image.Rectangle { return []image.Rectangle{c.list, foot}[i] },
		l.Backed(l.Column(8, 6, rows...), l.Panel),
		centredRow(l.Row(4, 10,
			l.Button("Begin the watch", look.Chosen, func() { c.begin(g) }),
			explained(g, l.Button("Prepare", look.Plain, func() { c.prepare(g) }), "Read and fill in the mobilisation sheet before the watch (P)."),
			able(explained(g, l.Button("On new ground", look.Plain, func() { c.beginAnew(g) }), "The same exercise with what lies there, the weather and the ground drawn anew."), ex.Varies()),
			l.Button("Free practice", look.Plain, func() { c.practise(g) }),
			explained(g, l.Button("Set practice", look.Plain, func() { g.Go(NewSetting(c)) }), "Ground never seen, for one skill and as hard as you want it."),
		)))
}

// listRows settles which exercises are listed: as many as there is room for, and the
// one chosen among them when another is chosen.
func (c *Choose) listRows(l *look.Look) {
	row := l.Px(6 + 10 + 1)
	row += int(look.Tall(l.Body))
	rest := 3*row + int(look.Tall(l.Strong)) + l.Px(6+2*8) // two buttons, the way to the others, the heading
	c.fit = max((c.list.Dy()-rest)/row, 1)
	if c.chosen != c.seen && (c.chosen < c.first || c.chosen >= c.first+c.fit) {
		c.first = c.chosen - c.fit/2
	}
	c.seen = c.chosen
	c.first = max(min(c.first, len(c.exercises)-c.fit), 0)
}

func (c *Choose) begin(g *Game) {
	s, err := Start(g, c.exercises[c.chosen])
	if err != nil {
		g.say(err.Error())
		return
	}
	g.Go(s)
}

// prepare opens the mobilisation sheet of the chosen exercise.
func (c *Choose) prepare(g *Game) { g.Go(NewPrepare(c.exercises[c.chosen], c)) }

// beginAnew begins the chosen exercise on ground that nobody has seen.
func (c *Choose) beginAnew(g *Game) {
	seed := g.Seed
	defer func() { g.Seed = seed }()
	g.Seed = newSeed()
	c.begin(g)
}

// practise opens the chosen exercise for changing.
func (c *Choose) practise(g *Game) {
	p, err := NewPractice(c.exercises[c.chosen])
	if err != nil {
		g.say(err.Error())
		return
	}
	g.Go(p)
}

// Update implements [Screen].
func (c *Choose) Update(g *Game) error {
	c.check.pass(g.passed.Seconds())
	ex := c.exercises[c.chosen]
	if c.sketches[ex] == nil {
		c.sketches[ex] = newSketch(ex)
	}
	c.sketches[ex].work()
	move := 0
	switch {
	case justPressed(ebiten.KeyUp):
		move = -1
	case justPressed(ebiten.KeyDown):
		move = 1
	case justPressed(ebiten.KeyEnter):
		c.begin(g)
	case justPressed(ebiten.KeyP):
		c.prepare(g)
	}
	if move != 0 {
		c.chosen = (c.chosen + move + len(c.exercises)) % len(c.exercises)
		g.Rebuild()
	}
	return nil
}

// Draw implements [Screen].
func (c *Choose) Draw(g *Game, dst *ebiten.Image) {
	l := g.Look
	ex := c.exercises[c.chosen]
	look.Write(dst, "Dryline", l.Title, float64(l.Px(20)), float64(l.Px(14)), l.Ink, look.Left)
	c.check.draw(g)
	says, ink := "Practise side-scan survey on dry land", l.Soft
	if slow := c.check.says(); slow != "" {
		says, ink = slow, l.Caution
	}
	beside := l.Px(20) + int(look.Wide("Dryline", l.Title)) + l.Px(16)
	caution := "Training aid. Not for navigation."
	right := g.size.Dx() - l.Px(20)
	look.Write(dst, caution, l.Small, float64(right), float64(l.Px(24)), l.Soft, look.Right)
	right -= int(look.Wide(caution, l.Small)) + l.Px(16)
	look.Write(dst, look.Fitted(says, l.Body, right-beside), l.Body, float64(beside), float64(l.Px(22)), ink, look.Left)
	look.Fill(dst, c.text, l.Panel)
	pane := dst.SubImage(c.text).(*ebiten.Image)
	x, y := float64(c.text.Min.X+l.Px(14)), float64(c.text.Min.Y+l.Px(10))
	wide := float64(c.text.Dx() - l.Px(28))
	look.Write(pane, ex.Title, l.Title, x, y, l.Ink, look.Left)
	y += look.Tall(l.Title) + float64(l.Px(2))
	look.Write(pane, ex.Place.Name, l.Body, x, y, l.Soft, look.Left)
	y += look.Tall(l.Body) + float64(l.Px(10))
	say := func(s string, indent float64) {
		for _, line := range wrapped(s, l.Body, wide-indent) {
			look.Write(pane, line, l.Body, x+indent, y, l.Ink, look.Left)
			y += look.Tall(l.Body) + float64(l.Px(2))
		}
	}
	for _, p := range strings.Split(strings.TrimSpace(ex.Briefing), "\n\n") {
		say(strings.ReplaceAll(p, "\n", " "), 0)
		y += float64(l.Px(8))
	}
	look.Write(pane, "What you learn", l.Strong, x, y, l.Ink, look.Left)
	y += look.Tall(l.Strong) + float64(l.Px(4))
	for _, goal := range ex.Goals {
		look.Disc(pane, x+float64(l.Px(4)), y+look.Tall(l.Body)/2, 2.2*l.Scale, l.Ink)
		say(goal, float64(l.Px(14)))
	}
	y += float64(l.Px(8))
	say(fmt.Sprintf("%.0f minutes at most; %.0f of 100 points pass it.", ex.Plan.TimeLimit/60, ex.Score.Pass), 0)
	if s, ok := g.standing(ex.Name, ex.Hash); ok {
		say(standingSays(s), 0)
	}
	look.Fill(dst, c.chart, l.Panel)
	if s := c.sketches[ex]; s != nil {
		in := c.chart.Inset(l.Px(14))
		in.Max.Y -= int(look.Tall(l.Small)) + l.Px(4)
		s.draw(dst, in, l)
		if s.picture != nil {
			deep := fmt.Sprintf("%.0f to %.0f m deep", s.lo, s.hi)
			if s.hi-s.lo < 2 {
				deep = fmt.Sprintf("%.1f to %.1f m deep", s.lo, s.hi)
			}
			says := fmt.Sprintf("%.0f by %.0f m, %s; rings: charted", ex.Seabed.East, ex.Seabed.North, deep)
			look.Write(dst, look.Fitted(says, l.Small, in.Dx()), l.Small, float64(in.Min.X), float64(in.Max.Y+l.Px(6)), l.Soft, look.Left)
		}
	}
}

// Keys implements [Screen].
func (c *Choose) Keys() []Key {
	return []Key{{"Up, Down", "choose an exercise"}, {"Enter", "begin the watch"}, {"P", "prepare it first"}}
}

// Inspect implements [Screen].
func (c *Choose) Inspect() (string, map[string]Rect, any) {
	return "choose", nil, c.exercises[c.chosen].Name
}
