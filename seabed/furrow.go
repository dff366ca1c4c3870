package seabed

import (
	"math"
	"math/rand/v2"
)

// furrow is something drawn through the floor along a line: a scar with a V
// bottom and two berms, or a trench with a flat bottom.
type furrow struct {
	line  []Point
	width float64 // of the V, or of the flat bottom, metres
	depth float64
	flat  bool
	fade  float64 // length over which its ends come out of the floor, metres
	bite  [3]bite // how its depth varies along it
}

// bite is a slow change of a furrow's depth: the door jumps, the anchor digs in.
type bite struct{ size, length, phase float64 }

// depthAt is how deep the furrow is some way along it, as a share: it varies, and comes
// to nothing at both ends.
func (f *furrow) depthAt(along, length float64) float64 {
	share := min(1, along/f.fade, (length-along)/f.fade)
	for _, b := range f.bite {
		if b.size > 0 {
			share *= 1 - b.size*(0.5+0.5*math.Sin(2*math.Pi*along/b.length+b.phase))
		}
	}
	return share
}

// newFurrows draws one scar, or the pair that a trawl leaves, through at.
func newFurrows(rng *rand.Rand, b *Bedform, at Point) []furrow {
	const pieces = 24
	width := b.Width * (0.7 + 0.6*rng.Float64())
	depth := b.Height * (0.6 + 0.4*rng.Float64())
	length := b.Length * (0.5 + rng.Float64())
	bearing := b.Crest + 0.35*rng.NormFloat64()
	bend := b.Wander * rng.NormFloat64() / pieces
	jitter := 0.03 // an anchor drags about; a trawl is towed straight
	offsets := []float64{0}
	if b.Kind == Trawl {
		jitter = 0.003
		offsets = []float64{-b.Spacing / 2, b.Spacing / 2}
	}
	lines := make([][]Point, len(offsets))
	p := Point{at.X - length/2*math.Sin(bearing), at.Y - length/2*math.Cos(bearing)}
	for range pieces + 1 {
		sin, cos := math.Sincos(bearing)
		for i, offset := range offsets {
			lines[i] = append(lines[i], Point{p.X + offset*cos, p.Y - offset*sin})
		}
		p.X += length / pieces * sin
		p.Y += length / pieces * cos
		bearing += bend + jitter*rng.NormFloat64()
	}
	furrows := make([]furrow, len(lines))
	for i, line := range lines {
		furrows[i] = furrow{line: line, width: width, depth: depth, fade: length / 6}
		if b.Kind == Trawl {
			// No two doors bite alike; old marks are filled in here and there.
			for k, size := range [...]float64{0.25, 0.15, 0.1} {
				furrows[i].bite[k] = bite{size, within(rng, 0.6, 1.4) * length / math.Exp2(float64(k)+1), 2 * math.Pi * rng.Float64()}
			}
			furrows[i].depth *= within(rng, 0.75, 1)
		}
	}
	return furrows
}

// newTrenches draws dredged lanes side by side about the middle of the area,
// their ends uneven by a twentieth of the length.
func newTrenches(rng *rand.Rand, b *Bedform, east, north float64) []furrow {
	x0, y0, x1, y1 := b.Area.bounds(east, north)
	sin, cos := math.Sincos(b.Crest)
	trenches := make([]furrow, b.Count)
	for i := range trenches {
		off := (float64(i) - float64(b.Count-1)/2) * b.Spacing
		x, y := (x0+x1)/2+off*cos, (y0+y1)/2-off*sin
		from := -b.Length/2 + 0.05*b.Length*(rng.Float64()-0.5)
		to := b.Length/2 + 0.05*b.Length*(rng.Float64()-0.5)
		trenches[i] = furrow{
			line:  []Point{{x + from*sin, y + from*cos}, {x + to*sin, y + to*cos}},
			width: b.Width, depth: b.Height * (0.9 + 0.2*rng.Float64()), flat: true, fade: 2 * b.Height,
		}
	}
	return trenches
}

