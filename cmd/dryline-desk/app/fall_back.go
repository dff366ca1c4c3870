package app

import (
	"image"

	"dryline/cmd/dryline-desk/panes"

	"github.com/hajimehoshi/ebiten/v2"
)

// bygone are pictures of rows that the live ones no longer have: a ring by row, filled with the chunks
// that are looked at.
type bygone struct {
	pictures []*panes.Waterfall
	has      [panes.RingRows / chunkRows]int // which chunk each part of the ring has, from 1
}

// isBack reports whether rows are shown that the live pictures no longer have.
func (w *waterfall) isBack(r image.Rectangle) bool {
	return w.looking.scrolled+float64(r.Dy())/w.part(r).PerRow+1 > panes.RingRows
}

// fetch has the rows shown of bygone pictures in them.
func (w *waterfall) fetch() {
	r := w.shown()[0].r
	if !w.isBack(r) || r.Empty() {
		return
	}
	if w.bygone.pictures == nil {
		for range w.pictures {
			w.bygone.pictures = append(w.bygone.pictures, panes.NewWaterfall())
		}
	}
	newest := len(w.history) - 1 - int(w.looking.scrolled)
	oldest := max(newest-int(float64(r.Dy())/w.part(r).PerRow)-2, 0)
	for c := max(newest, 0) / chunkRows; c >= oldest/chunkRows; c-- {
		slot := c % len(w.bygone.has)
		if w.bygone.has[slot] == c+1 || c >= len(w.rows.chunks) {
			continue
		}
		w.bygone.has[slot] = c + 1
		for channel, p := range w.bygone.pictures {
			p.Fill(slot*chunkRows, chunkRows, func(i int) ([2][]uint8, [2][]uint8, float64) { return w.rows.row(c*chunkRows+i, channel) })
		}
	}
}

// picture draws a part of a channel's waterfall into a rectangle: of the live picture, or of one of rows
// gone by.
func (w *waterfall) picture(dst *ebiten.Image, r image.Rectangle, channel int, v panes.View, shade panes.Shade) {
	if !w.isBack(w.shown()[0].r) || w.bygone.pictures == nil {
		w.pictures[channel].Draw(dst, r, v, shade)
		return
	}
	// The newest row of this ring is the one at the top: ages are counted from it.
	top := max(len(w.history)-1-int(w.looking.scrolled), 0)
	v.Newest -= float64(int(w.looking.scrolled))
	w.bygone.pictures[channel].DrawFrom(dst, r, v, shade, top+1, top+1)
}

// lineStart scrolls to where the line before what is shown was begun, or the one after.
func (w *waterfall) lineStart(by int) {
	r := w.rect()
	rows := int(float64(r.Dy()) / w.part(r).PerRow)
	foot := len(w.history) - 1 - int(w.looking.scrolled) - rows + startsAt // row that a start is shown at
	for n := foot + by; n > 0 && n < len(w.history); n += by {
		if w.history[n].Line != "" && w.history[n-1].Line != w.history[n].Line {
			w.looking.scrolled = float64(len(w.history) - 1 - n - rows + startsAt)
			w.keepInside(r)
			return
		}
	}
	if by > 0 {
		w.live()
	}
}

// startsAt is how many rows over the foot of the pane the start of a line is shown.
const startsAt = 20
