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
