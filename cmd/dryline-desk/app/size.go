package app

import (
	"fmt"
	"image"
	"math"

	"dryline/cmd/dryline-desk/look"

	"github.com/ebitenui/ebitenui/widget"
)

// resizing is another size of everything that is asked for. It is made when the
// pointer has left the buttons that ask for it: with everything else they would
// move from under it, and the next click would go elsewhere.
type resizing struct {
	wanted  float64 // 0 for none
	buttons []*widget.Button
	says    *widget.Text
}

// sizeRow are the buttons for the size of everything, and what it is.
func sizeRow(g *Game) widget.PreferredSizeLocateableWidget {
	l, z := g.Look, &g.resizing
	ask := func(by float64) func() {
		return func() {
			now := z.wanted
			if now == 0 {
				now = min(g.Settings.Scale, g.largest())
			}
			z.wanted = min(max(math.Round(10*(now+by))/10, 0.8), g.largest())
			z.say(g)
		}
	}
	const does = "Size of text and controls. It changes when the pointer leaves the buttons."
	less, more := explained(g, l.Button("−", look.Plain, ask(-0.1)), does), explained(g, l.Button("+", look.Plain, ask(0.1)), does)
	z.buttons, z.says = []*widget.Button{less, more}, l.Reading("size 0.0, to come", l.Body, l.Ink)
	z.say(g)
	row := l.Row(0, 6, less, more, z.says)
	centred(row)
	return row
}

// largest is the largest size there is room for, in tenths.
func (g *Game) largest() float64 { return math.Floor(10*min(g.MostScale(), 3)) / 10 }

func (z *resizing) say(g *Game) {
	z.says.Label = fmt.Sprintf("size %.1f", min(g.Settings.Scale, g.largest()))
	if z.wanted != 0 {
		z.says.Label = fmt.Sprintf("size %.1f, to come", z.wanted)
	}
}

// settle makes the size that is asked for, unless the pointer is still on the
// buttons.
func (z *resizing) settle(g *Game, pointer image.Point) {
	if z.wanted == 0 {
		return
	}
	for _, b := range z.buttons {
		if pointer.In(b.GetWidget().Rect) {
			return
		}
	}
	scale := z.wanted
	z.wanted = 0
	g.Change(func(s *Settings) { s.Scale = scale })
}

// tooSmall says that the window is smaller than anything fits in, empty if it is not. The window system may
// hold no limits, as a browser does not.
func (g *Game) tooSmall() string {
	wide, tall := math.Round(float64(g.size.Dx())/g.device), math.Round(float64(g.size.Dy())/g.device)
	if wide >= LeastWide && tall >= LeastTall {
		return ""
	}
	return fmt.Sprintf("The window is %.0f by %.0f points, and the watch needs %d by %d: make it larger. Time stands still.", wide, tall, LeastWide, LeastTall)
}
