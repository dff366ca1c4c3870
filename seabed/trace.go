package seabed

import "math"

// Profile is the floor along one horizontal ray. The caller sets Steps and
// Fine and keeps the Profile for the next ray; nothing is allocated once it
// has grown.
type Profile struct {
	Steps []float64 // ground ranges asked for, metres, ascending
	Fine  float64   // where an object stands, add ranges this close; 0 adds none

	G      []float64 // ground ranges answered: Steps and what was added
	Z      []float64 // height of the surface at each
	Drawn  bool      // the sediments' roughness is in Z
	Slope  []float64 // rise along the ray of the ground without micro-relief and ripples
	Class  []Class   // what the surface is made of
	Object []uint16  // 0 for the floor, else index of the object plus one; pipelines follow the objects
	met

	nodes  []rayNode
	merged []float64
	things []thing
}

// rayNode carries the smooth floor between two nodes of the ray, as a cubic in
// t = 0..1, and what the fine structure needs there.
type rayNode struct {
	a, b, c, d float64
	rms        float64 // micro-relief
	share      float64 // ripple height, 0..1
	phase      float64 // ripple wander, turns, -0.5..0.5
	z          float64
	field      uint8
	class      Class
}

// grow sizes the outputs for len(G) samples and n ray nodes.
func (p *Profile) grow(n int) {
	if cap(p.Z) < len(p.G) {
		size := len(p.G) + len(p.G)/2
		p.Z, p.Slope = make([]float64, size), make([]float64, size)
		p.Class = make([]Class, size)
		p.Object = make([]uint16, size)
	}
	p.Z, p.Slope, p.Class, p.Object = p.Z[:len(p.G)], p.Slope[:len(p.G)], p.Class[:len(p.G)], p.Object[:len(p.G)]
	if cap(p.nodes) < n {
		p.nodes = make([]rayNode, n+n/4)
	}
	p.nodes = p.nodes[:n]
}

// fringe is how far beyond a part the finer ranges go, metres: the fall from
// its edge to the floor is then no longer than Fine.
const fringe = 0.1

// refine sets G: the steps asked for, with finer ones over every crossing.
func (p *Profile) refine() {
	p.G = p.Steps
	if len(p.crossed) == 0 || p.Fine <= 0 {
		return
	}
	p.merged = p.merged[:0]
	next, end := 0, math.Inf(-1) // crossings begun, and how far those reach
	for i, g := range p.Steps {
		p.merged = append(p.merged, g)
		if i+1 == len(p.Steps) {
			break
		}
		far := p.Steps[i+1]
		for next < len(p.crossed) && p.crossed[next].from-fringe < far {
			end = max(end, p.crossed[next].to+fringe)
			next++
		}
		if g >= end {
			continue
		}
		n := int(math.Ceil((far - g) / p.Fine))
		for k := 1; k < n; k++ {
			p.merged = append(p.merged, g+(far-g)*float64(k)/float64(n))
		}
	}
	p.G = p.merged
}

// Trace fills p with the floor under the ray from (x, y) in the direction of
// the unit vector (ux, uy), at the ground ranges p.Steps and finer over
// objects.
//
// The smooth floor is read every 0.25 m along the ray and joined by C1 cubics;
// micro-relief and ripples are added at every sample. [World.SurfaceAt] is the
// slow form of the same thing.
func (w *World) Trace(p *Profile, x, y, ux, uy float64) {
	p.Raised = p.Raised[:0]
	if len(p.Steps) > 0 {
		w.findCrossings(p, x, y, ux, uy)
		p.refine()
		w.traceGround(p, x, y, ux, uy)
		w.traceObjects(p, x, y, ux, uy)
		return
	}
	w.TraceGround(p, x, y, ux, uy)
}

// TraceGround is [World.Trace] without what stands on the ground.
func (w *World) TraceGround(p *Profile, x, y, ux, uy float64) {
	p.G, p.Raised = p.Steps, p.Raised[:0]
	w.traceGround(p, x, y, ux, uy)
}

