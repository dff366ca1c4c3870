package look

import (
	"image/color"

	eimage "github.com/ebitenui/ebitenui/image"
	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2/text/v2"
)

// Emphasis is how a button asks to be seen.
type Emphasis int

// The emphases.
const (
	Plain  Emphasis = iota
	Chosen          // what is on, or the next thing to do
	Urgent          // what cannot be undone, or is wrong
)

// Face of a control's lettering, as ebitenui takes it.
func handle(f text.Face) *text.Face { return &f }

// Button returns a button. Its keyboard key, if it has one, stands behind its
// label.
func (l *Look) Button(label string, e Emphasis, do func()) *widget.Button {
	ink := l.buttonInk(e)
	b := widget.NewButton(
		widget.ButtonOpts.Image(l.buttonImage(e)),
		widget.ButtonOpts.Text(label, handle(l.Body), ink),
		widget.ButtonOpts.WidgetOpts(widget.WidgetOpts.CustomData(ink)),
		widget.ButtonOpts.TextPadding(&widget.Insets{Left: l.Px(10), Right: l.Px(10), Top: l.Px(5), Bottom: l.Px(5)}),
		widget.ButtonOpts.ClickedHandler(func(*widget.ButtonClickedEventArgs) { do() }),
		widget.ButtonOpts.DisableDefaultKeys(), // space and enter are the watch's
		widget.ButtonOpts.TabOrder(-1),
	)
	return b
}

// Hold returns a button that does something for as long as it is held: begin
// when it goes down, end when it comes up.
func (l *Look) Hold(label string, begin, end func()) *widget.Button {
	return widget.NewButton(
		widget.ButtonOpts.Image(l.buttonImage(Plain)),
		widget.ButtonOpts.Text(label, handle(l.Body), l.buttonInk(Plain)),
		widget.ButtonOpts.TextPadding(&widget.Insets{Left: l.Px(10), Right: l.Px(10), Top: l.Px(5), Bottom: l.Px(5)}),
		widget.ButtonOpts.PressedHandler(func(*widget.ButtonPressedEventArgs) { begin() }),
		widget.ButtonOpts.ReleasedHandler(func(*widget.ButtonReleasedEventArgs) { end() }),
		widget.ButtonOpts.DisableDefaultKeys(),
		widget.ButtonOpts.TabOrder(-1),
	)
}

// Emphasise changes the emphasis of a button in place. Whenever it is drawn a button
// takes its lettering's colours from where it was first told them, so they are
// changed there.
func (l *Look) Emphasise(b *widget.Button, e Emphasis) {
	b.SetImage(l.buttonImage(e))
	if ink, ok := b.GetWidget().CustomData.(*widget.ButtonTextColor); ok {
		*ink = *l.buttonInk(e)
		if t := b.Text(); t != nil { // it has been laid out
			t.SetColor(ink.Idle)
		}
	}
}

func (l *Look) buttonImage(e Emphasis) *widget.ButtonImage {
	edge := max(l.Px(1), 1)
	face := func(fill, rule color.Color) *eimage.NineSlice {
		return eimage.NewBorderedNineSliceColor(fill, rule, edge)
	}
	off := face(l.Panel, Fade(l.Rule, 0.6))
	switch e {
	case Chosen:
		return &widget.ButtonImage{Idle: face(l.Accent, l.Accent), Hover: face(l.Accent, l.Ink), Pressed: face(l.Ink, l.Accent), Disabled: off}
	case Urgent:
		return &widget.ButtonImage{Idle: face(l.Alarm, l.Alarm), Hover: face(l.Alarm, l.Ink), Pressed: face(l.Ink, l.Alarm), Disabled: off}
	}
	return &widget.ButtonImage{Idle: face(l.Raised, l.Rule), Hover: face(l.Warm, l.Soft), Pressed: face(l.Sunk, l.Ink), Disabled: off}
}

func (l *Look) buttonInk(e Emphasis) *widget.ButtonTextColor {
	c := &widget.ButtonTextColor{Idle: l.Ink, Disabled: Fade(l.Soft, 0.6)}
	if e != Plain {
		c.Idle = l.OnIt
	}
	return c
}

// Label returns a line or, with a width in pixels, a paragraph.
func (l *Look) Label(s string, face text.Face, c color.Color, width int) *widget.Text {
	opts := []widget.TextOpt{widget.TextOpts.Text(s, handle(face), c)}
	if width > 0 {
		opts = append(opts, widget.TextOpts.MaxWidth(float64(width)))
	}
	return widget.NewText(opts...)
}

// Reading returns a line whose lettering changes: it keeps the room that the
// longest it will say takes.
func (l *Look) Reading(longest string, face text.Face, c color.Color) *widget.Text {
	return widget.NewText(
		widget.TextOpts.Text(" ", handle(face), c),
		widget.TextOpts.Position(widget.TextPositionStart, widget.TextPositionCenter),
		widget.TextOpts.WidgetOpts(widget.WidgetOpts.MinSize(int(Wide(longest, face))+1, int(Tall(face))+1)),
	)
}

// Field returns a line to type in.
func (l *Look) Field(hint string, wide float64, submit func(string)) *widget.TextInput {
	return widget.NewTextInput(
		widget.TextInputOpts.WidgetOpts(widget.WidgetOpts.MinSize(l.Px(wide), l.Px(26))),
		widget.TextInputOpts.Image(&widget.TextInputImage{
			Idle: eimage.NewBorderedNineSliceColor(l.Sunk, l.Rule, max(l.Px(1), 1)), Disabled: eimage.NewNineSliceColor(l.Panel),
		}),
		widget.TextInputOpts.Face(handle(l.Body)),
		widget.TextInputOpts.Color(&widget.TextInputColor{Idle: l.Ink, Disabled: l.Soft, Caret: l.Ink, DisabledCaret: l.Soft}),
		widget.TextInputOpts.Padding(&widget.Insets{Left: l.Px(6), Right: l.Px(6), Top: l.Px(4), Bottom: l.Px(4)}),
		widget.TextInputOpts.CaretWidth(max(l.Px(1.5), 1)),
		widget.TextInputOpts.Placeholder(hint),
		widget.TextInputOpts.SubmitHandler(func(a *widget.TextInputChangedEventArgs) { submit(a.InputText) }),
		widget.TextInputOpts.TabOrder(1),
	)
}

// Row lays its children beside each other, Column below each other; pad is the
// space round them and gap that between, at scale 1.
func (l *Look) Row(pad, gap float64, children ...widget.PreferredSizeLocateableWidget) *widget.Container {
	return l.line(widget.DirectionHorizontal, pad, gap, children)
}

// Column is [Look.Row] downward.
func (l *Look) Column(pad, gap float64, children ...widget.PreferredSizeLocateableWidget) *widget.Container {
	return l.line(widget.DirectionVertical, pad, gap, children)
}

func (l *Look) line(d widget.Direction, pad, gap float64, children []widget.PreferredSizeLocateableWidget) *widget.Container {
	c := widget.NewContainer(widget.ContainerOpts.Layout(widget.NewRowLayout(
		widget.RowLayoutOpts.Direction(d),
		widget.RowLayoutOpts.Padding(widget.NewInsetsSimple(l.Px(pad))),
		widget.RowLayoutOpts.Spacing(l.Px(gap)),
	)))
	c.AddChild(children...)
	return c
}

// Backed gives a container a ground to stand on.
func (l *Look) Backed(c *widget.Container, fill color.Color) *widget.Container {
	c.SetBackgroundImage(eimage.NewNineSliceColor(fill))
	return c
}
