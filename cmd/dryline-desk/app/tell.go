package app

import (
	"encoding/json"
	"image"
	"os"

	"github.com/ebitenui/ebitenui/widget"
)

// Told is what the window shows, for tests and for those who cannot see it.
type Told struct {
	Screen  string          `json:"screen"`
	Size    [2]int          `json:"size"`
	Scale   float64         `json:"scale"`
	Notice  string          `json:"notice,omitempty"`
	Buttons []ToldControl   `json:"buttons"`
	State   any             `json:"state,omitempty"`
	Panes   map[string]Rect `json:"panes,omitempty"`
}

// ToldControl is one control with its lettering.
type ToldControl struct {
	Label string `json:"label"`
	At    Rect   `json:"at"`
}

// Rect is a rectangle in pixels: left, top, right, bottom.
type Rect [4]int

func rect(r image.Rectangle) Rect { return Rect{r.Min.X, r.Min.Y, r.Max.X, r.Max.Y} }

// teller is a screen that can say more of itself.
type teller interface {
	tell() (name string, panes map[string]Rect, state any)
}

// Tell is what the window shows now, as JSON.
func (g *Game) Tell() []byte {
	t := Told{Size: [2]int{g.size.Dx(), g.size.Dy()}, Scale: g.Look.Scale, Notice: g.Notice, Buttons: []ToldControl{}}
	if s, ok := g.screen.(teller); ok {
		t.Screen, t.Panes, t.State = s.tell()
	}
	if g.ui.Container != nil {
		eachControl(g.ui.Container, func(label string, r image.Rectangle) {
			t.Buttons = append(t.Buttons, ToldControl{label, rect(r)})
		})
	}
	out, err := json.Marshal(t)
	if err != nil {
		return []byte("{}")
	}
	return out
}

// eachControl calls f with every button and field of a tree.
func eachControl(c widget.Containerer, f func(label string, r image.Rectangle)) {
	box, ok := c.(interface {
		Children() []widget.PreferredSizeLocateableWidget
	})
	if !ok {
		return
	}
	for _, child := range box.Children() {
		switch w := child.(type) {
		case *widget.Button:
			f(w.Text().Label, w.GetWidget().Rect)
		case *widget.TextInput:
			f(w.GetText(), w.GetWidget().Rect)
		case widget.Containerer:
			eachControl(w, f)
		}
	}
}

// tellFile writes what is shown to the file, now and then.
func (g *Game) tellFile() {
	if g.TellTo == "" {
		return
	}
	g.told++
	if g.told%6 != 1 {
		return
	}
	name := g.TellTo + ".new"
	if os.WriteFile(name, g.Tell(), 0o644) == nil {
		os.Rename(name, g.TellTo)
	}
}
