package geodesy

import (
	"fmt"
	"math"
)

const (
	utmScale      = 0.9996   // on the central meridian
	falseEasting  = 500000   // metres
	falseNorthing = 10000000 // metres, southern hemisphere only

	// The edges are a few metres wide of the round figure, so that a position
	// on an edge survives the rounding of a trip there and back.
	maxLatitude    = 84*math.Pi/180 + 1e-6
	maxOffMeridian = 12*math.Pi/180 + 1e-6
)

// Projection is one zone of the Universal Transverse Mercator grid on WGS84.
// Make one with [UTM]; the zero value maps everything to NaN.
//
// It is good to well under 1 mm for positions it covers (see
// [Projection.Covers]), which takes in the neighbouring zones on both sides, so
// a survey may run over a zone edge. Elsewhere its methods return NaN rather
// than a plausible wrong number. Heights, datum shifts and plate motion are
// left out: WGS84 is taken as the frame of the exercise.
type Projection struct {
	zone  int
	south bool
	tm    transverseMercator
}

// UTM returns the projection of zone 1 to 60 in the northern or southern
// hemisphere.
func UTM(zone int, south bool) (Projection, error) {
	if zone < 1 || zone > 60 {
		return Projection{}, fmt.Errorf("geodesy: UTM zone %d is not in 1 to 60", zone)
	}
	north := 0.
	if south {
		north = falseNorthing
	}
	lon0 := float64(6*zone-183) * (math.Pi / 180)
	return Projection{
		zone:  zone,
		south: south,
		tm:    newTransverseMercator(wgs84, utmScale, 0, lon0, falseEasting, north),
	}, nil
}

// Zone returns the zone number, 1 to 60.
func (p Projection) Zone() int { return p.zone }

// South reports whether northings carry the southern false northing.
func (p Projection) South() bool { return p.south }

// String returns the zone and hemisphere, such as "30N".
func (p Projection) String() string {
	if p.south {
		return fmt.Sprintf("%dS", p.zone)
	}
	return fmt.Sprintf("%dN", p.zone)
}

// EPSG returns the code of the projected reference system in the EPSG
// registry: 32600 + zone in the north, 32700 + zone in the south.
func (p Projection) EPSG() int {
	if p.south {
		return 32700 + p.zone
	}
	return 32600 + p.zone
}

// Covers reports whether the projection answers for a position: within 12° of
// the central meridian and 84° of the equator.
func (p Projection) Covers(ll LatLon) bool {
	return p.zone != 0 &&
		math.Abs(ll.Lat) <= maxLatitude &&
		math.Abs(wrapLongitude(ll.Lon-p.tm.lon0)) <= maxOffMeridian
}

// Forward returns the easting and northing of a position in metres.
func (p Projection) Forward(ll LatLon) (east, north float64) {
	if !p.Covers(ll) {
		return math.NaN(), math.NaN()
	}
	return p.tm.forward(ll)
}

// Inverse returns the position at an easting and northing in metres.
func (p Projection) Inverse(east, north float64) LatLon {
	outside := LatLon{Lat: math.NaN(), Lon: math.NaN()}
	if p.zone == 0 {
		return outside
	}
	// Beyond a quarter turn of η the series would fold back into the zone.
	if !(math.Abs(east-p.tm.east) < p.tm.k0A/4) || !(math.Abs(north-p.tm.north) < p.tm.k0A*math.Pi/2) {
		return outside
	}
	ll := p.tm.inverse(east, north)
	if !p.Covers(ll) {
		return outside
	}
	return ll
}

// Convergence returns γ, the true bearing of grid north at a position, in
// radians: positive east of the central meridian in the northern hemisphere.
func (p Projection) Convergence(ll LatLon) float64 {
	if !p.Covers(ll) {
		return math.NaN()
	}
	gamma, _ := p.tm.local(ll)
	return gamma
}

// ScaleFactor returns k, the length on the grid of a unit of length on the
// ellipsoid at a position.
func (p Projection) ScaleFactor(ll LatLon) float64 {
	if !p.Covers(ll) {
		return math.NaN()
	}
	_, k := p.tm.local(ll)
	return k
}
