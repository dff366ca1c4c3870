package geodesy

import (
	"errors"
	"fmt"
	"math"
)

// LocalGrid is the engine's frame laid on a UTM zone: local (x, y) is easting
// and northing less the origin, in metres. Axes stay parallel to the grid, so
// local y is grid north and a local bearing is a [GridBearing].
type LocalGrid struct {
	Projection
	OriginEasting, OriginNorthing float64 // UTM metres of local (0, 0)
}

// NewLocalGrid returns the local grid with its origin at a position, in the
// zone the position belongs to.
func NewLocalGrid(origin LatLon) (LocalGrid, error) {
	zone, south := ZoneFor(origin)
	p, err := UTM(zone, south)
	if err == nil && !p.Covers(origin) {
		err = errors.New("geodesy: UTM does not reach this latitude")
	}
	if err != nil {
		lat, lon := origin.Degrees()
		return LocalGrid{}, fmt.Errorf("local grid at %g, %g degrees: %w", lat, lon, err)
	}
	east, north := p.Forward(origin)
	return LocalGrid{Projection: p, OriginEasting: east, OriginNorthing: north}, nil
}

// ToUTM returns the easting and northing of a local point.
func (g LocalGrid) ToUTM(x, y float64) (east, north float64) {
	return g.OriginEasting + x, g.OriginNorthing + y
}

// FromUTM returns the local point of an easting and northing.
func (g LocalGrid) FromUTM(east, north float64) (x, y float64) {
	return east - g.OriginEasting, north - g.OriginNorthing
}

// Whole returns the local point, between the origin and one step north-east of
// it, whose easting and northing are whole multiples of a step in metres.
func (g LocalGrid) Whole(step float64) (x, y float64) {
	next := func(v float64) float64 { return math.Ceil(v/step)*step - v }
	return next(g.OriginEasting), next(g.OriginNorthing)
}

// ToLatLon returns the geographic position of a local point.
func (g LocalGrid) ToLatLon(x, y float64) LatLon {
	return g.Inverse(g.ToUTM(x, y))
}

// FromLatLon returns the local point of a geographic position.
func (g LocalGrid) FromLatLon(ll LatLon) (x, y float64) {
	return g.FromUTM(g.Forward(ll))
}

// ConvergenceAt returns the grid convergence γ at a local point, radians. Over
// a survey of a few kilometres it changes by some hundredths of a degree.
func (g LocalGrid) ConvergenceAt(x, y float64) float64 {
	return g.Convergence(g.ToLatLon(x, y))
}

// ScaleFactorAt returns the point scale k at a local point.
func (g LocalGrid) ScaleFactorAt(x, y float64) float64 {
	return g.ScaleFactor(g.ToLatLon(x, y))
}
