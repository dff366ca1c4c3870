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
	left, bottom := math.Inf(1), math.Inf(1)
	right, top := math.Inf(-1), math.Inf(-1)
	for _, p := range f.line[first-1 : last+1] {
		left, right = min(left, p.X-reach), max(right, p.X+reach)
		bottom, top = min(bottom, p.Y-reach), max(top, p.Y+reach)
	}
	pieces := make([]float64, len(f.line)) // how long they are
	for i := first; i <= last; i++ {
		dx, dy := f.line[i].X-f.line[i-1].X, f.line[i].Y-f.line[i-1].Y
		pieces[i] = math.Sqrt(dx*dx + dy*dy)
	}
	eachNodeIn(x0, y0, left, bottom, right, top, func(n int, x, y float64) {
		best, along := math.Inf(1), 0.0
		s := before
		for i := first; i <= last; i++ {
			a, b, piece := f.line[i-1], f.line[i], pieces[i]
			dx, dy := b.X-a.X, b.Y-a.Y
			u := min(max(((x-a.X)*dx+(y-a.Y)*dy)/(piece*piece), 0), 1)
			ex, ey := x-a.X-u*dx, y-a.Y-u*dy
			if d := ex*ex + ey*ey; d < best {
				best, along = d, s+u*piece
			}
			s += piece
		}
		if best < reach*reach {
			t.z[n] += float32(f.depthAt(along, length) * f.section(math.Sqrt(best)))
		}
	})
}
