package app

import (
	"fmt"
	"image"
	"image/color"
	"strings"

	"dryline/cmd/dryline-desk/look"
	"dryline/sim/debrief"
	"dryline/sim/survey"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/text/v2"
)

// debriefPages are the pages beside the chart.
var debriefPages = []struct {
	name, says string
	letter     func(*sheet, *Debrief)
}{
	{"What counted", "The points: what was wanted, what you achieved, and why.", (*sheet).score},
	{"Lines", "How each line was run, and how much of the area was covered.", (*sheet).lines},
	{"Objects", "What truly lies there, and what you made of it.", (*sheet).objects},
}

// objectsPage is the place of the objects among them.
const objectsPage = 2

// turn shows another page.
func (d *Debrief) turn(g *Game, page int) {
	d.page, d.scroll = page, 0
	g.Rebuild()
}

// account letters the page that is shown.
func (d *Debrief) account(g *Game, dst *ebiten.Image) {
	l := g.Look
	look.Fill(dst, d.score, l.Panel)
	in := float64(l.Px(14))
	y := float64(d.score.Min.Y) + in - d.scroll
	d.links = d.links[:0]
	s := &sheet{
		pane: dst.SubImage(d.score).(*ebiten.Image), l: l, debrief: d,
		x: float64(d.score.Min.X) + in, y: y, wide: float64(d.score.Dx()) - 2*in,
	}
	debriefPages[d.page].letter(s, d)
	d.tall = s.y - y + 2*in
	if over := d.tall - float64(d.score.Dy()); over > 0 {
		// How far down the page goes.
		h := float64(d.score.Dy())
		bar := h * h / d.tall
		top := float64(d.score.Min.Y) + d.scroll/over*(h-bar)
		look.Fill(dst, image.Rect(d.score.Max.X-l.Px(5), int(top), d.score.Max.X-l.Px(1), int(top+bar)), l.Rule)
	}
}

// sheet is a page being lettered from the top down.
type sheet struct {
	pane       *ebiten.Image
	l          *look.Look
	x, y, wide float64
	debrief    *Debrief
}

// line letters a line, to the left or the right of the page.
func (s *sheet) line(says string, f text.Face, c color.Color) {
	look.Write(s.pane, look.Fitted(says, f, int(s.wide)), f, s.x, s.y, c, look.Left)
	s.y += look.Tall(f) + float64(s.l.Px(2))
}

// both letters the two ends of a line.
func (s *sheet) both(left, right string, f text.Face) {
	look.Write(s.pane, right, f, s.x+s.wide, s.y, s.l.Ink, look.Right)
	room := int(s.wide - look.Wide(right, f) - float64(s.l.Px(12)))
	look.Write(s.pane, look.Fitted(left, f, room), f, s.x, s.y, s.l.Ink, look.Left)
	s.y += look.Tall(f) + float64(s.l.Px(2))
}

func (s *sheet) paragraph(says string, c color.Color) {
	for _, line := range wrapped(says, s.l.Body, s.wide) {
		look.Write(s.pane, line, s.l.Body, s.x, s.y, c, look.Left)
		s.y += look.Tall(s.l.Body) + float64(s.l.Px(1))
	}
}

func (s *sheet) gap(points float64) { s.y += float64(s.l.Px(points)) }

