//go:build js

package main

import (
	"errors"
	"syscall/js"

	"dryline/cmd/dryline-desk/app"
	"dryline/sim/exercise"
	"dryline/sonar"

	"github.com/hajimehoshi/ebiten/v2"
)

// main opens the window on a page; "dryline serve" builds and serves it.
func main() {
	p := new(page)
	p.openSessions()
	g := app.NewGame(p, false)
	g.Step = sonar.CoarseSteps // it has no vector instructions, and little time
	g.Go(app.NewChoose())
	js.Global().Set("drylineInspect", js.FuncOf(func(js.Value, []js.Value) any { return string(g.Inspect()) }))
	js.Global().Set("drylineLeave", js.FuncOf(func(js.Value, []js.Value) any { p.leaving = true; return nil }))
	js.Global().Set("drylineKeep", js.FuncOf(func(js.Value, []js.Value) any { g.Keep(); return nil }))
	p.leave = func() {
		if g.UnderWay() {
			g.Go(app.NewChoose()) // leaving a watch saves it
		}
	}
	js.Global().Get("document").Set("title", "Dryline")
	if err := ebiten.RunGame(g); err != nil {
		js.Global().Get("document").Set("title", "Dryline: "+err.Error())
	}
}

// page keeps settings in the browser's own storage, sessions in its database, and
// hands files over as downloads.
type page struct {
	picked  []func()       // what the page's script has told
	kept    []*keptSession // in the browser's database
	leaving bool           // the page asked to leave the watch
	leave   func()
}

const settingsKey = "dryline.window"

func storage() js.Value { return js.Global().Get("localStorage") }

// Settings implements [app.Store].
func (p *page) Settings() ([]byte, error) {
	v := storage().Call("getItem", settingsKey)
	if v.IsNull() {
		return nil, nil
	}
	return []byte(v.String()), nil
}

// KeepSettings implements [app.Store].
func (p *page) KeepSettings(data []byte) error { return store(settingsKey, string(data)) }

// store puts a text into the browser's storage.
func store(key, text string) (err error) {
	defer func() {
		if recover() != nil { // full, or forbidden
			err = errors.New("the browser does not let the page keep anything")
		}
	}()
	storage().Call("setItem", key, text)
	return nil
}

// SetAside implements [app.Store].
func (p *page) SetAside() (string, error) {
	v := storage().Call("getItem", settingsKey)
	if !v.IsNull() {
		storage().Call("setItem", settingsKey+".broken", v)
	}
	return settingsKey + ".broken", nil
}

// Save implements [app.Store] as a download.
func (p *page) Save(name string, data []byte) (string, error) {
	bytes := js.Global().Get("Uint8Array").New(len(data))
	js.CopyBytesToJS(bytes, data)
	js.Global().Call("drylineDownload", name, bytes)
	return "the browser's downloads, as " + name, nil
}

// Pick implements [app.Store] by the browser's own file dialog.
func (p *page) Pick(got func(name string, data []byte, err error)) {
	var done js.Func
	done = js.FuncOf(func(_ js.Value, args []js.Value) any {
		name, data := args[0].String(), make([]byte, args[1].Length())
		js.CopyBytesToGo(data, args[1])
		var err error
		if fault := args[2].String(); fault != "" {
			err = errors.New(fault)
		}
		p.picked = append(p.picked, func() { got(name, data, err) })
		done.Release()
		return nil
	})
	js.Global().Call("drylinePick", done)
}

// Poll implements [app.Store].
func (p *page) Poll() {
	picked := p.picked
	p.picked = nil
	for _, f := range picked {
		f()
	}
	if p.leaving {
		p.leaving = false
		p.leave()
	}
}

// Beside implements [app.Store]: the browser's storage is not made for grids of depths.
func (p *page) Beside([]exercise.File) error {
	return errors.New("its depths file is not kept in the browser")
}

// Files implements [app.Store]: a download is the browser's to open.
func (p *page) Files() bool { return false }

// Show implements [app.Store].
func (p *page) Show(string) error { return errors.New("open it from the browser's downloads") }
