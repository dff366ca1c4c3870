package seabed

import (
	"math"

	"dryline/seabed/chance"
)

// quilt is relief without end and without repeat, sewn from one periodic patch: the
// plane is cut into square pieces, and each shows the patch shifted by a draw of its
// own. Along the seams neighbouring pieces a and b are blended as
//
//	(a (1-s) + b s) / sqrt((1-s)^2 + s^2) ,  s a smooth step across the seam,
//
// which keeps the variance, the pieces being independent. Every kind of ground has
// draws of its own, so that one is no scaled copy of another.
//
// A piece is as large as the patch, so any stretch of ground turns up again, but it
// turns up elsewhere by chance: at no lag do more than a few of all pieces agree.
type quilt struct {
	patch *patch
	side  float64 // of a piece, in nodes
	seam  float64 // half its width, in nodes
	seed  uint64
}

// piece is a rectangle in which a quilt shows one stretch of its patch, or two
// across a seam. It is kept from one place to the next, which mostly lies in it too.
type piece struct {
	kind           Class
	plain          bool // one stretch alone
	patch          *patch
	u0, v0, u1, v1 float64 // nodes
	du, dv         float64 // to the place in the patch
	eu, ev         float64 // to that of the piece beyond the seam
	seamU, seamV   float64 // one over the width of the seam that is crossed along u or v, or 0
}

// footing is where a ray was last on a quilt.
type footing struct {
	piece
	meeting meeting
}

// meeting is where four pieces meet that a ray was last on, and where they show their patch.
type meeting struct {
	known  bool
	kind   Class
	i, j   int
	du, dv [4]float64
}

// holds reports whether (u, v), on a kind of ground, lies in the piece.
func (p *piece) holds(kind Class, u, v float64) bool {
	return kind == p.kind && u >= p.u0 && u < p.u1 && v >= p.v0 && v < p.v1
}

// at is the height at (u, v) in nodes, both positive, on a kind of ground.
func (q *quilt) at(p *footing, kind Class, u, v float64) float64 {
	if !p.holds(kind, u, v) {
		i, s := q.along(u)
		j, t := q.along(v)
		if !q.enter(&p.piece, kind, i, j, s, t) {
			p.meeting.reach(q, kind, i, j)
			return p.meeting.at(q.patch, u, v, s, t)
		}
	}
	a := p.patch.at(u+p.du, v+p.dv)
	if p.plain {
		return a
	}
	x := (u-p.u0)*p.seamU + (v-p.v0)*p.seamV
	s := x * x * (3 - 2*x)
	b := p.patch.at(u+p.eu, v+p.ev)
	return (a + s*(b-a)) / math.Sqrt(1-2*s*(1-s))
}

// find makes p the piece or the seam that holds (u, v), unless it is where seams meet.
func (q *quilt) find(p *piece, kind Class, u, v float64) bool {
	i, s := q.along(u)
	j, t := q.along(v)
	return q.enter(p, kind, i, j, s, t)
}

// enter is find for a place whose pieces and shares are known.
func (q *quilt) enter(p *piece, kind Class, i, j int, s, t float64) bool {
	straightU, straightV := s == 0 || s == 1, t == 0 || t == 1
	if !straightU && !straightV {
		return false
	}
	*p = piece{kind: kind, patch: q.patch, plain: straightU && straightV}
	if straightU {
		i += int(s)
		p.u0 = float64(i)*q.side + q.seam
		p.u1 = p.u0 + q.side - 2*q.seam
	} else {
		p.u0, p.u1, p.seamU = float64(i+1)*q.side-q.seam, float64(i+1)*q.side+q.seam, 0.5/q.seam
	}
	if straightV {
		j += int(t)
		p.v0 = float64(j)*q.side + q.seam
		p.v1 = p.v0 + q.side - 2*q.seam
	} else {
		p.v0, p.v1, p.seamV = float64(j+1)*q.side-q.seam, float64(j+1)*q.side+q.seam, 0.5/q.seam
	}
	p.du, p.dv = q.shift(kind, i, j)
	switch {
	case !straightU:
		p.eu, p.ev = q.shift(kind, i+1, j)
	case !straightV:
		p.eu, p.ev = q.shift(kind, i, j+1)
	}
	return true
}

// reach makes c the meeting of pieces i and i+1 with j and j+1, unless it is.
func (c *meeting) reach(q *quilt, kind Class, i, j int) {
	if c.known && c.kind == kind && c.i == i && c.j == j {
		return
	}
	*c = meeting{known: true, kind: kind, i: i, j: j}
	for n := range c.du {
		c.du[n], c.dv[n] = q.shift(kind, i+n&1, j+n>>1)
	}
}

// at is the height at a place where the next pieces have the shares s and t.
func (c *meeting) at(patch *patch, u, v, s, t float64) float64 {
	sum := 0.0
	for n, weight := range [4]float64{(1 - s) * (1 - t), s * (1 - t), (1 - s) * t, s * t} {
		sum += weight * patch.at(u+c.du[n], v+c.dv[n])
	}
	return sum / math.Sqrt((1-2*s*(1-s))*(1-2*t*(1-t)))
}

// along returns the piece whose middle lies before u and how much the next one
// holds, 0..1.
func (q *quilt) along(u float64) (i int, share float64) {
	x := u/q.side - 0.5
	i = int(math.Floor(x))
	return i, ramp((x-float64(i)-0.5)*q.side/(2*q.seam) + 0.5)
}

// shift is where a piece shows its patch.
func (q *quilt) shift(kind Class, i, j int) (du, dv float64) {
	h := chance.Mix(q.seed ^ chance.Mix(uint64(uint32(i))<<32|uint64(uint32(j))) ^ uint64(kind)*0x9e3779b97f4a7c15)
	return float64(h & microMask), float64(h >> 32 & microMask)
}
