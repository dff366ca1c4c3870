package app

import (
	"image"
	"io"
	"math"
	"slices"
	"time"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/panes"
	"dryline/sim"
	"dryline/sim/coach"
	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/product"

	"github.com/ebitenui/ebitenui/widget"
)

// Watch is the screen of a session under way.
type Watch struct {
	exercise *exercise.Exercise
	crew     *crew.Crew
	view     *crew.View

	at   places
	top  topPanel
	rail railPanel
	side sidePanel

	section panes.Section
	falls   []*panes.Waterfall
	channel int // shown, unless all are

	allChannels bool
	history     []crew.Ping // as many as the ring of the waterfall has rows
	mosaic      *panes.Mosaic
	chart       panes.Projection
	charted     bool            // the chart has been fitted once
	fitted      image.Rectangle // to which pane
	placed      bool            // the person has moved or zoomed it since, or it follows her
	follow      bool
	dials       []*panes.Dial
	dialled     int64 // second of the last trend
	plot        panes.Plot
	looking     looking // at the waterfalls
	brightness  float64 // added to the sonar pictures, share of the ramp
	asRecorded  bool    // the waterfalls show the record as it came in, not levelled
	rate        float64
	paused      bool
	line        int // chosen
	reversed    bool
	byHand      float64 // rudder held, radians; 0 for none
	marking     bool
	measure     string          // length, width or shadow: what a drag measures
	chosen      int             // number of the contact chosen, 0 for none
	passed      map[int]*passes // by number of the contact
	drag        drag
	back        bool // a resumed session is where it was
	complaint   int
	heard       map[string]coach.Severity // hints by ID at the last frame
	alarms      int                       // of the bridge that were sounded
	report      *product.Page
	journal     *journal
	ending      time.Duration // left to ask for the end again
}

// NewWatch mans a session.
func NewWatch(g *Game, s *sim.Session) *Watch {
	return newWatch(g, s, func(w *sim.Witness) *crew.Crew { return crew.New(s, w, g.Apart) })
}

// page writes the debrief's page.
func (w *Watch) page(out io.Writer) error {
	return w.crew.With(func(*sim.Session) error { return w.report.Write(out) })
}

func newWatch(g *Game, s *sim.Session, man func(*sim.Witness) *crew.Crew) *Watch {
	ex := s.Exercise
	witness := sim.Attend(s) // before anyone works the session
	report := product.AttachPage(s, witness)
	w := &Watch{
		exercise: ex, crew: man(witness), report: report, rate: 1, looking: looking{zoom: 1}, follow: false, measure: "length",
		mosaic: panes.NewMosaic(s.Desk.Mosaic),
	}
	w.journal = &journal{game: g, crew: w.crew}
	w.crew.SetBook(w.journal)
	w.crew.SetHints(g.Settings.Hints && ex.Help.Coach)
	w.view = w.crew.View()
	for range ex.Sonar.Channels {
		w.falls = append(w.falls, panes.NewWaterfall())
	}
	w.dials = newDials()
	w.side.tab = tabCoach
	return w
}

// Build implements [Screen].
func (w *Watch) Build(g *Game, size image.Rectangle) *widget.Container {
	top, rail := w.top.build(g, w), w.rail.build(g, w)
	_, topTall := top.PreferredSize()
	_, railTall := rail.PreferredSize()
	w.at = arrange(size, g.Look, &g.Settings, topTall, railTall)
	side := w.side.build(g, w, w.at.side)
	w.chart.Pane = w.at.chart
	if !w.charted || !w.placed && w.fitted != w.at.chart {
		w.fitChart()
	}
	return pinned(func(i int) image.Rectangle {
		return []image.Rectangle{w.at.top, w.at.side, w.at.rail}[i]
	}, top, side, rail)
}

func (w *Watch) fitChart() {
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, l := range w.exercise.Lines {
		x0, y0 = min(x0, l.A.X, l.B.X), min(y0, l.A.Y, l.B.Y)
		x1, y1 = max(x1, l.A.X, l.B.X), max(y1, l.A.Y, l.B.Y)
	}
	reach := w.exercise.Sonar.RangeScale + w.exercise.Plan.RunIn
	w.chart.Fit(x0-reach, y0-reach, x1+reach, y1+reach)
	w.charted, w.placed, w.fitted = !w.at.chart.Empty(), false, w.at.chart
}

// Update implements [Screen].
func (w *Watch) Update(g *Game) error {
	w.crew.Pass(g.passed.Seconds(), g.budget())
	w.view = w.crew.View()
	w.takeRows()
	for _, t := range w.crew.Tiles(6) {
		w.mosaic.Put(t)
	}
	w.fillDials()
	w.fillPlot()
	w.top.update(g, w)
	w.rail.update(g, w)
	w.side.update(g, w)
	w.soundHints(g)
	w.hearComplaint(g)
	w.ending = max(w.ending-g.passed, 0)
	if w.view.Done {
		say := g.sayThen
		kept := w.journal.finish(func(says string) { say(says) })
		say = g.say // should it be told later
		g.Go(NewDebrief(w, kept))
		return nil
	}
	if !w.back && w.view.Back == 1 {
		w.back = true
		w.takeUpLine()
		if w.view.CutShort {
			w.journal.where = "" // what could not be carried out again stays where it is
		}
		if w.paused {
			g.sayWhile(backSays, func() bool { return w.paused })
		}
	}
	if w.view.Back < 1 { // no orders until the session is where it was
		return nil
	}
	w.keys(g)
	w.mouse(g)
	w.journal.pass(g.passed, w.view)
	return nil
}