// score letters what counted.
func (s *sheet) score(d *Debrief) {
	l, r := s.l, &d.report
	for _, g := range r.Score.Gates {
		if !g.Met {
			s.line("Fails the exercise, whatever the points", l.Strong, l.Alarm)
			s.paragraph(g.Why, l.Ink)
			s.gap(8)
		}
	}
	if len(r.Score.Better) > 0 {
		s.line("To do better", l.Strong, l.Ink)
		for i, c := range r.Score.Better {
			s.cause(fmt.Sprintf("%d.", i+1), fmt.Sprintf("%s (%.1f points)", c.Says, c.Points), &c)
			s.gap(4)
		}
		s.gap(8)
	}
	s.paragraph(fmt.Sprintf("Between %.4g and %.4g points under stricter and kinder marking; %.0f needed. The marking is not validated by a study in the field.",
		r.Score.Low, r.Score.High, r.Score.Pass), l.Soft)
	s.gap(10)
	for _, it := range r.Score.Items {
		share := 0.0
		if it.Of > 0 {
			share = it.Points / it.Of
		}
		s.both(it.What, fmt.Sprintf("%.3g of %.3g", it.Points, it.Of), l.Strong)
		bar := image.Rect(int(s.x), int(s.y), int(s.x+s.wide), int(s.y)+l.Px(6))
		look.Fill(s.pane, bar, l.Sunk)
		bar.Max.X = bar.Min.X + int(share*s.wide)
		look.Fill(s.pane, bar, l.Accent)
		s.gap(10)
		s.line("Wanted "+it.Wanted+"; got "+it.Got+".", l.Small, l.Soft)
		if len(it.Causes) == 0 {
			s.paragraph(it.Why, l.Ink)
		}
		for _, c := range it.Causes {
			s.cause(fmt.Sprintf("−%.1f ", c.Points), c.Says, &c)
		}
		s.gap(10)
	}
	if len(r.Events) > 0 {
		s.line("What went wrong on purpose", l.Strong, l.Ink)
		for _, e := range r.Events[:min(len(r.Events), 12)] {
			s.linked("", e.Says+".", e.From)
		}
	}
	if len(r.Mishaps) > 0 {
		s.line("Mishaps", l.Strong, l.Alarm)
		for _, m := range r.Mishaps[:min(len(r.Mishaps), 12)] {
			s.linked("", m.Says+".", m.Time)
		}
	}
}

// lines is how each line was run.
func (s *sheet) lines(d *Debrief) {
	l, r := s.l, &d.report
	c := &r.Coverage
	s.line("Coverage", l.Strong, l.Ink)
	s.paragraph(fmt.Sprintf("%s %% of %.1f ha looked at in a way that counts; the mosaic shows %s %%. %d %s of %.0f m² in all.",
		survey.Percent(c.Counted, 1), c.SquareMetres/1e4, survey.Percent(c.Once, 1), c.HolidayCount, plural(c.HolidayCount, "holiday"), c.HolidayArea), l.Ink)
	for _, h := range c.Holidays[:min(len(c.Holidays), 3)] {
		s.line(fmt.Sprintf("%.0f m² at %.0f E %.0f N, near line %s", h.SquareMetres, h.Easting, h.Northing, h.Near), l.Small, l.Soft)
	}
	s.gap(8)
	for _, n := range r.Lines {
		way := ""
		if n.Reversed {
			way = ", reversed"
		}
		s.both("Line "+n.Name+way, fmt.Sprintf("%.0f of %.0f m, %s %%", n.Run, n.Length, survey.Percent(n.Share, 1)), l.Strong)
		s.line(fmt.Sprintf("vessel off line %.1f m rms, %.1f m at most; fish %.1f and %.1f m", n.OffLineRMS, n.OffLineMax, n.FishRMS, n.FishMax), l.Small, l.Ink)
		if n.Altitude != nil && n.InBand != nil {
			s.line(fmt.Sprintf("fish at %.0f %% of the %g m range scale (%.0f to %.0f); %s %% of pings in the height wanted",
				n.Altitude.Mean, n.RangeScale, n.Altitude.Min, n.Altitude.Max, survey.Percent(*n.InBand, 0)), l.Small, l.Ink)
		}
		if n.Speed != nil && n.PingsPerMetre != nil {
			s.line(fmt.Sprintf("%.1f kn (%.1f to %.1f), %.1f pings a metre, %d pings", n.Speed.Mean/knot, n.Speed.Min/knot, n.Speed.Max/knot, *n.PingsPerMetre, n.Pings), l.Small, l.Ink)
		}
		if n.BottomLock != nil && n.BottomRMS != nil {
			s.line(fmt.Sprintf("bottom tracked in %s %% of pings, %.2f m rms off", survey.Percent(*n.BottomLock, 0), *n.BottomRMS), l.Small, l.Ink)
		}
		s.gap(6)
	}
	if len(r.LinesNotRun) > 0 {
		s.paragraph("Not run: "+strings.Join(r.LinesNotRun, ", ")+".", l.Caution)
	}
	if f := r.Position.Fish; f != nil {
		s.gap(4)
		s.line("Where the desk had the fish", l.Strong, l.Ink)
		s.paragraph(fmt.Sprintf("%s and %s of where it was on average; 95 %% within %.1f m.",
			toward(f.Along.Mean, "ahead", "astern"), toward(f.Across.Mean, "to starboard", "to port"), f.Distance.P95), l.Ink)
	}
}

