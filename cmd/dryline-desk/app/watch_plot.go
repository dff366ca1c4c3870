package app

import (
	"image"

	"dryline/cmd/dryline-desk/panes"
	"dryline/seabed"
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

// fillPlot puts on the chart what is known.
func (w *Watch) fillPlot() {
	v, ex := w.view, w.exercise
	p := &w.plot
	p.East, p.North = ex.Seabed.East, ex.Seabed.North
	p.GridEast, p.GridNorth = ex.Place.Grid.ToUTM(0, 0)
	p.Charted = p.Charted[:0]
	for _, o := range ex.Seabed.Objects {
		if o.Charted {
			p.Charted = append(p.Charted, o.At.X, o.At.Y)
		}
	}
	p.Pipelines = p.Pipelines[:0]
	for _, pipe := range ex.Seabed.Pipelines {
		if pipe.Charted {
			p.Pipelines = append(p.Pipelines, panes.Run{Name: pipe.Name, Path: pathOf(pipe.Path)})
		}
	}
	steering := v.Bridge.Steering
	p.Lines = p.Lines[:0]
	for _, l := range ex.Lines {
		p.Lines = append(p.Lines, panes.Line{
			Name: l.Name, AX: l.A.X, AY: l.A.Y, BX: l.B.X, BY: l.B.Y,
			Steered: (steering.Do == order.SteerLine || steering.Do == order.Turn) && steering.Line == l.Name,
			Logged:  v.Shares[l.Name] >= survey.Whole, Logging: v.Bridge.Logging == l.Name,
		})
	}
	// Tracks grow; only what is new is added.
	for i := len(p.Vessel) / 2; i < len(v.Track); i++ {
		f := v.Track[i].Fix
		p.Vessel = append(p.Vessel, f.VesselX, f.VesselY)
		p.Fish = append(p.Fish, f.X, f.Y)
	}
	p.X, p.Y, p.Heading = v.Reading.X, v.Reading.Y, float64(v.Reading.GridHeading())
	p.Length, p.Beam = ex.Vessel.Length, ex.Vessel.Beam
	p.FishX, p.FishY, p.FishHeading = v.Fix.X, v.Fix.Y, v.Fix.Heading
	p.Swath = survey.GroundReach(v.Recorder.RangeScale, v.Height)
	p.Way = p.Way[:0]
	for _, at := range v.Bridge.Way {
		p.Way = append(p.Way, at[0], at[1])
	}
	p.Spots = p.Spots[:0]
	for _, c := range v.Contacts {
		p.Spots = append(p.Spots, panes.Spot{X: c.X, Y: c.Y, Label: contactName(c), Chosen: c.Number == w.chosen})
	}
	p.TruthShown = v.Scene != nil
	if t := v.Scene; t != nil {
		p.TrueX, p.TrueY = t.FishX, t.FishY
	}
	// She must not leave the chart unseen.
	x, y := w.chart.At(p.X, p.Y)
	if !w.at.chart.Empty() && w.drag.what == nothing && !image.Pt(int(x), int(y)).In(w.at.chart.Inset(-8)) {
		w.follow = true
	}
	if w.follow {
		w.placed = true
		w.chart.X, w.chart.Y = (p.X+p.FishX)/2, (p.Y+p.FishY)/2
	}
}
