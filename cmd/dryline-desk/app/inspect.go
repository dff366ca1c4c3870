package app

import (
	"encoding/json"
	"image"
	"os"
	"strings"

	"github.com/ebitenui/ebitenui/widget"
)

// Inspection tells what the window shows, to tests and to those who cannot see it.
type Inspection struct {
	Screen  string          `json:"screen"`
	Size    [2]int          `json:"size"`
	Scale   float64         `json:"scale"`
	Notice  string          `json:"notice,omitempty"`
	Buttons []Control       `json:"buttons"`
	Keys    []Control       `json:"keys,omitempty"` // of the overlay, that can be tapped
	State   any             `json:"state,omitempty"`
	Panes   map[string]Rect `json:"panes,omitempty"`
}

// Control is one button or field with its lettering.
type Control struct {
	Label string `json:"label"`
	At    Rect   `json:"at"`
}

// Rect is a rectangle in pixels: left, top, right, bottom.
type Rect [4]int

func rect(r image.Rectangle) Rect { return Rect{r.Min.X, r.Min.Y, r.Max.X, r.Max.Y} }

// Inspect tells what the window shows now, as JSON.
func (g *Game) Inspect() []byte {
	t := Inspection{Size: [2]int{g.size.Dx(), g.size.Dy()}, Scale: g.Look.Scale, Notice: g.Notice, Buttons: []Control{}}
	if g.screen != nil {
		t.Screen, t.Panes, t.State = g.screen.Inspect()
	}
	if g.ui.Container != nil {
		eachControl(g.ui.Container, func(label string, r image.Rectangle) {
			t.Buttons = append(t.Buttons, Control{label, rect(r)})
		})
	}
	if g.help {
		for _, k := range g.keyTaps {
			t.Keys = append(t.Keys, Control{k.name, rect(k.at)})
		}
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
			f(strings.ReplaceAll(w.Text().Label, "\n", " "), w.GetWidget().Rect)
		case *widget.TextInput:
			f(w.GetText(), w.GetWidget().Rect)
		case widget.Containerer:
			eachControl(w, f)
		}
	}
}

// inspectToFile writes what is shown to the file, now and then.
func (g *Game) inspectToFile() {
	if g.InspectTo == "" {
		return
	}
	g.updates++
	if g.updates%6 != 1 {
		return
	}
	name := g.InspectTo + ".new"
	if os.WriteFile(name, g.Inspect(), 0o644) == nil {
		os.Rename(name, g.InspectTo)
	}
}
