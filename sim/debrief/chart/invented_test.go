package chart

import (
	"fmt"
	"image"
	"math"
	"math/rand/v2"
	"testing"

	"dryline/vessel/nav/geodesy"
)

// invented returns a survey of made-up ground, east by north metres, with
// lines along its longer side, run in turn and back.
func invented(t testing.TB, east, north float64) Chart {
	t.Helper()
	grid, err := geodesy.NewLocalGrid(geodesy.Degrees(50.32, -1.21))
	if err != nil {
		t.Fatal(err)
	}
	c := Chart{
		Title:    "Disused anchorage, run of 14 lines",
		Subtitle: "Seed 20417  ·  range scale 40 m  ·  score 71 of 100",
		Grid:     grid,
		MinX:     -20, MaxY: north + 20, Cell: 0.5,
		Area: []Point{{0, 0}, {east, 0}, {east, north}, {0, north}},
		Notes: []string{
			"Coverage 94.1 % of the area against 98 % wanted.",
			"Four of seven objects found. The one at T5 lies in the strip under line 105, where the fish rose to 31 % of the range scale.",
			"Fish 6 m east of where the desk believed it on northbound lines: the sheave offset was entered with the wrong sign.",
		},
	}
	rng := rand.New(rand.NewPCG(3, 4))
	w, h := int((east+40)/c.Cell), int((north+40)/c.Cell)
	c.Mosaic = image.NewGray(image.Rect(0, 0, w, h))
	long := math.Max(east, north)
	tall := north >= east
	for j := range h {
		for i := range w {
			x, y := c.MinX+(float64(i)+0.5)*c.Cell, c.MaxY-(float64(j)+0.5)*c.Cell
			if x < -12 || y < -12 || x > east+12 || y > north+12 || math.Hypot(x-0.6*east, y-0.4*north) < 14 {
				continue
			}
			level := 95 + 45*math.Sin(x/70+math.Sin(y/90)) + 15*math.Sin((x+0.4*y)/2.2)
			across := x
			if !tall {
				across = y
			}
			if d := math.Abs(math.Mod(across+600, 60) - 30); d < 2 {
				level *= 0.5
			}
			c.Mosaic.Pix[j*c.Mosaic.Stride+i] = uint8(min(max(level*math.Sqrt(rng.ExpFloat64()*0.4+0.6), 1), 255))
		}
	}
	at := func(along, across float64) Point {
		if tall {
			return Point{across, along}
		}
		return Point{along, across}
	}
	n := 0
	for across := 30.0; across < math.Min(east, north); across += 60 {
		c.Lines = append(c.Lines, Line{Name: fmt.Sprint(101 + n), A: at(0, across), B: at(long, across)})
		for k := -90.0; k <= long+90; k += 2 {
			along := k
			if n%2 == 1 {
				along = long - k
			}
			c.Track = append(c.Track, at(along, across+2*math.Sin(along/80)))
			c.FishTrack = append(c.FishTrack, at(along, across+3+3*math.Sin(along/95)))
		}
		n++
	}
	for i := range 7 {
		c.Contacts = append(c.Contacts, Contact{Label: fmt.Sprintf("T%d boulder 1.4 m", i+1),
			X: east * (0.1 + 0.13*float64(i)), Y: north * (0.15 + 0.1*float64(i*3%7)), Found: i%2 == 0})
	}
	for i := range 3 {
		c.Contacts = append(c.Contacts, Contact{Label: fmt.Sprintf("C%d", i+11), X: east*0.31 + 7*float64(i), Y: north*0.64 + 5*float64(i), False: i == 1, Found: i == 0})
	}
	return c
}
