package geodesy

import "math"

// ZoneFor returns the UTM zone a position belongs to, and whether it lies in
// the southern hemisphere. Zones are 6° wide from zone 1 at 180° W, half-open
// to the east, with the widened zones of the UTM definition: 32 off south-west
// Norway (56° to 64° N), and 31, 33, 35 and 37 round Svalbard (72° to 84° N).
// The equator is northern. A position that is not finite has zone 0.
func ZoneFor(ll LatLon) (zone int, south bool) {
	lat, _ := ll.Degrees()
	_, lon := LatLon{Lon: wrapLongitude(ll.Lon)}.Degrees()
	// Radians cannot hold most whole degrees; a zone edge given in degrees
	// must still fall on its eastern side.
	const slack = 1e-12
	lat += math.Copysign(slack, lat)
	lon += slack
	if math.IsNaN(lat) || math.IsInf(lat, 0) || math.IsNaN(lon) {
		return 0, false
	}
	south = lat < -slack
	switch {
	case lat >= 56 && lat < 64 && lon >= 3 && lon < 12:
		return 32, south
	case lat >= 72 && lat <= 84+2*slack && lon >= 0 && lon < 42:
		switch {
		case lon < 9:
			return 31, south
		case lon < 21:
			return 33, south
		case lon < 33:
			return 35, south
		}
		return 37, south
	}
	return int(math.Floor((lon+180)/6))%60 + 1, south
}
