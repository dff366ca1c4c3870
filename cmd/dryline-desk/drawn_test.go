//go:build !js

package main

import (
	"image"
	"image/color"
	"testing"

	"dryline/cmd/dryline-desk/app"
	"dryline/cmd/dryline-desk/look"

	"github.com/hajimehoshi/ebiten/v2"
)

// What is seen is checked by region and with room to spare: that the panes hold
// what they should, not what each pixel is.
func TestWhatTheWatchDraws(t *testing.T) {
	d := openDesk(t, newHome(t), 1280, 720, "first-line")
	d.tap(ebiten.KeyEqual, ebiten.KeyEqual, ebiten.KeyEqual, ebiten.KeyEqual)
	early := d.until("a few pings", 600, func(s *shown) bool { return s.watch.Tick > 100 })
	fall, chart := area(early.Panes["fall"]), area(early.Panes["chart"])
	// Time stands still for a picture, so that it shows the pings that are told of.
	d.tap(ebiten.KeySpace)
	d.until("time stands still", 240, func(s *shown) bool { return s.watch.Paused })
	was := d.picture("early")
	wasPings := d.look().watch.Pings
	d.tap(ebiten.KeySpace)
	d.until("the fish is at the line", 3000, func(s *shown) bool { return s.watch.Tick > 470 })
	d.tap(ebiten.KeyL)
	// What lies in the picture depends on where the clock was caught, which is
	// another place on a busy machine: look until a boulder is in it.
	var late *shown
	var day, night *image.RGBA
	var e echo
	found := false
	for tick := int64(1300); !found; tick += 150 {
		if tick > 5000 {
			t.Fatalf("no strong echo with a shadow in the waterfall at %v on the whole line", fall)
		}
		late = d.until("the line is under way", 6000, func(s *shown) bool { return s.watch.Tick > tick })
		d.tap(ebiten.KeySpace)
		d.until("time stands still", 240, func(s *shown) bool { return s.watch.Paused })
		day = d.picture("day")
		d.tap(ebiten.KeyT)
		d.until("a night", 240, func(s *shown) bool { return s.watch.Paused })
		night = d.picture("night")
		e, found = strongest(night, image.Rect(middle(fall).X+fall.Dx()/12, fall.Min.Y+20, fall.Max.X, fall.Max.Y))
		if !found {
			d.tap(ebiten.KeyT, ebiten.KeySpace)
		}
	}
	at := middle(image.Rectangle{Min: e.left, Max: e.right})
	d.tap(ebiten.KeyM)
	d.click(at)
	d.until("the contact is on the list", 240, func(s *shown) bool { return s.watch.Contacts == 1 })
	d.click(image.Pt(fall.Min.X+5, fall.Min.Y-5)) // the pointer's cross out of the picture
	marked := d.picture("marked")

	t.Run("mark", func(t *testing.T) { markHas(t, night, marked, at, &look.Night) })
	t.Run("section, day", func(t *testing.T) { sectionHas(t, day, area(late.Panes["section"]), &look.Day) })
	t.Run("section, night", func(t *testing.T) { sectionHas(t, night, area(late.Panes["section"]), &look.Night) })
	t.Run("waterfall", func(t *testing.T) {
		waterfallHas(t, day, fall)
		grows(t, was, day, fall, wasPings, late.watch.Pings)
	})
	t.Run("chart", func(t *testing.T) {
		// Before the log is on there is no mosaic, only lines on one colour.
		if n := colours(day, chart) - colours(was, chart); n < 200 {
			t.Errorf("the chart has %d colours more with a line logged, want 200 or more", n)
		}
		all := chart.Dx() * chart.Dy()
		if v := like(was, chart, look.Day.Void); v < all*6/10 {
			t.Errorf("%d of %d pixels of the chart are void before the log is on, want most", v, all)
		}
		if v := like(was, chart, look.Day.Void) - like(day, chart, look.Day.Void); v < all/50 {
			t.Errorf("a line logged covers %d of %d pixels of the chart, want a fiftieth or more", v, all)
		}
	})
	t.Run("themes", func(t *testing.T) {
		for _, pane := range []string{"top", "side", "rail", "dials", "section", "chart"} {
			r := area(late.Panes[pane])
			d, _ := spread(day, r)
			n, _ := spread(night, r)
			if n > 0.6*d {
				t.Errorf("%s: the night is %.0f bright and the day %.0f, want much darker", pane, n, d)
			}
		}
	})
	for name, m := range map[string]*image.RGBA{"early": was, "day": day, "night": night} {
		if n := magenta(m); n > 0 {
			t.Errorf("%s: %d magenta pixels", name, n)
		}
		for pane, r := range late.Panes {
			if _, deviation := spread(m, area(r)); deviation < 4 {
				t.Errorf("%s: the %s is blank: its grey deviates by %.1f", name, pane, deviation)
			}
		}
	}
	t.Run("objects on the record", func(t *testing.T) {
		d.toDebrief(600)
		before := d.picture("what counted")
		d.tap(ebiten.KeyTab, ebiten.KeyTab)
		d.until("the pictures of the objects", 600000, func(s *shown) bool { return s.watch.Evidence > 0 })
		r := area(d.look().Panes["score"])
		after := d.picture("objects")
		if now, then := colours(after, r), colours(before, r); now < then+40 {
			t.Errorf("the page of the objects has %d colours, that of words %d: no picture is on it", now, then)
		}
	})
}

