package app

import (
	"math"

	"dryline/cmd/dryline-desk/panes"
)

// fit has a projection show the lines and what was seen from them.
func (d *Desk) fit(p *panes.Projection) {
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, l := range d.lines() {
		x0, y0 = min(x0, l.A.X, l.B.X), min(y0, l.A.Y, l.B.Y)
		x1, y1 = max(x1, l.A.X, l.B.X), max(y1, l.A.Y, l.B.Y)
	}
	reach := 1.15 * d.view.Recorder.RangeScale
	p.Fit(x0-reach, y0-reach, x1+reach, y1+reach)
}

// plot gives what the desk's charts show over a mosaic: the plan, and the fish's track as it stands.
func (d *Desk) plot() panes.Plot {
	w := d.watch
	w.chart.fillBrief()
	p := w.chart.plot
	p.Spots, p.Measure, p.Way, p.Ships, p.Buoys, p.Vessel, p.Fish = nil, nil, nil, nil, nil, nil, nil
	p.Unseen, p.Looks = nil, nil
	p.CursorOn, p.TruthShown, p.Swath, p.NoCraft = false, false, 0, true
	return p
}
