package app

import (
	"fmt"
	"image"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/look"
	"dryline/sim/order"
	"dryline/sim/survey"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// clerks are the crew as the desk knows it: besides what the watch has, the papers and the bench on
// which the record is worked on.
type clerks interface {
	hands
	Papers() crew.Papers
	Bench() *crew.Bench
	Adopt(*survey.Worked)
}

// Desk is the screen of the work after the lines. Everything acts by orders, so that the session's log
// has it all; what takes long goes on at the bench beside it. Time stands still.
type Desk struct {
	*post
	watch  *Watch
	clerks clerks
	bench  *crew.Bench
	papers crew.Papers // as they were when the orders carried out were so many:
	was    int

	chosen   int // contact, by its number, on every station; 0 for none, or [newestContact]
	stations []station
	at       int // the station that is shown
	chooser  *chooser

	leave  func(g *Game) // back to the watch; nil when it is over
	handIn func(g *Game) // nil while the watch is open
	gone   parting       // how it gives way to another screen of the same session
	paused bool          // time stood still before

	main, column image.Rectangle
	asked        float64        // seconds left to ask again for what cannot be undone
	complaint    int            // heard last
	toSay        string         // at the foot
	reasons      map[int]string // typed for contacts, before what comes of them
	typing       int            // field that is typed in last
	opening      bool           // the field is to get the keys, once Enter, which asked for it, is up
	fields       []*widget.TextInput
	said         string // what the controls were built from
}

// parting is how the desk gives way to another screen.
type parting int

const (
	notYet parting = iota
	toTheWatch
	handedOver
)

// newDesk opens the desk of a watch, whose log is off.
func newDesk(w *Watch, c clerks) *Desk {
	d := &Desk{post: w.post, watch: w, clerks: c, bench: c.Bench(), papers: c.Papers(), paused: w.pace.paused, complaint: w.view.Complaints}
	d.was = d.view.Carried
	record := newRecordStation(d)
	d.stations = []station{
		newStandsStation(d), record, newMosaicStation(d), newContactStation(d), newPlacingStation(d), newHolidayStation(d), newReportStation(d),
	}
	d.fresh()
	w.crew.SetRate(w.pace.rate, true)
	return d
}

// takePapers takes the papers as they are after the orders carried out.
func (d *Desk) takePapers() {
	d.view = d.clerks.View()
	d.was, d.papers = d.view.Carried, d.clerks.Papers()
	d.fresh()
}

// fresh has every station take the papers as they are now.
func (d *Desk) fresh() {
	if d.chosen == newestContact && d.pending(order.Mark) == nil {
		d.chosen = d.papers.Desk.LastContact()
	}
	if contacts := d.papers.Desk.Contacts; d.chosen != newestContact && d.contact(d.chosen) == nil {
		d.chosen = 0
		if len(contacts) > 0 {
			d.chosen = contacts[0].Number
		}
	}
	for _, s := range d.stations {
		s.fresh()
	}
}

// over reports whether the watch is.
func (d *Desk) over() bool { return d.view.Done }

// station is the one shown.
func (d *Desk) station() station { return d.stations[d.at] }

// turn shows another station.
func (d *Desk) turn(g *Game, to int) {
	d.station().hide()
	d.at = (to + len(d.stations)) % len(d.stations)
	d.chooser = nil
	g.Unfocus()
	d.station().show(g)
	g.Rebuild()
}

// Build implements [Screen].
func (d *Desk) Build(g *Game, size image.Rectangle) *widget.Container {
	l := g.Look
	d.fields, d.said = nil, d.state()
	top := d.top(g, size)
	_, topTall := top.PreferredSize()
	topAt := image.Rect(size.Min.X, size.Min.Y, size.Max.X, size.Min.Y+topTall)
	gap := l.Px(4)
	d.column = image.Rect(size.Min.X, topAt.Max.Y+gap, size.Min.X+l.Px(176), size.Max.Y)
	d.main = image.Rect(d.column.Max.X+gap, topAt.Max.Y+gap, size.Max.X, size.Max.Y)
	controls := []widget.PreferredSizeLocateableWidget{top}
	at := []image.Rectangle{topAt}
	put := func(w widget.PreferredSizeLocateableWidget, r image.Rectangle) {
		controls, at = append(controls, w), append(at, r)
	}
	row := d.rowTall(l)
	for i, s := range d.stations {
		b := explained(g, l.Button(s.name(), chosenIf(i == d.at), func() { d.turn(g, i) }), s.about()+" (F"+string(rune('2'+i))+")")
		y := d.column.Min.Y + i*row
		put(b, image.Rect(d.column.Min.X+l.Px(4), y+l.Px(3), d.column.Max.X-l.Px(4), y+l.Px(3)+tallOf(b)))
	}
	d.station().build(g, d.main, put)
	all := pinned(func(i int) image.Rectangle { return at[i] }, controls...)
	if d.chooser != nil { // it takes every key and click
		disable(all)
	}
	return all
}

// disable has a control, and all that are in it, take nothing.
func disable(w widget.PreferredSizeLocateableWidget) {
	w.GetWidget().Disabled = true
	if box, ok := w.(*widget.Container); ok {
		for _, c := range box.Children() {
			disable(c)
		}
	}
}

// rowTall is how tall the column has a station.
func (d *Desk) rowTall(l *look.Look) int {
	return tallOf(l.Button("A", look.Plain, nil)) + 2*int(look.Tall(l.Small)) + l.Px(12)
}

// top is the strip on top.
func (d *Desk) top(g *Game, size image.Rectangle) *widget.Container {
	l := g.Look
	var does []widget.PreferredSizeLocateableWidget
	for _, a := range d.acts() {
		if a.label != "" {
			does = append(does, a.button(g))
		}
	}
	right := centredRow(l.Row(0, 6, does...))
	right.Validate()
	wide, _ := right.PreferredSize()
	room := size.Dx() - wide - l.Px(40)
	title := "The desk. " + d.brief.Title
	state := d.brief.Start.Add(seconds(d.view.Now)).Format("15:04:05") + ", time stands still"
	if d.over() {
		state = "the watch is over"
	}
	name := l.Column(0, 0, l.Label(look.Fitted(title, l.Strong, room), l.Strong, l.Ink, 0), l.Label(look.Fitted(state, l.Small, room), l.Small, l.Soft, 0))
	name.GetWidget().MinWidth = room
	return l.Backed(centredRow(l.Row(4, 12, name, right)), l.Panel)
}

// acts lists everything that can be done at every station.
func (d *Desk) acts() []act {
	out := []act{}
	if d.handIn != nil {
		out = append(out, act{
			key: ebiten.KeyF9, name: "F9, F9", label: "Hand in F9", emphasis: look.Chosen, help: "hand in, and see the debrief",
			says: "Hand in what the desk has made, and see the debrief (F9, twice). Nothing can be changed then.", do: d.askToHandIn,
		})
	}
	if d.leave != nil {
		out = append(out, act{
			key: ebiten.KeyD, name: "D", label: "Back to the watch D", help: "back to the watch", says: "Back to the watch; time goes on as it did (D).",
			do: func(g *Game) { d.leave(g) },
		})
	}
	return append(out, act{
		key: ebiten.KeyT, name: "T", help: "day or night",
		do: func(g *Game) { g.Change(func(s *Settings) { s.Theme = otherTheme(s.Theme) }) },
	})
}

// askToHandIn hands in when it is asked for twice.
func (d *Desk) askToHandIn(g *Game) {
	if d.asked > 0 {
		d.handIn(g)
		return
	}
	d.asked = endAgain.Seconds()
	says := "Once more (F9) hands it in for good."
	if left := d.left(); len(left) > 0 {
		says = "Not done yet: " + left[0] + " " + says
	}
	g.sayWhile(says, func() bool { return d.asked > 0 })
}

// Update implements [Screen].
func (d *Desk) Update(g *Game) error {
	d.clerks.Pass(g.passed.Seconds(), g.budget())
	d.view = d.clerks.View()
	d.watch.takeRows()
	for _, t := range d.clerks.Tiles(20) {
		d.watch.chart.mosaic.Put(t)
	}
	if d.was != d.view.Carried {
		d.takePapers()
	}
	d.hearComplaint(g)
	if d.toSay != "" {
		g.say(d.toSay)
		d.toSay = ""
	}
	d.asked = max(d.asked-g.passed.Seconds(), 0)
	d.watch.journal.pass(g.passed, d.view)
	for _, s := range d.stations {
		s.work(g)
	}
	d.input(g)
	if !g.Typing() && d.state() != d.said {
		g.Rebuild()
	}
	return nil
}

// state is all that the controls show, to see whether it has changed.
func (d *Desk) state() string {
	return fmt.Sprint(d.was, d.over(), d.chooser != nil, d.station().state())
}

// hearComplaint says why an order was refused, until others are carried out.
func (d *Desk) hearComplaint(g *Game) {
	if d.view.Complaints == d.complaint {
		return
	}
	d.complaint = d.view.Complaints
	if d.chosen == newestContact { // it may be the mark that was refused
		d.fresh()
	}
	carried := d.view.Carried
	g.sayWhile(d.view.Complaint, func() bool { return d.view.Carried == carried })
}

// order gives an order of the desk.
func (d *Desk) order(o order.Command) { d.clerks.Give(o) }

// Foot implements [Screen].
func (d *Desk) Foot(*Game) Foot { return Foot{Pending: d.pendingSays()} }

// Late implements [Screen].
func (d *Desk) Late() bool { return false }

// Keep implements [Screen].
func (d *Desk) Keep() { d.watch.journal.keep() }

// UnderWay implements [Screen].
func (d *Desk) UnderWay() bool { return true }

// Close implements [Screen]: what is under way at the bench is called off. A watch left at the desk, or a
// desk left before it was handed in, can be resumed.
func (d *Desk) Close(g *Game) {
	for _, s := range d.stations {
		s.close()
	}
	if d.gone == toTheWatch {
		return
	}
	over := d.over()
	d.watch.Close(g)
	if !over || d.gone == handedOver {
		return
	}
	where := d.watch.journal.leave()
	if !g.Store.Files() {
		where = g.saveSession(d.clerks, watchName(d.clerks))
	}
	d.watch.chart.mosaic.Deallocate()
	if where != "" {
		g.sayThen("The session is kept in " + where + " and can be resumed at the desk")
	}
}

// Inspect implements [Screen].
func (d *Desk) Inspect() (string, map[string]Rect, any) {
	panes := map[string]Rect{"main": rect(d.main), "column": rect(d.column)}
	state := map[string]any{
		"exercise": d.brief.Name, "tick": d.view.Tick, "station": d.station().name(), "contacts": len(d.papers.Desk.Contacts), "lines": d.view.Lines,
		"pieces": len(d.papers.Desk.Review.Pieces), "worked": d.papers.Desk.Worked != nil, "over": d.over(), "carried": d.view.Carried,
		"added": len(d.view.Added),
	}
	d.station().inspect(panes, state)
	return "desk", panes, state
}
