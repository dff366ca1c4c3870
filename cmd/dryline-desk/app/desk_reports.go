package app

import (
	"encoding/csv"
	"fmt"
	"image"
	"strings"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/look"
	"dryline/sim/order"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// reportStation is where the reports are looked through before they are handed in.
type reportStation struct {
	still
	desk  *Desk
	text  roll
	page  int
	task  *crew.Task[*crew.Drawn]
	drawn *crew.Drawn
	log   [][]string
	of    int // orders they are of
	asked bool
	save  bool // as soon as they are drawn up afresh
}

var reportPages = []string{"Survey report", "Contacts", "Line log"}

func newReportStation(d *Desk) *reportStation { return &reportStation{desk: d} }

func (s *reportStation) name() string { return "Reports and line log" }
func (s *reportStation) about() string {
	return "The reports as they would be handed in now, to be read through, drawn up and saved."
}

func (s *reportStation) says() [2]string {
	if s.desk.papers.Desk.Report != nil {
		return [2]string{"drawn up", ""}
	}
	return [2]string{"not drawn up: nothing is", "handed in of them"}
}

func (s *reportStation) fresh() {}

func (s *reportStation) work(g *Game) {
	if s.task == nil && s.desk.station() == station(s) && (!s.asked || s.of != s.desk.was) {
		s.asked, s.of = true, s.desk.was
		s.task = s.desk.bench.Reports(s.desk.papers)
	}
	if s.task == nil {
		return
	}
	drawn, err, done := s.task.Came()
	if !done {
		return
	}
	s.task = nil
	if err != nil {
		g.say("The reports could not be drawn up: " + err.Error())
		return
	}
	s.drawn = drawn
	s.log, _ = csv.NewReader(strings.NewReader(string(drawn.Log))).ReadAll()
	if s.save && s.of == s.desk.was {
		s.save = false
		s.keep(g)
	}
	g.Rebuild()
}

func (s *reportStation) acts() []act {
	d := s.desk
	up := d.papers.Desk.Report != nil
	out := []act{}
	for i, name := range reportPages {
		a := act{key: []ebiten.Key{ebiten.KeyDigit1, ebiten.KeyDigit2, ebiten.KeyDigit3}[i], name: fmt.Sprint(i + 1), label: fmt.Sprintf("%s %d", name, i+1), emphasis: chosenIf(i == s.page), says: fmt.Sprintf("Read it (%d).", i+1), do: func(g *Game) { s.turn(g, i) }}
		if i == 0 {
			a.help = "survey report, contacts, line log"
		}
		out = append(out, a)
	}
	return append(out,
		act{key: ebiten.KeyU, name: "U", label: "Draw up U", emphasis: chosenIf(!up), help: "have the reports drawn up, to be handed in", says: "Have the reports drawn up: they are handed in with the survey (U). What goes over them is typed below.", do: func(*Game) {
			text := ""
			if r := d.papers.Desk.Report; r != nil {
				text = r.Text
			}
			d.order(order.Command{Do: order.DrawUp, Text: text})
		}},
		act{key: ebiten.KeyS, name: "S", label: "Save them S", cannot: s.drawn == nil, help: "save the reports as files", says: "Save the reports and the line log as files to look at elsewhere (S).", do: func(g *Game) {
			if s.of != d.was || s.task != nil {
				s.save = true
				return
			}
			s.keep(g)
		}},
	)
}

func (s *reportStation) turn(g *Game, page int) {
	s.page, s.text.scroll = page, 0
	g.Rebuild()
}

// keep saves the files of the reports.
func (s *reportStation) keep(g *Game) {
	where := ""
	for _, f := range s.drawn.Files {
		at, err := g.Store.Save(s.desk.clerks.Name()+"-"+f.Name, f.Content)
		if err != nil {
			g.say("The reports could not be saved: " + err.Error())
			return
		}
		if where == "" {
			where = at
		}
	}
	g.say(fmt.Sprintf("%s saved, the first as %s", some(len(s.drawn.Files), "file", "files"), where))
}

func (s *reportStation) state() string { return fmt.Sprint(s.page, s.drawn != nil) }

func (s *reportStation) build(g *Game, r image.Rectangle, put func(widget.PreferredSizeLocateableWidget, image.Rectangle)) {
	l, d := g.Look, s.desk
	now := ""
	if up := d.papers.Desk.Report; up != nil {
		now = up.Text
	}
	over := d.field(g, "what goes over the reports", now, "What goes over the reports, in a sentence or two. Enter draws them up with it.", float64(r.Dx())/l.Scale-150, func(says string) {
		d.order(order.Command{Do: order.DrawUp, Text: says})
	})
	row := centredRow(l.Row(0, 6, l.Label("Over the reports", l.Body, l.Ink, 0), over))
	s.text.at = underneath(g, r, put, l.Column(0, 4, flow(g, s.acts(), r.Dx()), row))
}

func (s *reportStation) input(g *Game, at image.Point, _ bool) {
	s.text.input(g, at)
	switch {
	case again(ebiten.KeyDown):
		s.text.scroll += 40 * g.Look.Scale
	case again(ebiten.KeyUp):
		s.text.scroll = max(s.text.scroll-40*g.Look.Scale, 0)
	}
}

func (s *reportStation) draw(g *Game, dst *ebiten.Image) {
	l := g.Look
	if s.drawn == nil {
		look.Fill(dst, s.text.at, l.Panel)
		if s.task != nil {
			bar(dst, l, s.text.at, s.task.Share(), "The reports are drawn up.")
		}
		return
	}
	s.text.draw(dst, l, func(t *sheet) {
		switch s.page {
		case 0:
			s.survey(t, s.drawn.Survey)
		case 1:
			s.contacts(t, s.drawn.Survey)
		default:
			s.lineLog(t)
		}
	})
}

func (s *reportStation) inspect(_ map[string]Rect, state map[string]any) {
	state["page"], state["drawn"], state["drawn_up"] = reportPages[s.page], s.drawn != nil, s.desk.papers.Desk.Report != nil
}

func (s *reportStation) close() {
	if s.task != nil {
		s.task.Cancel()
	}
}
