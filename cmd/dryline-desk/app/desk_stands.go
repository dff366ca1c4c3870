package app

import (
	"fmt"
	"image"
	"strconv"

	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/order"
	"dryline/sim/survey"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// standsStation says how the survey stands and what is left to do, and takes remarks.
type standsStation struct {
	still
	desk *Desk
	roll roll
	view panes.Projection
}

func newStandsStation(d *Desk) *standsStation { return &standsStation{desk: d} }

func (s *standsStation) name() string { return "How it stands" }
func (s *standsStation) about() string {
	return "What was logged, what was made of it so far, and what is left to do."
}

func (s *standsStation) says() [2]string {
	left := len(s.desk.left())
	if left == 0 {
		return [2]string{"nothing left that the", "desk could name"}
	}
	return [2]string{some(left, "thing", "things") + " left to do", "before it is handed in"}
}

func (s *standsStation) acts() []act { return nil }

// left says, in sentences, what a survey that is handed in should have had done to it.
func (d *Desk) left() []string {
	p := d.papers.Desk
	var out []string
	open := 0
	for i := range p.Contacts {
		if p.Contacts[i].Action == "" {
			open++
		}
	}
	if open > 0 {
		out = append(out, fmt.Sprintf("%s: say what comes of them.", some(open, "contact is undecided", "contacts are undecided")))
	}
	if p.Worked == nil && touched(&p.Review) || p.Worked != nil && !sameReview(&p.Worked.Review, &p.Review) {
		out = append(out, "Something was changed since the survey was last worked up: make the mosaic again and let it stand.")
	}
	doubtful := 0
	for i, l := range p.LatestLines() {
		if _, rejected := p.Review.Rejected[i+1]; !rejected && poorBottom(l) {
			doubtful++
		}
	}
	if doubtful > 0 {
		out = append(out, some(doubtful, "line has", "lines have")+" pings without a bottom: look through the record.")
	}
	if p.Report == nil {
		out = append(out, "No reports are drawn up.")
	}
	return out
}

// poorBottom reports a line on which the bottom was lost for more than a twentieth: our own choice.
func poorBottom(l *survey.LineRecord) bool {
	lost := 0
	for i := range l.Pings {
		if !l.Pings[i].Locked {
			lost++
		}
	}
	return 20*lost > len(l.Pings)
}

// touched reports a review that asks for anything. A line that was rejected counts at once.
func touched(r *survey.Review) bool {
	bare := r.Clone()
	bare.Rejected, bare.Errors = nil, nil
	return asks(&bare) != asks(&survey.Review{})
}

// sameReview reports two reviews by which a survey stands alike.
func sameReview(a, b *survey.Review) bool { return asks(a) == asks(b) }

// asks returns what a review asks for, to compare.
func asks(r *survey.Review) string {
	return fmt.Sprint(len(r.Knobs), r.Knobs, r.Position, r.Swath, r.Combine, r.Levelling, r.Channel, len(r.Hidden), r.Hidden, len(r.Rejected), r.Rejected, r.BottomBy, len(r.Pieces), r.Pieces)
}

func (s *standsStation) fresh() {}

func (s *standsStation) build(g *Game, r image.Rectangle, put func(widget.PreferredSizeLocateableWidget, image.Rectangle)) {
	l, d := g.Look, s.desk
	r = r.Inset(l.Px(4))
	wide := float64(r.Dx())/l.Scale - 280
	remark := d.field(g, "a remark for the log", "", "A remark goes into the log with the time.", wide, func(says string) {
		if says != "" {
			d.order(order.Command{Do: order.Remark, Text: says})
		}
	})
	sea := d.field(g, "0 to 9", "", "The state of the sea goes into the log, 0 to 9.", 60, d.typedNumber(g, func(v float64) {
		d.order(order.Command{Do: order.SeaState, Number: int(v)})
	}))
	row := l.Row(0, 8, l.Label("Remark", l.Body, l.Ink, 0), remark, l.Label("Sea state", l.Body, l.Ink, 0), sea)
	centred(row)
	r = underneath(g, r, put, row)
	s.roll.at = r
	s.roll.at.Max.X = r.Min.X + r.Dx()/2
	s.view.Pane = image.Rect(s.roll.at.Max.X+l.Px(4), r.Min.Y, r.Max.X, r.Max.Y)
	d.fit(&s.view)
}

func (s *standsStation) input(g *Game, at image.Point, _ bool) { s.roll.input(g, at) }

func (s *standsStation) draw(g *Game, dst *ebiten.Image) {
	d := s.desk
	p := d.papers.Desk
	l := g.Look
	plot := d.plot()
	for i := range p.Contacts {
		c := &p.Contacts[i]
		plot.Spots = append(plot.Spots, panes.Spot{X: c.X, Y: c.Y, Label: contactName(*c)})
	}
	panes.Chart(dst, &s.view, d.watch.chart.mosaic, g.chartShade(d.watch.fall.brightness, d.watch.chart.mosaic), l, &plot)
	s.roll.draw(dst, l, func(t *sheet) {
		t.line("What was logged", l.Strong, l.Ink)
		for i, r := range p.LatestLines() {
			t.paragraph(runSays(p, i, r), l.Ink)
		}
		t.gap(8)
		t.line("What was made of it", l.Strong, l.Ink)
		switch {
		case p.Worked == nil:
			t.paragraph("The survey stands as in the watch.", l.Ink)
		default:
			t.paragraph("The survey was worked up again, and stands so.", l.Ink)
		}
		t.paragraph(sentence(fmt.Sprintf("%s on the list; %s of the bottom track put right by hand.", someOrNo(len(p.Contacts), "contact", "contacts"), someOrNo(len(p.Review.Pieces), "piece", "pieces"))), l.Ink)
		t.gap(8)
		t.line("What is left", l.Strong, l.Ink)
		left := d.left()
		if len(left) == 0 {
			t.paragraph("Nothing that the desk could name. Whether it is good enough is for you to say.", l.Ink)
		}
		for _, says := range left {
			t.paragraph(says, l.Ink)
		}
		t.gap(8)
		t.line("In the log", l.Strong, l.Ink)
		for _, e := range p.Remarks {
			t.paragraph(d.brief.Start.Add(seconds(e.Time)).Format("15:04:05")+"  "+e.Text, l.Ink)
		}
		if len(p.Remarks) == 0 {
			t.paragraph("No remarks.", l.Soft)
		}
		t.gap(8)
		says := "The watch is over: nothing sails any more, and lines can no longer be added. Hand in when you are done (F9, twice)."
		if !d.over() {
			says = "The watch is still open. Lines that are added here are there to be run when you go back to it (D); it is handed in when the watch is over."
		}
		t.paragraph(says, l.Soft)
		t.paragraph("Training aid with synthetic data. Not for navigation; what is not listed may still lie there.", l.Soft)
	})
}

// runSays is a run of a line in a sentence.
func runSays(p *survey.Desk, i int, r *survey.LineRecord) string {
	says := fmt.Sprintf("Run %d, line %s: ", i+1, r.Name)
	if len(r.Pings) == 0 {
		return says + "no pings."
	}
	from, to := r.Span()
	says += fmt.Sprintf("%.0f m in %s", to-from, some(len(r.Pings), "ping", "pings"))
	lost := 0
	for k := range r.Pings {
		if !r.Pings[k].Locked {
			lost++
		}
	}
	if lost > 0 {
		says += fmt.Sprintf(", the bottom not found in %d", lost)
	}
	if why, rejected := p.Review.Rejected[i+1]; rejected {
		return says + "; it counts for nothing: " + why + "."
	}
	if !p.Review.Paints(i + 1) {
		says += "; not painted"
	}
	return says + "."
}

// some counts things.
func some(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + more
}

// someOrNo counts things, beginning a sentence or not.
func someOrNo(n int, one, more string) string {
	if n == 0 {
		return "no " + more
	}
	return some(n, one, more)
}