// hearComplaint says why an order was refused, until others are carried out.
func (w *Watch) hearComplaint(g *Game) {
	if w.view.Complaints == w.complaint {
		return
	}
	w.complaint = w.view.Complaints
	carried := w.view.Carried
	g.sayWhile(w.view.Complaint, func() bool { return w.view.Carried == carried })
	w.chosen = max(w.chosen, 0) // no new contact is coming
}

// Close implements [Screen]: a watch left half way can be resumed.
func (w *Watch) Close(g *Game) {
	w.crew.Close()
	for _, f := range w.falls {
		f.Deallocate()
	}
	v := w.crew.View()
	if !v.Done { // the debrief has the mosaic
		w.mosaic.Deallocate()
	}
	if v.Done || v.Back < 1 || v.Tick == 0 && w.journal.ledger == nil { // over, as it was, or nothing has happened
		return
	}
	where := w.journal.leave()
	if !g.Store.Files() {
		where = g.saveSession(w.crew, watchName(w.crew))
	}
	if where != "" {
		g.sayThen("The session is kept in " + where + " and can be resumed")
	}
}

// budget is how long the crew may work within a frame: on a page that is drawn
// slowly a share of the time a frame takes, or it would fall behind the slower the
// more it draws. None is for a crew apart.
func (g *Game) budget() time.Duration {
	if g.Apart {
		return 0
	}
	return min(max(g.passed/3, 9*time.Millisecond), 50*time.Millisecond)
}

// takeRows hands new pings to the waterfalls and the side view.
func (w *Watch) takeRows() {
	from := len(w.history)
	w.history = w.crew.Rows(w.history)
	for i := range w.history[from:] {
		p := &w.history[from+i]
		w.showRow(p)
		p.Rows, p.Plain = nil, nil // the texture has them
	}
	w.keepInside(w.fallRect())
	if most := panes.RingRows; len(w.history) > most+most/8 {
		kept := copy(w.history, w.history[len(w.history)-most:])
		clear(w.history[kept:])
		w.history = w.history[:kept]
	}
}

// showRow puts a ping on top of the waterfalls and into the side view.
func (w *Watch) showRow(p *crew.Ping) {
	bottom := p.Height / max(p.RangeScale, 1)
	if !p.Locked {
		bottom = 0
	}
	for c, f := range w.falls {
		if c < len(p.Rows) {
			f.Add(p.Rows[c], p.Plain[c], bottom)
		} else {
			f.Add([2][]uint8{}, [2][]uint8{}, bottom)
		}
	}
	if p.Fix.Fault == "" {
		w.section.Hear(p.Fix.X, p.Fix.Y, p.Fix.Depth+p.Height, p.Locked)
	}
	if w.looking.back > 0 { // scrolled back, the picture stands still
		w.looking.back++
	}
}

// give passes orders on.
func (w *Watch) give(orders ...order.Command) { w.crew.Give(orders...) }

// setRate sets the rate of time within what the exercise allows.
func (w *Watch) setRate(rate float64, paused bool) {
	h := w.exercise.Help
	w.rate = min(max(rate, 1), max(h.MostSpeedUp, 1))
	w.paused = paused && h.Pause
	w.crew.SetRate(w.rate, w.paused)
}

// takeUpLine chooses the line that is being run.
func (w *Watch) takeUpLine() {
	b := &w.view.Bridge
	name, reversed := b.Logging, b.Reversed
	if name == "" {
		name, reversed = b.Steering.Line, b.Steering.Reversed
	}
	if name != "" {
		w.line, w.reversed = w.lineNamed(name), reversed
	}
}

// lineNamed is the place of a line in the exercise; the one chosen if none has
// the name.
func (w *Watch) lineNamed(name string) int {
	if i := slices.IndexFunc(w.exercise.Lines, func(l exercise.Line) bool { return l.Name == name }); i >= 0 {
		return i
	}
	return w.line
}

// backSays is said of a session that is where it was left.
const backSays = "The session is where it was, and time stands still: Space lets it go on."

func (w *Watch) tell() (string, map[string]Rect, any) {
	v := w.view
	return "watch", map[string]Rect{
			"section": rect(w.at.section), "dials": rect(w.at.dials), "fall": rect(w.fallRect()),
			"chart": rect(w.at.chart), "side": rect(w.at.side), "rail": rect(w.at.rail), "top": rect(w.at.top),
		}, map[string]any{
			"exercise": w.exercise.Name, "tick": v.Tick, "logging": v.Bridge.Logging, "rate": w.rate, "paused": w.paused,
			"cable_ordered": v.Bridge.CableOrdered, "speed_ordered": v.Bridge.Speed, "range_scale": v.Recorder.RangeScale,
			"contacts": len(v.Contacts), "chosen": w.chosen, "lines": v.Lines, "steering": v.Bridge.Steering, "pings": len(w.history),
			"back": v.Back, "reached": v.Reached, "pending": len(v.Pending),
		}
}
