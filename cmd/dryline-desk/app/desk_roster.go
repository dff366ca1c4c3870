package app

import (
	"image"

	"dryline/cmd/dryline-desk/look"

	"github.com/hajimehoshi/ebiten/v2"
)

// entryLine is a row of a roster: what it is, and what there is to say of it.
type entryLine struct{ head, says string }

// roster is a list to choose from, by pointer, wheel and keys. Its rows are shown whole.
type roster struct {
	rows   []entryLine
	chosen int
	first  int // row on top
	at     image.Rectangle
	plain  bool // rows of one line: head to the left, what there is to say to the right
}

// tall is how tall a row is.
func (r *roster) tall(l *look.Look) int {
	if r.plain {
		return int(look.Tall(l.Body)) + l.Px(6)
	}
	return int(look.Tall(l.Body)+look.Tall(l.Small)) + l.Px(8)
}

func (r *roster) fit(l *look.Look) int { return max((r.at.Dy()-l.Px(6))/r.tall(l), 1) }

// choose chooses a row and shows it.
func (r *roster) choose(l *look.Look, n int) {
	r.chosen = max(min(n, len(r.rows)-1), 0)
	fit := r.fit(l)
	r.first = max(min(r.first, r.chosen), r.chosen-fit+1)
}

// input takes keys, wheel and pointer; it reports whether another row was chosen, or the same once more
// by a click.
func (r *roster) input(g *Game, at image.Point, taken bool) (moved, clicked bool) {
	l, before := g.Look, r.chosen
	switch {
	case again(ebiten.KeyUp):
		r.choose(l, r.chosen-1)
	case again(ebiten.KeyDown):
		r.choose(l, r.chosen+1)
	}
	clicked = r.point(g, at, taken)
	return r.chosen != before, clicked
}

// point takes wheel and pointer alone.
func (r *roster) point(g *Game, at image.Point, taken bool) (clicked bool) {
	l := g.Look
	if taken || !at.In(r.at) {
		return false
	}
	if dy, _ := turned(); dy != 0 {
		by := -1
		if dy < 0 {
			by = 1
		}
		r.first = max(min(r.first+by, len(r.rows)-r.fit(l)), 0)
	}
	if wentDown(ebiten.MouseButtonLeft) {
		if n := r.first + (at.Y-r.at.Min.Y-l.Px(3))/r.tall(l); n >= 0 && n < len(r.rows) && n < r.first+r.fit(l) {
			r.choose(l, n)
			return true
		}
	}
	return false
}

// draw letters it.
func (r *roster) draw(dst *ebiten.Image, l *look.Look) {
	look.Fill(dst, r.at, l.Panel)
	if len(r.rows) == 0 {
		return
	}
	fit := r.fit(l)
	r.first = max(min(r.first, len(r.rows)-fit), 0)
	pane := dst.SubImage(r.at).(*ebiten.Image)
	x, wide := float64(r.at.Min.X+l.Px(12)), r.at.Dx()-l.Px(24)
	for k := r.first; k < min(r.first+fit, len(r.rows)); k++ {
		row := r.rows[k]
		y := r.at.Min.Y + l.Px(3) + (k-r.first)*r.tall(l)
		if k == r.chosen {
			look.Fill(pane, image.Rect(r.at.Min.X+l.Px(2), y, r.at.Max.X-l.Px(8), y+r.tall(l)-l.Px(2)), l.Sunk)
			look.Fill(pane, image.Rect(r.at.Min.X+l.Px(2), y, r.at.Min.X+l.Px(6), y+r.tall(l)-l.Px(2)), l.Accent)
		}
		top := float64(y + l.Px(2))
		if r.plain {
			says := look.Fitted(row.says, l.Body, wide*3/5)
			look.Write(pane, says, l.Body, x+float64(wide), top, l.Ink, look.Right)
			look.Write(pane, look.Fitted(row.head, l.Body, wide-int(look.Wide(says, l.Body))-l.Px(8)), l.Body, x, top, l.Ink, look.Left)
			continue
		}
		look.Write(pane, look.Fitted(row.head, l.Body, wide), l.Body, x, top, l.Ink, look.Left)
		look.Write(pane, look.Fitted(row.says, l.Small, wide), l.Small, x, top+look.Tall(l.Body), l.Soft, look.Left)
	}
	if over := len(r.rows) - fit; over > 0 { // how far down the list goes
		tall := r.at.Dy() * fit / len(r.rows)
		top := r.at.Min.Y + (r.at.Dy()-tall)*r.first/over
		look.Fill(pane, image.Rect(r.at.Max.X-l.Px(5), top, r.at.Max.X-l.Px(1), top+tall), l.Rule)
	}
}

