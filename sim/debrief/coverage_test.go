package debrief

import (
	"fmt"
	"math"
	"testing"

	"dryline/seabed"
	"dryline/sonar/mosaic"
)

// The worked example of IHO C-13, Manual on Hydrography, chapter 4, 2.3.9.1:
// 150 m of range on lines 125 m apart. The second row is that of the same
// chapter's table 4.4 for inshore surveys; the third is the line spacing of
// 1.6 times the range scale in the NOAA Field Procedures Manual, 2.5.3.1.2,
// whose overlap of 20 % of the swath is 2 R (1 - 0.2) = S.
func TestEnsonification(t *testing.T) {
	for _, row := range []struct {
		name                   string
		reach, spacing, wanted float64
	}{
		{"C-13 example", 150, 125, 240},
		{"C-13 inshore", 75, 62.5, 240},
		{"NOAA spacing", 100, 160, 100 / (1 - 0.2)},
	} {
		if got := Ensonification(row.reach, row.spacing); math.Abs(got-row.wanted) > 1e-9 {
			t.Errorf("%s: got %g %%, want %g", row.name, got, row.wanted)
		}
	}
}

// A holiday can hide the smallest object a survey must show, 1 m by 1 m (NOAA
// Hydrographic Surveys Specifications and Deliverables 2021, 6.1.2.1).
func TestHolidays(t *testing.T) {
	for _, row := range []struct {
		name   string
		cell   float64
		gaps   [][4]int // from, from, to, to in cells, half open
		wanted []float64
	}{
		{"whole", 0.25, nil, nil},
		{"1 m by 1 m", 0.25, [][4]int{{8, 8, 12, 12}}, []float64{1}},
		{"1 m by 0.75 m", 0.25, [][4]int{{8, 8, 12, 11}}, nil},
		{"a long crack 0.75 m wide", 0.25, [][4]int{{0, 8, 40, 11}}, nil},
		{"one cell of 1 m", 1, [][4]int{{3, 3, 4, 4}}, []float64{1}},
		{"cells of 0.3 m need four", 0.3, [][4]int{{3, 3, 6, 6}, {10, 10, 14, 14}}, []float64{16 * 0.09}},
		{"two that touch at a corner", 0.5, [][4]int{{2, 2, 4, 4}, {4, 4, 7, 7}}, []float64{2.25, 1}},
		{"two joined", 0.5, [][4]int{{2, 2, 6, 6}, {5, 5, 9, 9}}, []float64{(16 + 16 - 1) * 0.25}},
		{"along the edge", 0.5, [][4]int{{0, 0, 40, 2}}, []float64{20}},
	} {
		t.Run(row.name, func(t *testing.T) {
			r := &counted{raster: raster{cell: row.cell, nx: 40, ny: 30}}
			r.state = make([]Reason, r.nx*r.ny)
			for i := range r.state {
				r.state[i] = seen
			}
			for _, g := range row.gaps {
				for j := g[1]; j < g[3]; j++ {
					for i := g[0]; i < g[2]; i++ {
						r.state[j*r.nx+i] = noSwath
					}
				}
			}
			got := r.holidays()
			if len(got) != len(row.wanted) {
				t.Fatalf("got %+v, want %d", got, len(row.wanted))
			}
			for i, want := range row.wanted {
				if math.Abs(got[i].SquareMetres-want) > 1e-9 {
					t.Errorf("%d: got %g m2, want %g", i, got[i].SquareMetres, want)
				}
			}
		})
	}
}

// Cells inside a polygon add up to its area, and those painted to the share
// painted, whatever its shape and wherever the origin lies.
func TestRasterOfPolygon(t *testing.T) {
	const cell = 0.5
	for _, row := range []struct {
		name    string
		corners []seabed.Point
		area    float64 // by elementary geometry
		half    float64 // share of it within 30 m of x = 0 and of it east of x = 0
	}{
		{"rectangle", []seabed.Point{{X: -20, Y: -30}, {X: 20, Y: -30}, {X: 20, Y: 30}, {X: -20, Y: 30}}, 2400, 0.5},
		{"triangle", []seabed.Point{{X: -20, Y: -30}, {X: 20, Y: -30}, {X: 0, Y: 30}}, 1200, 0.5},
		{"arrow", []seabed.Point{{X: -20, Y: -30}, {X: 0, Y: -10}, {X: 20, Y: -30}, {X: 0, Y: 30}}, 800, 0.5},
	} {
		t.Run(row.name, func(t *testing.T) {
			m, err := mosaic.New(cell, mosaic.Mean)
			if err != nil {
				t.Fatal(err)
			}
			// Starboard of a northward line at x = 0 is painted, port is not.
			p := mosaic.NewPainter(m)
			echo := make([]float32, 100)
			for y := -31.0; y <= 31; y += 0.25 {
				p.Paint(mosaic.Swath{X: 0.01, Y: y, Altitude: 0.5, Bin: 0.5, Starboard: echo, Reach: 30})
			}
			m.EndLook()
			r := newRaster(row.corners, cell)
			once, twice := r.mosaicked(m)
			if got := float64(r.inside) * cell * cell; math.Abs(got-row.area) > 0.01*row.area {
				t.Errorf("area: got %g m2, want %g", got, row.area)
			}
			if got := float64(once) / float64(r.inside); math.Abs(got-row.half) > 0.02 {
				t.Errorf("share seen: got %.3f, want %.3f", got, row.half)
			}
			if twice != 0 {
				t.Errorf("seen twice: got %d cells after one line, want 0", twice)
			}
		})
	}
}

func TestAreaOfLines(t *testing.T) {
	ex := small(t)
	for _, row := range []struct {
		name          string
		reach         float64
		lines         int
		x0, x1, width float64
	}{
		{"half the spacing", 50, 2, 65, 205, 140},
		{"no further than the range", 20, 2, 80, 190, 110},
		{"a single line", 50, 1, 50, 150, 100},
	} {
		e := *ex
		e.Lines = ex.Lines[:row.lines]
		corners, source := areaOf(&e, row.reach, spacingOf(&e))
		x0, x1 := math.Inf(1), math.Inf(-1)
		for _, p := range corners {
			x0, x1 = min(x0, p.X), max(x1, p.X)
		}
		if math.Abs(x0-row.x0) > 1e-9 || math.Abs(x1-row.x1) > 1e-9 || source != "lines" {
			t.Errorf("%s: got %g to %g from %s, want %g to %g from lines", row.name, x0, x1, source, row.x0, row.x1)
		}
	}
}

func ExampleEnsonification() {
	fmt.Printf("%.0f %%\n", Ensonification(150, 125))
	// Output: 240 %
}
