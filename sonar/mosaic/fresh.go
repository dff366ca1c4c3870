package mosaic

import "slices"

// TileCells is the number of cells along a side of a [Tile].
const TileCells = tileCells

// Tile is a square of the mosaic, for those who draw it as it grows.
type Tile struct {
	I, J  int // of its first cell, in cells east and north
	Value [TileCells * TileCells]float32
	Looks [TileCells * TileCells]uint8 // 0 where nothing was painted
}

// Fresh calls f with every tile painted since the last call, in order from
// south-west to north-east. f must copy what it keeps.
func (m *Mosaic) Fresh(f func(*Tile)) {
	if len(m.dirty) == 0 {
		return
	}
	keys := make([]tileKey, 0, len(m.dirty))
	for key := range m.dirty {
		keys = append(keys, key)
	}
	clear(m.dirty)
	m.lastTile = nil // so that painting on marks its tile again
	slices.SortFunc(keys, func(a, b tileKey) int {
		if a.j != b.j {
			return int(a.j - b.j)
		}
		return int(a.i - b.i)
	})
	var t Tile
	for _, key := range keys {
		m.tile(key, &t)
		f(&t)
	}
}

// tile fills t with the tile of a key.
func (m *Mosaic) tile(key tileKey, t *Tile) {
	t.I, t.J = int(key.i)<<tileShift, int(key.j)<<tileShift
	done, top := m.done[key], m.current[key]
	for n := range t.Value {
		var c cell
		if done != nil {
			c = done[n]
		}
		if top != nil && top[n].count > 0 {
			m.merge(&c, top[n].sum/float32(top[n].count), top[n].quality/float32(top[n].count))
		}
		t.Value[n], t.Looks[n] = c.amplitude(), c.looks
	}
}
