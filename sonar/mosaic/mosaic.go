package mosaic

import (
	"fmt"
	"math"
)

// Combine says how looks from several lines share a cell.
type Combine string

// The ways to combine looks.
const (
	Mean      Combine = "mean"      // of all looks
	Strongest Combine = "strongest" // the brightest look: targets survive, so does noise
	Best      Combine = "best"      // weighted steeply towards the look of best quality
	Latest    Combine = "latest"    // the last line painted
)

// Combines lists the ways to combine looks.
func Combines() []Combine { return []Combine{Mean, Strongest, Best, Latest} }

const (
	tileCells = 128
	tileMask  = tileCells - 1
	tileShift = 7
)

type tileKey struct{ i, j int32 }

// look gathers what the line being painted has laid in a cell.
type look struct {
	sum, quality float32
	count        uint32
}

// cell is the combined picture, in fixed point: a mosaic may have tens of
// millions of them.
type cell struct {
	value  uint16 // levelled amplitude in 1/1024, up to 64
	weight uint16 // of Best, in 1/16384, up to 4
	looks  uint8
}

const (
	valueOne  = 1024
	weightOne = 16384
)

func fixed(v float32, one float32) uint16 {
	return uint16(min(max(v*one+0.5, 0), math.MaxUint16))
}

func (c *cell) amplitude() float32 { return float32(c.value) / valueOne }

type lookTile [tileCells * tileCells]look
type cellTile [tileCells * tileCells]cell

// Mosaic is a picture in the making. It grows as it is painted.
type Mosaic struct {
	size    float64
	x0, y0  float64 // a corner of a cell, metres
	combine Combine

	perMetre float64 // cells, if that is exact, as it is of a power of two; else 0

	current map[tileKey]*lookTile
	done    map[tileKey]*cellTile

	lastKey  tileKey
	lastTile *lookTile

	low, high tileKey // the tiles there may be

	dirty map[tileKey]bool
}

// New returns an empty mosaic with cells of that size in metres.
func New(size float64, combine Combine) (*Mosaic, error) {
	if !(size > 0) {
		return nil, fmt.Errorf("mosaic: cell size %g m, want above 0", size)
	}
	known := false
	for _, c := range Combines() {
		known = known || c == combine
	}
	if !known {
		return nil, fmt.Errorf("mosaic: no way to combine looks is called %q", combine)
	}
	perMetre := 1 / size
	if fraction, _ := math.Frexp(size); fraction != 0.5 {
		perMetre = 0
	}
	return &Mosaic{
		size: size, combine: combine, perMetre: perMetre,
		current: map[tileKey]*lookTile{}, done: map[tileKey]*cellTile{}, dirty: map[tileKey]bool{},
		low: tileKey{math.MinInt32, math.MinInt32}, high: tileKey{math.MaxInt32, math.MaxInt32},
	}, nil
}

// Within keeps the picture to the tiles that hold some of a rectangle, metres:
// what is painted beyond is left out. A picture is as large as what is painted
// lies apart, so whoever paints for long keeps it to the ground that counts.
func (m *Mosaic) Within(west, south, east, north float64) {
	m.low, m.high = m.keyOf(west, south), m.keyOf(east, north)
}

// WithinAs keeps the picture to the tiles that another of the same cells is kept to.
func (m *Mosaic) WithinAs(other *Mosaic) { m.low, m.high = other.low, other.high }

// MostCells is how many cells a picture kept to a rectangle has at most.
func MostCells(east, north, size float64) float64 {
	const edge = 2 * tileCells // tiles that reach out of it on either side
	return (east/size + edge) * (north/size + edge)
}

func (m *Mosaic) keyOf(x, y float64) tileKey {
	return tileKey{int32(math.Floor(x/m.size)) >> tileShift, int32(math.Floor(y/m.size)) >> tileShift}
}

// CellSize is the side of a cell, metres.
func (m *Mosaic) CellSize() float64 { return m.size }

// Anchor has the cells meet at a local point, metres, so that their sides are
// whole in some wider grid. It comes before anything is painted.
func (m *Mosaic) Anchor(x, y float64) { m.x0, m.y0 = x, y }

// Corner is the south-west corner of a cell, metres.
func (m *Mosaic) Corner(i, j int) (x, y float64) {
	return m.x0 + float64(i)*m.size, m.y0 + float64(j)*m.size
}

// cellOf is the cell that holds a point.
func (m *Mosaic) cellOf(x, y float64) (i, j int32) {
	return int32(math.Floor((x - m.x0) / m.size)), int32(math.Floor((y - m.y0) / m.size))
}

