package app

import (
	"fmt"
	"image"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"dryline/cmd/dryline-desk/look"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// Sessions is the screen where a session that was kept is resumed.
type Sessions struct {
	quiet
	from   Screen // that it was opened on
	saved  []SavedSession
	chosen int
	first  int // listed
	fit    int // listed at once
	read   map[int]*summary

	list, text image.Rectangle
}

// NewSessions returns the screen; it leads back to the one that it was opened on.
func NewSessions(from Screen) *Sessions { return &Sessions{from: from, read: map[int]*summary{}} }

// Build implements [Screen].
func (c *Sessions) Build(g *Game, size image.Rectangle) *widget.Container {
	l := g.Look
	if c.saved == nil {
		c.saved = g.Store.Sessions()
	}
	pad := l.Px(20)
	headTall := int(look.Tall(l.Title)) + l.Px(34)
	c.list = image.Rect(pad, headTall, pad+max(l.Px(460), size.Dx()/3), size.Max.Y-pad)
	right := image.Rect(c.list.Max.X+pad, headTall, size.Max.X-pad, size.Max.Y-pad)
	foot := image.Rect(right.Min.X, right.Max.Y-l.Px(44), right.Max.X, right.Max.Y)
	c.text = image.Rect(right.Min.X, right.Min.Y, right.Max.X, foot.Min.Y-l.Px(8))

	wide := c.list.Dx() - l.Px(16)
	rows := []widget.PreferredSizeLocateableWidget{l.Label("Sessions kept", l.Strong, l.Ink, 0)}
	if len(c.saved) == 0 {
		rows = append(rows, l.Label("No session is kept here yet.", l.Body, l.Soft, wide))
	}
	c.fit = max((c.list.Dy()-l.Px(100))/l.Px(36), 1)
	c.first = max(min(c.first, len(c.saved)-c.fit), 0)
	for i := c.first; i < min(c.first+c.fit, len(c.saved)); i++ {
		b := l.Button(look.Fitted(c.summary(i).label(c.saved[i]), l.Body, wide-l.Px(24)), chosenIf(i == c.chosen), func() { c.chosen = i; g.Rebuild() })
		b.GetWidget().MinWidth = wide
		rows = append(rows, b)
	}
	if len(c.saved) > c.fit {
		rows = append(rows, l.Row(0, 6,
			l.Button("Newer", look.Plain, func() { c.first -= c.fit; g.Rebuild() }),
			l.Button("Older", look.Plain, func() { c.first += c.fit; g.Rebuild() })))
	}
	var does []widget.PreferredSizeLocateableWidget
	if s := c.summary(c.chosen); s != nil && !s.broken {
		does = append(does, l.Button(s.does(), look.Chosen, func() { c.goOn(g) }))
	}
	if !g.Store.Files() {
		does = append(does, l.Button("From a file", look.Plain, func() {
			g.Store.Pick(func(name string, data []byte, err error) { resumeFrom(g, "", name, data, err) })
		}))
	}
	does = append(does, l.Button("Back to the exercises", look.Plain, func() { g.Go(c.from) }))
	return pinned(func(i int) image.Rectangle { return []image.Rectangle{c.list, foot}[i] },
		l.Backed(l.Column(8, 6, rows...), l.Panel), centredRow(l.Row(4, 10, does...)))
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

// summary returns the summary of a session, read when it is first listed.
func (c *Sessions) summary(i int) *summary {
	if i >= len(c.saved) {
		return nil
	}
	s := c.read[i]
	if s == nil {
		s = summarise(c.saved[i].Read())
		c.read[i] = s
	}
	return s
}

func (c *Sessions) goOn(g *Game) {
	if c.chosen < len(c.saved) {
		s := c.saved[c.chosen]
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
	move := 0
	switch {
	case again(ebiten.KeyUp):
		move = -1
	case again(ebiten.KeyDown):
		move = 1
	case justPressed(ebiten.KeyEnter):
		c.goOn(g)
	case justPressed(ebiten.KeyEscape):
		g.Go(c.from)
	}
	if move != 0 && len(c.saved) > 0 {
		c.chosen = max(min(c.chosen+move, len(c.saved)-1), 0)
		if c.chosen < c.first || c.chosen >= c.first+c.fit {
			c.first = c.chosen - c.fit/2
		}
		g.Rebuild()
	}
	return nil
}

// Draw implements [Screen].
func (c *Sessions) Draw(g *Game, dst *ebiten.Image) {
	l := g.Look
	look.Write(dst, "Resume a session", l.Title, float64(l.Px(20)), float64(l.Px(14)), l.Ink, look.Left)
	look.Fill(dst, c.text, l.Panel)
	s, file := c.summary(c.chosen), ""
	if s == nil {
		s = &summary{title: "No session yet", says: []string{
			"A watch is saved while it is under way, and again when it is over.",
			"Here you can then resume it, if it was left, or see its debrief again.",
		}}
	} else {
		file = c.saved[c.chosen].Name
	}
	pane := dst.SubImage(c.text).(*ebiten.Image)
	x, y := float64(c.text.Min.X+l.Px(14)), float64(c.text.Min.Y+l.Px(10))
	wide := float64(c.text.Dx() - l.Px(28))
	look.Write(pane, s.title, l.Title, x, y, l.Ink, look.Left)
	y += look.Tall(l.Title) + float64(l.Px(10))
	for _, p := range append(slices.Clip(s.says), file) {
		for _, line := range wrapped(p, l.Body, wide) {
			look.Write(pane, line, l.Body, x, y, l.Ink, look.Left)
			y += look.Tall(l.Body) + float64(l.Px(2))
		}
		y += float64(l.Px(6))
	}
}

// Keys implements [Screen].
func (c *Sessions) Keys() []Key {
	return []Key{{"Up, Down", "choose a session"}, {"Enter", "resume it, or see its debrief"}, {"Esc", "back to the exercises"}}
}

// Inspect implements [Screen].
func (c *Sessions) Inspect() (string, map[string]Rect, any) {
	name := ""
	if c.chosen < len(c.saved) {
		name = c.saved[c.chosen].Name
	}
	return "sessions", map[string]Rect{"list": rect(c.list), "text": rect(c.text)}, name
}
