//go:build !js

package main

import (
	"image"
	"testing"

	"github.com/hajimehoshi/ebiten/v2"
)

// Eighteen decibels less gain darken the record as it came in, and leave the
// levelled one about as bright as it was.
func TestGainIsSeenAsRecorded(t *testing.T) {
	d := openDesk(t, newHome(t), 1280, 720, "first-line")
	bright := func(name string) float64 {
		r := area(d.look().Panes["fall"])
		m := d.picture(name)
		// The newest rows, well away from nadir, under the lettering of the ranges.
		mean, _ := spread(m, image.Rect(r.Min.X+r.Dx()*6/10, r.Min.Y+24, r.Max.X-r.Dx()/10, r.Min.Y+70))
		return mean
	}
	more := func() {
		n := d.look().watch.Pings
		d.until("new rows", 6000, func(s *shown) bool { return s.watch.Pings > n+400 })
	}
	d.tap(ebiten.KeyEqual, ebiten.KeyEqual, ebiten.KeyEqual)
	more()
	levelled := bright("levelled")
	d.tap(ebiten.KeyA)
	recorded := bright("recorded")
	for range 6 {
		d.tap(ebiten.KeyBracketLeft)
		d.look()
	}
	more()
	less := bright("recorded, less gain")
	d.tap(ebiten.KeyA)
	again := bright("levelled, less gain")
	if less > 0.6*recorded {
		t.Errorf("as recorded: %.0f bright, with less gain %.0f; want much darker", recorded, less)
	}
	if again < 0.8*levelled || again > 1.25*levelled {
		t.Errorf("levelled: %.0f bright, with less gain %.0f; want about the same", levelled, again)
	}

	// With much more gain what is cut off is chequered, in the alarm colour and black, as recorded and levelled.
	chequered := func(name string) (share float64) {
		r := area(d.look().Panes["fall"])
		m := d.picture(name)
		n := 0
		at := image.Rect(r.Min.X+r.Dx()*6/10, r.Min.Y+24, r.Max.X-r.Dx()/10, r.Min.Y+70)
		for y := at.Min.Y; y < at.Max.Y; y++ {
			for x := at.Min.X; x < at.Max.X; x++ {
				if c := m.RGBAAt(x, y); int(c.R) > 2*int(c.G)+20 && int(c.R) > 2*int(c.B)+20 {
					n++
				}
			}
		}
		return float64(n) / float64(at.Dx()*at.Dy())
	}
	before := chequered("nothing cut off")
	for range 17 {
		d.tap(ebiten.KeyBracketRight)
		d.look()
	}
	more()
	levelled = chequered("cut off, levelled")
	d.tap(ebiten.KeyA)
	recorded = chequered("cut off, as recorded")
	if before > 0.01 || levelled < 0.15 || recorded < 0.15 || levelled > 0.6 {
		t.Errorf("%.3f of the picture is in the colour of what is cut off, with 51 dB more gain %.3f levelled and %.3f as recorded", before, levelled, recorded)
	}
}
