package debrief

import (
	"cmp"
	"math"
	"slices"

	"dryline/seabed"
	"dryline/sim"
	"dryline/sim/survey"
	"dryline/sonar/mosaic"
)

// maxHolidays is how many holidays a report lists; all are counted.
const maxHolidays = 40

// maxCells bounds the raster coverage is counted on. A larger area is counted
// on a coarser one, whose cell the report gives.
const maxCells = 16_000_000

// makeCoverage counts the area in the cells of the mosaic.
func makeCoverage(s *sim.Session, lines []logged) Coverage {
	ex := s.Exercise
	var usable sample
	for i := range lines {
		for _, t := range lines[i].truth {
			if t != nil {
				usable.add(survey.UsableRange(lines[i].RangeScale, t.Altitude))
			}
		}
	}
	spacing := spacingOf(ex)
	effective := usable.mean()
	out := Coverage{EffectiveRange: known(effective), Holidays: []Holiday{}}
	if spacing > 0 {
		out.Spacing = known(spacing)
		out.Ensonification = known(Ensonification(effective, spacing))
	}
	if !(effective > 0) {
		effective = ex.Sonar.RangeScale // nothing logged: what could have been
	}
	corners, source := areaOf(ex, effective, spacing)
	out.Source = source
	for _, p := range corners {
		out.Area = append(out.Area, [2]float64{round(p.X), round(p.Y)})
	}
	r := newRaster(corners, s.Desk.Mosaic.CellSize())
	r.fill(corners, s.Desk.Mosaic)
	out.Cell, out.SquareMetres = round(r.cell), round(float64(r.inside)*r.cell*r.cell)
	if r.inside > 0 {
		out.Once = shareDown(100 * float64(r.once) / float64(r.inside))
		out.Twice = shareDown(100 * float64(r.twice) / float64(r.inside))
	}
	for _, h := range r.holidays() {
		h.Easting, h.Northing = ex.Place.Grid.ToUTM(h.X, h.Y)
		h.Easting, h.Northing = round(h.Easting), round(h.Northing)
		best := math.Inf(1)
		for i := range ex.Lines {
			if d := distanceTo(&ex.Lines[i], h.X, h.Y); d < best {
				best, h.Near = d, ex.Lines[i].Name
			}
		}
		h.SquareMetres, h.X, h.Y = round(h.SquareMetres), round(h.X), round(h.Y)
		out.HolidayCount++
		out.HolidayArea += h.SquareMetres
		if len(out.Holidays) < maxHolidays {
			out.Holidays = append(out.Holidays, h)
		}
	}
	out.HolidayArea = round(out.HolidayArea)
	return out
}

// raster is the area in cells, aligned with those of the mosaic.
type raster struct {
	cell   float64
	i0, j0 int // of the south-west cell
	nx, ny int
	state  []cellState

	inside, once, twice int
}

type cellState uint8

const (
	outside cellState = iota
	unseen
	seen
)

func newRaster(corners []seabed.Point, cell float64) *raster {
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, p := range corners {
		x0, x1, y0, y1 = min(x0, p.X), max(x1, p.X), min(y0, p.Y), max(y1, p.Y)
	}
	for cells := (x1 - x0) * (y1 - y0); cells/(cell*cell) > maxCells; {
		cell *= 2
	}
	r := &raster{cell: cell, i0: int(math.Floor(x0 / cell)), j0: int(math.Floor(y0 / cell))}
	r.nx, r.ny = int(math.Ceil(x1/cell))-r.i0, int(math.Ceil(y1/cell))-r.j0
	r.state = make([]cellState, max(r.nx, 0)*max(r.ny, 0))
	return r
}

