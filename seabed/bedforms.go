package seabed

import (
	"math"
	"math/rand/v2"
)

// waveProfile is the shape of one bedform wave: phase in turns, result -1..1.
// Asymmetry moves the crest along the phase, which steepens the lee side.
func waveProfile(phase, asymmetry float64) float64 {
	p := 2 * math.Pi * (phase - math.Floor(phase))
	return math.Sin(p + asymmetry*math.Sin(p))
}

// waveNumber is the vector across the crests, turns per metre.
func (b *Bedform) waveNumber() (kx, ky float64) {
	// Across the crests is the crest bearing turned a quarter to starboard.
	across := b.Crest + math.Pi/2
	return math.Sin(across) / b.Wavelength, math.Cos(across) / b.Wavelength
}

// ridge turns noise in -1..1 into rock ridges: 0 in the hollows, 1 on crests.
func ridge(noise float64) float64 {
	r := 1 - math.Abs(noise)/0.7
	return max(r, 0) * max(r, 0)
}

// furrow is one scar: a bent line with a V bottom and two berms.
type furrow struct {
	line           []Point
	width, depth   float64
	x0, y0, x1, y1 float64 // bounding box, berms included
}

func newFurrow(rng *rand.Rand, b *Bedform, at Point) furrow {
	const pieces = 24
	f := furrow{
		width: b.Width * (0.7 + 0.6*rng.Float64()),
		depth: b.Height * (0.6 + 0.4*rng.Float64()),
	}
	length := b.Length * (0.5 + rng.Float64())
	bearing := b.Crest + 0.35*rng.NormFloat64()
	bend := b.Wander * rng.NormFloat64() / pieces
	p := Point{at.X - length/2*math.Sin(bearing), at.Y - length/2*math.Cos(bearing)}
	for range pieces + 1 {
		f.line = append(f.line, p)
		p.X += length / pieces * math.Sin(bearing)
		p.Y += length / pieces * math.Cos(bearing)
		bearing += bend + 0.03*rng.NormFloat64()
	}
	area := Area{Polygon: f.line}
	f.x0, f.y0, f.x1, f.y1 = area.bounds(0, 0)
	margin := 2 * f.width
	f.x0, f.y0, f.x1, f.y1 = f.x0-margin, f.y0-margin, f.x1+margin, f.y1+margin
	return f
}

// heightAt is what the furrow adds to the floor: -depth on its axis, berms of
// a third of that on both sides, nothing beyond twice its width.
func (f *furrow) heightAt(x, y float64) float64 {
	if x < f.x0 || x > f.x1 || y < f.y0 || y > f.y1 {
		return 0
	}
	d, end := math.Inf(1), 0
	for i := 1; i < len(f.line); i++ {
		if s := segmentDistance(x, y, f.line[i-1], f.line[i]); s < d {
			d, end = s, min(i, len(f.line)-i)
		}
	}
	u := 2 * d / f.width
	if u > 4 {
		return 0
	}
	fade := min(1, float64(end)/4) // an anchor bites in and lets go gently
	return f.depth * fade * (0.33*math.Exp(-4*(u-1.5)*(u-1.5)) - math.Exp(-1.6*u*u))
}

// pit is one pockmark.
type pit struct {
	at            Point
	radius, depth float64
}

func (p *pit) heightAt(x, y float64) float64 {
	u := math.Hypot(x-p.at.X, y-p.at.Y) / p.radius
	if u > 1.6 {
		return 0
	}
	return -p.depth * math.Exp(-3*u*u) * (1 - u/1.6)
}

// scatter places n seeded points inside the area.
func scatter(rng *rand.Rand, a *Area, east, north float64, n int) []Point {
	x0, y0, x1, y1 := a.bounds(east, north)
	points := make([]Point, 0, n)
	for tries := 0; len(points) < n && tries < 50*n+100; tries++ {
		p := Point{x0 + rng.Float64()*(x1-x0), y0 + rng.Float64()*(y1-y0)}
		if a.Contains(p) {
			points = append(points, p)
		}
	}
	return points
}
