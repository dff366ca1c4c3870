package app

import (
	crand "crypto/rand"
	"encoding/binary"
	"fmt"
	"image"

	"dryline/cmd/dryline-desk/look"
	"dryline/scenarios"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// Setting is the screen where a practice is set: for a skill, as hard as wanted, on
// ground that nobody has seen.
type Setting struct {
	quiet
	back       *Choose
	skill      int
	difficulty float64
	text       image.Rectangle
}

// NewSetting returns the screen, which leads back to another.
func NewSetting(back *Choose) *Setting { return &Setting{back: back, difficulty: 1} }

// newSeed is a seed that nobody knows, short enough to be written down.
func newSeed() uint64 {
	var b [8]byte
	crand.Read(b[:]) // never fails
	return binary.LittleEndian.Uint64(b[:])>>32 | 1
}

// Build implements [Screen].
func (s *Setting) Build(g *Game, size image.Rectangle) *widget.Container {
	l := g.Look
	pad := l.Px(20)
	top := int(look.Tall(l.Title)) + l.Px(34)
	list := image.Rect(pad, top, pad+l.Px(240), size.Max.Y-pad)
	foot := image.Rect(list.Max.X+pad, size.Max.Y-pad-l.Px(44), size.Max.X-pad, size.Max.Y-pad)
	s.text = image.Rect(foot.Min.X, top, foot.Max.X, foot.Min.Y-l.Px(8))
	rows := []widget.PreferredSizeLocateableWidget{l.Label("Skills", l.Strong, l.Ink, 0)}
	for i, k := range scenarios.Skills() {
		b := l.Button(k.Name, chosenIf(i == s.skill), func() { s.skill = i; g.Rebuild() })
		b.GetWidget().MinWidth = l.Px(220)
		rows = append(rows, b)
	}
	rows = append(rows, l.Label("Difficulty", l.Strong, l.Ink, 0))
	var steps []widget.PreferredSizeLocateableWidget
	for d := 1.0; d <= scenarios.Hardest; d++ {
		steps = append(steps, l.Button(fmt.Sprintf("%g", d), chosenIf(d == s.difficulty), func() { s.difficulty = d; g.Rebuild() }))
	}
	rows = append(rows, l.Row(0, 4, steps...))
	return pinned(func(i int) image.Rectangle { return []image.Rectangle{list, foot}[i] },
		l.Backed(l.Column(8, 6, rows...), l.Panel),
		centredRow(l.Row(4, 10,
			l.Button("Begin the watch", look.Chosen, func() { s.begin(g) }),
			l.Button("Back", look.Plain, func() { g.Go(s.back) }),
			l.Label("Training aid. Not for navigation.", l.Small, l.Soft, 0),
		)))
}

func (s *Setting) begin(g *Game) {
	seed := g.Seed
	if seed == 0 {
		seed = newSeed()
	}
	name, file, err := scenarios.SetPractice(scenarios.Skills()[s.skill].Name, s.difficulty, seed)
	if err != nil {
		g.say(err.Error())
		return
	}
	ex, err := scenarios.Parse(name+".yaml", file)
	if err != nil {
		g.say(err.Error())
		return
	}
	watch, err := Start(g, ex)
	if err != nil {
		g.say(err.Error())
		return
	}
	g.Go(watch)
}

// Update implements [Screen].
func (s *Setting) Update(g *Game) error {
	n := len(scenarios.Skills())
	switch {
	case justPressed(ebiten.KeyUp):
		s.skill = (s.skill + n - 1) % n
	case justPressed(ebiten.KeyDown):
		s.skill = (s.skill + 1) % n
	case justPressed(ebiten.KeyLeft):
		s.difficulty = max(s.difficulty-1, 1)
	case justPressed(ebiten.KeyRight):
		s.difficulty = min(s.difficulty+1, scenarios.Hardest)
	case justPressed(ebiten.KeyEnter):
		s.begin(g)
		return nil
	case justPressed(ebiten.KeyEscape):
		g.Go(s.back)
		return nil
	default:
		return nil
	}
	g.Rebuild()
	return nil
}

// Draw implements [Screen].
func (s *Setting) Draw(g *Game, dst *ebiten.Image) {
	l := g.Look
	look.Write(dst, "Set practice", l.Title, float64(l.Px(20)), float64(l.Px(14)), l.Ink, look.Left)
	look.Fill(dst, s.text, l.Panel)
	pane := dst.SubImage(s.text).(*ebiten.Image)
	x, y := float64(s.text.Min.X+l.Px(14)), float64(s.text.Min.Y+l.Px(10))
	wide := float64(s.text.Dx() - l.Px(28))
	say := func(text string) {
		for _, line := range wrapped(text, l.Body, wide) {
			look.Write(pane, line, l.Body, x, y, l.Ink, look.Left)
			y += look.Tall(l.Body) + float64(l.Px(2))
		}
		y += float64(l.Px(8))
	}
	k := scenarios.Skills()[s.skill]
	look.Write(pane, k.Says, l.Strong, x, y, l.Ink, look.Left)
	y += look.Tall(l.Strong) + float64(l.Px(10))
	say("Two lines in Fenwarra Inlet, about ten minutes, on ground that nobody has seen: what lies there, the depth, the sediment, the bearing of the lines, stream and wind are drawn anew each time.")
	say(fmt.Sprintf("Difficulty %g of %g: at 1 everything is easy; the higher, the more there is of what makes this one hard, and a little of the rest.", s.difficulty, scenarios.Hardest))
	look.Write(pane, "It supports practice towards", l.Strong, x, y, l.Ink, look.Left)
	y += look.Tall(l.Strong) + float64(l.Px(4))
	for _, t := range k.Trains {
		say(t)
	}
}

// Keys implements [Screen].
func (s *Setting) Keys() []Key {
	return []Key{{"Up, Down", "choose a skill"}, {"Left, Right", "less or more difficult"}, {"Enter", "begin the watch"}, {"Esc", "back"}}
}

// Inspect implements [Screen].
func (s *Setting) Inspect() (string, map[string]Rect, any) {
	return "setting", nil, map[string]any{"skill": scenarios.Skills()[s.skill].Name, "difficulty": s.difficulty}
}
