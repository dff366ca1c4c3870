package app

import (
	"fmt"
	"image"
	"image/color"
	"math"

	"dryline/cmd/dryline-desk/look"
	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/exercise"
	"dryline/sim/plan"

	"github.com/hajimehoshi/ebiten/v2"
)

// schemeOf gives the chart what a plan sees of the ground.
func schemeOf(p *plan.Plan) *panes.Scheme {
	s := &panes.Scheme{}
	if p == nil {
		return s
	}
	c := &p.Covered
	s.X0, s.Y0, s.Cell, s.NX, s.NY = c.X0, c.Y0, c.Cell, c.NX, c.NY
	for k, looks := range c.Looks {
		sight := panes.Elsewhere
		switch {
		case looks < 0:
		case looks == 0 && c.Under[k]:
			sight = panes.UnderFish
		case looks == 0:
			sight = panes.Unseen
		case looks == 1:
			sight = panes.SeenOnce
		default:
			sight = panes.SeenTwice
		}
		s.Seen = append(s.Seen, sight)
	}
	reach := math.Sqrt(p.Spec.Range*p.Spec.Range - p.Spec.Height*p.Spec.Height)
	for i := range p.Lines {
		l := &p.Lines[i]
		long := l.Length()
		s.Runs = append(s.Runs, l.A.X, l.A.Y, l.B.X, l.B.Y)
		if l.Kind == plan.Across || long == 0 {
			continue
		}
		rx, ry := (l.B.Y-l.A.Y)/long, -(l.B.X-l.A.X)/long // to the right of it
		for _, side := range [2]float64{-1, 1} {
			beside := func(d float64) []float64 {
				d *= side
				return []float64{l.A.X + d*rx, l.A.Y + d*ry, l.B.X + d*rx, l.B.Y + d*ry}
			}
			s.Edges = append(s.Edges, beside(reach)...)
			s.Inner = append(s.Inner, beside(p.Gap)...)
		}
	}
	for i := range p.Turns {
		path := &p.Turns[i].Path
		before, after := &p.Lines[p.Turns[i].After], &p.Lines[p.Turns[i].Before]
		way := []float64{before.B.X, before.B.Y} // with its run-out and the next run-in
		for u := 0.0; ; u += 5 {
			w, _ := path.At(min(u, path.Length()))
			way = append(way, w.X, w.Y)
			if u >= path.Length() {
				break
			}
		}
		s.Turns = append(s.Turns, append(way, after.A.X, after.A.Y))
	}
	// One mark where several places are at risk beside each other.
	const apart = 25.0 // metres
	var last *plan.Place
	for i := range p.Places {
		q := &p.Places[i]
		if q.Risk == plan.NoRisk || last != nil && math.Hypot(q.At.X-last.At.X, q.At.Y-last.At.Y) < apart {
			continue
		}
		last = q
		s.Risks = append(s.Risks, q.At.X, q.At.Y)
	}
	return s
}

// meaning is an entry of the key.
type meaning struct {
	sight panes.Sight // or Elsewhere
	says  string
	draw  func(dst *ebiten.Image, box image.Rectangle, l *look.Look)
}

var meanings = []meaning{
	{sight: panes.SeenOnce, says: "seen once"}, {sight: panes.SeenTwice, says: "twice or more"}, {sight: panes.UnderFish, says: "under the fish alone"}, {sight: panes.Unseen, says: "not seen"},
	{says: "fish at risk", draw: func(dst *ebiten.Image, box image.Rectangle, l *look.Look) {
		panes.Warning(dst, float64(box.Min.X+box.Max.X)/2, float64(box.Min.Y+box.Max.Y)/2, l)
	}},
	{says: "lines given", draw: func(dst *ebiten.Image, box image.Rectangle, l *look.Look) {
		y := float64(box.Min.Y+box.Max.Y) / 2
		look.Dashed(dst, float64(box.Min.X), y, float64(box.Max.X), y, 1.2*l.Scale, 6*l.Scale, l.Plan)
	}},
}

// keyRows sets the key in rows.
func (s *Laying) keyRows(l *look.Look) (at []image.Rectangle, tall int) {
	row := int(look.Tall(l.Small)) + l.Px(6)
	x, y := s.key.Min.X+l.Px(6), l.Px(4)
	for _, m := range meanings {
		wide := l.Px(24+14) + int(look.Wide(m.says, l.Small))
		if x+wide > s.key.Max.X && x > s.key.Min.X+l.Px(6) {
			x, y = s.key.Min.X+l.Px(6), y+row
		}
		at = append(at, image.Rect(x, y, x+wide, y+row))
		x += wide
	}
	return at, y + (2+summedUp)*row + l.Px(6) // and lines that say how good the depths are, and what it comes to
}

// summedUp is how many lines under the chart say what the lines come to.
const summedUp = 2

func (s *Laying) keyTall(l *look.Look) int {
	_, tall := s.keyRows(l)
	return tall
}

