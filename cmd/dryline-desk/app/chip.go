package app

import (
	"image/color"
	"math"

	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/survey"

	"github.com/hajimehoshi/ebiten/v2"
)

// chip is the contact chosen, cut from the waterfall: square ground of so many metres about it, the newest ping
// at the top and port to the left, as there.
type chip struct {
	picture *ebiten.Image // nil where the contact is on no row
	of      chipOf
}

// chipOf says what a chip shows: it is made anew when that changes.
type chipOf struct {
	contact    int
	ping       uint64
	eights     int // of rows after the contact, as far as they are shown
	channel    int
	side       int // pixels
	asRecorded bool
	shade      panes.Shade
}

const (
	chipSide  = 104  // points
	chipReach = 12.0 // metres to each side of the contact
)

// follow makes the chip of a contact, so many pixels wide, if it is not there yet.
func (k *chip) follow(w *waterfall, c *survey.Contact, side int, shade panes.Shade) {
	n, ok := w.indexOf(c.Ping)
	if !ok || n == 0 {
		k.picture = nil
		k.of = chipOf{}
		return
	}
	a, b := &w.history[n-1], &w.history[n]
	along := max(b.Fix.Speed*(b.Fix.Time-a.Fix.Time), 0.01) // metres a row
	half := int(math.Ceil(chipReach / along))
	want := chipOf{c.Number, c.Ping, min(w.rows.rows-1-n, half) / 8, w.channel, side, w.asRecorded, shade}
	if k.picture != nil && k.of == want {
		return
	}
	k.of = want
	if k.picture == nil || k.picture.Bounds().Dx() != side {
		k.picture = ebiten.NewImage(side, side)
	}
	k.picture.WritePixels(w.cut(c, n, along, side, shade.Table()))
}

// cut are the pixels of a chip, so many a side, about a contact in row n, where a row is so many metres along.
func (w *waterfall) cut(c *survey.Contact, n int, along float64, side int, colours [256]color.RGBA) []byte {
	bin := w.history[n].RangeScale / panes.RowBins
	middle := math.Hypot(c.Range, c.Altitude) / bin
	beam := 0
	if c.Side == "starboard" {
		beam = 1
	}
	pixels := make([]byte, 4*side*side)
	step := 2 * chipReach / float64(side) // metres a pixel
	for y := range side {
		up := (float64(side)/2 - float64(y) - 0.5) * step // metres ahead of the contact
		at := n + int(math.Round(up/along))
		if at < 0 || at >= w.rows.rows {
			continue
		}
		levelled, plain, _ := w.rows.row(at, w.channel)
		row := levelled[beam]
		if w.asRecorded {
			row = plain[beam]
		}
		for x := range side {
			out := (float64(x) - float64(side)/2) * step // metres to the right
			if beam == 0 {
				out = -out - step
			}
			from := middle + out/bin
			sum, heard := 0, 0
			for i := max(int(from), 0); i < len(row) && float64(i) < max(from+step/bin, math.Floor(from)+1); i++ {
				if row[i] > 0 {
					sum, heard = sum+int(row[i]), heard+1
				}
			}
			if heard == 0 {
				continue
			}
			q := colours[sum/heard]
			o := 4 * (y*side + x)
			pixels[o], pixels[o+1], pixels[o+2], pixels[o+3] = q.R, q.G, q.B, q.A
		}
	}
	return pixels
}
