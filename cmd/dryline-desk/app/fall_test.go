package app

import (
	"fmt"
	"image"
	"math"
	"strings"
	"testing"

	"dryline/cmd/dryline-desk/panes"

	"github.com/hajimehoshi/ebiten/v2"
)

// fallWatch is a watch with some minutes of pings in a window of 1280 by 720.
func fallWatch(t *testing.T, exercise string, seconds float64) (*Game, *Duty) {
	t.Helper()
	g := NewGame(&memory{}, false)
	g.Resize(1280, 720, 1)
	w := watchUnderWay(t, g, exercise, seconds)
	w.Build(g, g.area())
	w.fall.keepInside(w.fall.rect())
	return g, w
}

// under is the bin and the age of the row under a pixel.
func under(w *Duty, at image.Point) (bin, age float64) {
	f, _ := w.fall.under(at)
	v := w.fall.part(f.r)
	return v.Left + float64(at.X-f.r.Min.X)/v.PerBin, v.Newest + float64(at.Y-f.r.Min.Y)/v.PerRow
}

// What lies under the pointer stays under it while the picture is zoomed, at
// any range, and the whole swath comes back.
func TestWaterfallZoomsAboutThePointer(t *testing.T) {
	_, w := fallWatch(t, "first-line", 120)
	r := w.fall.rect()
	for _, at := range []image.Point{{r.Min.X + 5, r.Min.Y + 60}, {r.Max.X - 20, r.Min.Y + 120}, {(r.Min.X + r.Max.X) / 2, r.Min.Y + 90}} {
		w.fall.wholeSwath()
		w.fall.live()
		bin, age := under(w, at)
		for range 8 {
			w.fall.zoomAbout(1.25, at)
			if b, a := under(w, at); math.Abs(b-bin) > 1e-6 || math.Abs(a-age) > 1e-6 {
				t.Fatalf("at %v, zoomed %.2f times: bin %.2f, row %.2f; want %.2f and %.2f", at, w.fall.looking.zoom, b, a, bin, age)
			}
		}
		w.fall.wholeSwath()
		v := w.fall.part(r)
		if w.fall.looking.zoom != 1 || math.Abs(v.Left) > 1e-6 {
			t.Errorf("the whole swath begins at bin %.2f, zoomed %.2f times; want 0 and 1", v.Left, w.fall.looking.zoom)
		}
	}
	// Near the upper edge the newest rows stay.
	w.fall.live()
	w.fall.zoomAbout(3, image.Pt(r.Max.X-20, r.Min.Y+5))
	if w.fall.looking.scrolled != 0 {
		t.Errorf("zoomed about the upper edge the picture is %.1f rows back, want live", w.fall.looking.scrolled)
	}
}

// However far it is moved, the picture shows rows that are held and nothing
// beside the swath.
func TestWaterfallIsNeverMovedOffTheRecord(t *testing.T) {
	_, w := fallWatch(t, "first-line", 200)
	r := w.fall.rect()
	for _, zoom := range []float64{1, 2.5, 8} {
		w.fall.looking.zoom = zoom
		for _, by := range []float64{-1e6, 1e6} {
			w.fall.looking.across = by
			w.fall.scroll(by)
			v := w.fall.part(r)
			left, right := v.Left, v.Left+float64(r.Dx())/v.PerBin
			if left < -1e-6 || right > 2*panes.RowBins+1e-6 {
				t.Errorf("zoom %g: bins %.1f to %.1f are shown, want 0 to %d", zoom, left, right, 2*panes.RowBins)
			}
			if oldest := v.Newest + float64(r.Dy())/v.PerRow; v.Newest < 0 || oldest > float64(w.fall.held())+1e-6 {
				t.Errorf("zoom %g: rows %.1f to %.1f of %d are shown", zoom, v.Newest, oldest, w.fall.held())
			}
		}
	}
	if w.fall.howFarBack() == "" || w.fall.looking.scrolled == 0 {
		t.Error("scrolled back as far as can be, nothing says so")
	}
	w.fall.live()
	if w.fall.howFarBack() != "" {
		t.Errorf("live, the picture says%s", w.fall.howFarBack())
	}
}

// A picture scrolled back stands still while pings come in, until its rows are
// the oldest held.
func TestScrolledBackStandsStill(t *testing.T) {
	_, w := fallWatch(t, "first-line", 200)
	w.fall.scroll(40)
	at := middleOf(w.fall.rect())
	p, _, _, ok := w.fall.echo(at)
	if !ok {
		t.Fatal("there is no ping under the middle of the waterfall")
	}
	was := p.Number
	for range 5 {
		w.crew.Pass(1, 1e12)
		w.view = w.crew.View()
		w.takeRows()
	}
	if p, _, _, ok := w.fall.echo(at); !ok || p.Number != was {
		t.Errorf("ping %d came under the pointer, want %d still", p.Number, was)
	}
}

func middleOf(r image.Rectangle) image.Point { return r.Min.Add(r.Max).Div(2) }

// Where no row is held there is nothing to read or mark.
func TestNothingIsReadWhereNoRowIs(t *testing.T) {
	_, w := fallWatch(t, "first-line", 8)
	r := w.fall.rect()
	v := w.fall.part(r)
	end := r.Min.Y + int(float64(w.fall.held())*v.PerRow)
	x := r.Min.X + r.Dx()/4
	if end+2 >= r.Max.Y {
		t.Fatalf("%d rows fill the pane", w.fall.held())
	}
	if _, _, _, ok := w.fall.echo(image.Pt(x, end-2)); !ok {
		t.Error("the oldest row cannot be read")
	}
	if _, _, _, ok := w.fall.echo(image.Pt(x, end+2)); ok {
		t.Error("a row that is not held can be read")
	}
	if _, ok := w.pick(image.Pt(x, end+2)); ok {
		t.Error("a row that is not held can be marked")
	}
}

