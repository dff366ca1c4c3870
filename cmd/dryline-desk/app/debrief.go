package app

import (
	"bytes"
	"fmt"
	"image"
	"math"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/look"
	"dryline/cmd/dryline-desk/panes"
	"dryline/seabed"
	"dryline/sim/debrief"
	"dryline/sim/exercise"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// Debrief is the screen after the watch: what counted and why, and what truly
// lay there.
type Debrief struct {
	quiet
	crew      *crew.Crew
	brief     *exercise.Brief
	report    debrief.Report
	pipelines map[string][]seabed.Point // as they truly run, by name

	mosaic     *panes.Mosaic
	plot       panes.Plot // as it was left
	brightness float64    // of the sonar pictures

	score, chart image.Rectangle
	legend       image.Rectangle // of the chart, under it
	projection   panes.Projection
	moved        bool        // the person has moved or zoomed the chart
	pulled       image.Point // where the pointer was
	pulling      bool        // it moves the chart
	scroll       float64
	tall         float64 // of the whole page, pixels
	page         int     // of the account, see debriefPages
	saved        string  // where the page went
	making       chan made
	show         bool   // the page is to be shown once it is saved
	kept         string // where the session is

	evidence evidence // of the objects
	cutting  bool     // it is being cut from the record

	bar      timebar
	moment   image.Rectangle // where the moment that is chosen is said
	links    []link          // of the account as it was last lettered
	scrubbed bool            // the button went down on the bar
	pressed  int             // x of the pointer at the update before
	away     bool            // to look at the session again; it comes back
}

// NewDebrief returns the debrief of a crew whose session is over, and kept somewhere.
// The mosaic becomes its own.
func NewDebrief(c *crew.Crew, mosaic *panes.Mosaic, plot panes.Plot, brightness float64, kept string) *Debrief {
	// They are among what truly lies there.
	plot.Charted, plot.Pipelines, plot.Way, plot.Unseen, plot.Looks = nil, nil, nil, nil, nil
	plot.Spots, plot.Measure, plot.CursorOn, plot.TruthShown, plot.Swath = nil, nil, false, false, 0
	d := &Debrief{
		crew: c, brief: c.Brief(), report: c.Report(), pipelines: c.Pipelines(),
		mosaic: mosaic, plot: plot, brightness: brightness, kept: kept,
	}
	d.bar = newTimebar(&d.report)
	d.showMoment()
	return d
}

// Build implements [Screen].
func (d *Debrief) Build(g *Game, size image.Rectangle) *widget.Container {
	l := g.Look
	pad := l.Px(16)
	foot := image.Rect(0, size.Max.Y-l.Px(48), size.Max.X, size.Max.Y)
	top := int(look.Tall(l.Title)+look.Tall(l.Small)) + 2*pad
	middle := size.Min.X + size.Dx()*52/100
	does := centredRow(l.Row(0, 6,
		explained(g, l.Button("Look at it again", look.Chosen, func() { d.lookAgain(g) }), "The session is flown again to the moment chosen on the bar, to be looked at (Enter)."),
		explained(g, l.Button("Try again from here", look.Plain, func() { d.tryAgain(g) }), "A practice session begins at the moment chosen; it never counts (A)."),
	))
	doesWide, doesTall := does.PreferredSize()
	bar := image.Rect(pad, foot.Min.Y-pad/4-d.bar.tall(l), size.Max.X-pad, foot.Min.Y-pad/4)
	d.bar.lay(l, bar)
	d.moment = image.Rect(pad, bar.Min.Y-doesTall-l.Px(4), size.Max.X-pad-doesWide-l.Px(8), bar.Min.Y-l.Px(2))
	doesAt := image.Rect(size.Max.X-pad-doesWide, d.moment.Min.Y, size.Max.X-pad, d.moment.Min.Y+doesTall)
	under := d.moment.Min.Y - pad/4
	d.score = image.Rect(pad, top, middle-pad/2, under)
	d.chart = image.Rect(middle+pad/2, top, size.Max.X-pad, under)
	d.legend = d.chart
	d.legend.Min.Y = d.chart.Max.Y - d.legendTall(l, d.chart.Dx())
	d.chart.Max.Y = d.legend.Min.Y
	d.projection.Pane = d.chart
	if !d.moved {
		fitPlan(&d.projection, d.brief, d.brief.All())
	}
	controls := []widget.PreferredSizeLocateableWidget{l.Button("Save the report", look.Chosen, func() { d.savePage(g) })}
	if g.Store.Files() {
		controls = append(controls, l.Button("Open it", look.Plain, func() { d.open(g) }))
	} else {
		controls = append(controls, l.Button("Save the session", look.Plain, func() { d.saveSession(g) }))
	}
	controls = append(controls,
		l.Button("Another exercise", look.Plain, func() { g.Go(chooseAt(d.brief.Name)) }),
		l.Label("Training aid with synthetic data. Not for navigation; never evidence that an area is clear.", l.Small, l.Soft, 0),
	)
	var tabs []widget.PreferredSizeLocateableWidget
	for i, p := range debriefPages {
		tabs = append(tabs, explained(g, l.Button(p.name, chosenIf(i == d.page), func() { d.turn(g, i) }), p.says))
	}
	head := image.Rect(d.score.Min.X, d.score.Min.Y, d.score.Max.X, d.score.Min.Y+l.Px(34))
	d.score.Min.Y = head.Max.Y
	return pinned(func(i int) image.Rectangle { return []image.Rectangle{head, doesAt, foot}[i] },
		l.Row(0, 4, tabs...), does, l.Backed(centredRow(l.Row(8, 10, controls...)), l.Panel))
}

// made is the debrief's page, or why there is none.
type made struct {
	page []byte
	err  error
}

// savePage has the page made and then saved. Its mosaic is painted anew from the
// record, which takes seconds: on a thread of its own where there is one.
func (d *Debrief) savePage(g *Game) {
	if d.making != nil {
		return
	}
	making := make(chan made, 1)
	d.making = making
	work := func() {
		var b bytes.Buffer
		err := d.crew.WritePage(&b)
		making <- made{b.Bytes(), err}
	}
	if !g.Apart {
		work()
		return
	}
	g.sayWhile("The report is being made.", func() bool { return d.making != nil })
	go work()
}

// Close implements [Screen]: a page that was asked for is waited for and saved.
func (d *Debrief) Close(g *Game) {
	if d.away {
		return
	}
	if d.making != nil {
		d.show = false
		d.keepPage(g, <-d.making)
	}
	d.mosaic.Deallocate()
	d.evidence.letGo()
}

// keepPage saves the page that has been made.
func (d *Debrief) keepPage(g *Game, m made) {
	d.making = nil
	if m.err != nil {
		g.say("The report could not be made: " + m.err.Error())
		return
	}
	where, err := g.Store.Save(fmt.Sprintf("%s-%d-debrief.html", d.report.Exercise.Name, d.report.Exercise.Seed), m.page)
	if err != nil {
		g.sayWhile("The report could not be saved: "+err.Error(), func() bool { return d.saved == "" })
		return
	}
	d.saved = where
	g.say("The report is in " + where)
	if d.show {
		d.open(g)
	}
}

// saveSession hands the session over where what is kept is out of reach.
func (d *Debrief) saveSession(g *Game) {
	if where := g.saveSession(d.crew, d.crew.Name()+".jsonl"); where != "" {
		g.say("The session is in " + where + "; dryline replay flies it again")
	}
}

func (d *Debrief) open(g *Game) {
	if d.show = d.saved == ""; d.show {
		d.savePage(g)
		return
	}
	if err := g.Store.Show(d.saved); err != nil {
		g.say(err.Error())
	}
}

// Update implements [Screen].
func (d *Debrief) Update(g *Game) error {
	select {
	case m := <-d.making:
		d.keepPage(g, m)
	default:
	}
	if d.page == objectsPage {
		d.evidence.askFor(g, d)
	}
	if d.cutting && d.evidence.take() {
		d.cutting = false
	}
	x, y, taken := g.Pointer()
	dy, _ := turned()
	switch at := image.Pt(x, y); {
	case taken:
	case at.In(d.score):
		d.scroll -= dy * 40 * g.Look.Scale
	case at.In(d.chart) && dy != 0:
		d.moved = true
		d.projection.Zoom(math.Pow(1.2, dy), float64(x), float64(y))
	}
	d.pull(image.Pt(x, y), taken)
	d.mouse(g, image.Pt(x, y), taken)
	switch pressed := justPressed; {
	case pressed(ebiten.KeyPageDown):
		d.scroll += float64(d.score.Dy()) * 0.8
	case pressed(ebiten.KeyPageUp):
		d.scroll -= float64(d.score.Dy()) * 0.8
	case again(ebiten.KeyLeft):
		d.bar.step(-1)
		d.showMoment()
	case again(ebiten.KeyRight):
		d.bar.step(1)
		d.showMoment()
	case pressed(ebiten.KeyEnter):
		d.lookAgain(g)
	case pressed(ebiten.KeyA):
		d.tryAgain(g)
	case pressed(ebiten.KeyTab):
		d.turn(g, (d.page+1)%len(debriefPages))
	case pressed(ebiten.KeyS):
		d.savePage(g)
	case pressed(ebiten.KeyO) && g.Store.Files():
		d.open(g)
	case pressed(ebiten.KeyEscape):
		g.Go(chooseAt(d.brief.Name))
	case pressed(ebiten.KeyT):
		g.Change(func(s *Settings) { s.Theme = otherTheme(s.Theme) })
	}
	d.scroll = max(min(d.scroll, d.tall-float64(d.score.Dy())), 0)
	for _, t := range d.crew.Tiles(20) {
		d.mosaic.Put(t)
	}
	return nil
}

// pull moves the chart while the left button is held down on it.
func (d *Debrief) pull(at image.Point, taken bool) {
	switch {
	case wentDown(ebiten.MouseButtonLeft):
		d.pulling = at.In(d.chart) && !taken
	case !held(ebiten.MouseButtonLeft):
		d.pulling = false
	case d.pulling && at != d.pulled:
		d.moved = true
		d.projection.X -= float64(at.X-d.pulled.X) / d.projection.PerM
		d.projection.Y += float64(at.Y-d.pulled.Y) / d.projection.PerM
	}
	d.pulled = at
}

// Draw implements [Screen].
func (d *Debrief) Draw(g *Game, dst *ebiten.Image) {
	l, r := g.Look, &d.report
	pad := float64(l.Px(16))
	verdict := fmt.Sprintf("%.4g of 100: ", r.Score.Points)
	switch r.Score.Verdict {
	case debrief.VerdictPassed:
		verdict += "passed"
	case debrief.VerdictInstructor:
		verdict += "for the instructor to decide"
	default:
		verdict += "not passed"
	}
	title := r.Exercise.Title
	if r.Practice != nil {
		title = "Practice: " + title
	}
	look.Write(dst, look.Fitted(title, l.Title, dst.Bounds().Dx()-3*l.Px(16)-int(look.Wide(verdict, l.Title))), l.Title, pad, pad, l.Ink, look.Left)
	look.Write(dst, verdict, l.Title, float64(dst.Bounds().Dx())-pad, pad, l.Ink, look.Right)
	if d.kept != "" && g.Store.Files() {
		says := "The session is kept in " + d.kept + "; dryline replay flies it again."
		look.Write(dst, look.Fitted(says, l.Small, dst.Bounds().Dx()-2*l.Px(16)), l.Small, pad, pad+look.Tall(l.Title), l.Soft, look.Left)
	}
	d.account(g, dst)
	d.truth(g, dst)
	d.bar.drawSays(dst, l, d.moment)
	d.bar.draw(dst, l)
}

// Over implements [Screen].
func (d *Debrief) Over(g *Game, dst *ebiten.Image) { d.bar.drawTip(dst, g.Look, g.area()) }

func label(dst *ebiten.Image, l *look.Look, s string, x, y float64) {
	look.Fill(dst, image.Rect(int(x-2*l.Scale), int(y), int(x+look.Wide(s, l.Small)+2*l.Scale), int(y+look.Tall(l.Small))), look.Fade(l.Panel, 0.85))
	look.Write(dst, s, l.Small, x, y, l.Ink, look.Left)
}

// Keys implements [Screen].
func (d *Debrief) Keys() []Key {
	return []Key{
		{"Tab", "next page: what counted, the lines, the objects"}, {"PgUp, PgDn", "through the page"},
		{"Left, Right", "the moment before, the next: lines, hints, orders, marks, mishaps, points lost"},
		{"Click", "on the bar or on a cause: choose the moment"}, {"Enter", "look at the session again from there"},
		{"A", "try again from there, for practice"},
		{"Wheel", "through the page; zoom the chart, drag to move it"}, {"S, O", "save the report, open it"},
		{"T", "day or night"}, {"Esc", "another exercise"},
	}
}

// Inspect implements [Screen].
func (d *Debrief) Inspect() (string, map[string]Rect, any) {
	return "debrief", map[string]Rect{"score": rect(d.score), "chart": rect(d.chart), "bar": rect(d.bar.lane[0]), "cause": d.firstLink()}, map[string]any{
		"evidence": len(d.evidence.shown), "points": d.report.Score.Points, "passed": d.report.Score.Passed, "partial": d.report.Partial,
		"moment": d.bar.at, "tick": d.bar.tick(), "gates": d.failed(),
	}
}