// reach is how far from its line the furrow changes the floor, metres.
func (f *furrow) reach() float64 {
	if f.flat {
		return f.width/2 + 3.5*f.depth
	}
	return 2 * f.width
}

// section returns how much the furrow raises the floor d from its line, metres: a V of
// its depth with berms of a third of that; or a flat bottom, sides of 1 in
// 1.5 and low banks of spoil.
func (f *furrow) section(d float64) float64 {
	if f.flat {
		u := (d - f.width/2) / f.depth
		if u < 1.5 {
			return -f.depth * (1 - max(u, 0)/1.5)
		}
		return 0.12 * f.depth * (1 - math.Abs(u-2.5)) * ramp(2*(u-1.5))
	}
	u := 2 * d / f.width
	return f.depth * (0.33*math.Exp(-4*(u-1.5)*(u-1.5)) - math.Exp(-1.6*u*u))
}

// stampInto draws the furrow into the tile whose south-west corner is (x0, y0).
func (f *furrow) stampInto(t *tile, x0, y0 float64) {
	reach := f.reach()
	first, last := len(f.line), 0 // the pieces that come near
	for i := 1; i < len(f.line); i++ {
		a, b := f.line[i-1], f.line[i]
		if max(a.X, b.X)+reach < x0-1 || min(a.X, b.X)-reach > x0+tileSize+1 ||
			max(a.Y, b.Y)+reach < y0-1 || min(a.Y, b.Y)-reach > y0+tileSize+1 {
			continue
		}
		first, last = min(first, i), i
	}
	if first > last {
		return
	}
	before, length := 0.0, 0.0
	for i := 1; i < len(f.line); i++ {
		piece := math.Hypot(f.line[i].X-f.line[i-1].X, f.line[i].Y-f.line[i-1].Y)
		if i < first {
			before += piece
		}
		length += piece
	}
	f.stampPieces(t, x0, y0, first, last, before, length)
}

// furrowPiece is one straight piece of a furrow: how long it is, how far along it begins, and
// what ground it may change.
type furrowPiece struct {
	a, d                     Point
	long, begins             float64
	left, right, bottom, top float64
}

// stampPieces draws the pieces from first to last, the first of which begins so far along the length.
func (f *furrow) stampPieces(t *tile, x0, y0 float64, first, last int, begins, length float64) {
	reach := f.reach()
	pieces := make([]furrowPiece, 0, len(f.line))
	for i := first; i <= last; i++ {
		a, b := f.line[i-1], f.line[i]
		p := furrowPiece{a: a, d: Point{b.X - a.X, b.Y - a.Y}, begins: begins}
		p.long = math.Sqrt(p.d.X*p.d.X + p.d.Y*p.d.Y)
		begins += p.long
		p.left, p.right = min(a.X, b.X)-reach, max(a.X, b.X)+reach
		p.bottom, p.top = min(a.Y, b.Y)-reach, max(a.Y, b.Y)+reach
		pieces = append(pieces, p)
	}
	row := make([]furrowPiece, 0, len(pieces)) // those that come near a row of nodes
	for j := range tileSide {
		y := y0 + float64(j-tileMargin)*nodeStep
		left, right := math.Inf(1), math.Inf(-1)
		row = row[:0]
		for i := range pieces {
			if p := &pieces[i]; y >= p.bottom-nodeStep && y <= p.top+nodeStep {
				left, right = min(left, p.left), max(right, p.right)
				row = append(row, *p)
			}
		}
		eachNodeIn(x0, y0, left, y, right, y+nodeStep/2, func(n int, x, y float64) {
			best, along := math.Inf(1), 0.0
			for i := range row {
				p := &row[i]
				u := min(max(((x-p.a.X)*p.d.X+(y-p.a.Y)*p.d.Y)/(p.long*p.long), 0), 1)
				ex, ey := x-p.a.X-u*p.d.X, y-p.a.Y-u*p.d.Y
				if d := ex*ex + ey*ey; d < best {
					best, along = d, p.begins+u*p.long
				}
			}
			if best < reach*reach {
				t.z[n] += float32(f.depthAt(along, length) * f.section(math.Sqrt(best)))
			}
		})
	}
}
