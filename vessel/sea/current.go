package sea

import (
	"fmt"
	"math"
	"slices"
)

// Current is the flow at one depth.
type Current struct {
	Depth float64 // below the surface, metres
	Speed float64 // m/s
	Set   float64 // grid bearing it flows to, radians
}

// Profile is the current at every depth. The zero value is still water.
type Profile struct {
	points []flow
	law    float64 // depth of water of a power law of points[0], 0 for points
}

type flow struct{ depth, east, north float64 }

// NewProfile returns a current that runs in straight lines from point to point
// and stays what it is above the first and below the last; one point is the
// same current everywhere. Depths must increase.
func NewProfile(points []Current) (Profile, error) {
	var p Profile
	for i, c := range points {
		if math.IsNaN(c.Depth+c.Speed+c.Set) || math.IsInf(c.Depth+c.Speed+c.Set, 0) || c.Depth < 0 || c.Speed < 0 {
			return Profile{}, fmt.Errorf("current %d: depth and speed must be numbers from 0", i+1)
		}
		if i > 0 && c.Depth <= points[i-1].Depth {
			return Profile{}, fmt.Errorf("current %d: depth %g m is not below the one before, %g m", i+1, c.Depth, points[i-1].Depth)
		}
		p.points = append(p.points, c.flow())
	}
	return p, nil
}

// PowerLaw returns the current of a tidal stream that has a speed at the
// surface and sticks to the bottom,
//
//	U(d) = U(0) ((h - d)/h)^(1/7)
//
// over a depth h in metres (Prandtl's one-seventh law for a turbulent layer, as
// DNV-RP-C205, 4.1.4, gives it for tidal currents).
func PowerLaw(surface Current, depth float64) Profile {
	return Profile{points: []flow{surface.flow()}, law: depth}
}

func (c Current) flow() flow {
	sin, cos := math.Sincos(c.Set)
	return flow{c.Depth, c.Speed * sin, c.Speed * cos}
}

// At returns the current at a height above still water, negative below, in m/s
// east and north. Above the water it is that of the surface.
func (p *Profile) At(z float64) (east, north float64) {
	if len(p.points) == 0 {
		return 0, 0
	}
	depth, last := max(-z, 0), len(p.points)-1
	if p.law > 0 {
		share := math.Pow(max(1-depth/p.law, 0), 1.0/7)
		return share * p.points[0].east, share * p.points[0].north
	}
	i, _ := slices.BinarySearchFunc(p.points, depth, func(f flow, d float64) int {
		if f.depth < d {
			return -1
		}
		return 1
	})
	if i == 0 {
		return p.points[0].east, p.points[0].north
	}
	if i > last {
		return p.points[last].east, p.points[last].north
	}
	a, b := p.points[i-1], p.points[i]
	w := (depth - a.depth) / (b.depth - a.depth)
	return a.east + w*(b.east-a.east), a.north + w*(b.north-a.north)
}
