package app

import (
	"image"
	"time"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/coach"
	"dryline/sim/exercise"

	"github.com/ebitenui/ebitenui/widget"
)

// Watch is a session under way as the trainee sees it: its parts own what they show,
// and the panels give orders to them. It has the brief of the exercise and not the
// exercise, and of the crew what takes orders and shows what there is to see.
type Watch struct {
	*post
	at   layout
	top  topPanel
	rail railPanel
	side sidePanel

	typed typedPanel // in place of the rail, while it is open

	section  section
	dials    dialRow
	fall     waterfall
	chart    chart
	helm     helm
	contacts contacts
	pace     pace
	slacken  slacken
	pointer  pointer
	ears     ears
	journal  *journal

	toDesk    func(*Game)   // to the desk; nil where there is none
	practice  string        // what it is tried again from, empty for a session of its own
	restored  bool          // a resumed session is where it was left
	complaint int           // heard last
	ending    time.Duration // left to ask for the end again
}

func newWatch(g *Game, brief *exercise.Brief, c hands) *Watch {
	p := &post{brief: brief, crew: c, view: c.View()}
	return &Watch{
		post: p, section: section{post: p}, dials: newDialRow(p), fall: newWaterfall(p), chart: chart{post: p},
		helm: helm{post: p}, contacts: contacts{post: p, measure: "length"}, pace: pace{post: p, rate: 1},
		side: sidePanel{tab: tabCoach}, journal: &journal{game: g, crew: c},
	}
}

// Build implements [Screen].
func (w *Watch) Build(g *Game, size image.Rectangle) *widget.Container {
	top, rail := w.top.build(g, w), w.rail.build(g, w)
	_, least := rail.PreferredSize()
	if w.typed.open {
		rail = w.typed.build(g, w)
	}
	_, topTall := top.PreferredSize()
	_, railTall := rail.PreferredSize()
	railTall = max(railTall, least) // nothing moves when it is opened
	w.at = arrange(size, g.Look, &g.Settings, w.sideView(), topTall, railTall)
	w.fall.looking.foot = g.Settings.Foot
	w.fall.lay(w.at.fall, g.Look)
	side := w.side.build(g, w, w.at.side)
	w.chart.lay(w.at.chart)
	return pinned(func(i int) image.Rectangle {
		return []image.Rectangle{w.at.top, w.at.side, w.at.rail}[i]
	}, top, side, rail)
}

// Update implements [Screen].
func (w *Watch) Update(g *Game) error {
	w.crew.Pass(g.passed.Seconds(), g.budget())
	w.view = w.crew.View()
	w.takeRows()
	for _, t := range w.crew.Tiles(6) {
		w.chart.mosaic.Put(t)
	}
	w.dials.fill(&w.helm)
	w.chart.fill(w.contacts.chosen, w.pointer.what != nothing)
	w.top.update(g, w)
	w.rail.update(g, w)
	w.side.update(g, w)
	if worst := w.ears.hear(w.hints(g), len(w.view.Bridge.Alarms)); g.Settings.Sounds && !g.Silent && w.view.Restored == 1 {
		g.sounds.play(worst)
	}
	w.hearComplaint(g)
	if w.view.Restored == 1 && !w.view.Done {
		w.slackenTime(g, w.view.Hints)
	}
	w.ending = max(w.ending-g.passed, 0)
	if w.view.Done || w.view.Restored < 1 { // no orders until the session is where it was
		return nil
	}
	w.restore(g)
	w.typed.update(g)
	w.keys(g)
	w.mouse(g)
	w.journal.pass(g.passed, w.view)
	return nil
}

// restore takes the watch up where the session was left, once.
func (w *Watch) restore(g *Game) {
	if w.restored {
		return
	}
	w.restored = true
	w.helm.takeUp()
	if w.view.CutShort {
		w.journal.where = "" // what could not be carried out again stays where it is
	}
	if w.pace.paused {
		says := restoredSays
		if w.practice != "" && w.view.Tick == w.journal.tick {
			says = practiceSays
		}
		g.sayWhile(says, func() bool { return w.pace.paused })
	}
}

// hearComplaint says why an order was refused, until others are carried out.
func (w *Watch) hearComplaint(g *Game) {
	if w.view.Complaints == w.complaint {
		return
	}
	w.complaint = w.view.Complaints
	carried := w.view.Carried
	g.sayWhile(w.view.Complaint, func() bool { return w.view.Carried == carried })
	w.contacts.chosen = max(w.contacts.chosen, 0) // no new contact is coming
}

// hints are those of the coach, if they are wanted.
func (w *Watch) hints(g *Game) []coach.Hint {
	if !g.Settings.Hints || !w.brief.Help.Coach {
		return nil
	}
	return standingHints(w.view.Hints, w.view.Bridge.Logging != "")
}

// Close implements [Screen]: a watch left half way can be resumed.
func (w *Watch) Close(g *Game) {
	w.crew.Close()
	w.fall.release()
	v := w.crew.View()
	if !v.Done { // the debrief has the mosaic
		w.chart.mosaic.Deallocate()
	}
	if v.Done || v.Restored < 1 || v.Tick == 0 && w.journal.ledger == nil { // over, as it was, or nothing has happened
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

// Late implements [Screen].
func (w *Watch) Late() bool { return w.view.Reached > 0 && w.view.Reached < 0.9 }

// Keep implements [Screen].
func (w *Watch) Keep() { w.journal.keep() }

// UnderWay implements [Screen].
func (w *Watch) UnderWay() bool { return true }

// takeRows hands new pings to the waterfalls and the side view.
func (w *Watch) takeRows() {
	from := len(w.fall.history)
	w.fall.history = w.crew.Rows(w.fall.history)
	for i := range w.fall.history[from:] {
		p := &w.fall.history[from+i]
		w.showRow(p)
		p.Rows, p.Plain = nil, nil // the texture has them
	}
	w.fall.keepInside(w.fall.rect())
}

// showRow puts a ping on top of the waterfalls and into the side view.
func (w *Watch) showRow(p *crew.Ping) {
	w.fall.add(p)
	w.section.add(p)
}

// restoredSays is said of a session that is where it was left.
const restoredSays = "The session is where it was, and time stands still: Space starts it again."

// practiceSays is said of a practice session at its moment.
const practiceSays = "This is the moment. You have the watch, and time stands still: Space starts it."

// newMosaic is an empty picture of the crew's mosaic.
func newMosaic(c *crew.Crew) *panes.Mosaic { return panes.NewMosaic(c.Cells()) }

// Inspect implements [Screen].
func (w *Watch) Inspect() (string, map[string]Rect, any) {
	v := w.view
	return "watch", map[string]Rect{
			"section": rect(w.at.section), "dials": rect(w.at.dials), "fall": rect(w.fall.rect()),
			"chart": rect(w.at.chart), "side": rect(w.at.side), "rail": rect(w.at.rail), "top": rect(w.at.top),
		}, map[string]any{
			"exercise": w.brief.Name, "tick": v.Tick, "logging": v.Bridge.Logging, "rate": w.pace.rate, "paused": w.pace.paused,
			"cable_ordered": v.Bridge.CableOrdered, "speed_ordered": v.Bridge.Speed, "range_scale": v.Recorder.RangeScale,
			"contacts": len(v.Contacts), "chosen": w.contacts.chosen, "lines": v.Lines, "steering": v.Bridge.Steering, "pings": len(w.fall.history),
			"per_m": w.chart.PerM, "row_bytes": w.fall.rows.long(), "restored": v.Restored, "reached": v.Reached, "pending": len(v.Pending), "practice": w.practice,
		}
}
