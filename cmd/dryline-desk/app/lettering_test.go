package app

import (
	"image"
	"slices"
	"strings"
	"testing"

	"dryline/cmd/dryline-desk/look"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/text/v2"
)

// lettering is one line as it was drawn.
type lettering struct {
	text string
	at   image.Rectangle
	clip image.Rectangle
}

func check(t *testing.T, g *Game, dst *ebiten.Image, where string) {
	t.Helper()
	var drawn []lettering
	look.Watcher = func(s string, at, clip image.Rectangle, face text.Face) {
		drawn = append(drawn, lettering{s, at, clip})
		if f, ok := face.(*text.GoTextFace); ok && f.Size < look.SmallSize*g.Look.Scale-0.51 {
			t.Errorf("%s: %q is %g pixels, want at least %g", where, s, f.Size, look.SmallSize*g.Look.Scale)
		}
	}
	g.skipped = true // the next frame is drawn, however late a busy machine is
	g.Draw(dst)
	look.Watcher = nil
	if g.help { // the overlay lies over everything, on purpose
		drawn = drawn[slices.IndexFunc(drawn, func(a lettering) bool { return a.text == "Keys" }):]
	}
	window := dst.Bounds()
	for i, a := range drawn {
		if strings.TrimSpace(a.text) == "" {
			continue
		}
		_, rolls := g.screen.(*Debrief) // its account is longer than its pane
		if _, desk := g.screen.(*Desk); desk {
			rolls = true // so are its reports
		}
		if !a.at.In(window) && !rolls {
			t.Errorf("%s: %q at %v reaches out of the window", where, a.text, a.at)
		}
		if cut := a.at.Intersect(a.clip); !cut.Empty() && (cut.Dx() < a.at.Dx() || !rolls && cut.Dy() < a.at.Dy()-3) {
			t.Errorf("%s: %q at %v is cut by its pane %v", where, a.text, a.at, a.clip)
		}
		for _, b := range drawn[:i] {
			if a.text != b.text && touching(a.at.Intersect(a.clip), b.at.Intersect(b.clip)) {
				t.Errorf("%s: %q at %v lies over %q at %v", where, a.text, a.at, b.text, b.at)
			}
		}
	}
	if g.help {
		return
	}
	var controls []lettering
	eachWidget(g.ui.Container, func(w widget.PreferredSizeLocateableWidget, label string) {
		at := w.GetWidget().Rect
		wide, tall := w.PreferredSize()
		if label == "" || strings.TrimSpace(label) == "" {
			return
		}
		if wide > at.Dx()+1 || tall > at.Dy()+1 {
			t.Errorf("%s: %q needs %dx%d and has %v", where, label, wide, tall, at)
		}
		if side, ok := g.screen.(*Duty); ok && at.Min.In(side.at.side) && !at.In(side.at.side) {
			t.Errorf("%s: %q at %v reaches out of the side panel %v", where, label, at, side.at.side)
		}
		if !at.In(window) {
			t.Errorf("%s: %q at %v reaches out of the window", where, label, at)
		}
		for _, c := range controls {
			if touching(at, c.at) {
				t.Errorf("%s: %q at %v lies over %q at %v", where, label, at, c.text, c.at)
			}
		}
		controls = append(controls, lettering{text: label, at: at})
	})
}

// touching reports two rectangles that share more than a hair.
func touching(a, b image.Rectangle) bool {
	in := a.Intersect(b)
	return in.Dx() > 2 && in.Dy() > 3
}

func eachWidget(c widget.Containerer, f func(w widget.PreferredSizeLocateableWidget, label string)) {
	box, ok := c.(*widget.Container)
	if !ok {
		return
	}
	for _, child := range box.Children() {
		switch w := child.(type) {
		case *widget.Button:
			f(w, w.Text().Label)
		case *widget.Text:
			f(w, w.Label)
		case *widget.TextInput:
			f(w, w.GetText())
		case *widget.Container:
			eachWidget(w, f)
		}
	}
}
