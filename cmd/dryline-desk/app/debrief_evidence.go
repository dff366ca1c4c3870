package app

import (
	"bytes"
	"image"
	_ "image/png" // what the pictures are
	"slices"

	"dryline/sim/debrief"

	"github.com/hajimehoshi/ebiten/v2"
)

// evidence are pictures of the objects on the record, beside the words on them. They
// are cut from the record when somebody turns to the objects, on a thread of its own;
// where there is none there are no pictures.
type evidence struct {
	making chan []debrief.Picture
	shown  []exhibit
}

// exhibit is a picture of one object, by its name.
type exhibit struct {
	name string
	img  *ebiten.Image
}

// askFor has the pictures made, once.
func (e *evidence) askFor(g *Game, d *Debrief) {
	if !g.Apart || e.making != nil {
		return
	}
	making := make(chan []debrief.Picture, 1)
	e.making = making
	d.cutting = true
	report := d.report
	go func() {
		pictures, err := d.crew.Evidence(&report)
		if err != nil {
			pictures = nil // the words stand without
		}
		making <- pictures
	}()
}

// take takes the pictures in that have been made, and reports whether they are.
func (e *evidence) take() bool {
	select {
	case pictures := <-e.making:
		for _, p := range pictures {
			if m, _, err := image.Decode(bytes.NewReader(p.PNG)); err == nil {
				e.shown = append(e.shown, exhibit{p.Title, ebiten.NewImageFromImage(m)})
			}
		}
		return true
	default:
		return false
	}
}

// of is the picture of an object, nil if there is none.
func (e *evidence) of(name string) *ebiten.Image {
	if i := slices.IndexFunc(e.shown, func(x exhibit) bool { return x.name == name }); i >= 0 {
		return e.shown[i].img
	}
	return nil
}

// letGo gives the pictures back.
func (e *evidence) letGo() {
	for _, x := range e.shown {
		x.img.Deallocate()
	}
	e.shown = nil
}

// picture lays a picture at the left of the page.
func (s *sheet) picture(m *ebiten.Image) {
	side := float64(s.l.Px(132))
	scale := side / float64(m.Bounds().Dx())
	var o ebiten.DrawImageOptions
	o.GeoM.Scale(scale, scale)
	o.GeoM.Translate(s.x, s.y)
	o.Filter = ebiten.FilterLinear
	s.pane.DrawImage(m, &o)
	s.y += side + float64(s.l.Px(4))
}