// Scrolled back and zoomed, no lettering of the waterfall lies on other or is
// cut, in one channel or all.
func TestLetteringOfTheWaterfallZoomed(t *testing.T) {
	g, w := fallWatch(t, "disused-anchorage", 150)
	for _, size := range shownSizes() {
		g.Resize(size.wide, size.tall, size.device)
		w.chart.fitted = image.Rectangle{}
		g.next = w
		dst := ebiten.NewImage(size.wide, size.tall)
		frame(g, dst)
		for _, all := range []bool{false, true} {
			for _, zoom := range []float64{1, 2.5, 8} {
				w.fall.all, w.fall.looking = all, looking{zoom: zoom, across: 250}
				w.fall.scroll(60)
				frame(g, dst)
				check(t, g, dst, fmt.Sprintf("%dx%d at %g, zoom %g, all %v", size.wide, size.tall, size.device, zoom, all))
			}
		}
		dst.Deallocate()
	}
}

// The outermost range mark to each side that is in sight has the unit.
func TestOutermostRangeMarkHasTheUnit(t *testing.T) {
	g, w := fallWatch(t, "first-line", 60)
	g.next = w
	dst := ebiten.NewImage(1280, 720)
	defer dst.Deallocate()
	frame(g, dst)
	for _, across := range []float64{0, 400, -400, 120} {
		w.fall.looking.zoom, w.fall.looking.across = 4, across
		w.fall.keepInside(w.fall.rect())
		units := 0
		watched(g, dst, func(s string, at image.Rectangle) {
			var n float64
			var unit string
			if k, _ := fmt.Sscanf(s, "%g %s", &n, &unit); k == 2 && unit == "m" && s == fmt.Sprintf("%g m", n) && at.Min.Y == w.fall.rect().Min.Y {
				units++
			}
		})
		if units == 0 {
			t.Errorf("zoomed %.0f bins off nadir no range mark has a unit", across)
		}
	}
}

// Lines begun and ended close together are told where there is room, in the pane
// and off all else that is lettered there.
func TestLogMarksKeepOffEachOther(t *testing.T) {
	g, w := fallWatch(t, "disused-anchorage", 60)
	g.next = w
	dst := ebiten.NewImage(1280, 720)
	defer dst.Deallocate()
	frame(g, dst)
	last := len(w.fall.history) - 1
	for i, line := range []string{"", "L2", "", "L3", "", "L4"} { // every four pings, newest first
		for n := range 4 {
			w.fall.history[last-60-4*i-n].Line = line
		}
	}
	told := 0
	watched(g, dst, func(s string, at image.Rectangle) {
		if strings.HasPrefix(s, "log o") {
			told++
			if !at.In(w.fall.rect()) {
				t.Errorf("%q at %v is out of %v", s, at, w.fall.rect())
			}
		}
	})
	if told < 3 || told > 7 {
		t.Errorf("%d of seven changes are told, want those that there is room for", told)
	}
	check(t, g, dst, "many lines")
}

// With the newest pings at the foot everything is the mirror image of what it is with them at the top: the ping under
// a pixel, what stays under the pointer when it is zoomed and moved, and where the strip leads.
func TestNewestAtTheFoot(t *testing.T) {
	g, w := fallWatch(t, "first-line", 300)
	r, strip := w.fall.rect(), w.fall.stripRect()
	mirrored := func(at image.Point) image.Point { return image.Pt(at.X, r.Min.Y+r.Max.Y-1-at.Y) }
	number := func(at image.Point) uint64 {
		p, _, _, ok := w.fall.echo(at)
		if !ok {
			return 0
		}
		return p.Number
	}
	points := []image.Point{{r.Min.X + r.Dx()/4, r.Min.Y + 5}, middleOf(r), {r.Min.X + r.Dx()*3/4, r.Max.Y - 7}}
	do := map[string]func(flip func(image.Point) image.Point){
		"live":     func(func(image.Point) image.Point) {},
		"scrolled": func(func(image.Point) image.Point) { w.fall.scroll(100) },
		"zoomed":   func(flip func(image.Point) image.Point) { w.fall.zoomAbout(2.5, flip(points[2])) },
		"by the strip": func(flip func(image.Point) image.Point) {
			w.fall.goTo(flip(image.Pt(0, strip.Min.Y+strip.Dy()*2/3)).Y)
		},
	}
	for name, f := range do {
		var got [2][]uint64
		for k, foot := range []bool{false, true} {
			w.fall.looking = looking{zoom: 1}
			g.Settings.Foot = foot
			w.Build(g, g.area())
			flip := func(at image.Point) image.Point { return at }
			if foot {
				flip = mirrored
			}
			f(flip)
			for _, at := range points {
				got[k] = append(got[k], number(flip(at)))
			}
		}
		near := uint64(2) // pixels are read at their upper edge
		if name == "by the strip" {
			near = uint64(w.fall.stripRows()/float64(strip.Dy())) + 2
		}
		for i := range points {
			if a, b := got[0][i], got[1][i]; a == 0 || max(a, b)-min(a, b) > near {
				t.Errorf("%s: pings %d at the top and %d at the foot", name, got[0], got[1])
				break
			}
		}
	}
}
