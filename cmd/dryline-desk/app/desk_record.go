package app

import (
	"fmt"
	"image"
	"slices"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/look"
	"dryline/sim/order"
	"dryline/sim/survey"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// recordStation is where the lines are looked through one by one: the whole record of the one that is
// chosen, and its bottom track, which is put right here.
type recordStation struct {
	still
	desk  *Desk
	lines roster
	fall  lineFall
	mend  mending
	mark  marking
	task  *crew.Task[*crew.LineRows]
	of    string // what the rows shown, or coming, are of
	seek  uint64 // ping to be shown when its rows have come
}

func newRecordStation(d *Desk) *recordStation {
	s := &recordStation{desk: d}
	s.fall.looking.zoom = 1
	s.fall.channel = d.watch.fall.channel
	return s
}

func (s *recordStation) name() string { return "The record, by line" }
func (s *recordStation) about() string {
	return "Each line's record from end to end, and its bottom track, to be put right by hand."
}

func (s *recordStation) says() [2]string {
	p := s.desk.papers.Desk
	return [2]string{some(len(p.Lines), "run", "runs") + ", " + some(len(p.Review.Rejected), "rejected", "rejected"), some(len(p.Review.Pieces), "piece", "pieces") + " of bottom mended"}
}

// run is the run that is chosen, from 1.
func (s *recordStation) run() int { return s.lines.chosen + 1 }

// logged and standing are its record as it was logged and as it stands.
func (s *recordStation) logged() *survey.LineRecord { return s.desk.papers.Desk.Lines[s.lines.chosen] }

func (s *recordStation) fresh() {
	p := s.desk.papers.Desk
	s.lines.rows = s.lines.rows[:0]
	for i, r := range p.LatestLines() {
		head := fmt.Sprintf("%d. line %s", i+1, r.Name)
		says := some(len(r.Pings), "ping", "pings")
		switch _, rejected := p.Review.Rejected[i+1]; {
		case rejected:
			says = "rejected: " + p.Review.Rejected[i+1]
		case !p.Review.Paints(i + 1):
			says += ", not painted"
		case slices.ContainsFunc(p.Review.Pieces, func(b survey.BottomPiece) bool { return within(r, b.From) }):
			says += ", mended"
		}
		s.lines.rows = append(s.lines.rows, entryLine{head, says})
	}
	s.lines.chosen = max(min(s.lines.chosen, len(s.lines.rows)-1), 0)
}

func within(l *survey.LineRecord, ping uint64) bool {
	n := len(l.Pings)
	return n > 0 && ping >= l.Pings[0].Number && ping <= l.Pings[n-1].Number
}

// wants says which rows are to be shown.
func (s *recordStation) wants() string {
	return fmt.Sprintf("%d %d %p", s.run(), s.fall.channel, s.desk.papers.Desk.Worked)
}

func (s *recordStation) show(*Game) {
	s.ask()
	s.find()
}

// find shows the ping that is sought.
func (s *recordStation) find() {
	if s.seek == 0 || s.task != nil || s.fall.rows == nil {
		return
	}
	if i := indexOf(s.logged(), s.seek); i >= 0 {
		s.fall.inSight(i)
	}
	s.seek = 0
}

// ask has the rows of the chosen line made.
func (s *recordStation) ask() {
	if s.of == s.wants() || len(s.desk.papers.Desk.Lines) == 0 {
		return
	}
	if s.task != nil {
		s.task.Cancel()
	}
	if was := s.fall.rows; was == nil || was.Run != s.run() {
		s.mend, s.mark.from = mending{}, spot3{}
		s.fall.looking = looking{zoom: 1}
	}
	s.of = s.wants()
	s.task = s.desk.bench.LineRows(s.desk.papers, s.run(), s.fall.channel)
}

// work takes the rows in when they have come.
func (s *recordStation) work(g *Game) {
	if s.task == nil {
		return
	}
	rows, err, done := s.task.Came()
	if !done {
		return
	}
	s.task = nil
	if err != nil {
		s.fall.take(nil)
		g.say(err.Error())
		return
	}
	s.fall.take(rows)
	s.find()
	g.Rebuild()
}

// choose chooses a run.
func (s *recordStation) choose(g *Game, n int) {
	s.lines.choose(g.Look, n)
	s.ask()
	g.Rebuild()
}

func (s *recordStation) acts() []act {
	d := s.desk
	p := d.papers.Desk
	run := s.run()
	_, rejected := p.Review.Rejected[run]
	shown := !slices.Contains(p.Review.Hidden, run)
	nothing := len(p.Lines) == 0
	paint := "Do not paint it P"
	if !shown {
		paint = "Paint it P"
	}
	out := []act{
		{key: ebiten.KeyN, name: "N", help: "the next run, the one before", do: func(g *Game) { s.choose(g, s.lines.chosen+1) }},
		{key: ebiten.KeyB, name: "B", do: func(g *Game) { s.choose(g, s.lines.chosen-1) }},
		{key: ebiten.KeyA, name: "A", label: "As recorded A", emphasis: chosenIf(s.fall.asRecorded), help: "levelled, or as recorded",
			says: "The record as the gain recorded it, or levelled by what the line taught (A).", do: func(g *Game) { s.fall.asRecorded = !s.fall.asRecorded; g.Rebuild() }},
	}
	if len(d.brief.Sonar.Channels) > 1 {
		out = append(out, act{key: ebiten.KeyC, name: "C", label: "Channel C", help: "the next sonar channel", says: "The record of the sonar's next channel (C).",
			do: func(g *Game) {
				s.fall.channel = (s.fall.channel + 1) % len(d.brief.Sonar.Channels)
				s.ask()
				g.Rebuild()
			}})
	}
	out = append(out, s.mend.acts(s)...)
	out = append(out, s.mark.acts(s)...)
	return append(out,
		act{key: ebiten.KeyP, name: "P", label: paint, cannot: nothing, help: "paint this run in the mosaic, or not", says: "Whether this run is painted when the mosaic is made again (P). It still counts for coverage.",
			do: func(*Game) {
				v := 0.0
				if !shown {
					v = 1
				}
				d.order(order.Command{Do: order.ShowLine, Number: run, Value: v})
			}},
		act{key: ebiten.KeyY, name: "Y", label: "It counts again Y", cannot: nothing || !rejected, help: "a run that was rejected counts again", says: "A run that was rejected counts again (Y).",
			do: func(*Game) { d.order(order.Command{Do: order.RejectLine, Number: run}) }},
	)
}

func (s *recordStation) build(g *Game, r image.Rectangle, put func(widget.PreferredSizeLocateableWidget, image.Rectangle)) {
	l, d := g.Look, s.desk
	run := s.run()
	why := d.papers.Desk.Review.Rejected[run]
	reject := d.field(g, "reject it: why", why, "A run that is rejected counts for nothing: say why.", 150, func(says string) {
		if says != "" {
			d.order(order.Command{Do: order.RejectLine, Number: run, Reason: says})
		}
	})
	var typed []widget.PreferredSizeLocateableWidget
	typed = append(typed, s.mend.fields(g, s)...)
	typed = append(typed, reject)
	foot := l.Column(0, 4, flow(g, s.acts(), r.Dx()), centredRow(l.Row(0, 4, typed...)))
	r = underneath(g, r, put, foot)
	s.lines.at = image.Rect(r.Min.X, r.Min.Y, r.Min.X+min(l.Px(190), r.Dx()/4), r.Max.Y)
	s.fall.lay(l, image.Rect(s.lines.at.Max.X+l.Px(4), r.Min.Y, r.Max.X, r.Max.Y))
}

func (s *recordStation) state() string {
	return fmt.Sprint(s.lines.chosen, s.fall.asRecorded, s.fall.channel, s.mend.state(), s.mark.what, s.desk.chosen)
}

func (s *recordStation) input(g *Game, at image.Point, taken bool) {
	before := s.lines.chosen
	if s.lines.point(g, at, taken); s.lines.chosen != before {
		s.ask()
		g.Rebuild()
	}
	s.fall.input(at, taken)
	if s.fall.rows == nil {
		return
	}
	s.expect()
	if s.mark.what == noMark {
		if !taken {
			s.chooseContact(g, at)
		}
		s.mend.input(g, s, at, taken)
	} else {
		s.mark.input(g, s, at, taken)
	}
	s.mend.keys(g, s)
}

func (s *recordStation) draw(g *Game, dst *ebiten.Image) {
	l := g.Look
	s.lines.draw(dst, l)
	share, coming := 0.0, s.task != nil
	if coming {
		share = s.task.Share()
	}
	s.fall.draw(g, dst, s, coming, share)
}

func (s *recordStation) inspect(panes map[string]Rect, state map[string]any) {
	panes["record"], panes["lines"] = rect(s.fall.at), rect(s.lines.at)
	state["run"], state["mending"], state["marking"], state["contact"] = s.run(), s.mend.on, int(s.mark.what), s.desk.chosen
	if s.fall.rows != nil && s.task == nil {
		state["rows"] = len(s.fall.rows.Rows)
	}
}

func (s *recordStation) close() {
	if s.task != nil {
		s.task.Cancel()
	}
	s.fall.take(nil)
}

// bar draws how far something is.
func bar(dst *ebiten.Image, l *look.Look, at image.Rectangle, share float64, says string) {
	x, y := (at.Min.X+at.Max.X)/2, (at.Min.Y+at.Max.Y)/2
	half := min(l.Px(150), at.Dx()/2-l.Px(10))
	look.Write(dst, look.Fitted(says, l.Body, at.Dx()-l.Px(12)), l.Body, float64(x), float64(y)-look.Tall(l.Body)-float64(l.Px(8)), l.Ink, look.Middle)
	r := image.Rect(x-half, y, x+half, y+l.Px(12))
	look.Fill(dst, r, l.Sunk)
	r.Max.X = r.Min.X + int(share*float64(r.Dx()))
	look.Fill(dst, r, l.Accent)
	look.Write(dst, survey.Percent(100*share, 0)+" %", l.Small, float64(x), float64(y+l.Px(16)), l.Soft, look.Middle)
}
