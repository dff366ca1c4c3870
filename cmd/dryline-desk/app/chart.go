package app

import (
	"fmt"
	"image"
	"math"

	"dryline/cmd/dryline-desk/panes"
	"dryline/seabed"
	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/survey"
)

// pathOf is a path as x and y in turn.
func pathOf(path []seabed.Point) (flat []float64) {
	for _, q := range path {
		flat = append(flat, q.X, q.Y)
	}
	return flat
}

// chart is the pane of the chart: the mosaic, what is known, and where the pane
// looks.
type chart struct {
	*post
	panes.Projection
	mosaic *panes.Mosaic
	plot   panes.Plot
	fitted image.Rectangle // the pane that the plan was fitted to, empty before it was
	placed bool            // the person has moved or zoomed it since, or it follows her
	follow bool
}

// lay gives the chart its pane, and fits the plan to it unless it was placed.
func (c *chart) lay(pane image.Rectangle) {
	c.Pane = pane
	if c.fitted.Empty() || !c.placed && c.fitted != pane {
		c.fit()
	}
}

// fit shows the whole plan.
func (c *chart) fit() {
	fitPlan(&c.Projection, c.brief, c.lines())
	c.placed, c.fitted = false, c.Pane
}

// fitPlan has a projection show lines, and a run-in and a range scale about them.
func fitPlan(p *panes.Projection, b *exercise.Brief, lines []exercise.Line) {
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, l := range lines {
		x0, y0 = min(x0, l.A.X, l.B.X), min(y0, l.A.Y, l.B.Y)
		x1, y1 = max(x1, l.A.X, l.B.X), max(y1, l.A.Y, l.B.Y)
	}
	reach := b.Sonar.RangeScale + b.Plan.RunIn
	p.Fit(x0-reach, y0-reach, x1+reach, y1+reach)
}

// zoom zooms about a pixel.
func (c *chart) zoom(factor float64, at image.Point) {
	c.Zoom(factor, float64(at.X), float64(at.Y))
	c.placed = true
}

// move moves the chart by pixels.
func (c *chart) move(by image.Point) {
	c.X -= float64(by.X) / c.PerM
	c.Y += float64(by.Y) / c.PerM
	c.follow, c.placed = false, true
}

// spotAt is the contact under a pixel, 0 for none.
func (c *chart) spotAt(at image.Point) int {
	for _, k := range c.view.Contacts {
		x, y := c.At(k.X, k.Y)
		if math.Hypot(x-float64(at.X), y-float64(at.Y)) < 10 {
			return k.Number
		}
	}
	return 0
}

// point shows the figures of the place under a pixel, or none.
func (c *chart) point(at image.Point, on bool) {
	c.plot.CursorOn = on
	if on {
		e, n := c.brief.Place.Grid.ToUTM(c.Ground(float64(at.X), float64(at.Y)))
		c.plot.FigureOfCursor = fmt.Sprintf("%.1f E  %.1f N", e, n)
	}
}

// fill puts on the chart what is known, with a contact chosen. She does not leave it
// unseen, unless the person holds it.
func (c *chart) fill(chosen int, held bool) {
	v := c.view
	p := &c.plot
	c.fillBrief()
	c.fillTracks()
	p.X, p.Y, p.Heading = v.Reading.X, v.Reading.Y, float64(v.Reading.GridHeading())
	p.FishX, p.FishY, p.FishHeading = v.Fix.X, v.Fix.Y, v.Fix.Heading
	p.Swath = survey.GroundReach(v.Recorder.RangeScale, v.Height)
	p.Spots = p.Spots[:0]
	for _, k := range v.Contacts {
		p.Spots = append(p.Spots, panes.Spot{X: k.X, Y: k.Y, Label: contactName(k), Chosen: k.Number == chosen})
	}
	c.fillWater()
	c.fillUnseen()
	p.TruthShown = v.Scene != nil
	if t := v.Scene; t != nil {
		p.TrueX, p.TrueY = t.FishX, t.FishY
	}
	x, y := c.At(p.X, p.Y)
	if !c.Pane.Empty() && !held && !image.Pt(int(x), int(y)).In(c.Pane.Inset(-8)) {
		c.follow = true
	}
	if c.follow {
		c.placed = true
		c.X, c.Y = (p.X+p.FishX)/2, (p.Y+p.FishY)/2
	}
}

// fillBrief puts on the chart what the brief has, and how its lines stand.
func (c *chart) fillBrief() {
	v, b, p := c.view, c.brief, &c.plot
	p.East, p.North = b.East, b.North
	p.GridEast, p.GridNorth = b.Place.Grid.ToUTM(0, 0)
	p.Length, p.Beam = b.Vessel.Length, b.Vessel.Beam
	p.Charted, p.Pipelines = charted(b, p.Charted[:0], p.Pipelines[:0])
	steering := v.Bridge.Steering
	p.Lines = p.Lines[:0]
	for _, l := range c.lines() {
		p.Lines = append(p.Lines, panes.Line{
			Name: l.Name, AX: l.A.X, AY: l.A.Y, BX: l.B.X, BY: l.B.Y,
			Steered: (steering.Do == order.SteerLine || steering.Do == order.Turn) && steering.Line == l.Name,
			Logged:  v.Shares[l.Name] >= survey.Whole, Logging: v.Bridge.Logging == l.Name,
		})
	}
}

// fillUnseen hatches what was passed and not seen so far, and says how much it is.
func (c *chart) fillUnseen() {
	p := &c.plot
	p.Unseen, p.UnseenSays = nil, ""
	if u := c.view.Unseen; u != nil && u.Holidays > 0 {
		p.Unseen = u.Rows
		p.UnseenSays = fmt.Sprintf("hatched: passed, not seen, %.0f m²", u.SquareMetres)
	}
}

// charted adds what the brief has charted to things at a place and to pipelines.
func charted(b *exercise.Brief, known []panes.Known, pipelines []panes.Run) ([]panes.Known, []panes.Run) {
	for i := range b.Charted {
		if o := &b.Charted[i]; o.Pipeline() {
			pipelines = append(pipelines, panes.Run{Name: o.Name, Path: pathOf(o.Path)})
		} else {
			known = append(known, panes.Known{X: o.Path[0].X, Y: o.Path[0].Y, Name: o.Name})
		}
	}
	return known, pipelines
}

// fillTracks adds to the tracks what is new of them, and has the way of a turn.
func (c *chart) fillTracks() {
	v, p := c.view, &c.plot
	for i := len(p.Vessel) / 2; i < len(v.Track); i++ {
		f := v.Track[i].Fix
		p.Vessel = append(p.Vessel, f.VesselX, f.VesselY)
		p.Fish = append(p.Fish, f.X, f.Y)
		if v.Track[i].Line != "" {
			p.Looks = append(p.Looks, panes.Look{X: f.X, Y: f.Y, Heading: f.Heading})
		}
	}
	p.Way = p.Way[:0]
	for _, at := range v.Bridge.Way {
		p.Way = append(p.Way, at[0], at[1])
	}
}
