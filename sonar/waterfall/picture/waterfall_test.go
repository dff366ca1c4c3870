package picture

import (
	"bytes"
	"image"
	"image/color"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// invented returns a line over made-up ground: a water column, a bottom that
// darkens outwards, ripples, and one object with its shadow.
func invented(pings, samples int) Waterfall {
	rng := rand.New(rand.NewPCG(1, 2))
	w := Waterfall{Title: "Line 104, northbound", Channel: "455 kHz", RangeScale: 75}
	for i := range pings {
		along := 0.28 * float64(i)
		height := 9 + 1.5*math.Sin(along/60)
		w.AlongTrack = append(w.AlongTrack, along)
		w.Times = append(w.Times, 300+0.14*float64(i))
		w.BottomTrack = append(w.BottomTrack, height)
		var sides [2][]uint8
		for s := range sides {
			for j := range samples {
				r := (float64(j) + 0.5) / float64(samples) * w.RangeScale
				level := 12.0
				if r > height {
					level = 150*math.Sqrt(height/r)*(1+0.25*math.Sin(r*1.3+along*0.4+float64(s))) + 30
				}
				if s == 1 && math.Abs(along-120) < 4 && r > 38 {
					level = 235
					if r > 41 {
						level = 14
					}
					if r > 50 {
						level = 80
					}
				}
				level *= math.Sqrt(rng.ExpFloat64()*0.5 + 0.5)
				sides[s] = append(sides[s], uint8(min(level, 255)))
			}
		}
		w.Port = append(w.Port, sides[0])
		w.Starboard = append(w.Starboard, sides[1])
	}
	return w
}

func TestSidesAndTime(t *testing.T) {
	const pings, samples = 40, 60
	w := Waterfall{RangeScale: 50, Ramp: Grey()}
	for i := range pings {
		port, starboard := make([]uint8, samples), make([]uint8, samples)
		for j := range samples {
			port[j] = uint8(4 * i)      // grows with time
			starboard[j] = uint8(4 * j) // grows with range
		}
		w.Port, w.Starboard = append(w.Port, port), append(w.Starboard, starboard)
	}
	w.Starboard[0] = nil
	img := Draw(w, 700, 600)
	r := layOut(w, 700, 600).plot
	nadir := (r.Min.X + r.Max.X) / 2
	for _, tt := range []struct {
		name string
		x, y int
		want color.RGBA
	}{
		{"newest port at top", nadir - 2, r.Min.Y, Grey()[4*(pings-1)]},
		{"oldest port at bottom", nadir - 2, r.Max.Y - 1, Grey()[0]},
		{"starboard near the fish", nadir + 1, r.Min.Y + 5, Grey()[0]},
		{"starboard far out", r.Max.X - 2, r.Min.Y + 5, Grey()[4*(samples-1)]},
		{"ping not heard", nadir + 30, r.Max.Y - 1, unheard},
	} {
		if got := img.RGBAAt(tt.x, tt.y); got != tt.want {
			t.Errorf("%s: got %v, want %v", tt.name, got, tt.want)
		}
	}
}

func TestMeanAcross(t *testing.T) {
	for _, tt := range []struct {
		name string
		row  []uint8
		n    int
		want []float64
	}{
		{"as it is", []uint8{1, 2, 3}, 3, []float64{1, 2, 3}},
		{"halved", []uint8{0, 10, 20, 40}, 2, []float64{5, 30}},
		{"shared sample", []uint8{30, 60, 90}, 2, []float64{40, 80}},
		{"one bright sample of four", []uint8{0, 200, 0, 0}, 1, []float64{50}},
		{"doubled", []uint8{7, 9}, 4, []float64{7, 7, 9, 9}},
	} {
		got := make([]float64, tt.n)
		row := make([]float64, len(tt.row))
		for i, v := range tt.row {
			row[i] = float64(v)
		}
		newAcross(len(row), len(got)).mean(got, row)
		for i := range got {
			if math.Abs(got[i]-tt.want[i]) > 1e-12 {
				t.Errorf("%s: got %v, want %v", tt.name, got, tt.want)
				break
			}
		}
	}
}

// However far a line is squeezed, its mean stays.
func TestMeanIsKept(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pings, samples := rapid.IntRange(1, 40).Draw(t, "pings"), rapid.IntRange(1, 40).Draw(t, "samples")
		height, width := rapid.IntRange(1, 30).Draw(t, "height"), rapid.IntRange(1, 30).Draw(t, "width")
		rows := make([][]uint8, pings)
		sum := 0.0
		for i := range rows {
			rows[i] = rapid.SliceOfN(rapid.Byte(), samples, samples).Draw(t, "row")
			for _, v := range rows[i] {
				sum += float64(v)
			}
		}
		want := sum / float64(pings*samples)
		s, got := newSide(rows, width), 0.0
		perRow := float64(pings) / float64(height)
		for y := range height {
			means, ok := s.mean(float64(y)*perRow, float64(y+1)*perRow)
			if !ok {
				t.Fatalf("pixel row %d: no ping heard", y)
			}
			for _, v := range means {
				got += v / float64(width*height)
			}
		}
		if math.Abs(got-want) > 1e-9*255 {
			t.Fatalf("mean of picture %g, want %g", got, want)
		}
	})
}