// fill marks the cells whose middle lies in the polygon, and what the mosaic
// has of them. Rows are cut by the edges of the polygon and filled between
// every other cut.
func (r *raster) fill(corners []seabed.Point, m *mosaic.Mosaic) {
	looks := looksOf(m)
	var cuts []float64
	for j := range r.ny {
		y := (float64(r.j0+j) + 0.5) * r.cell
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
			from := max(int(math.Ceil(cuts[k]/r.cell-0.5))-r.i0, 0)
			to := min(int(math.Ceil(cuts[k+1]/r.cell-0.5))-r.i0, r.nx)
			for i := from; i < to; i++ {
				n := looks.at((float64(r.i0+i)+0.5)*r.cell, y)
				r.inside++
				r.state[j*r.nx+i] = unseen
				if n > 0 {
					r.once++
					r.state[j*r.nx+i] = seen
				}
				if n > 1 {
					r.twice++
				}
			}
		}
	}
}

// looks are the independent looks of a mosaic as one raster.
type looks struct {
	mosaic.Picture
	width, height int
}

func looksOf(m *mosaic.Mosaic) looks {
	p, ok := m.Render(func(float32) uint8 { return 1 })
	if !ok {
		return looks{}
	}
	return looks{p, p.Gray.Rect.Dx(), p.Gray.Rect.Dy()}
}

func (l *looks) at(x, y float64) int {
	if l.width == 0 {
		return 0
	}
	i, j := int(math.Floor((x-l.MinX)/l.Cell)), int(math.Floor((l.MaxY-y)/l.Cell))
	if i < 0 || j < 0 || i >= l.width || j >= l.height {
		return 0
	}
	return int(l.Looks[j*l.width+i])
}

// holidays gathers the unseen cells that touch by their sides, and keeps those
// groups that could hide the smallest thing a survey must show, 1 m by 1 m
// (NOAA Hydrographic Surveys Specifications and Deliverables 2021, 6.1.2.1):
// those that hold a square of cells of at least that side. The largest comes
// first.
func (r *raster) holidays() []Holiday {
	need := int(math.Ceil(1/r.cell - 1e-9))
	squares := r.squares()
	var out []Holiday
	var edge, next []int32 // cells whose neighbours are to be looked at, now and then
	for start, state := range r.state {
		if state != unseen {
			continue
		}
		r.state[start] = outside // taken
		edge = append(edge[:0], int32(start))
		cells, sumX, sumY, widest := 0, 0.0, 0.0, 0
		for len(edge) > 0 {
			next = next[:0]
			for _, at := range edge {
				n := int(at)
				i, j := n%r.nx, n/r.nx
				cells++
				sumX += float64(i)
				sumY += float64(j)
				widest = max(widest, int(squares[n]))
				take := func(ok bool, m int) {
					if ok && r.state[m] == unseen {
						r.state[m] = outside
						next = append(next, int32(m))
					}
				}
				take(i > 0, n-1)
				take(i < r.nx-1, n+1)
				take(j > 0, n-r.nx)
				take(j < r.ny-1, n+r.nx)
			}
			edge, next = next, edge
		}
		if widest < need {
			continue
		}
		n := float64(cells)
		out = append(out, Holiday{
			SquareMetres: n * r.cell * r.cell, Widest: round(float64(widest) * r.cell),
			X: (float64(r.i0) + sumX/n + 0.5) * r.cell, Y: (float64(r.j0) + sumY/n + 0.5) * r.cell,
		})
	}
	slices.SortStableFunc(out, func(a, b Holiday) int {
		return cmp.Or(cmp.Compare(b.SquareMetres, a.SquareMetres), cmp.Compare(a.Y, b.Y), cmp.Compare(a.X, b.X))
	})
	return out
}

// squares is, for every cell, the side of the largest square of unseen cells
// that has its north-east corner there.
func (r *raster) squares() []uint16 {
	side := make([]uint16, len(r.state))
	for n, state := range r.state {
		if state != unseen {
			continue
		}
		side[n] = 1
		if n%r.nx > 0 && n >= r.nx {
			side[n] = 1 + min(side[n-1], side[n-r.nx], side[n-r.nx-1], math.MaxUint16-1)
		}
	}
	return side
}
