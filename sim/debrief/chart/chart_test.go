package chart

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"math"
	"strings"
	"testing"

	"dryline/sonar/waterfall/picture"
	"dryline/vessel/nav/geodesy"
)

var grounds = []struct {
	name        string
	east, north float64
}{{"tall", 440, 860}, {"wide", 860, 440}, {"square", 300, 300}}

var sizes = []image.Point{{MinWidth, MinHeight}, {1280, 720}, {1600, 1200}}

func TestScaleIsTheSameBothWaysAndFits(t *testing.T) {
	for _, g := range grounds {
		for _, size := range sizes {
			c := invented(t, g.east, g.north)
			l := layOut(c, size.X, size.Y)
			b := extent(c)
			onSheet := Rect{l.x(b.X0), l.y(b.Y1), l.x(b.X1), l.y(b.Y0)}
			if !onSheet.Inside(l.frame) {
				t.Errorf("%s %v: ground at %v, want it inside the frame %v", g.name, size, onSheet, l.frame)
			}
			across, down := (onSheet.X1-onSheet.X0)/(b.X1-b.X0), (onSheet.Y1-onSheet.Y0)/(b.Y1-b.Y0)
			if math.Abs(across-down) > 1e-9 {
				t.Errorf("%s %v: got %g pixels a metre across and %g down, want one scale", g.name, size, across, down)
			}
			if !l.frame.Inside(Rect{0, 0, float64(size.X), float64(size.Y)}) || l.frame.Overlaps(l.side) {
				t.Errorf("%s %v: frame %v and panel %v", g.name, size, l.frame, l.side)
			}
		}
	}
}

func TestGridTicksLieOnRoundMetres(t *testing.T) {
	for _, g := range grounds {
		c := invented(t, g.east, g.north)
		l := layOut(c, 1600, 1200)
		step, eastings, northings := l.gridTicks(c.Grid.OriginEasting, c.Grid.OriginNorthing)
		if len(eastings) < 2 || len(northings) < 2 {
			t.Fatalf("%s: got %d eastings and %d northings, want 2 or more", g.name, len(eastings), len(northings))
		}
		for _, e := range eastings {
			// Back from the sheet to the ellipsoid and forward again.
			ll := c.Grid.ToLatLon(l.east(e.at), 0)
			east, _ := c.Grid.Forward(ll)
			if math.Abs(east-e.value) > 1e-3 || math.Abs(math.Remainder(e.value, step)) > 1e-6 {
				t.Errorf("%s: tick marked %.3f stands at easting %.3f, step %g", g.name, e.value, east, step)
			}
			if e.at < l.frame.X0 || e.at > l.frame.X1 {
				t.Errorf("%s: easting %.0f at %.1f is off the frame", g.name, e.value, e.at)
			}
		}
		for _, n := range northings {
			ll := c.Grid.ToLatLon(0, l.north(n.at))
			_, north := c.Grid.Forward(ll)
			if math.Abs(north-n.value) > 1e-3 || math.Abs(math.Remainder(n.value, step)) > 1e-6 {
				t.Errorf("%s: tick marked %.3f stands at northing %.3f, step %g", g.name, n.value, north, step)
			}
		}
	}
}

// Lettering that ran off the sheet would touch its outermost pixels.
func TestNothingRunsOffTheSheet(t *testing.T) {
	for _, g := range grounds {
		for _, size := range sizes {
			c := invented(t, g.east, g.north)
			c.Title = strings.Repeat("Long title ", 40)
			c.Subtitle = strings.Repeat("long subtitle ", 40)
			c.Notes = append(c.Notes, strings.Repeat("endless", 60), strings.Repeat("many words ", 300))
			c.Contacts = append(c.Contacts, Contact{Label: strings.Repeat("broad ", 50), X: 10, Y: 10})
			img := Draw(c, size.X, size.Y)
			strip := size.Y - int(stripHeight*layOut(c, size.X, size.Y).unit) - 1
			check := func(x, y int) {
				want := paper
				if y >= strip {
					want = ink
				}
				if got := img.RGBAAt(x, y); got != want && y != strip && y != strip-1 {
					t.Fatalf("%s %v: pixel %d,%d is %v, want bare %v", g.name, size, x, y, got, want)
				}
			}
			for x := range size.X {
				check(x, 0)
				check(x, size.Y-1)
			}
			for y := range size.Y {
				check(0, y)
				check(size.X-1, y)
			}
		}
	}
}

