package app

import (
	"bytes"
	"fmt"
	"image"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/look"
	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/debrief"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/inpututil"
)

// Debrief is the screen after the watch: what counted and why, and what truly
// lay there.
type Debrief struct {
	watch  *Watch
	crew   *crew.Crew
	report debrief.Report

	score, chart image.Rectangle
	projection   panes.Projection
	fitted       bool
	scroll       float64
	tall         float64 // of the whole account, pixels
	saved        string  // where the page went
	kept         string  // where the session is
}

// NewDebrief returns the debrief of a watch that is over, and kept somewhere.
func NewDebrief(w *Watch, kept string) *Debrief {
	return &Debrief{watch: w, crew: w.crew, report: w.crew.Report(), kept: kept}
}

// Build implements [Screen].
func (d *Debrief) Build(g *Game, size image.Rectangle) *widget.Container {
	l := g.Look
	pad := l.Px(16)
	foot := image.Rect(0, size.Max.Y-l.Px(48), size.Max.X, size.Max.Y)
	top := int(look.Tall(l.Title)+look.Tall(l.Small)) + 2*pad
	middle := size.Min.X + size.Dx()*52/100
	d.score = image.Rect(pad, top, middle-pad/2, foot.Min.Y-pad/2)
	d.chart = image.Rect(middle+pad/2, top, size.Max.X-pad, foot.Min.Y-pad/2)
	d.projection.Pane = d.chart
	if !d.fitted {
		d.fitted = true
		w := d.watch
		w.chart.Pane = d.chart
		w.fitChart()
		d.projection = w.chart
	}
	controls := []widget.PreferredSizeLocateableWidget{l.Button("Save the report", look.Chosen, func() { d.savePage(g) })}
	if g.Store.Files() {
		controls = append(controls, l.Button("Open it", look.Plain, func() { d.open(g) }))
	} else {
		controls = append(controls, l.Button("Save the session", look.Plain, func() { d.saveSession(g) }))
	}
	controls = append(controls,
		l.Button("Another exercise", look.Plain, func() { g.Go(NewChoose()) }),
		l.Label("Training aid with synthetic data. Not for navigation; never evidence that an area is clear.", l.Small, l.Soft, 0),
	)
	return pinned(func(int) image.Rectangle { return foot }, l.Backed(centredRow(l.Row(8, 10, controls...)), l.Panel))
}

func (d *Debrief) savePage(g *Game) {
	var b bytes.Buffer
	if err := d.watch.page(&b); err != nil {
		g.Notice = "the report could not be made: " + err.Error()
		return
	}
	where, err := g.Store.Save(fmt.Sprintf("%s-%d-debrief.html", d.report.Exercise.Name, d.report.Exercise.Seed), b.Bytes())
	if err != nil {
		g.Notice = "the report could not be saved: " + err.Error()
		return
	}
	d.saved = where
	g.Notice = "the report is in " + where
}

// saveSession hands the session over where what is kept is out of reach.
func (d *Debrief) saveSession(g *Game) {
	if where := g.saveSession(d.crew, d.crew.Name()+".jsonl"); where != "" {
		g.Notice = "the session is in " + where + "; dryline replay flies it again"
	}
}

func (d *Debrief) open(g *Game) {
	if d.saved == "" {
		d.savePage(g)
	}
	if d.saved != "" {
		if err := g.Store.Show(d.saved); err != nil {
			g.Notice = err.Error()
		}
	}
}

// Update implements [Screen].
func (d *Debrief) Update(g *Game) error {
	x, y, taken := g.Pointer()
	_, dy := ebiten.Wheel()
	switch at := image.Pt(x, y); {
	case taken:
	case at.In(d.score):
		d.scroll -= dy * 40 * g.Look.Scale
	case at.In(d.chart) && dy != 0:
		d.projection.Zoom(1+0.2*dy, float64(x), float64(y))
	}
	if inpututil.IsKeyJustPressed(ebiten.KeyPageDown) {
		d.scroll += float64(d.score.Dy()) * 0.8
	}
	if inpututil.IsKeyJustPressed(ebiten.KeyPageUp) {
		d.scroll -= float64(d.score.Dy()) * 0.8
	}
	d.scroll = max(min(d.scroll, d.tall-float64(d.score.Dy())), 0)
	for _, t := range d.crew.Tiles(20) {
		d.watch.mosaic.Put(t)
	}
	return nil
}