// put lays one value at a point of the ground.
func (m *Mosaic) put(x, y float64, value, quality float32) {
	var i, j int32
	if m.perMetre > 0 {
		i, j = int32(math.Floor((x-m.x0)*m.perMetre)), int32(math.Floor((y-m.y0)*m.perMetre))
	} else {
		i, j = m.cellOf(x, y)
	}
	key := tileKey{i >> tileShift, j >> tileShift}
	if m.lastTile == nil || key != m.lastKey {
		if key.i < m.low.i || key.j < m.low.j || key.i > m.high.i || key.j > m.high.j {
			return
		}
		t := m.current[key]
		if t == nil {
			t = new(lookTile)
			m.current[key] = t
		}
		m.lastKey, m.lastTile = key, t
		m.dirty[key] = true
	}
	l := &m.lastTile[int(j&tileMask)<<tileShift|int(i&tileMask)]
	l.sum += value
	l.quality += quality
	l.count++
}

// Apart returns an empty mosaic of the same cells, kept to the same ground, for a line
// to be painted on while others are painted elsewhere; see [Mosaic.Take].
func (m *Mosaic) Apart() *Mosaic {
	a := *m
	a.current, a.done, a.dirty, a.lastTile = map[tileKey]*lookTile{}, map[tileKey]*cellTile{}, map[tileKey]bool{}, nil
	return &a
}

// EndLook combines what the line painted with what was there before.
func (m *Mosaic) EndLook() { m.Take(m) }

// Take combines the line that was painted on a mosaic apart with what was there before,
// and leaves that one empty.
func (m *Mosaic) Take(apart *Mosaic) {
	for key, t := range apart.current {
		into := m.done[key]
		if into == nil {
			into = new(cellTile)
			m.done[key] = into
		}
		for n := range t {
			if l := &t[n]; l.count > 0 {
				m.merge(&into[n], l.sum/float32(l.count), l.quality/float32(l.count))
			}
		}
		m.dirty[key] = true
	}
	clear(apart.current)
	apart.lastTile = nil
}

func (m *Mosaic) merge(c *cell, value, quality float32) {
	before := c.amplitude()
	switch m.combine {
	case Mean:
		value = (before*float32(c.looks) + value) / float32(c.looks+1)
	case Strongest:
		value = max(before, value)
	case Best:
		// The sixth power leaves little of a look of half the quality, yet no seam.
		w := max(quality*quality*quality*quality*quality*quality, 1.0/weightOne)
		sum := float32(c.weight)/weightOne + w
		value = before + (value-before)*w/sum
		c.weight = fixed(sum, weightOne)
	}
	c.value = fixed(value, valueOne)
	if c.looks < math.MaxUint8 {
		c.looks++
	}
}

// Bounds is the smallest rectangle of cells that holds everything painted, in
// cells: from (i0, j0) to, not including, (i1, j1). ok is false if there is
// nothing.
func (m *Mosaic) Bounds() (i0, j0, i1, j1 int, ok bool) {
	i0, j0, i1, j1 = math.MaxInt, math.MaxInt, math.MinInt, math.MinInt
	m.each(func(i, j int, _ float32, _ int) {
		i0, j0, i1, j1 = min(i0, i), min(j0, j), max(i1, i+1), max(j1, j+1)
	})
	return i0, j0, i1, j1, i1 > i0
}

// each calls f with every painted cell, its value and its looks. The line
// being painted counts as a look on top of the others.
func (m *Mosaic) each(f func(i, j int, value float32, looks int)) {
	for key, t := range m.done {
		top := m.current[key]
		for n := range t {
			c := t[n]
			if top != nil && top[n].count > 0 {
				m.merge(&c, top[n].sum/float32(top[n].count), top[n].quality/float32(top[n].count))
			}
			if c.looks > 0 {
				f(int(key.i)<<tileShift+n&tileMask, int(key.j)<<tileShift+n>>tileShift, c.amplitude(), int(c.looks))
			}
		}
	}
	for key, t := range m.current {
		if m.done[key] != nil {
			continue
		}
		for n := range t {
			if l := &t[n]; l.count > 0 {
				f(int(key.i)<<tileShift+n&tileMask, int(key.j)<<tileShift+n>>tileShift, l.sum/float32(l.count), 1)
			}
		}
	}
}

// At returns the value and looks of the cell that holds a point; looks is 0
// where nothing was painted.
func (m *Mosaic) At(x, y float64) (value float32, looks int) {
	i, j := m.cellOf(x, y)
	key := tileKey{i >> tileShift, j >> tileShift}
	n := int(j&tileMask)<<tileShift | int(i&tileMask)
	var c cell
	if t := m.done[key]; t != nil {
		c = t[n]
	}
	if t := m.current[key]; t != nil && t[n].count > 0 {
		m.merge(&c, t[n].sum/float32(t[n].count), t[n].quality/float32(t[n].count))
	}
	return c.amplitude(), int(c.looks)
}
