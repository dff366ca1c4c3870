package coverage

import (
	"math"
	"slices"

	"dryline/sim/survey"
	"dryline/sonar/mosaic"
)

// Point is a point of the local grid, metres.
type Point struct{ X, Y float64 }

// Map is an area in cells, with the looks that lines took at each.
type Map struct {
	Cell    float64 // metres
	i0, j0  int     // of the south-west cell
	nx, ny  int
	looks   []int8 // of a cell; outside of the area -1
	Inside  int    // cells of the area
	Once    int    // of these, cells seen
	Twice   int    // and on two lines or more
	Corners []Point
}

// Square is the area, m^2.
func (m *Map) Square() float64 { return float64(m.Inside) * m.Cell * m.Cell }

// mostCells bounds the raster; a larger area is counted in larger cells.
const mostCells = 4_000_000

// Take maps an area of three corners or more, in cells of about so many metres, as
// lines saw it: those of them that paint says, all if it is nil. Each run is a look.
func Take(corners []Point, cell float64, lines []*survey.LineRecord, paint func(i int) bool) (*Map, error) {
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, p := range corners {
		x0, x1, y0, y1 = min(x0, p.X), max(x1, p.X), min(y0, p.Y), max(y1, p.Y)
	}
	for (x1-x0)*(y1-y0)/(cell*cell) > mostCells {
		cell *= 2
	}
	m := &Map{Cell: cell, i0: int(math.Floor(x0 / cell)), j0: int(math.Floor(y0 / cell)), Corners: corners}
	m.nx, m.ny = max(int(math.Ceil(x1/cell))-m.i0, 0), max(int(math.Ceil(y1/cell))-m.j0, 0)
	m.looks = make([]int8, m.nx*m.ny)
	for n := range m.looks {
		m.looks[n] = -1
	}
	seen, err := look(cell, lines, paint, [4]float64{x0, y0, x1, y1})
	if err != nil {
		return nil, err
	}
	m.each(corners, func(n int, x, y float64) {
		_, looks := seen.At(x, y)
		m.looks[n] = int8(min(looks, math.MaxInt8))
		m.Inside++
		if looks > 0 {
			m.Once++
		}
		if looks > 1 {
			m.Twice++
		}
	})
	return m, nil
}

// look lays the swaths of lines on the ground as the mosaic does, without their echoes.
func look(cell float64, lines []*survey.LineRecord, paint func(int) bool, box [4]float64) (*mosaic.Mosaic, error) {
	seen, err := mosaic.New(cell, mosaic.Latest)
	if err != nil {
		return nil, err
	}
	seen.Within(box[0], box[1], box[2], box[3])
	const samples = 400 // of a side: as many as keep steps of a cell apart
	row := make([]float32, samples+1)
	for i, l := range lines {
		if paint != nil && !paint(i) {
			continue
		}
		painter := mosaic.NewPainter(seen)
		r := survey.Recorder{RangeScale: l.RangeScale, Samples: samples}
		for k := range l.Pings {
			if p := &l.Pings[k]; p.Fix.Fault == "" && p.Height > 0 {
				painter.Paint(survey.Swath(p.Fix, p.Height, r, row, row))
			}
		}
		seen.EndLook()
	}
	return seen, nil
}

// each calls f with the index and the middle of every cell whose middle lies in a
// polygon: rows are cut by its edges and filled between every other cut.
func (m *Map) each(corners []Point, f func(n int, x, y float64)) {
	if len(corners) < 3 {
		return
	}
	var cuts []float64
	for j := range m.ny {
		y := (float64(m.j0+j) + 0.5) * m.Cell
		cuts = cuts[:0]
		q := corners[len(corners)-1]
		for _, p := range corners {
			if (p.Y > y) != (q.Y > y) {
				cuts = append(cuts, p.X+(y-p.Y)*(q.X-p.X)/(q.Y-p.Y))
			}
			q = p
		}
		slices.Sort(cuts)
		for k := 0; k+1 < len(cuts); k += 2 {
			from := max(int(math.Ceil(cuts[k]/m.Cell-0.5))-m.i0, 0)
			to := min(int(math.Ceil(cuts[k+1]/m.Cell-0.5))-m.i0, m.nx)
			for i := from; i < to; i++ {
				f(j*m.nx+i, (float64(m.i0+i)+0.5)*m.Cell, y)
			}
		}
	}
}