// chooser has one of several chosen, over everything else.
type chooser struct {
	title string
	roster
	does []func()
}

// newChooser is a chooser of options, each with what choosing it does.
func newChooser(title string) *chooser {
	c := &chooser{title: title}
	c.plain = true
	return c
}

// offer adds an option.
func (c *chooser) offer(name, says string, chosen bool, do func()) {
	if chosen {
		c.chosen = len(c.rows)
	}
	c.rows, c.does = append(c.rows, entryLine{name, says}), append(c.does, do)
}

func (c *chooser) input(g *Game, d *Desk) {
	x, y, _ := g.Pointer()
	at := image.Pt(x, y)
	_, clicked := c.roster.input(g, at, false)
	switch {
	case clicked || justPressed(ebiten.KeyEnter) || justPressed(ebiten.KeyNumpadEnter):
		d.chooser = nil
		c.does[c.chosen]()
	case justPressed(ebiten.KeyEscape), wentDown(ebiten.MouseButtonLeft) && !at.In(c.at):
		d.chooser = nil
	}
}

// draw draws it in the middle of a rectangle.
func (c *chooser) draw(g *Game, dst *ebiten.Image, in image.Rectangle) {
	l := g.Look
	wide := min(l.Px(420), in.Dx()-l.Px(20))
	head := int(look.Tall(l.Strong)) + l.Px(14)
	foot := int(look.Tall(l.Small)) + l.Px(10)
	tall := min(len(c.rows)*c.tall(l)+l.Px(8), in.Dy()-head-foot-l.Px(20))
	x, y := (in.Min.X+in.Max.X-wide)/2, (in.Min.Y+in.Max.Y-tall-head-foot)/2
	r := image.Rect(x, y, x+wide, y+head+tall+foot)
	look.Fill(dst, in, look.Fade(l.Desk, 0.6))
	look.Fill(dst, r, l.Panel)
	look.Frame(dst, r, max(l.Px(2), 1), l.Accent)
	look.Write(dst, look.Fitted(c.title, l.Strong, wide-l.Px(24)), l.Strong, float64(x+l.Px(12)), float64(y+l.Px(8)), l.Ink, look.Left)
	look.Write(dst, look.Fitted("Up and Down choose, Enter takes it, Esc leaves it as it is.", l.Small, wide-l.Px(24)), l.Small, float64(x+l.Px(12)), float64(r.Max.Y-foot+l.Px(4)), l.Soft, look.Left)
	c.at = image.Rect(x+l.Px(4), y+head, r.Max.X-l.Px(4), y+head+tall)
	c.roster.draw(dst, l)
}

// roll is a page of text that is longer than its pane.
type roll struct {
	at     image.Rectangle
	scroll float64
	tall   float64 // of the text, pixels
}

// input takes PgUp, PgDn and, over the pane, the wheel.
func (r *roll) input(g *Game, at image.Point) {
	switch {
	case again(ebiten.KeyPageDown):
		r.scroll += float64(r.at.Dy()) * 0.8
	case again(ebiten.KeyPageUp):
		r.scroll -= float64(r.at.Dy()) * 0.8
	}
	if dy, _ := turned(); at.In(r.at) {
		r.scroll -= dy * 40 * g.Look.Scale
	}
	r.scroll = max(min(r.scroll, r.tall-float64(r.at.Dy())), 0)
}

// draw letters the page.
func (r *roll) draw(dst *ebiten.Image, l *look.Look, letter func(s *sheet)) {
	look.Fill(dst, r.at, l.Panel)
	in := float64(l.Px(12))
	r.scroll = max(min(r.scroll, r.tall-float64(r.at.Dy())), 0)
	y := float64(r.at.Min.Y) + in/2 - r.scroll
	s := &sheet{pane: dst.SubImage(r.at).(*ebiten.Image), l: l, x: float64(r.at.Min.X) + in, y: y, wide: min(float64(r.at.Dx())-2*in, float64(l.Px(widestText)))}
	letter(s)
	r.tall = s.y - y + in
	if over := r.tall - float64(r.at.Dy()); over > 1 {
		h := float64(r.at.Dy())
		bar := h * h / r.tall
		top := float64(r.at.Min.Y) + min(r.scroll/over, 1)*(h-bar)
		look.Fill(dst, image.Rect(r.at.Max.X-l.Px(5), int(top), r.at.Max.X-l.Px(1), int(top+bar)), l.Rule)
	}
}

// widestText is how wide text is lettered at most, points: longer lines are hard to read.
const widestText = 860

// fact letters a name over what there is to say of it.
func (s *sheet) fact(name, says string) {
	s.line(name, s.l.Small, s.l.Soft)
	s.paragraph(says, s.l.Ink)
	s.gap(5)
}
