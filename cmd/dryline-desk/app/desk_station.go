package app

import (
	"image"
	"strings"

	"dryline/cmd/dryline-desk/look"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// station is one piece of the desk's work, and owns what it shows.
type station interface {
	name() string    // on its button
	about() string   // what it is for
	says() [2]string // how it stands, in two short lines
	acts() []act     // what can be done at it

	build(g *Game, r image.Rectangle, put func(widget.PreferredSizeLocateableWidget, image.Rectangle))
	state() string // what its controls show, to see whether that has changed
	fresh()        // the papers are new
	show(g *Game)  // it is turned to
	hide()
	work(g *Game)                              // every frame, shown or not: takes what comes from the bench
	input(g *Game, at image.Point, taken bool) // every frame that it is shown, unless something is typed
	draw(g *Game, dst *ebiten.Image)
	inspect(panes map[string]Rect, state map[string]any)
	close()
}

// still is embedded by stations that have little to do of their own accord.
type still struct{}

func (still) show(*Game)                              {}
func (still) hide()                                   {}
func (still) work(*Game)                              {}
func (still) inspect(map[string]Rect, map[string]any) {}
func (still) close()                                  {}
func (still) state() string                           { return "" }

// act is something that can be done at the desk: keys, buttons and the overlay of the keys are made of it.
type act struct {
	key      ebiten.Key
	shift    shift
	repeats  bool
	name     string // of the key, as it is lettered
	help     string // what the overlay says of it
	label    string // of its button; empty if it has none
	says     string // what the foot of the window says of it
	emphasis look.Emphasis
	cannot   bool
	do       func(g *Game)
}

// button is its button.
func (a act) button(g *Game) *widget.Button {
	return explained(g, able(g.Look.Button(a.label, a.emphasis, func() { a.do(g) }), !a.cannot), a.says)
}

// pressed reports its key pressed or, where that counts, repeating.
func (a act) pressed(shifted bool) bool {
	if a.shift == withShift && !shifted || a.shift == withoutShift && shifted {
		return false
	}
	return justPressed(a.key) || a.repeats && again(a.key)
}

// flow lays the buttons of acts in rows no wider than a width.
func flow(g *Game, acts []act, width int) *widget.Container {
	l := g.Look
	var rows, row []widget.PreferredSizeLocateableWidget
	used := 0
	for _, a := range acts {
		if a.label == "" {
			continue
		}
		b := a.button(g)
		b.Validate()
		wide, _ := b.PreferredSize()
		if used > 0 && used+wide > width {
			rows, row, used = append(rows, l.Row(0, 4, row...)), nil, 0
		}
		row, used = append(row, b), used+wide+l.Px(4)
	}
	if len(row) > 0 {
		rows = append(rows, l.Row(0, 4, row...))
	}
	return l.Column(0, 4, rows...)
}

// underneath puts acts and fields at the foot of a rectangle, and returns what is left above them.
func underneath(g *Game, r image.Rectangle, put func(widget.PreferredSizeLocateableWidget, image.Rectangle), w widget.PreferredSizeLocateableWidget) image.Rectangle {
	w.Validate()
	_, tall := w.PreferredSize()
	if tall == 0 {
		return r
	}
	put(w, image.Rect(r.Min.X, r.Max.Y-tall, r.Max.X, r.Max.Y))
	r.Max.Y -= tall + g.Look.Px(4)
	return r
}

var stationKeys = [...]ebiten.Key{ebiten.KeyF2, ebiten.KeyF3, ebiten.KeyF4, ebiten.KeyF5, ebiten.KeyF6, ebiten.KeyF7, ebiten.KeyF8}

// input takes keys and pointer.
func (d *Desk) input(g *Game) {
	if g.Typing() {
		if justPressed(ebiten.KeyTab) {
			d.nextField(g)
		}
		return
	}
	if d.opening && !ebiten.IsKeyPressed(ebiten.KeyEnter) && !ebiten.IsKeyPressed(ebiten.KeyNumpadEnter) {
		d.opening, d.typing = false, -1
		d.nextField(g)
		return
	}
	if d.chooser != nil {
		d.chooser.input(g, d)
		return
	}
	shifted := shiftHeld()
	for i := range d.stations {
		if justPressed(stationKeys[i]) {
			d.turn(g, i)
			return
		}
	}
	if justPressed(ebiten.KeyTab) {
		by := 1
		if shifted {
			by = -1
		}
		d.turn(g, d.at+by)
		return
	}
	if justPressed(ebiten.KeyE) && len(d.fields) > 0 {
		d.typing = -1
		d.nextField(g)
		return
	}
	for _, a := range append(d.station().acts(), d.acts()...) {
		if a.pressed(shifted) {
			if !a.cannot {
				a.do(g)
			}
			return
		}
	}
	x, y, taken := g.Pointer()
	d.station().input(g, image.Pt(x, y), taken)
}

// nextField gives the keys to the next field.
func (d *Desk) nextField(g *Game) {
	if len(d.fields) == 0 {
		return
	}
	d.typing = (d.typing + 1) % len(d.fields)
	f := d.fields[d.typing]
	g.ui.SetFocusedWidget(f)
	f.SelectAll()
}

// field is a line to type in at the desk; what is submitted is given to set.
func (d *Desk) field(g *Game, hint, now, says string, wide float64, set func(string)) *widget.TextInput {
	f := g.Look.Field(hint, wide, func(s string) {
		g.Unfocus()
		set(strings.TrimSpace(s))
		d.said = "" // what was typed may have been refused: the field shows what stands
	})
	f.SetText(now)
	d.fields = append(d.fields, f)
	return explained(g, f, says+" Enter takes what you typed, Esc does not (E: to the fields).")
}

// Draw implements [Screen].
func (d *Desk) Draw(g *Game, dst *ebiten.Image) {
	l := g.Look
	look.Fill(dst, d.column, l.Panel)
	row := d.rowTall(l)
	for i, s := range d.stations {
		y := float64(d.column.Min.Y + (i+1)*row - 2*int(look.Tall(l.Small)) - l.Px(6))
		for _, says := range s.says() {
			look.Write(dst, look.Fitted(says, l.Small, d.column.Dx()-l.Px(14)), l.Small, float64(d.column.Min.X+l.Px(8)), y, l.Soft, look.Left)
			y += look.Tall(l.Small)
		}
	}
	d.station().draw(g, dst)
}

// Over implements [Screen].
func (d *Desk) Over(g *Game, dst *ebiten.Image) {
	if d.chooser != nil {
		d.chooser.draw(g, dst, d.main)
	}
}

// Keys implements [Screen].
func (d *Desk) Keys() []Key {
	keys := []Key{{"F2 to F8", "the pieces of the work"}, {"Tab", "the next; with Shift the one before"}}
	if len(d.fields) > 0 {
		keys = append(keys, Key{"E", "into the fields; Tab from one to the next"})
	}
	keys = append(keys, Key{"Up, Down", "through the list; Enter sets what is chosen"}, Key{"PgUp, PgDn", "through record and text; Home, End: its ends"},
		Key{"Wheel", "through it; zoom a chart, with Ctrl the record"}, Key{"Drag", "move a chart; the record with the right button"})
	for _, a := range append(d.station().acts(), d.acts()...) {
		if a.help == "" {
			keys[len(keys)-1].Name += between(keys[len(keys)-1].Name) + a.name
			continue
		}
		keys = append(keys, Key{a.name, a.help})
	}
	return keys
}

// pulled reports how the left button moves something: where it went down, whether it is held, and
// whether it was let go in this frame.
type pulled struct {
	from, last image.Point
	held       bool
}

// follow follows the button from a press that is on something.
func (p *pulled) follow(at image.Point, on bool) (begun, ended bool) {
	switch {
	case wentDown(ebiten.MouseButtonLeft):
		if on {
			p.from, p.last, p.held, begun = at, at, true, true
		}
	case p.held && !held(ebiten.MouseButtonLeft):
		p.held, ended = false, true
	}
	return begun, ended
}
