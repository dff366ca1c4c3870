package app

import (
	"image"
	"image/color"
	"strings"

	"dryline/cmd/dryline-desk/look"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/text/v2"
)

// column is lettering laid out once and drawn every frame: paragraphs down a pane, clear of
// a picture in its upper right corner.
type column struct {
	l      *look.Look
	at     image.Rectangle
	beside image.Rectangle // what it keeps clear of
	y      float64
	drawn  []func(dst *ebiten.Image)
}

func newColumn(l *look.Look, at, beside image.Rectangle) *column {
	return &column{l: l, at: at, beside: beside, y: float64(at.Min.Y)}
}

// width is how wide a line may be at this height.
func (c *column) width(face text.Face) float64 {
	right := c.at.Max.X
	if !c.beside.Empty() && c.y < float64(c.beside.Max.Y) && c.y+look.Tall(face) > float64(c.beside.Min.Y) {
		right = c.beside.Min.X - c.l.Px(14)
	}
	return float64(right - c.at.Min.X)
}

// line letters one line, cut if it is too long.
func (c *column) line(s string, face text.Face, ink color.Color, indent float64) {
	s = look.Fitted(s, face, int(c.width(face)-indent))
	x, y := float64(c.at.Min.X)+indent, c.y
	c.drawn = append(c.drawn, func(dst *ebiten.Image) { look.Write(dst, s, face, x, y, ink, look.Left) })
	c.y += look.Tall(face) + float64(c.l.Px(2))
}

// say letters a paragraph, so far indented.
func (c *column) say(s string, face text.Face, ink color.Color, indent float64) {
	line := ""
	for _, word := range strings.Fields(s) {
		if line != "" && look.Wide(line+" "+word, face) > c.width(face)-indent {
			c.line(line, face, ink, indent)
			line = word
			continue
		}
		line = strings.TrimPrefix(line+" "+word, " ")
	}
	c.line(line, face, ink, indent)
}

// path letters the name of a file, which may be broken anywhere.
func (c *column) path(s string, face text.Face, ink color.Color) {
	for s != "" {
		n := len([]rune(s))
		for n > 1 && look.Wide(string([]rune(s)[:n]), face) > c.width(face) {
			n--
		}
		c.line(string([]rune(s)[:n]), face, ink, 0)
		s = string([]rune(s)[n:])
	}
}

// item letters a paragraph behind a dot.
func (c *column) item(s string, face text.Face, ink color.Color) {
	x, y := float64(c.at.Min.X+c.l.Px(4)), c.y+look.Tall(face)/2
	c.drawn = append(c.drawn, func(dst *ebiten.Image) { look.Disc(dst, x, y, 2.2*c.l.Scale, ink) })
	c.say(s, face, ink, float64(c.l.Px(14)))
}

// level draws a difficulty, 1 and up: so many crests of a sea that gets up, the rest flat,
// and the word.
func (c *column) level(level int, face text.Face) {
	x, y := float64(c.at.Min.X), c.y
	size := look.Tall(face) * 0.62
	c.drawn = append(c.drawn, func(dst *ebiten.Image) {
		foot := y + look.Tall(face)*0.76
		for k := range len(levels) {
			x0 := x + float64(k)*size*1.15
			if k >= level {
				look.Stroke(dst, x0, foot, x0+size, foot, max(c.l.Scale, 1), c.l.Soft)
				continue
			}
			look.Shape(dst, []float64{x0, foot, x0 + 0.34*size, foot - 0.5*size, x0 + 0.62*size, foot - 0.95*size, x0 + 0.68*size, foot - 0.45*size, x0 + size, foot}, c.l.Ink)
		}
	})
	c.line(levels[level-1], face, c.l.Ink, float64(len(levels))*size*1.15+float64(c.l.Px(5)))
}

// levels are the difficulties in words, from the first.
var levels = []string{"gentle", "easy", "moderate", "hard", "very hard"}

// skip leaves some room.
func (c *column) skip(points float64) { c.y += float64(c.l.Px(points)) }

// over reports that it reaches below its pane.
func (c *column) over() bool { return c.y > float64(c.at.Max.Y+c.l.Px(2)) }

// has reports whether there is room for another line.
func (c *column) has(face text.Face) bool {
	return c.y+look.Tall(face) <= float64(c.at.Max.Y+c.l.Px(2))
}

func (c *column) draw(dst *ebiten.Image) {
	for _, draw := range c.drawn {
		draw(dst)
	}
}
