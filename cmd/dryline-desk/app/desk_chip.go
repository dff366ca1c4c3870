package app

import (
	"fmt"
	"image"
	"strings"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/look"
	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/product"
	"dryline/sim/survey"

	"github.com/hajimehoshi/ebiten/v2"
)

// ask has the chip of the contact chosen cut from the record.
func (s *contactStation) ask() {
	c := s.desk.contact(s.desk.chosen)
	want := ""
	if c != nil {
		if c.Number != s.shows {
			s.shows, s.pass = c.Number, product.FirstByHand(c)
		}
		s.pass = max(min(s.pass, len(c.Passes)-1), 0)
		want = fmt.Sprint(c.Number, s.pass, c.X, c.Y, c.Length, c.Shadow, len(c.Passes)) + fmt.Sprintf("%p", s.desk.papers.Desk.Worked)
	}
	if want == s.asked {
		return
	}
	s.asked = want
	if s.task != nil {
		s.task.Cancel()
		s.task = nil
	}
	s.setChip(nil, "")
	if c != nil && len(c.Passes) > 0 {
		s.task = s.desk.bench.Chip(s.desk.papers, c.Number, s.pass)
	}
}

func (s *contactStation) setChip(chip *crew.Chip, says string) {
	if s.mosaic != nil {
		s.mosaic.Deallocate()
		s.mosaic = nil
	}
	if s.chip, s.caption = chip, says; chip != nil {
		s.mosaic = panes.NewMosaic(chip.Cell, chip.X, chip.Y)
		for _, t := range chip.Tiles {
			s.mosaic.Put(t)
		}
	}
}

func (s *contactStation) work(g *Game) {
	if s.desk.station() == station(s) {
		s.ask()
	}
	if s.task == nil {
		return
	}
	chip, err, done := s.task.Came()
	if !done {
		return
	}
	s.task = nil
	switch {
	case err != nil:
		s.setChip(nil, sentence(err.Error()))
	case chip == nil:
		s.setChip(nil, "It is on no record.")
	default:
		s.setChip(chip, chip.Caption)
	}
}

// drawChip draws the chip with the measures that were taken of the contact.
func (s *contactStation) drawChip(g *Game, dst *ebiten.Image, room image.Rectangle, c *survey.Contact) {
	l := g.Look
	side := min(room.Dx(), room.Dy())
	at := image.Rect(0, 0, side, side).Add(image.Pt(room.Min.X+(room.Dx()-side)/2, room.Min.Y))
	p := panes.Projection{Pane: at, X: s.chip.MidX, Y: s.chip.MidY, PerM: float64(side) / (2 * s.chip.Half)}
	pane := dst.SubImage(at).(*ebiten.Image)
	look.Fill(pane, at, l.Void)
	s.mosaic.Draw(pane, &p, g.shade(s.desk.watch.fall.brightness))
	var labels panes.Labels
	for i := range c.Measures {
		m := &c.Measures[i]
		x0, y0 := p.At(m.X, m.Y)
		x1, y1 := p.At(m.X2, m.Y2)
		look.Stroke(pane, x0, y0, x1, y1, 4*l.Scale, l.Panel)
		look.Stroke(pane, x0, y0, x1, y1, 2*l.Scale, l.Mark)
		says := fmt.Sprintf("%s %.1f m", m.What, m.Metres)
		ground := image.Rect(int(x1)+l.Px(5), int(y1), int(x1)+l.Px(11)+int(look.Wide(says, l.Small)), int(y1)+int(look.Tall(l.Small)))
		if ground.In(at) && labels.Try(ground) {
			look.Fill(pane, ground, look.Fade(l.Panel, onRecord))
			look.Write(pane, says, l.Small, float64(ground.Min.X+l.Px(3)), float64(ground.Min.Y), l.Ink, look.Left)
		}
	}
}

// letter letters what is known of a contact.
func (s *contactStation) letter(t *sheet, c *survey.Contact) {
	d := s.desk
	if c == nil {
		return
	}
	p := d.papers.Desk
	t.fact("Where", d.place(c.X, c.Y)+"; "+d.globe(c.X, c.Y)+s.within(c))
	dim := p.Dimensions(c)
	t.fact("Length, width", sized(dim.Length)+"; "+sized(dim.Width))
	t.fact("Shadow, height", sized(dim.Shadow)+"; "+sized(dim.Height))
	if depth := p.DepthOver(c); depth.Known {
		by := "below the water as it stood"
		if depth.Reduced {
			by = "reduced by the tide that was entered"
		}
		t.fact("Depth over it", fmt.Sprintf("about %s, an estimate, %s; never a least depth", sized(depth.Sized), by))
	}
	var passes []string
	for _, q := range c.Passes {
		by := "by the desk"
		if q.ByHand {
			by = "by hand"
		}
		side := "port"
		if q.Starboard {
			side = "starboard"
		}
		passes = append(passes, fmt.Sprintf("run %d, line %s, %s, %.1f m slant, %s", q.Run, q.Line, side, q.Slant, by))
	}
	if len(passes) > 0 {
		t.fact("Seen on", strings.Join(passes, "\n"))
	}
	for _, m := range c.Measures {
		t.fact("Measured: "+string(m.What), fmt.Sprintf("%.2f m", m.Metres))
	}
}

// within says how well its place is known.
func (s *contactStation) within(c *survey.Contact) string {
	if b, ok := s.desk.papers.Desk.BudgetOf(c); ok {
		return fmt.Sprintf("; within %.1f m at 95 %%", b.Radius())
	}
	return ""
}

// sized is a size with its standard deviation.
func sized(s survey.Sized) string {
	if !s.Known {
		return "not measured"
	}
	return fmt.Sprintf("%.2f ± %.2f m", s.Metres, s.Sigma)
}
