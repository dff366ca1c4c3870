//go:build !js

package main

import (
	"encoding/json"
	"fmt"
	"image"
	"os"
	"testing"

	"dryline/cmd/dryline-desk/app"
)

// Whatever the size of the window, its parts lie inside it and beside each
// other.
func TestSizesOfTheWindow(t *testing.T) {
	d := openDesk(t, newHome(t), 1280, 720, "first-line")
	d.until("the watch begins", 240, func(s *shown) bool { return s.Screen == "watch" && s.watch.Tick > 0 })
	for _, size := range []image.Point{{1280, 720}, {1920, 1080}, {1280, 1024}} {
		t.Run(fmt.Sprintf("%dx%d", size.X, size.Y), func(t *testing.T) {
			d.resize(size.X, size.Y)
			d.ticks(3)
			d.picture(fmt.Sprintf("%dx%d", size.X, size.Y))
			s := d.look()
			if got := image.Pt(s.Size[0], s.Size[1]); got != size {
				t.Fatalf("the window tells %v, want %v", got, size)
			}
			window := image.Rectangle{Max: size}
			var before []image.Rectangle
			for name, r := range s.Panes {
				p := area(r)
				if p.Empty() || !p.In(window) {
					t.Errorf("%s lies at %v, want it in %v", name, p, window)
				}
				for _, o := range before {
					if in := p.Intersect(o); in.Dx() > 0 && in.Dy() > 0 {
						t.Errorf("%s at %v lies over another pane at %v", name, p, o)
					}
				}
				before = append(before, p)
			}
			for _, b := range s.Buttons {
				if p := area(b.At); p.Empty() || !p.In(window) {
					t.Errorf("the control %q lies at %v, want it in %v", b.Label, p, window)
				}
			}
		})
	}
}

// The edges between panes are moved with the mouse, and stay moved.
func TestEdgesAreDragged(t *testing.T) {
	h := newHome(t)
	d := openDesk(t, h, 1280, 720, "first-line")
	d.until("the watch begins", 240, func(s *shown) bool { return s.Screen == "watch" && s.watch.Tick > 0 })
	pane := func(name string) image.Rectangle { return area(d.look().Panes[name]) }
	section, fall, side, chart := pane("section"), pane("fall"), pane("side"), pane("chart")
	for _, e := range []struct {
		name     string
		from     image.Point
		by       image.Point
		pane     string
		was      int
		measures func(image.Rectangle) int
	}{
		{"under the section", image.Pt(300, section.Max.Y+1), image.Pt(0, 40), "section", section.Dy(), image.Rectangle.Dy},
		{"right of the waterfall", image.Pt(chart.Min.X-2, fall.Max.Y-60), image.Pt(-90, 0), "fall", fall.Dx(), image.Rectangle.Dx},
		{"right of the side panel", image.Pt(side.Max.X+1, side.Max.Y-60), image.Pt(70, 0), "side", side.Dx(), image.Rectangle.Dx},
	} {
		d.drag(e.from, e.from.Add(e.by))
		want := e.was + e.by.Y + e.by.X
		if got := e.measures(pane(e.pane)); got < want-4 || got > want+4 {
			t.Errorf("%s, dragged by %v: %s is %d across, was %d, want %d", e.name, e.by, e.pane, got, e.was, want)
		}
	}
	section, side = pane("section"), pane("side")
	d.close()

	data, err := os.ReadFile(h.settings())
	if err != nil {
		t.Fatal(err)
	}
	s, err := app.ParseSettings(data)
	if err != nil {
		t.Fatal(err)
	}
	if was := app.DefaultSettings(); s.SectionShare <= was.SectionShare || s.FallShare >= was.FallShare || s.SideShare <= was.SideShare {
		t.Errorf("the settings kept are %+v, the defaults %+v; want a taller section, a narrower waterfall, a wider side", s, was)
	}
	d = openDesk(t, h, 1280, 720, "first-line")
	if got := pane("section"); got != section {
		t.Errorf("opened again, the section lies at %v, want %v", got, section)
	}
	if got := pane("side"); got != side {
		t.Errorf("opened again, the side panel lies at %v, want %v", got, side)
	}
}

// A settings file that cannot be read is said, set aside and replaced.
func TestBrokenSettings(t *testing.T) {
	for _, c := range []struct{ name, text, says string }{
		{"no JSON", "{\"theme\": \"ni", "settings: "},
		{"an unknown theme", `{"theme": "dusk"}`, `theme: "dusk" is not known`},
		{"out of range", `{"scale": 40}`, "scale: 40 is out of range"},
	} {
		t.Run(c.name, func(t *testing.T) {
			h := newHome(t)
			if err := write(h.settings(), []byte(c.text)); err != nil {
				t.Fatal(err)
			}
			d := openDesk(t, h, 1024, 600)
			aside := h.settings() + ".broken"
			if got := d.look().Notice; !contains(got, c.says) || !contains(got, aside) {
				t.Errorf("notice %q, want %q and %q in it", got, c.says, aside)
			}
			if old, err := os.ReadFile(aside); err != nil || string(old) != c.text {
				t.Errorf("the old file is kept as %q, %v; want %q", old, err, c.text)
			}
			data, err := os.ReadFile(h.settings())
			if err != nil {
				t.Fatal(err)
			}
			if s, err := app.ParseSettings(data); err != nil || s != app.DefaultSettings() {
				t.Errorf("the new file holds %+v, %v; want the defaults", s, err)
			}
			if !json.Valid(data) {
				t.Errorf("the new file is no JSON: %s", data)
			}
		})
	}
}