// Every page shows something, in both themes; the pictures are for a person to
// look through.
func TestEveryPageIsDrawn(t *testing.T) {
	bright := map[string]map[string]float64{}
	for _, theme := range []*look.Theme{&look.Day, &look.Night} {
		t.Run(theme.Name, func(t *testing.T) {
			h := newHome(t)
			s := app.DefaultSettings()
			s.Theme = theme.Name
			if err := write(h.settings(), s.Encode()); err != nil {
				t.Fatal(err)
			}
			bright[theme.Name] = map[string]float64{}
			d := openDesk(t, h, 1280, 720)
			seen := func(page string) {
				t.Helper()
				m := d.picture(page)
				mean, deviation := spread(m, m.Rect)
				bright[theme.Name][page] = mean
				if n := colours(m, m.Rect); deviation < 8 || n < 40 {
					t.Errorf("%s is blank: %d colours, its grey deviates by %.1f", page, n, deviation)
				}
				if n := magenta(m); n > 0 {
					t.Errorf("%s has %d magenta pixels", page, n)
				}
			}
			d.until("the choice", 240, func(s *shown) bool { return s.Screen == "choose" })
			seen("choose")
			d.press("Resume a session")
			seen("sessions")
			d.press("Back to the exercises")
			d.press("Later")
			d.press("The sloping bank")
			d.press("Free practice")
			seen("practice")
			d.close()

			d = openDesk(t, h, 1280, 720, "disused-anchorage")
			d.tap(ebiten.KeyEqual, ebiten.KeyEqual, ebiten.KeyEqual, ebiten.KeyEqual)
			d.until("a while", 6000, func(s *shown) bool { return s.watch.Tick > 60 })
			d.tap(ebiten.KeyL)
			d.until("a line under way", 6000, func(s *shown) bool { return s.watch.Tick > 200 })
			d.tap(ebiten.KeySpace)
			for _, tab := range []string{"Watch", "Contacts", "Desk", "Sonar"} {
				seen("watch, " + tab)
				d.tap(ebiten.KeyTab)
			}
			d.tap(ebiten.KeyF1)
			seen("keys")
			d.tap(ebiten.KeyF1)
			d.toDebrief(600)
			seen("debrief")
		})
	}
	for page, day := range bright["day"] {
		if night, ok := bright["night"][page]; ok && night > 0.6*day {
			t.Errorf("%s: the night is %.0f bright and the day %.0f, want much darker", page, night, day)
		}
	}
}

