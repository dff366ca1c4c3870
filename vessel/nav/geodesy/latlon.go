package geodesy

import "math"

// LatLon is a WGS84 geographic position in radians, north and east positive.
// Height does not enter: everything here lies on the ellipsoid.
type LatLon struct {
	Lat, Lon float64
}

// Degrees returns the position with the given latitude and longitude in
// degrees.
func Degrees(lat, lon float64) LatLon {
	return LatLon{Lat: lat * (math.Pi / 180), Lon: lon * (math.Pi / 180)}
}

// Degrees returns the latitude and longitude in degrees.
func (p LatLon) Degrees() (lat, lon float64) {
	return p.Lat * (180 / math.Pi), p.Lon * (180 / math.Pi)
}

// wrapLongitude returns the angle in (-π, π] that differs from lon by whole
// turns.
func wrapLongitude(lon float64) float64 {
	lon = math.Remainder(lon, 2*math.Pi)
	if lon <= -math.Pi {
		lon += 2 * math.Pi
	}
	return lon
}