// objects letters what truly lies there.
func (s *sheet) objects(d *Debrief) {
	l, r := s.l, &d.report
	if d.cutting {
		s.line("The pictures are being cut from the record.", l.Small, l.Soft)
	} else if len(d.evidence.shown) > 0 {
		s.paragraph("Each on the pass that lit it most, north up. Dashed: the plan of what lies there; cross: where it was marked.", l.Soft)
		s.gap(6)
	}
	for _, t := range r.Targets {
		became := "missed"
		switch {
		case t.Contact != nil:
			became = "reported"
		case t.Excused:
			became = "no line could show it"
		case len(t.Candidates) > 0:
			became = "not taken up"
		}
		s.both(t.Name, became, l.Strong)
		s.line(fmt.Sprintf("%s at %.1f E %.1f N, %.1f m long, %.1f m high; %d pings on the best line%s",
			strings.ReplaceAll(t.Kind, "_", " "), t.Easting, t.Northing, t.Length, t.Height, t.BestPings, named(t.BestLine)), l.Small, l.Ink)
		if t.Contact != nil {
			says := fmt.Sprintf("marked as %s", quoted(t.ContactName, *t.Contact))
			if t.ContactClass != "" {
				says += ", " + strings.ReplaceAll(t.ContactClass, "_", " ")
			}
			if t.Distance != nil {
				says += ", " + t.Off()
			}
			if t.LengthByDesk != nil {
				says += fmt.Sprintf("; measured %.1f m long", *t.LengthByDesk)
			}
			if t.HeightByDesk != nil {
				says += fmt.Sprintf(", %.1f m high by its shadow", *t.HeightByDesk)
			}
			s.line(says, l.Small, l.Ink)
		}
		if m := d.evidence.of(t.Name); m != nil {
			s.gap(2)
			s.picture(m)
		}
		s.gap(6)
	}
	if r.Contacts.False+r.Contacts.Natural > 0 {
		s.gap(4)
		s.line("Contacts where nothing lies", l.Strong, l.Ink)
		for _, f := range r.FalseContacts {
			if f.Verdict == debrief.Candidate { // nobody said it was anything
				continue
			}
			s.line(fmt.Sprintf("%s at %.1f E %.1f N, on %s", quoted(f.Name, f.Number), f.Easting, f.Northing, strings.ReplaceAll(f.Ground, "_", " ")), l.Small, l.Ink)
		}
	}
}

// toward is a distance with the side it lies to.
func toward(v float64, positive, negative string) string {
	if v < 0 {
		return fmt.Sprintf("%.1f m %s", -v, negative)
	}
	return fmt.Sprintf("%.1f m %s", v, positive)
}

func plural(n int, what string) string {
	if n == 1 {
		return what
	}
	return what + "s"
}

// named is a line's name behind a comma, if there is one.
func named(line string) string {
	if line == "" {
		return ""
	}
	return ", " + line
}

// quoted is the name of a contact.
func quoted(name string, number int) string {
	if name == "" {
		return fmt.Sprintf("C%d", number)
	}
	return name
}