// traceGround fills p with the ground at its ground ranges.
func (w *World) traceGround(p *Profile, x, y, ux, uy float64) {
	p.Drawn = !w.spec.Featureless
	if len(p.G) == 0 {
		p.grow(0)
		return
	}
	first := math.Floor(p.G[0]*nodesPerM) - 1
	count := int(math.Ceil(p.G[len(p.G)-1]*nodesPerM)-first) + 3
	p.grow(count)
	w.readNodes(p.nodes, x, y, ux, uy, first)

	// Micro-relief coordinates in nodes, turned so that the seams follow no likely
	// line direction, and offset to stay positive.
	const turnC, turnS = 0.8572, 0.5150
	u0 := (turnC*x+turnS*y)/microStep + quiltOrigin
	v0 := (turnC*y-turnS*x)/microStep + quiltOrigin
	du := (turnC*ux + turnS*uy) / microStep
	dv := (turnC*uy - turnS*ux) / microStep

	var (
		sewn  pieces
		sheet *piece
		at    = -1
		alone bool
	)
	nodes, zs := p.nodes, p.Z
	for i, g := range p.G {
		s := g*nodesPerM - first
		j := int(s)
		t := s - float64(j)
		n := &nodes[j]
		next := &nodes[j+1]
		z := ((n.a*t+n.b)*t+n.c)*t + n.d
		p.Slope[i] = ((3*n.a*t+2*n.b)*t + n.c) * nodesPerM
		near := n
		if t > 0.5 {
			near = next
		}
		u, v := u0+du*g, v0+dv*g
		if j != at { // from this node to the next all on one piece, as nearly everywhere?
			at, sheet = j, &sewn[n.class%piecesKept].piece
			from := (first + float64(j)) * nodeStep
			to := from + nodeStep
			alone = n.class == next.class && sheet.plain &&
				sheet.holds(n.class, u0+du*from, v0+dv*from) && sheet.holds(n.class, u0+du*to, v0+dv*to)
		}
		if alone {
			z += n.rms * sheet.patch.at(u+sheet.du, v+sheet.dv)
		} else {
			z += w.fabric.between(&sewn, n, next, t, u, v)
		}
		if near.field != 0 {
			share := n.share + t*(next.share-n.share)
			turn := next.phase - n.phase // the short way round
			if turn > 0.5 {
				turn--
			} else if turn < -0.5 {
				turn++
			}
			phase := n.phase + t*turn
			r := &w.ripples[near.field-1]
			z += share * r.at(r.kx*(x+ux*g)+r.ky*(y+uy*g)+phase)
		}
		zs[i] = z
		p.Class[i] = near.class
	}
	clear(p.Object)
}

// at interpolates the profile at a phase in turns, above -1<<20.
func (r *rippleTable) at(phase float64) float64 {
	s := (phase + 1<<20) * 256 // positive, so that truncation is floor
	i := int(s)
	a, b := r.profile[i&255], r.profile[(i+1)&255]
	return float64(a) + (s-float64(i))*float64(b-a)
}

// readNodes reads the tiles along the ray and fits the cubics.
func (w *World) readNodes(nodes []rayNode, x, y, ux, uy, first float64) {
	var c cursor
	for k := range nodes {
		g := (first + float64(k)) * nodeStep
		n := &nodes[k]
		z, at := c.bilinear(w, x+ux*g, y+uy*g)
		n.z = z
		bottom := &c.tile.surface[at]
		n.class = bottom.class
		n.rms = w.rms[n.class]
		n.field = bottom.field
		n.share = float64(bottom.share) / 255
		n.phase = float64(bottom.phase) / 256
	}
	for k := range nodes {
		n := &nodes[k]
		p0, p1 := nodes[max(k-1, 0)].z, n.z
		p2, p3 := nodes[min(k+1, len(nodes)-1)].z, nodes[min(k+2, len(nodes)-1)].z
		n.a = 0.5 * (-p0 + 3*p1 - 3*p2 + p3)
		n.b = 0.5 * (2*p0 - 5*p1 + 4*p2 - p3)
		n.c = 0.5 * (p2 - p0)
		n.d = p1
	}
}