func TestDistanceAndTimeLieWhereTheyShould(t *testing.T) {
	w := invented(400, 60)
	s := sheet{Waterfall: w, layout: layOut(w, 900, 2000)}
	perMetre := float64(s.half) / w.RangeScale
	for _, v := range []float64{10, 50, 100} {
		got, ok := s.yOf(w.AlongTrack, v)
		// Half a ping's advance of 0.28 m lies below the first ping.
		want := float64(s.plot.Max.Y) - (v+0.14)*perMetre
		if !ok || math.Abs(got-want) > 1 {
			t.Errorf("%g m: got y %.2f (%t), want %.2f", v, got, ok, want)
		}
	}
	if _, ok := s.yOf(w.AlongTrack, 1000); ok {
		t.Error("distance beyond the line: got a place, want none")
	}
}

func TestDrawKeepsToItsSize(t *testing.T) {
	long := invented(900, 30)
	short := invented(3, 30)
	tests := map[string]Waterfall{
		"none": {}, "no range": {Port: [][]uint8{{1}}}, "endless range": {Port: [][]uint8{{1}}, RangeScale: math.Inf(1)},
		"one ping":       {Port: [][]uint8{{1, 2}}, RangeScale: 50, Times: []float64{0}, AlongTrack: []float64{0}},
		"standing still": {Port: [][]uint8{{1}, {2}}, RangeScale: 50, Times: []float64{3, 3}, AlongTrack: []float64{5, 5}},
		"short":          short, "long": long,
		"one side":   {Starboard: long.Starboard, RangeScale: 75},
		"long title": {Title: strings.Repeat("Line ", 100), Port: long.Port, RangeScale: 75},
	}
	for name, w := range tests {
		for _, size := range []image.Point{{MinWidth, MinHeight}, {1280, 720}, {1600, 1200}} {
			if b := Draw(w, size.X, size.Y).Bounds(); b.Dx() != size.X || b.Dy() > size.Y {
				t.Errorf("%s: got %v, want %d wide and at most %d high", name, b, size.X, size.Y)
			}
		}
	}
}

func TestDrawIsRepeatable(t *testing.T) {
	w := invented(300, 200)
	if !bytes.Equal(Draw(w, 800, 600).Pix, Draw(w, 800, 600).Pix) {
		t.Error("the same waterfall drawn twice differs")
	}
}

func BenchmarkDraw(b *testing.B) {
	w := invented(3000, 1200)
	for b.Loop() {
		Draw(w, 1200, 1600)
	}
}