// Draw implements [Screen].
func (s *Laying) Draw(g *Game, dst *ebiten.Image) {
	l := g.Look
	x := float64(l.Px(20))
	const title = "Lines"
	look.Write(dst, title, l.Title, x, float64(l.Px(12)), l.Ink, look.Left)
	from := x + look.Wide(title, l.Title) + float64(l.Px(16))
	look.Write(dst, look.Fitted(s.home.title, l.Body, g.size.Dx()-int(from)-l.Px(20)), l.Body, from, float64(l.Px(20)), l.Soft, look.Left)
	says, fault := s.says()
	s.form.draw(g, dst, says, fault, underLines)
	s.drawChart(dst, l)
	s.drawKey(dst, l)
}

// says returns the line under the sentences.
func (s *Laying) says() (string, bool) {
	if e := s.about; e != nil && s.fault(e) != "" {
		return s.fault(e), true
	}
	if s.refused != "" {
		return s.refused, true
	}
	if s.dirty || s.task != nil {
		return "The lines are being laid.", false
	}
	if e := s.about; e != nil {
		return s.hint(e), false
	}
	return "Planning aid on charted depths: never evidence that an area is clear of hazards.", false
}

func (s *Laying) drawChart(dst *ebiten.Image, l *look.Look) {
	b := s.sheet.brief
	plot := panes.Plot{East: b.East, North: b.North, NoCraft: true, Depths: s.depths, Scheme: s.scheme}
	plot.GridEast, plot.GridNorth = b.Place.Grid.ToUTM(0, 0)
	plot.Charted, plot.Pipelines = charted(b, nil, nil)
	if !s.sheet.sail {
		for _, given := range b.Lines {
			plot.Lines = append(plot.Lines, panes.Line{AX: given.A.X, AY: given.A.Y, BX: given.B.X, BY: given.B.Y})
		}
	}
	if p := s.plan(); p != nil {
		for i, line := range p.Lines {
			plot.Lines = append(plot.Lines, panes.Line{Name: fmt.Sprintf("%d", i+1), AX: line.A.X, AY: line.A.Y, BX: line.B.X, BY: line.B.Y, Logging: true})
		}
	}
	if sc := s.scheme; sc != nil {
		sc.Area, sc.Drawn, sc.Held, sc.Cross = sc.Area[:0], s.sheet.drawn, s.hand.held, sc.Cross[:0]
		for _, c := range s.sheet.area() {
			sc.Area = append(sc.Area, c.X, c.Y)
		}
		if s.sheet.drawn {
			sc.Cross = append(sc.Cross, s.hand.cross.X, s.hand.cross.Y)
		}
	}
	panes.Chart(dst, &s.view.Projection, nil, panes.Shade{}, l, &plot)
}

// drawKey says what the patterns of the chart are.
func (s *Laying) drawKey(dst *ebiten.Image, l *look.Look) {
	look.Fill(dst, s.key, l.Panel)
	at, _ := s.keyRows(l)
	pattern := panes.PatternsOf(l)
	bottom := 0
	for i, m := range meanings {
		r := at[i].Add(image.Pt(0, s.key.Min.Y))
		bottom = r.Max.Y
		box := image.Rect(r.Min.X, r.Min.Y+l.Px(2), r.Min.X+l.Px(22), r.Max.Y-l.Px(2))
		if m.draw != nil {
			m.draw(dst, box, l)
		} else {
			look.Fill(dst, box, l.Void)
			swatch(dst, box, func(x, y int) color.RGBA { return pattern.At(m.sight, x, y) })
			look.Frame(dst, box, max(l.Px(1), 1), l.Rule)
		}
		look.Write(dst, m.says, l.Small, float64(box.Max.X+l.Px(6)), float64(r.Min.Y)+(float64(r.Dy())-look.Tall(l.Small))/2, l.Ink, look.Left)
	}
	_, high := s.sheet.charted()
	says := fmt.Sprintf("Soundings every %.0f m, within %.1f m (95 %%)", s.sheet.brief.Depths.Step, math.Ceil(10*exercise.SoundingError(high))/10)
	if s.depths.Every > 0 {
		says += fmt.Sprintf("; contours by them every %g m", s.depths.Every)
	} else {
		says += "; too even for contours"
	}
	y := float64(bottom + l.Px(2))
	write := func(says string, ink color.RGBA) {
		look.Write(dst, look.Fitted(says, l.Small, s.key.Dx()-l.Px(12)), l.Small, float64(s.key.Min.X+l.Px(6)), y, ink, look.Left)
		y += look.Tall(l.Small) + float64(l.Px(6))
	}
	write(says, l.Soft)
	for _, line := range s.summary() {
		write(line, l.Ink)
	}
}

// swatch paints a small rectangle by pixels, in runs of one colour.
func swatch(dst *ebiten.Image, r image.Rectangle, at func(x, y int) color.RGBA) {
	for y := r.Min.Y; y < r.Max.Y; y++ {
		from := r.Min.X
		for x := r.Min.X + 1; x <= r.Max.X; x++ {
			if x == r.Max.X || at(x, y) != at(from, y) {
				look.Fill(dst, image.Rect(from, y, x, y+1), at(from, y))
				from = x
			}
		}
	}
}
