package app

import (
	"image"
	"image/color"

	"dryline/cmd/dryline-desk/look"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/text/v2"
)

// card holds what one card of a deck shows besides its title.
type card struct {
	sketch *sketch // nil while there is none
	how    sketched
	bare   string // what stands in place of a picture
	level  int    // of difficulty, 0 for none
	facts  []said
	prose  []string // what it trains

	picture image.Rectangle
	column  *column
}

// said is a line in its colour.
type said struct {
	text string
	ink  color.Color
}

// lay lays out a card whose title has so many lines.
func (d *deck) lay(l *look.Look, i int, c *card, titleLines int) {
	at := d.place(i, l)
	in := at.Inset(l.Px(6))
	c.picture = image.Rect(in.Min.X, in.Min.Y, at.Min.X+d.pictureWide(l)-l.Px(2), in.Max.Y)
	face := text.Face(l.Small)
	if d.tall > l.Px(190) { // a large card has room for larger lettering
		face = l.Body
	}
	k := newColumn(l, image.Rect(at.Min.X+d.inset(l), at.Min.Y+l.Px(8), in.Max.X, in.Max.Y), image.Rectangle{})
	k.y += look.Tall(l.Strong)*float64(titleLines) + float64(l.Px(2))
	if c.level > 0 && k.has(face) {
		k.level(c.level, face)
	}
	for _, f := range c.facts {
		if k.has(face) {
			k.line(f.text, face, f.ink, 0)
		}
	}
	k.skip(2)
	for _, p := range c.prose {
		lines := wrapped(p, face, k.width(face))
		for n, line := range lines {
			if !k.has(face) {
				break
			}
			before := k.y
			k.y += look.Tall(face) + float64(l.Px(2))
			last := !k.has(face)
			k.y = before
			if last && n+1 < len(lines) {
				line += " " + lines[n+1] // which does not fit, and is cut
			}
			k.line(line, face, l.Soft, 0)
		}
		k.skip(2)
	}
	c.column = k
}

// draw draws a card on its button.
func (c *card) draw(dst *ebiten.Image, l *look.Look) {
	if c.sketch != nil {
		c.sketch.draw(dst, c.picture, l, c.how)
	} else {
		look.Frame(dst, c.picture, max(l.Px(1), 1), l.Rule)
		look.Write(dst, look.Fitted(c.bare, l.Small, c.picture.Dx()-l.Px(4)), l.Small, float64(c.picture.Min.X+c.picture.Max.X)/2, float64(c.picture.Min.Y+c.picture.Max.Y)/2-look.Tall(l.Small)/2, l.Soft, look.Middle)
	}
	c.column.draw(dst)
}
