package app

import (
	"fmt"
	"image"
	"math"
	"strings"

	"dryline/cmd/dryline-desk/look"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// deck is a page of cards, row by row, in as many columns as there is room for. One card
// is chosen.
type deck struct {
	count  int
	chosen int

	at           image.Rectangle // of the cards
	columns, fit int             // rows that are shown at once
	wide, tall   int             // of a card
	first        int             // row
	followed     int             // chosen when the page last went after it
	wheeled      float64         // rows that the wheel has turned and the page has not
	barAt        image.Rectangle
	cards        map[int]*card // on the page
}

const (
	leastCard, leastCardTall = 310, 108 // points
	mostCard                 = 700
	mostColumns              = 5
)

// arrange settles how many cards there are in a place, and how large: in as many columns as
// there is room for, or in fewer if they are larger then and all of them are on the page.
func (d *deck) arrange(l *look.Look, at image.Rectangle, count int) {
	bar := l.Px(34)
	d.barAt = image.Rect(at.Min.X, at.Max.Y-bar, at.Max.X, at.Max.Y)
	at.Max.Y -= bar + l.Px(6)
	d.at, d.count = at, count
	gap := l.Px(8)
	d.columns = max(min((at.Dx()+gap)/(l.Px(leastCard)+gap), mostColumns), 1)
	d.fit = max((at.Dy()+gap)/(l.Px(leastCardTall)+gap), 1)
	d.wide, d.tall = (at.Dx()-(d.columns-1)*gap)/d.columns, (at.Dy()-(d.fit-1)*gap)/d.fit
	largest := 0
	for columns := d.columns; columns > 0; columns-- {
		rows := max((count+columns-1)/columns, 1)
		wide := min((at.Dx()-(columns-1)*gap)/columns, l.Px(mostCard))
		tall := min((at.Dy()-(rows-1)*gap)/rows, wide*2/3)
		if tall >= l.Px(leastCardTall) && wide*tall > largest {
			largest = wide * tall
			d.columns, d.fit, d.wide, d.tall = columns, rows, wide, tall
		}
	}
	d.chosen = max(min(d.chosen, count-1), 0)
	if d.chosen != d.followed {
		d.follow()
	}
	d.turnTo(d.first)
}

func (d *deck) rows() int { return (d.count + d.columns - 1) / max(d.columns, 1) }

// turnTo shows the page from a row on.
func (d *deck) turnTo(row int) { d.first = max(min(row, d.rows()-d.fit), 0) }

// follow brings the chosen card on the page.
func (d *deck) follow() {
	d.followed = d.chosen
	if row := d.chosen / max(d.columns, 1); row < d.first || row >= d.first+d.fit {
		d.turnTo(row - d.fit/2)
	}
}

// shown are the cards on the page, from one to the one before another.
func (d *deck) shown() (from, to int) {
	return d.first * d.columns, min((d.first+d.fit)*d.columns, d.count)
}

// place is where a card lies on the page.
func (d *deck) place(i int, l *look.Look) image.Rectangle {
	gap := l.Px(8)
	x := d.at.Min.X + i%d.columns*(d.wide+gap)
	y := d.at.Min.Y + (i/d.columns-d.first)*(d.tall+gap)
	return image.Rect(x, y, x+d.wide, y+d.tall)
}

// step chooses the card so many columns and rows on. Below the last card of a column
// comes the first of the next, so that going down alone leads through all of them.
func (d *deck) step(columns, rows int) {
	if d.count == 0 {
		return
	}
	if columns != 0 {
		d.chosen = ((d.chosen+columns)%d.count + d.count) % d.count
		return
	}
	column, row := d.chosen%d.columns, d.chosen/d.columns+rows
	for ; row < 0; row += d.inColumn(column) {
		column = (column + d.columns - 1) % d.columns
	}
	for row >= d.inColumn(column) {
		row -= d.inColumn(column)
		column = (column + 1) % d.columns
	}
	d.chosen = row*d.columns + column
}

// inColumn is how many cards stand in a column.
func (d *deck) inColumn(column int) int {
	return max((d.count-column+d.columns-1)/d.columns, 0)
}

// page goes a page of cards on or back, and stops at the ends.
func (d *deck) page(by int) {
	row := d.chosen/d.columns + by*d.fit
	d.chosen = max(min(max(row, 0)*d.columns+d.chosen%d.columns, d.count-1), 0)
}

// input takes the keys that choose and the wheel over the cards, and reports whether the
// page has to be built anew.
func (d *deck) input(pointer image.Point) bool {
	was, first := d.chosen, d.first
	switch {
	case d.count == 0 || d.columns == 0:
		return false
	case again(ebiten.KeyUp):
		d.step(0, -1)
	case again(ebiten.KeyDown):
		d.step(0, 1)
	case again(ebiten.KeyLeft):
		d.step(-1, 0)
	case again(ebiten.KeyRight):
		d.step(1, 0)
	case justPressed(ebiten.KeyHome):
		d.chosen = 0
	case justPressed(ebiten.KeyEnd):
		d.chosen = d.count - 1
	case again(ebiten.KeyPageUp):
		d.page(-1)
	case again(ebiten.KeyPageDown):
		d.page(1)
	}
	if dy, _ := turned(); dy != 0 && pointer.In(d.at) {
		d.wheel(dy)
	}
	return d.chosen != was || d.first != first
}

// wheel turns the page by rows; what is less than a row waits for more.
func (d *deck) wheel(notches float64) {
	d.wheeled -= notches
	rows := math.Trunc(d.wheeled)
	d.wheeled -= rows
	d.turnTo(d.first + int(rows))
}

// deckKeys are the keys of a page of cards.
func deckKeys(what string) []Key {
	return []Key{{"Arrows", "choose " + what}, {"Home, End", "the first, the last"}, {"PgUp, PgDn", "a page back, a page on"}}
}

// controls adds the cards on the page, by their titles, and what turns it.
func (d *deck) controls(g *Game, of func(i int) (title string, c *card), what string, add func(widget.PreferredSizeLocateableWidget, image.Rectangle)) {
	l := g.Look
	from, to := d.shown()
	d.cards = map[int]*card{}
	for i := from; i < to; i++ {
		title, c := of(i)
		inset := d.inset(l)
		title = titled(l, title, d.wide-inset-l.Px(10))
		d.lay(l, i, c, strings.Count(title, "\n")+1)
		d.cards[i] = c
		add(l.Card(title, inset, i == d.chosen, func() { d.chosen, d.followed = i, i; g.Rebuild() }), d.place(i, l))
	}
	says := fmt.Sprintf("%d %s", d.count, what)
	if to-from < d.count {
		says = fmt.Sprintf("%d to %d of %d", from+1, to, d.count)
		row := centredRow(l.Row(2, 6,
			able(l.Button("Earlier", look.Plain, func() { d.turnTo(d.first - d.fit); g.Rebuild() }), d.first > 0),
			able(l.Button("Later", look.Plain, func() { d.turnTo(d.first + d.fit); g.Rebuild() }), d.first+d.fit < d.rows()),
			l.Label(says, l.Small, l.Soft, 0)))
		add(row, d.barAt)
		return
	}
	if d.count > 0 {
		add(centredRow(l.Row(2, 6, l.Label(says, l.Small, l.Soft, 0))), d.barAt)
	}
}

// draw draws the cards on their buttons.
func (d *deck) draw(dst *ebiten.Image, l *look.Look) {
	for _, c := range d.cards {
		c.draw(dst, l)
	}
}

// pictureWide is how wide the picture on a card is: on a large one it has more of it.
func (d *deck) pictureWide(l *look.Look) int {
	if d.wide > l.Px(480) {
		return min(d.tall, d.wide*23/50)
	}
	return min(d.tall, d.wide*9/25)
}

// inset is where the lettering of a card begins.
func (d *deck) inset(l *look.Look) int { return d.pictureWide(l) + l.Px(10) }

// titled breaks a title into two lines at most.
func titled(l *look.Look, s string, wide int) string {
	lines := wrapped(s, l.Strong, float64(wide))
	if len(lines) > 2 {
		lines = []string{lines[0], strings.Join(lines[1:], " ")}
	}
	for i := range lines {
		lines[i] = look.Fitted(lines[i], l.Strong, wide)
	}
	return strings.Join(lines, "\n")
}