// Draw implements [Screen].
func (d *Debrief) Draw(g *Game, dst *ebiten.Image) {
	l, r := g.Look, &d.report
	pad := float64(l.Px(16))
	verdict := fmt.Sprintf("%.0f of 100: ", r.Score.Points)
	if r.Score.Passed {
		verdict += "passed"
	} else {
		verdict += fmt.Sprintf("not passed, %.0f needed", r.Score.Pass)
		if r.Partial {
			verdict += " and the whole exercise"
		}
	}
	look.Write(dst, r.Exercise.Title, l.Title, pad, pad, l.Ink, look.Left)
	look.Write(dst, verdict, l.Title, float64(dst.Bounds().Dx())-pad, pad, l.Ink, look.Right)
	if d.kept != "" && g.Store.Files() {
		says := "The session is kept in " + d.kept + "; dryline replay flies it again."
		look.Write(dst, fittedTo(says, l, l.Small, dst.Bounds().Dx()-2*l.Px(16)), l.Small, pad, pad+look.Tall(l.Title), l.Soft, look.Left)
	}
	d.account(g, dst)
	d.truth(g, dst)
}

// account letters what counted.
func (d *Debrief) account(g *Game, dst *ebiten.Image) {
	l, r := g.Look, &d.report
	look.Fill(dst, d.score, l.Panel)
	pane := dst.SubImage(d.score).(*ebiten.Image)
	in := float64(l.Px(14))
	x, wide := float64(d.score.Min.X)+in, float64(d.score.Dx())-2*in
	y0 := float64(d.score.Min.Y) + in - d.scroll
	y := y0
	if r.Partial {
		for _, line := range wrapped("A part of the exercise: "+r.PartialReason+".", l.Body, wide) {
			look.Write(pane, line, l.Body, x, y, l.Caution, look.Left)
			y += look.Tall(l.Body)
		}
		y += float64(l.Px(8))
	}
	for _, it := range r.Score.Items {
		share := 0.0
		if it.Of > 0 {
			share = it.Points / it.Of
		}
		look.Write(pane, it.What, l.Strong, x, y, l.Ink, look.Left)
		look.Write(pane, fmt.Sprintf("%.0f of %.0f", it.Points, it.Of), l.Strong, x+wide, y, l.Ink, look.Right)
		y += look.Tall(l.Strong) + float64(l.Px(2))
		bar := image.Rect(int(x), int(y), int(x+wide), int(y)+l.Px(6))
		look.Fill(pane, bar, l.Sunk)
		bar.Max.X = bar.Min.X + int(share*wide)
		look.Fill(pane, bar, l.Accent)
		y += float64(l.Px(10))
		look.Write(pane, fittedTo("Wanted "+it.Wanted+"; got "+it.Got+".", l, l.Small, int(wide)), l.Small, x, y, l.Soft, look.Left)
		y += look.Tall(l.Small) + float64(l.Px(2))
		for _, line := range wrapped(it.Why, l.Body, wide) {
			look.Write(pane, line, l.Body, x, y, l.Ink, look.Left)
			y += look.Tall(l.Body) + float64(l.Px(1))
		}
		y += float64(l.Px(10))
	}
	if len(r.Mishaps) > 0 {
		look.Write(pane, "Mishaps", l.Strong, x, y, l.Alarm, look.Left)
		y += look.Tall(l.Strong)
		for _, m := range r.Mishaps[:min(len(r.Mishaps), 12)] {
			for _, line := range wrapped(fmt.Sprintf("%.0f s: %s.", m.Time, m.Says), l.Body, wide) {
				look.Write(pane, line, l.Body, x, y, l.Ink, look.Left)
				y += look.Tall(l.Body)
			}
		}
	}
	d.tall = y - y0 + 2*in
	if over := d.tall - float64(d.score.Dy()); over > 0 {
		// How far down the account goes.
		h := float64(d.score.Dy())
		bar := h * h / d.tall
		top := float64(d.score.Min.Y) + d.scroll/over*(h-bar)
		look.Fill(dst, image.Rect(d.score.Max.X-l.Px(5), int(top), d.score.Max.X-l.Px(1), int(top+bar)), l.Rule)
	}
}