// sectionHas checks sky over water over floor, a fish in the water and a cable.
func sectionHas(t *testing.T, m *image.RGBA, r image.Rectangle, theme *look.Theme) {
	t.Helper()
	const sky, water, floor = 0, 1, 2
	nearest := func(c color.RGBA) int {
		best, which := 1e9, 0
		for _, k := range []struct {
			is int
			c  color.RGBA
		}{{sky, theme.Air}, {sky, theme.Sky}, {water, theme.Sea}, {water, between(theme.Sea, theme.Deep)}, {water, theme.Deep}, {floor, theme.Ground}} {
			if a := apart(c, k.c); a < best {
				best, which = a, k.is
			}
		}
		return which
	}
	for _, share := range []float64{0.1, 0.25, 0.4} { // astern of the fish, which hangs over the waterfall's middle
		x := r.Min.X + int(share*float64(r.Dx()))
		var sum, n [3]float64 // where each is, and how many pixels it has
		for y := r.Min.Y; y < r.Max.Y; y++ {
			k := nearest(m.RGBAAt(x, y))
			sum[k] += float64(y)
			n[k]++
		}
		for k, name := range []string{"sky", "water", "floor"} {
			if n[k] < 0.05*float64(r.Dy()) {
				t.Errorf("at %.0f %%: %s has %.0f of %d pixels, want a twentieth or more", 100*share, name, n[k], r.Dy())
			}
		}
		if a, w, f := sum[sky]/n[sky], sum[water]/n[water], sum[floor]/n[floor]; !(a < w && w < f) {
			t.Errorf("at %.0f %%: sky at %.0f, water at %.0f, floor at %.0f; want them below each other", 100*share, a, w, f)
		}
	}
	inWater := image.Rect(r.Min.X+r.Dx()/4, r.Min.Y+r.Dy()/4, r.Max.X, r.Max.Y-r.Dy()/8)
	fish := bounds(m, inWater, theme.Fish, 12)
	if n := like(m, inWater, theme.Fish); n < 20 || fish.Dx() > 60 {
		t.Fatalf("%d pixels in the water have the colour of the fish, at %v; want 20 or more, together", n, fish)
	}
	cableHas(t, m, r, fish, theme)
	bandHas(t, m, fish, theme)
}

func between(a, b color.RGBA) color.RGBA {
	return color.RGBA{uint8((int(a.R) + int(b.R)) / 2), uint8((int(a.G) + int(b.G)) / 2), uint8((int(a.B) + int(b.B)) / 2), 255}
}

// waterfallHas checks a dark water column between two textured sides.
func waterfallHas(t *testing.T, m *image.RGBA, r image.Rectangle) {
	t.Helper()
	body := image.Rect(r.Min.X, r.Min.Y+20, r.Max.X, r.Max.Y) // below the range marks
	at := func(from, to float64) image.Rectangle {
		return image.Rect(body.Min.X+int(from*float64(body.Dx())), body.Min.Y, body.Min.X+int(to*float64(body.Dx())), body.Max.Y)
	}
	column, columnRough := spread(m, at(0.46, 0.49))
	for name, side := range map[string]image.Rectangle{"port": at(0.05, 0.35), "starboard": at(0.65, 0.95)} {
		mean, rough := spread(m, side)
		if mean < 2*column {
			t.Errorf("%s is %.0f bright, the water column %.0f; want twice as bright", name, mean, column)
		}
		if rough < 8 || rough < 2*columnRough {
			t.Errorf("the grey of %s deviates by %.1f, that of the water column by %.1f; want texture", name, rough, columnRough)
		}
	}
}

// grows checks that there are rows where there were none, that they come in at
// the top and that the oldest lie lowest.
func grows(t *testing.T, was, now *image.RGBA, r image.Rectangle, wasPings, nowPings int) {
	t.Helper()
	filled := func(m *image.RGBA) int {
		x := r.Min.X + r.Dx()/4
		for y := r.Min.Y + 20; y < r.Max.Y; y++ {
			if apart(m.RGBAAt(x, y), look.Day.Void) < 12 && apart(m.RGBAAt(x, min(y+3, r.Max.Y-1)), look.Day.Void) < 12 {
				return y - r.Min.Y
			}
		}
		return r.Dy()
	}
	// A ping is as high as a thousandth of the width, and six tenths of a pixel at least.
	perRow := max(float64(r.Dx())/1000, 0.6)
	for _, shot := range []struct {
		what  string
		m     *image.RGBA
		pings int
	}{{"early", was, wasPings}, {"late", now, nowPings}} {
		want := min(int(float64(shot.pings)*perRow), r.Dy())
		if got := filled(shot.m); got < want-2 || got > want+2 {
			t.Errorf("%s: %d pings fill %d of %d pixels from the top, want %d", shot.what, shot.pings, got, r.Dy(), want)
		}
	}
	if nowPings < 2*wasPings {
		t.Errorf("%d pings early and %d late, want many more", wasPings, nowPings)
	}
}