func TestMosaicLiesWhereItShould(t *testing.T) {
	grid, err := geodesy.NewLocalGrid(geodesy.Degrees(50, -1))
	if err != nil {
		t.Fatal(err)
	}
	// Four quarters of 100 m: no data in the south-east.
	m := image.NewGray(image.Rect(0, 0, 200, 200))
	for j := range 200 {
		for i := range 200 {
			v := map[[2]bool]uint8{{false, false}: 60, {true, false}: 120, {false, true}: 240}[[2]bool{i >= 100, j >= 100}]
			m.SetGray(i, j, color.Gray{Y: v})
		}
	}
	c := Chart{Grid: grid, Mosaic: m, MinX: 50, MaxY: 300, Cell: 1, Ramp: picture.Grey()}
	img := Draw(c, 1600, 1200)
	l := layOut(c, 1600, 1200)
	for _, tt := range []struct {
		name string
		x, y float64
		want color.RGBA
	}{
		{"north-west", 63, 287, picture.Grey()[60]},
		{"north-east", 237, 287, picture.Grey()[120]},
		{"south-west", 63, 113, picture.Grey()[240]},
		{"south-east", 237, 113, water},
		{"outside", 45, 287, water},
	} {
		if got := img.RGBAAt(int(l.x(tt.x)), int(l.y(tt.y))); got != tt.want {
			t.Errorf("%s: got %v, want %v", tt.name, got, tt.want)
		}
	}
}

// A pipeline shows where it runs, over the mosaic too and past the frame, moves
// nothing, and has its line in the legend.
func TestPipelinesShowWhereTheyRun(t *testing.T) {
	c := invented(t, 440, 860)
	c.Contacts = nil // their labels would hide some of it
	plain := Draw(c, 1280, 720)
	c.Pipelines = [][]Point{{{-900, 100}, {220, 400}, {300, 2000}}}
	img := Draw(c, 1280, 720)
	l := layOut(c, 1280, 720)
	shown := func(x, y int) int {
		n := 0
		for j := -2; j <= 2; j++ {
			for i := -2; i <= 2; i++ {
				if p := img.RGBAAt(x+i, y+j); int(p.R) > int(p.G)+30 && int(p.B) > int(p.G)+15 {
					n++
				}
			}
		}
		return n
	}
	on, off := 0, 0
	for i := range 60 {
		// From the west side of the ground to the bend.
		x := 220 * float64(i) / 60
		y := 100 + (x+900)*300/1120
		if shown(int(l.x(x)), int(l.y(y))) > 0 {
			on++
		}
		if shown(int(l.x(x)), int(l.y(y)+14)) > 0 {
			off++
		}
	}
	if on < 40 || off > 6 {
		t.Errorf("of 60 places %d show it and %d beside it, want most and hardly any", on, off)
	}
	changed := image.Rectangle{}
	for y := range 720 {
		for x := range 1280 {
			if img.RGBAAt(x, y) != plain.RGBAAt(x, y) {
				changed = changed.Union(image.Rect(x, y, x+1, y+1))
				if in := (Rect{float64(x), float64(y), float64(x) + 1, float64(y) + 1}); !in.Overlaps(l.frame) && !in.Overlaps(l.side.Grow(2)) {
					t.Fatalf("pixel %d,%d changes, out of the map and its legend", x, y)
				}
			}
		}
	}
	if !(Rect{float64(changed.Min.X), float64(changed.Min.Y), float64(changed.Max.X), float64(changed.Max.Y)}).Overlaps(l.side) {
		t.Error("the legend is as it was")
	}
}

