package look

import (
	"image/color"

	eimage "github.com/ebitenui/ebitenui/image"
	"github.com/ebitenui/ebitenui/widget"
)

// Card returns a button as large as a card, whose title stands at the top, so many pixels
// from its left edge; the rest is for others to draw. The card that is chosen has a broad
// frame.
func (l *Look) Card(title string, inset int, chosen bool, do func()) *widget.Button {
	edge, rule := max(l.Px(1), 1), l.Rule
	if chosen {
		edge, rule = CardFrame(l), l.Accent
	}
	face := func(fill, rule color.Color) *eimage.NineSlice {
		return eimage.NewBorderedNineSliceColor(fill, rule, edge)
	}
	return widget.NewButton(
		widget.ButtonOpts.Image(&widget.ButtonImage{Idle: face(l.Raised, rule), Hover: face(l.Warm, rule), Pressed: face(l.Warm, l.Ink), Disabled: face(l.Panel, l.Rule)}),
		widget.ButtonOpts.Text(title, handle(l.Strong), &widget.ButtonTextColor{Idle: l.Ink, Disabled: l.Soft}),
		widget.ButtonOpts.TextPosition(widget.TextPositionStart, widget.TextPositionStart),
		widget.ButtonOpts.TextPadding(&widget.Insets{Left: inset, Right: l.Px(4), Top: l.Px(7)}),
		widget.ButtonOpts.ClickedHandler(func(*widget.ButtonClickedEventArgs) { do() }),
		widget.ButtonOpts.DisableDefaultKeys(),
		widget.ButtonOpts.TabOrder(-1),
	)
}

// CardFrame is how broad the frame of a chosen card is, pixels.
func CardFrame(l *Look) int { return max(l.Px(4), 2) }
