package app

import (
	"image"
	"strings"

	"dryline/cmd/dryline-desk/look"
	"dryline/cmd/dryline-desk/panes"

	"github.com/hajimehoshi/ebiten/v2"
)

// Draw implements [Screen].
func (w *Watch) Draw(g *Game, dst *ebiten.Image) {
	w.drawPanes(g, dst)
	for _, e := range w.edges() {
		grip(dst, e.at, g.Look)
	}
}

// drawPanes draws the view from the side, dials, waterfalls and chart.
func (w *Watch) drawPanes(g *Game, dst *ebiten.Image) {
	l := g.Look
	if w.sideView() {
		w.section.Draw(dst, w.at.section, l, w.section.side(w.fall.locked(), w.hangsAt()))
	} else {
		w.drawNoSideView(g, dst)
	}
	w.dials.draw(dst, w.at.dials, l)
	w.fall.draw(g, dst, w.ruler())
	panes.Chart(dst, &w.chart.Projection, w.chart.mosaic, g.chartShade(w.fall.brightness, w.chart.mosaic), l, &w.chart.plot)
}

// hangsAt is the pixel across that the fish hangs over in the view from the side: the middle of the
// waterfall, which is what she hears.
func (w *Watch) hangsAt() float64 { return float64(w.at.fall.Min.X+w.at.fall.Max.X) / 2 }

// grip shows that an edge can be dragged.
func grip(dst *ebiten.Image, r image.Rectangle, l *look.Look) {
	cx, cy := float64(r.Min.X+r.Max.X)/2, float64(r.Min.Y+r.Max.Y)/2
	for i := -1; i <= 1; i++ {
		d := float64(i) * 6 * l.Scale
		if r.Dx() > r.Dy() {
			look.Disc(dst, cx+d, cy, 1.3*l.Scale, l.Soft)
		} else {
			look.Disc(dst, cx, cy+d, 1.3*l.Scale, l.Soft)
		}
	}
}

// Over implements [Screen].
func (w *Watch) Over(g *Game, dst *ebiten.Image) {
	w.side.draw(g, w, dst)
	if w.view.Restored < 1 {
		says := "Bringing the session back to where it was left"
		switch {
		case w.brief.Help.Assessed:
		case w.journal.over:
			says = "Flying it again for the debrief"
		case w.practice != "":
			says = "Flying it again to where it is tried again"
		}
		w.drawFlying(g, dst, says)
	}
}

// drawFlying shows how far a session that is flown again has come.
func (w *Watch) drawFlying(g *Game, dst *ebiten.Image, says string) {
	l := g.Look
	look.Fill(dst, g.size, look.Fade(l.Desk, 0.7))
	x, y := float64(g.size.Dx())/2, float64(g.size.Dy())/2
	look.Write(dst, says, l.Body, x, y-float64(l.Px(34)), l.Ink, look.Middle)
	bar := image.Rect(int(x)-l.Px(160), int(y), int(x)+l.Px(160), int(y)+l.Px(12))
	look.Fill(dst, bar, l.Sunk)
	done := bar
	done.Max.X = bar.Min.X + int(w.view.Restored*float64(bar.Dx()))
	look.Fill(dst, done, l.Accent)
}

// Foot implements [Screen]: the most severe hint while the page of hints is turned
// away, and what is pending.
func (w *Watch) Foot(g *Game) Foot {
	f := Foot{Pending: w.pendingSays()}
	hints := w.hints(g)
	if w.side.tab == tabCoach {
		return f
	}
	if len(hints) == 0 {
		f.Next = w.nextStep()
		return f
	}
	name := hints[0].Severity.String()
	f.Hint, f.Severity = strings.ToUpper(name[:1])+name[1:]+": "+hints[0].Text, hints[0].Severity
	return f
}
