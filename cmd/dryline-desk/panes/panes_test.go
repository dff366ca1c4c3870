package panes

import (
	"image"
	"math"
	"testing"

	"dryline/sonar/waterfall/picture"
)

// Ground and pixel undo each other, and zooming leaves the ground under the
// pointer where it is.
func TestProjectionGoesBothWays(t *testing.T) {
	p := Projection{Pane: image.Rect(100, 50, 900, 650)}
	p.Fit(0, 0, 640, 960)
	x, y := p.Ground(333, 222)
	for range 3 {
		p.Zoom(1.7, 333, 222)
		if gx, gy := p.Ground(333, 222); math.Hypot(gx-x, gy-y) > 1e-9 {
			t.Errorf("zooming moved the ground under the pointer by %g m", math.Hypot(gx-x, gy-y))
		}
	}
	px, py := p.At(12.5, -7)
	if gx, gy := p.Ground(px, py); math.Hypot(gx-12.5, gy+7) > 1e-9 {
		t.Errorf("there and back: %g, %g, want 12.5, -7", gx, gy)
	}
	// North is up, east to the right.
	ax, ay := p.At(0, 0)
	if ex, ny := p.At(10, 0); ex <= ax || ny != ay {
		t.Error("east is not to the right")
	}
	if _, ny := p.At(0, 10); ny >= ay {
		t.Error("north is not up")
	}
}

func TestFitShowsAll(t *testing.T) {
	p := Projection{Pane: image.Rect(0, 0, 500, 300)}
	p.Fit(-20, 10, 700, 90)
	for _, c := range [][2]float64{{-20, 10}, {700, 90}, {-20, 90}, {700, 10}} {
		x, y := p.At(c[0], c[1])
		if x < -0.01 || x > 500.01 || y < -0.01 || y > 300.01 {
			t.Errorf("corner %v lies at %.2f, %.2f, out of the pane", c, x, y)
		}
	}
}

func TestNiceStepsAreRound(t *testing.T) {
	for _, row := range []struct{ v, want float64 }{{1, 1}, {1.9, 1}, {2, 2}, {4.99, 2}, {5, 5}, {99, 50}, {0.3, 0.2}, {1000, 1000}} {
		if got := nice(row.v); math.Abs(got-row.want) > 1e-9*row.want {
			t.Errorf("nice(%g): got %g, want %g", row.v, got, row.want)
		}
	}
}

func TestSheetsTileThePlane(t *testing.T) {
	for _, row := range []struct{ a, b, want int }{{0, 512, 0}, {511, 512, 0}, {512, 512, 1}, {-1, 512, -1}, {-512, 512, -1}, {-513, 512, -2}} {
		if got := floorDiv(row.a, row.b); got != row.want {
			t.Errorf("floorDiv(%d, %d): got %d, want %d", row.a, row.b, got, row.want)
		}
	}
}

func TestLabelsKeepOffEachOther(t *testing.T) {
	var l Labels
	pane := image.Rect(0, 0, 400, 400)
	var placed []image.Rectangle
	for range 12 {
		r := l.Place(image.Rect(180, 195, 240, 209), pane)
		for _, o := range placed {
			if r.Overlaps(o) {
				t.Fatalf("%v lies over %v", r, o)
			}
		}
		if !r.In(pane) {
			t.Fatalf("%v lies out of the pane", r)
		}
		placed = append(placed, r)
	}
	if r := l.Place(image.Rect(380, 10, 440, 24), pane); !r.In(pane) {
		t.Errorf("%v was not drawn in from the edge", r)
	}
}

// Contrast turns about the grey of an ordinary echo, and the ramp's ends are
// its own.
func TestContrastKeepsTheOrdinaryEcho(t *testing.T) {
	for _, contrast := range []float64{0.5, 1, 2, 3} {
		s := Shade{Ramp: picture.Kelp(), Contrast: contrast}
		u := s.uniforms()
		gain, lift := float64(u["Gain"].(float32)), float64(u["Lift"].(float32))
		if got := (0.43 + lift) * gain; math.Abs(got-0.43) > 1e-6 {
			t.Errorf("contrast %g puts an ordinary echo at %.4f, want 0.43", contrast, got)
		}
		ramp := u["Ramp"].([]float32)
		first, last := picture.Kelp()[0], picture.Kelp()[255]
		if ramp[0] != float32(first.R)/255 || ramp[len(ramp)-1] != float32(last.B)/255 {
			t.Error("the ends of the ramp are not those of the picture's")
		}
	}
}