// truth draws the mosaic with what truly lies there.
func (d *Debrief) truth(g *Game, dst *ebiten.Image) {
	l := g.Look
	plot := d.watch.plot
	plot.Spots, plot.Measure, plot.CursorOn, plot.TruthShown, plot.Swath = nil, nil, false, false, 0
	panes.Chart(dst, &d.projection, d.watch.mosaic, d.watch.shade(g), l, &plot)
	pane := dst.SubImage(d.chart).(*ebiten.Image)
	var labels panes.Labels
	keep := func(x, y, s float64) {
		labels.Keep(image.Rect(int(x-s), int(y-s), int(x+s), int(y+s)))
	}
	for _, f := range d.report.FalseContacts {
		x, y := d.projection.At(f.X, f.Y)
		s := 5 * l.Scale
		look.Stroke(pane, x-s, y-s, x+s, y+s, 2*l.Scale, l.Mark)
		look.Stroke(pane, x-s, y+s, x+s, y-s, 2*l.Scale, l.Mark)
		keep(x, y, s)
	}
	for _, t := range d.report.Targets {
		x, y := d.projection.At(t.X, t.Y)
		s := 6 * l.Scale
		if t.Contact != nil {
			look.Disc(pane, x, y, s, l.Panel)
			look.Disc(pane, x, y, s*0.75, l.Truth)
		} else { // an open square: missed
			look.Frame(pane, image.Rect(int(x-s), int(y-s), int(x+s), int(y+s)), max(l.Px(2), 1), l.Truth)
		}
		keep(x, y, s)
	}
	for _, t := range d.report.Targets {
		x, y := d.projection.At(t.X, t.Y)
		name := t.Name + ", missed"
		if t.Contact != nil {
			name = t.Name + ", found"
		}
		left, top := int(x+9*l.Scale), int(y-look.Tall(l.Small)/2)
		at := labels.Place(image.Rect(left, top, left+int(look.Wide(name, l.Small))+1, top+int(look.Tall(l.Small))), d.chart)
		label(pane, l, name, float64(at.Min.X), float64(at.Min.Y))
	}
	label(pane, l, "violet: what truly lies there; crosses: marks where nothing does", float64(d.chart.Min.X+l.Px(6)), float64(d.chart.Min.Y+l.Px(5)))
}

func label(dst *ebiten.Image, l *look.Look, s string, x, y float64) {
	look.Fill(dst, image.Rect(int(x-2*l.Scale), int(y), int(x+look.Wide(s, l.Small)+2*l.Scale), int(y+look.Tall(l.Small))), look.Fade(l.Panel, 0.85))
	look.Write(dst, s, l.Small, x, y, l.Ink, look.Left)
}

// Over implements [Screen].
func (d *Debrief) Over(*Game, *ebiten.Image) {}

// Keys implements [Screen].
func (d *Debrief) Keys() []Key {
	return []Key{{"PgUp, PgDn", "through the account"}, {"Wheel", "through the account; zoom the chart"}}
}

// Close implements [Screen].
func (d *Debrief) Close(*Game) {}

func (d *Debrief) tell() (string, map[string]Rect, any) {
	return "debrief", map[string]Rect{"score": rect(d.score), "chart": rect(d.chart)}, map[string]any{
		"points": d.report.Score.Points, "passed": d.report.Score.Passed, "partial": d.report.Partial,
	}
}
