package seabed

import "math"

// field is a value at every node of a tile.
type field [tileSide * tileSide]float32

// weave holds what a quilt gives on a kind of ground at the nodes of a tile, a node of the quilt to
// each, row by row: what [quilt.at] gives there.
type weave struct {
	q           *quilt
	kind        Class
	u0, v0      int               // of the tile's first node
	share, norm [tileSide]float32 // of the next piece in a column, and what keeps the variance
	straits     []strait
	row         int // of pieces that the straits know
}

// strait is a range of columns over one pair of pieces; with the pair in the next row they are
// four. Columns before sewn show the first of a pair alone.
type strait struct {
	from, sewn, to int
	piece          int
	du, dv         [4]int
}

// lay lays a quilt out over the tile whose south-west corner is (x0, y0).
func (w *weave) lay(q *quilt, kind Class, x0, y0 float64) {
	w.q, w.kind, w.row = q, kind, math.MinInt
	w.u0, w.v0 = int(x0*nodesPerM)-tileMargin+quiltOrigin, int(y0*nodesPerM)-tileMargin+quiltOrigin
	w.straits = w.straits[:0]
	for i := range w.share {
		piece, s := q.along(float64(w.u0 + i))
		w.share[i], w.norm[i] = float32(s), evened(float32(s))
		if i == 0 || piece != w.straits[len(w.straits)-1].piece {
			w.straits = append(w.straits, strait{from: i, sewn: i, piece: piece})
		}
		last := &w.straits[len(w.straits)-1]
		last.to = i + 1
		if w.share[i] == 0 {
			last.sewn = i + 1
		}
	}
}

// evened is the factor that keeps the variance where the next piece has a share.
func evened(s float32) float32 { return 1 / float32(math.Sqrt(float64(1-2*s*(1-s)))) }

// line fills row k of the tile's nodes from one column to before another.
func (w *weave) line(dst *[tileSide]float32, k, from, to int) {
	if from >= to {
		return
	}
	j, share := w.q.along(float64(w.v0 + k))
	t := float32(share)
	across := evened(t)
	for n := range w.straits {
		s := &w.straits[n]
		if j != w.row {
			for p := range s.du {
				u, v := w.q.shift(w.kind, s.piece+p&1, j+p>>1)
				s.du[p], s.dv[p] = int(u), int(v)
			}
		}
		row := func(p int) *[microSide]float32 {
			return (*[microSide]float32)(w.q.patch[(w.v0+k+s.dv[p])&microMask*microSide:])
		}
		r0, r1, r2, r3 := row(0), row(1), row(2), row(3)
		u0, u1, u2, u3 := w.u0+s.du[0], w.u0+s.du[1], w.u0+s.du[2], w.u0+s.du[3]
		if t == 0 { // the next row has no share
			r2, u2, r3, u3 = r0, u0, r1, u1
		}
		i, end := max(s.from, from), min(s.to, to)
		for ; i < min(s.sewn, end); i++ {
			a := r0[(u0+i)&microMask]
			a += t * (r2[(u2+i)&microMask] - a)
			dst[i] = a * across
		}
		for ; i < end; i++ {
			a, b := r0[(u0+i)&microMask], r1[(u1+i)&microMask]
			a += t * (r2[(u2+i)&microMask] - a)
			b += t * (r3[(u3+i)&microMask] - b)
			a = (a + w.share[i]*(b-a)) * w.norm[i]
			dst[i] = a * across
		}
	}
	w.row = j
}
