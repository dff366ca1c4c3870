package mosaic

import (
	"math"
	"testing"
)

// row is a swath side with one bright patch between two ground ranges, laid
// out in slant range from a height: exact Pythagoras.
func row(height, bin, from, to float64) []float32 {
	r := make([]float32, 2000)
	for k := range r {
		slant := (float64(k) + 0.5) * bin
		if slant <= height {
			continue
		}
		r[k] = 1
		if g := math.Sqrt(slant*slant - height*height); g >= from && g <= to {
			r[k] = 9
		}
	}
	return r
}

// centroid of everything bright.
func centroid(m *Mosaic) (x, y float64) {
	n := 0.0
	m.each(func(i, j int, v float32, _ int) {
		if v > 4 {
			x += (float64(i) + 0.5) * m.size
			y += (float64(j) + 0.5) * m.size
			n++
		}
	})
	return x / n, y / n
}

// A patch of ground seen from any heading lands where it is, whatever the
// slant range it was heard at.
func TestPatchLandsWhereItIs(t *testing.T) {
	const height, bin, cell = 7.0, 0.025, 0.25
	for _, degrees := range []float64{0, 30, 90, 211, 359} {
		heading := degrees * math.Pi / 180
		m, err := New(cell, Mean)
		if err != nil {
			t.Fatal(err)
		}
		p := NewPainter(m)
		sin, cos := math.Sincos(heading)
		for i := range 200 {
			s := -14 + 0.14*float64(i)
			swath := Swath{X: 500 + s*sin, Y: 300 + s*cos, Heading: heading, Altitude: height, Bin: bin,
				Port: row(height, bin, -1, -1), Starboard: row(height, bin, -1, -1), Reach: 48}
			if math.Abs(s) < 1 {
				swath.Starboard = row(height, bin, 29, 31)
			}
			p.Paint(swath)
		}
		m.EndLook()
		x, y := centroid(m)
		// Starboard of the track at its middle: 30 m at right angles.
		wantX, wantY := 500+30*cos, 300-30*sin
		if d := math.Hypot(x-wantX, y-wantY); d > cell {
			t.Errorf("heading %g deg: patch at (%.2f, %.2f), want (%.2f, %.2f)", degrees, x, y, wantX, wantY)
		}
	}
}

func TestNoCellIsMissedInsideTheSwath(t *testing.T) {
	for _, degrees := range []float64{0, 17, 45, 123} {
		heading := degrees * math.Pi / 180
		m, _ := New(0.25, Mean)
		p := NewPainter(m)
		sin, cos := math.Sincos(heading)
		for i := range 300 {
			s := 0.5 * float64(i)
			p.Paint(Swath{X: s * sin, Y: s * cos, Heading: heading, Altitude: 6, Bin: 0.025,
				Port: row(6, 0.025, -1, -1), Starboard: row(6, 0.025, -1, -1), Reach: 49})
		}
		for along := 5.0; along < 140; along += 0.21 {
			for across := -48.0; across < 48; across += 0.37 {
				x, y := along*sin+across*cos, along*cos-across*sin
				if _, looks := m.At(x, y); looks == 0 {
					t.Fatalf("heading %g: nothing at %.2f along, %.2f across", degrees, along, across)
				}
			}
		}
	}
}

func TestHolidayStaysOpen(t *testing.T) {
	m, _ := New(0.25, Mean)
	p := NewPainter(m)
	for _, y := range []float64{0, 0.2, 0.4, 10, 10.2} { // pings missed between 0.4 and 10 m
		p.Paint(Swath{Y: y, Altitude: 6, Bin: 0.025, Port: row(6, 0.025, -1, -1), Starboard: row(6, 0.025, -1, -1), Reach: 49})
	}
	if _, looks := m.At(20, 5); looks != 0 {
		t.Error("ground nobody sampled was painted")
	}
	if _, looks := m.At(20, 10.1); looks != 1 {
		t.Error("ground that was sampled is empty")
	}
}

func TestWaysToCombine(t *testing.T) {
	for _, test := range []struct {
		combine  Combine
		value    float32
		tol      float64
		a, b     float32 // values of two looks
		qa, qb   float32
		wantLook int
	}{
		{Mean, 3, 1e-6, 2, 4, 1, 1, 2},
		{Strongest, 4, 1e-6, 4, 2, 1, 1, 2},
		{Latest, 2, 1e-6, 4, 2, 1, 1, 2},
		{Best, 4, 0.05, 4, 2, 1, 0.5, 2},
		{Best, 3, 1e-6, 4, 2, 1, 1, 2},
	} {
		m, err := New(1, test.combine)
		if err != nil {
			t.Fatal(err)
		}
		m.put(0.5, 0.5, test.a, test.qa)
		m.put(0.6, 0.4, test.a, test.qa) // twice in one look is still one look
		m.EndLook()
		m.put(0.5, 0.5, test.b, test.qb)
		m.EndLook()
		v, looks := m.At(0.5, 0.5)
		if math.Abs(float64(v-test.value)) > test.tol || looks != test.wantLook {
			t.Errorf("%s of %g and %g: got %g in %d looks, want %g in %d", test.combine, test.a, test.b, v, looks, test.value, test.wantLook)
		}
	}
}

func TestRenderIsNorthUp(t *testing.T) {
	m, _ := New(1, Mean)
	m.put(10.5, 20.5, 1, 1)
	m.put(13.5, 25.5, 2, 1)
	p, ok := m.Render(func(v float32) uint8 { return uint8(100 * v) })
	if !ok || p.MinX != 10 || p.MaxY != 26 || p.Gray.Rect.Dx() != 4 || p.Gray.Rect.Dy() != 6 {
		t.Fatalf("picture from (%g, %g), %v", p.MinX, p.MaxY, p.Gray.Rect)
	}
	if got := p.Gray.GrayAt(3, 0).Y; got != 200 {
		t.Errorf("north-east cell: got %d, want 200", got)
	}
	if got := p.Gray.GrayAt(0, 5).Y; got != 100 {
		t.Errorf("south-west cell: got %d, want 100", got)
	}
}

func TestBadMosaics(t *testing.T) {
	if _, err := New(0, Mean); err == nil {
		t.Error("a cell of no size was accepted")
	}
	if _, err := New(1, "median"); err == nil {
		t.Error("an unknown way to combine was accepted")
	}
}

func BenchmarkPaint(b *testing.B) {
	m, _ := New(0.25, Best)
	p := NewPainter(m)
	port, starboard := row(6, 0.025, 10, 12), row(6, 0.025, -1, -1)
	y, heading := 0.0, 0.0
	for b.Loop() {
		y = math.Mod(y+0.14, 600)
		heading = 0.005 - heading // yaws so that the ground between is laid two or three times, as in a survey
		p.Paint(Swath{X: 50, Y: y, Heading: heading, Altitude: 6, Bin: 0.025, Port: port, Starboard: starboard, Reach: 49})
	}
}
