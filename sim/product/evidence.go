package product

import (
	"image"
	"image/color"

	"git.sr.ht/~sbinet/gg"

	"dryline/sim/debrief"
	"dryline/sim/remake"
	"dryline/sonar/mosaic"
)

// evidence are pictures for the debrief of every object on its best pass, and of what was
// reported and is nothing, from the record as it was levelled for the mosaic.
func (w *Writer) evidence(r *debrief.Report) ([]debrief.Picture, error) {
	if w.watch == nil {
		return nil, nil
	}
	var shots []remake.Shot
	var of []debrief.Evidence
	for _, e := range debrief.Evidences(w.session, w.witness, r) {
		if e.Line < 0 || e.Line >= len(w.watch.Lines) {
			continue
		}
		m, err := mosaic.New(2*e.Half/chipPixels, mosaic.Mean)
		if err != nil {
			return nil, err
		}
		shots, of = append(shots, remake.Shot{Line: e.Line, X: e.X, Y: e.Y, Half: e.Half, Into: m}), append(of, e)
	}
	if err := w.watch.Shots(shots); err != nil {
		return nil, err
	}
	chips := make([]*drawing, len(shots))
	for i := range shots {
		chips[i] = draw(func() *image.RGBA {
			img := chipOf(&shots[i])
			drawTruth(img, &of[i])
			return img
		})
	}
	var out []debrief.Picture
	for i, chip := range chips {
		png, err := chip.png()
		if err != nil {
			return nil, err
		}
		out = append(out, debrief.Picture{Title: of[i].Title, Caption: of[i].Caption, PNG: png, Small: true})
	}
	return out, nil
}

// drawTruth draws the outline of what lies there and a cross where it was marked, each
// dark on light so that it stands on any ground.
func drawTruth(img *image.RGBA, e *debrief.Evidence) {
	dc := gg.NewContextForRGBA(img)
	at := func(p [2]float64) (x, y float64) {
		return (p[0] - e.X + e.Half) / (2 * e.Half) * chipPixels, (e.Y + e.Half - p[1]) / (2 * e.Half) * chipPixels
	}
	twice := func(path func(), inner color.Color) {
		for _, s := range []struct {
			width float64
			c     color.Color
		}{{4, color.RGBA{0, 0, 0, 0xb0}}, {1.8, inner}} {
			path()
			dc.SetLineWidth(s.width)
			dc.SetColor(s.c)
			dc.Stroke()
		}
	}
	if len(e.Outline) > 0 {
		dc.SetDash(7, 4)
		twice(func() {
			for _, p := range e.Outline {
				dc.LineTo(at(p))
			}
			dc.ClosePath()
		}, color.RGBA{0x7d, 0xe0, 0x9a, 0xff})
		dc.SetDash()
	}
	if e.Mark != nil {
		x, y := at(*e.Mark)
		const arm = 9
		twice(func() {
			dc.DrawLine(x-arm, y, x+arm, y)
			dc.DrawLine(x, y-arm, x, y+arm)
		}, color.RGBA{0xff, 0xd1, 0x66, 0xff})
	}
}
