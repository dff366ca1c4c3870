package debrief

import (
	"cmp"
	"math"
	"slices"

	"dryline/seabed"
	"dryline/sim"
	"dryline/sim/exercise"
	"dryline/sim/survey"
	"dryline/sonar/mosaic"
)

// maxHolidays is how many holidays a report lists; all are counted.
const maxHolidays = 40

// makeCoverage counts the area in the cells of the mosaic.
func makeCoverage(s *sim.Session, lines []logged, pings []judged) (Coverage, *counted) {
	ex := s.Exercise
	spacing, effective := spacingOf(ex), effectiveRange(lines)
	out := Coverage{EffectiveRange: known(effective), Holidays: []Holiday{}}
	if spacing > 0 {
		out.Spacing = known(spacing)
		out.Ensonification = known(Ensonification(effective, spacing))
	}
	corners, source := toCover(ex, lines)
	out.Source = source
	for _, p := range corners {
		out.Area = append(out.Area, [2]float64{round(p.X), round(p.Y)})
	}
	r := count(corners, s.Desk.Mosaic.CellSize(), pings)
	out.Cell, out.SquareMetres = round(r.cell), round(float64(r.inside)*r.cell*r.cell)
	if r.inside > 0 {
		once, twice := r.mosaicked(s.Desk.Mosaic)
		out.Once = shareDown(100 * float64(once) / float64(r.inside))
		out.Twice = shareDown(100 * float64(twice) / float64(r.inside))
		out.Counted, out.Lost = r.told()
	}
	all := ex.Sailed()
	for _, h := range r.holidays() {
		h.Easting, h.Northing = ex.Place.Grid.ToUTM(h.X, h.Y)
		h.Easting, h.Northing = round(h.Easting), round(h.Northing)
		best := math.Inf(1)
		for _, l := range all {
			if d := distanceTo(&l, h.X, h.Y); d < best {
				best, h.Near = d, l.Name
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
	return out, r
}

// effectiveRange is how far out a side could be used, the mean over the pings logged;
// NaN if there is none.
func effectiveRange(lines []logged) float64 {
	var usable sample
	for i := range lines {
		for _, t := range lines[i].truth {
			if t != nil {
				usable.add(survey.UsableRange(lines[i].RangeScale, t.Altitude))
			}
		}
	}
	return usable.mean()
}

// toCover is the area that the exercise asks for.
func toCover(ex *exercise.Exercise, lines []logged) (corners []seabed.Point, source string) {
	effective := effectiveRange(lines)
	if !(effective > 0) {
		effective = ex.Sonar.RangeScale // nothing logged: what could have been
	}
	return areaOf(ex, effective, spacingOf(ex))
}

// share is how much of the area counts, in percent, never rounded up.
func (c *counted) share() float64 {
	cells := c.shares()
	if c.inside == 0 {
		return 0
	}
	return shareDown(100 * float64(cells[seen]+cells[seenTwice]) / float64(c.inside))
}

// told is the share that counts, and what became of the rest by reason, the largest
// first.
func (c *counted) told() (percent float64, lost []LostGround) {
	cells := c.shares()
	lost = []LostGround{}
	for r := noSwath; r < seen; r++ {
		if n := cells[r]; n > 0 {
			lost = append(lost, LostGround{
				Reason: r.String(), SquareMetres: round(float64(n) * c.cell * c.cell), Percent: round(100 * float64(n) / float64(c.inside)),
			})
		}
	}
	slices.SortStableFunc(lost, func(a, b LostGround) int { return cmp.Compare(b.SquareMetres, a.SquareMetres) })
	return c.share(), lost
}

// mosaicked counts the cells of the area that the mosaic shows, and those it shows of
// two lines or more.
func (r *raster) mosaicked(m *mosaic.Mosaic) (once, twice int) {
	looks := looksOf(m)
	for n, state := range r.state {
		if state == outside {
			continue
		}
		x, y := (float64(r.i0+n%r.nx)+0.5)*r.cell, (float64(r.j0+n/r.nx)+0.5)*r.cell
		k := looks.at(x, y)
		if k > 0 {
			once++
		}
		if k > 1 {
			twice++
		}
	}
	return once, twice
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

// holidays gathers the cells that do not count and touch by their sides, and keeps those
// groups that could hide the smallest thing a survey must show, 1 m by 1 m
// (NOAA Hydrographic Surveys Specifications and Deliverables 2021, 6.1.2.1):
// those that hold a square of cells of at least that side. The largest comes
// first.
func (c *counted) holidays() []Holiday {
	need := int(math.Ceil(1/c.cell - 1e-9))
	squares := c.squares()
	taken := make([]bool, len(c.state))
	var out []Holiday
	var edge, next []int32 // cells whose neighbours are to be looked at, now and then
	for start, state := range c.state {
		if !state.hole() || taken[start] {
			continue
		}
		taken[start] = true
		edge = append(edge[:0], int32(start))
		cells, sumX, sumY, widest := 0, 0.0, 0.0, 0
		var by [seen]int
		for len(edge) > 0 {
			next = next[:0]
			for _, at := range edge {
				n := int(at)
				i, j := n%c.nx, n/c.nx
				cells++
				sumX += float64(i)
				sumY += float64(j)
				by[c.state[n]]++
				widest = max(widest, int(squares[n]))
				take := func(ok bool, m int) {
					if ok && c.state[m].hole() && !taken[m] {
						taken[m] = true
						next = append(next, int32(m))
					}
				}
				take(i > 0, n-1)
				take(i < c.nx-1, n+1)
				take(j > 0, n-c.nx)
				take(j < c.ny-1, n+c.nx)
			}
			edge, next = next, edge
		}
		if widest < need {
			continue
		}
		n, most := float64(cells), noSwath
		for r := noSwath; r < seen; r++ {
			if by[r] > by[most] {
				most = r
			}
		}
		out = append(out, Holiday{
			SquareMetres: n * c.cell * c.cell, Widest: round(float64(widest) * c.cell), Reason: most.String(),
			X: (float64(c.i0) + sumX/n + 0.5) * c.cell, Y: (float64(c.j0) + sumY/n + 0.5) * c.cell,
		})
	}
	slices.SortStableFunc(out, func(a, b Holiday) int {
		return cmp.Or(cmp.Compare(b.SquareMetres, a.SquareMetres), cmp.Compare(a.Y, b.Y), cmp.Compare(a.X, b.X))
	})
	return out
}

// hole reports ground of the area that does not count.
func (r Reason) hole() bool { return r > outside && r < seen }

// squares is, for every cell, the side of the largest square of cells that do not count
// that has its north-east corner there.
func (c *counted) squares() []uint16 {
	side := make([]uint16, len(c.state))
	for n, state := range c.state {
		if !state.hole() {
			continue
		}
		side[n] = 1
		if n%c.nx > 0 && n >= c.nx {
			side[n] = 1 + min(side[n-1], side[n-c.nx], side[n-c.nx-1], math.MaxUint16-1)
		}
	}
	return side
}