// Grey comes on the ramp as it is, lifted by what was added and turned about the
// grey of an ordinary echo by the contrast.
func TestShadeTurnsAboutAnOrdinaryEcho(t *testing.T) {
	for _, row := range []struct{ lift, contrast, grey, want float64 }{
		{0, 1, 0.3, 0.3}, {0, 0, 0.3, 0.3}, {0.1, 1, 0.3, 0.4}, {0, 2, 0.43, 0.43}, {0, 2, 0.5, 0.57}, {0, 0.5, 0.63, 0.53}, {-0.1, 2, 0.5, 0.47},
	} {
		s := Shade{Ramp: picture.Kelp(), Contrast: row.contrast, Lift: row.lift}
		u := s.uniforms()
		// As mosaic.kage and waterfall.kage reckon it.
		if got := (row.grey + float64(u["Lift"].(float32))) * float64(u["Gain"].(float32)); math.Abs(got-row.want) > 1e-6 {
			t.Errorf("grey %g lifted by %g, contrast %g: comes at %.4f, want %g", row.grey, row.lift, row.contrast, got, row.want)
		}
		ramp := u["Ramp"].([]float32)
		first, last := picture.Kelp()[0], picture.Kelp()[255]
		if ramp[0] != float32(first.R)/255 || ramp[len(ramp)-1] != float32(last.B)/255 {
			t.Error("the ends of the ramp are not those of the picture's")
		}
	}
}

// All shaders compile; the engine's own compiler needs no graphics for it.
func TestShadersCompile(t *testing.T) {
	waterfallProgram()
	mosaicProgram()
	sectionProgram()
}

// The side view remembers the bottom by distance run, not by time.
func TestSectionRemembersTheBottomByDistance(t *testing.T) {
	var s Section
	for i := range 100 {
		s.Hear(float64(i)*0.5, 0, 12+float64(i)*0.01, 0.4, true)
		s.Hear(float64(i)*0.5, 0, 99, 0.4, true) // heard again without moving
	}
	if n := len(s.bottom); n < 90 || n > 110 {
		t.Errorf("%d soundings over 50 m, want one each half metre", n)
	}
	s.Hear(80, 0, 5, 0.4, false)
	if s.under() == 5 {
		t.Error("a lost bottom was taken for one")
	}
}

// The largest hull and the smallest stand under the upper edge, house and all,
// and neither deck stands above its own sheave.
func TestSectionShowsTheWholeVessel(t *testing.T) {
	for _, test := range []struct {
		name         string
		long, sheave float64
	}{{"launch", 6.8, 1.2}, {"workboat", 12, 2}, {"training ship", 45, 3.5}} {
		var s Section
		v := Side{Bow: test.long / 2, Stern: -test.long / 2, SheaveAft: test.long / 2, SheaveUp: test.sheave, FishAft: 20, FishDepth: 8, Height: 9}
		r := image.Rect(0, 40, 1280, 250)
		f := s.fit(&v, r, 1)
		if top := f.y(mast * v.deck() * f.craft); top < float64(r.Min.Y) {
			t.Errorf("%s: got the mast %.0f pixels over the edge, want none", test.name, float64(r.Min.Y)-top)
		}
		if v.deck() > test.sheave {
			t.Errorf("%s: got a deck %.1f m up, want it under the sheave at %.1f m", test.name, v.deck(), test.sheave)
		}
	}
}

// The fish hangs over the pixel that she is to, whatever her layback, with the vessel in the pane ahead of her; heights
// and distances have one scale as long as there is room.
func TestFishHangsOverHerPlace(t *testing.T) {
	r := image.Rect(0, 40, 1280, 220)
	for _, aft := range []float64{8, 40, 160} {
		var s Section
		v := Side{Bow: 6, Stern: -6, SheaveAft: 6, SheaveUp: 2, FishAft: aft, FishDepth: 12, Height: 8, HangsAt: 590}
		f := s.fit(&v, r, 1)
		if x := f.x(v.FishAft); math.Abs(x-590) > 0.5 {
			t.Errorf("%g m astern she hangs at %.1f, want 590", aft, x)
		}
		if bow := f.x(-v.Bow); bow > float64(r.Max.X) {
			t.Errorf("%g m astern of her the bow is at %.0f, beyond the pane", aft, bow)
		}
		if aft == 8 && math.Abs(f.exaggerate-1) > 1e-9 {
			t.Errorf("with room enough heights are drawn %g times", f.exaggerate)
		}
	}
}

// Between the heights that are known the surface goes evenly, and beyond them it stays.
func TestCrestsBetweenTheirPlaces(t *testing.T) {
	c := Crests{From: 4, Step: 2, Up: []float64{1, 3, -1}}
	for astern, want := range map[float64]float64{-4: 1, -3: 2, -2: 3, -1: 1, 0: -1, 50: -1, -50: 1} {
		if got := c.at(astern); math.Abs(got-want) > 1e-12 {
			t.Errorf("%g m astern %g, want %g", astern, got, want)
		}
	}
	if got := (&Crests{}).at(3); got != 0 {
		t.Errorf("of no heights it is %g", got)
	}
}