// SurfaceAt is the floor at one point with all its fine structure: the plain
// form that Trace must agree with.
func (w *World) SurfaceAt(x, y float64) (z float64, class Class, object int) {
	p := Profile{Steps: []float64{0}}
	w.Trace(&p, x, y, 0, 1)
	return p.Z[0], p.Class[0], int(p.Object[0]) - 1
}

// cursor remembers the tile of the last read: rays rarely change tile.
type cursor struct {
	tile   *tile
	ti, tj int
	x0, y0 float64 // of the tile's south-west corner
}

// find makes c.tile the tile that holds (x, y) and returns the node before the
// point and how far past it the point lies, in nodes.
func (c *cursor) find(w *World, x, y float64) (i, j int, fu, fv float64) {
	if c.tile != nil {
		u, v := (x-c.x0)*nodesPerM, (y-c.y0)*nodesPerM
		if u >= 0 && v >= 0 && u < float64(tileNodes) && v < float64(tileNodes) && x <= w.spec.East && y <= w.spec.North {
			u, v = u+tileMargin, v+tileMargin
			i, j = int(u), int(v)
			return i, j, u - float64(i), v - float64(j)
		}
	}
	x = min(max(x, 0), w.spec.East)
	y = min(max(y, 0), w.spec.North)
	ti, tj := min(int(x*(1/tileSize)), w.nx-1), min(int(y*(1/tileSize)), w.ny-1)
	if c.tile == nil || ti != c.ti || tj != c.tj {
		c.tile, c.ti, c.tj = w.tileAt(ti, tj), ti, tj
		c.x0, c.y0 = float64(ti)*tileSize, float64(tj)*tileSize
	}
	u := (x-c.x0)*nodesPerM + tileMargin
	v := (y-c.y0)*nodesPerM + tileMargin
	i, j = min(int(u), tileNodes), min(int(v), tileNodes)
	return i, j, u - float64(i), v - float64(j)
}

// nearest is the index of the node nearest to a place between nodes.
func nearest(i, j int, fu, fv float64) int {
	if fu > 0.5 {
		i++
	}
	if fv > 0.5 {
		j++
	}
	return j*tileSide + i
}

// at returns the height at (x, y), a C1 cubic through the nodes, and the index
// of the nearest node in c.tile.
func (c *cursor) at(w *World, x, y float64) (z float64, node int) {
	i, j, fu, fv := c.find(w, x, y)
	wu, wv := catmullRom(fu), catmullRom(fv)
	at := (j-1)*tileSide + i - 1
	zs := c.tile.z[at : at+3*tileSide+4]
	z = wv[0]*along((*[4]float32)(zs), &wu) +
		wv[1]*along((*[4]float32)(zs[tileSide:]), &wu) +
		wv[2]*along((*[4]float32)(zs[2*tileSide:]), &wu) +
		wv[3]*along((*[4]float32)(zs[3*tileSide:]), &wu)
	return z, nearest(i, j, fu, fv)
}

// along weighs four nodes of a row.
func along(z *[4]float32, w *[4]float64) float64 {
	return w[0]*float64(z[0]) + w[1]*float64(z[1]) + w[2]*float64(z[2]) + w[3]*float64(z[3])
}

// bilinear is at for the nodes of a ray, which a cubic then joins: across a
// node's quarter metre it is within an eighth of a square step times the
// curvature of the cubic (half a millimetre on sand waves), at a third of the
// price.
func (c *cursor) bilinear(w *World, x, y float64) (z float64, node int) {
	i, j, fu, fv := c.find(w, x, y)
	at := j*tileSide + i
	low := (*[2]float32)(c.tile.z[at:])
	high := (*[2]float32)(c.tile.z[at+tileSide:])
	a := float64(low[0]) + fu*float64(low[1]-low[0])
	b := float64(high[0]) + fu*float64(high[1]-high[0])
	return a + fv*(b-a), nearest(i, j, fu, fv)
}