// A target of one cell must not vanish between the pixels of a small sheet.
func TestMosaicIsAveraged(t *testing.T) {
	m := image.NewGray(image.Rect(0, 0, 4000, 4000))
	for i := range m.Pix {
		m.Pix[i] = 1
	}
	m.SetGray(2001, 2001, color.Gray{Y: 255})
	c := Chart{Mosaic: m, MinX: 0, MaxY: 400, Cell: 0.1, Ramp: picture.Grey()}
	img := Draw(c, MinWidth, MinHeight)
	l := layOut(c, MinWidth, MinHeight)
	x, y := int(l.x(200.15)), int(l.y(199.85))
	background := img.RGBAAt(x+20, y+5)
	if got := img.RGBAAt(x, y); got == background {
		t.Errorf("got %v as around it, want the bright cell to count", got)
	}
}

func TestDrawTakesWhatThereIs(t *testing.T) {
	nan := math.NaN()
	full := invented(t, 440, 860)
	for name, c := range map[string]Chart{
		"nothing":         {},
		"no position":     {Title: "T", Lines: full.Lines, Contacts: full.Contacts},
		"tracks only":     {Grid: full.Grid, Track: full.Track},
		"broken track":    {Grid: full.Grid, Track: []Point{{0, 0}, {nan, 1}, {5, 5}, {9, 9}}, Lines: full.Lines},
		"empty mosaic":    {Grid: full.Grid, Mosaic: image.NewGray(image.Rect(0, 0, 0, 0)), Cell: 1},
		"dark mosaic":     {Grid: full.Grid, Mosaic: image.NewGray(image.Rect(0, 0, 9, 9)), Cell: 1},
		"one contact":     {Grid: full.Grid, Contacts: []Contact{{Label: "A", X: 3, Y: 4}}},
		"contact nowhere": {Grid: full.Grid, Contacts: []Contact{{Label: "A", X: nan, Y: 4}}, Lines: full.Lines},
		"point line":      {Grid: full.Grid, Lines: []Line{{Name: "1", A: Point{1, 1}, B: Point{1, 1}}}},
	} {
		if got := Draw(c, 1280, 720).Bounds().Size(); got != image.Pt(1280, 720) {
			t.Errorf("%s: got %v, want 1280 by 720", name, got)
		}
	}
}

func TestDrawIsRepeatable(t *testing.T) {
	c := invented(t, 440, 860)
	if !bytes.Equal(Draw(c, 1280, 720).Pix, Draw(c, 1280, 720).Pix) {
		t.Error("the same chart drawn twice differs")
	}
}

func TestPosition(t *testing.T) {
	for _, tt := range []struct {
		lat, lon float64
		want     string
	}{
		{50.32, -1.21, "50° 19.200′ N  001° 12.600′ W"},
		{-33.5, 151.25, "33° 30.000′ S  151° 15.000′ E"},
		{59.99999999, 0, "60° 00.000′ N  000° 00.000′ E"}, // no 59° 60.000′
	} {
		if got, _ := position(tt.lat, tt.lon); got != tt.want {
			t.Errorf("position(%g, %g): got %q, want %q", tt.lat, tt.lon, got, tt.want)
		}
	}
	if _, ok := position(math.NaN(), 0); ok {
		t.Error("position of NaN: got one, want none")
	}
}

func TestGridLabel(t *testing.T) {
	for _, tt := range []struct {
		v, step float64
		want    string
	}{
		{627400, 200, "627 400"}, {5576600, 200, "5 576 600"}, {50, 10, "50"}, {-1500, 500, "-1 500"}, {1234.5, 0.5, "1 234.5"},
	} {
		if got := gridLabel(tt.v, tt.step); got != tt.want {
			t.Errorf("gridLabel(%g, %g): got %q, want %q", tt.v, tt.step, got, tt.want)
		}
	}
}

func ExampleScaleBar() {
	for _, most := range []float64{10, 99, 230, 780, 0.7} {
		fmt.Print(ScaleBar(most), " ")
	}
	// Output: 10 50 200 500 0.5
}

func BenchmarkDraw(b *testing.B) {
	c := invented(b, 440, 860)
	for b.Loop() {
		Draw(c, 1600, 1200)
	}
}
