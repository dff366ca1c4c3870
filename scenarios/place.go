package scenarios

import (
	"dryline/sim/exercise"
	"dryline/vessel/nav/geodesy"
)

type placeSection struct {
	Name      string  `key:"name" required:"true" runes:"80" doc:"Name of the place."`
	Latitude  float64 `key:"latitude_deg" required:"true" unit:"deg" min:"-90" max:"90" doc:"WGS84 latitude of the world's south-west corner, north positive; UTM reaches to 84."`
	Longitude float64 `key:"longitude_deg" required:"true" unit:"deg" min:"-180" max:"180" doc:"WGS84 longitude of the world's south-west corner, east positive."`
}

func (p placeSection) place(c *checker) exercise.Place {
	place := exercise.Place{Name: p.Name}
	if !c.sound("place.latitude_deg", "place.longitude_deg", "seabed.east_m", "seabed.north_m") {
		return place
	}
	grid, err := geodesy.NewLocalGrid(geodesy.Degrees(p.Latitude, p.Longitude))
	if err == nil {
		s := c.file.Seabed
		for _, corner := range [][2]float64{{s.East, 0}, {0, s.North}, {s.East, s.North}} {
			// ToLatLon is NaN, which no projection covers, beyond its reach.
			if !grid.Covers(grid.ToLatLon(corner[0], corner[1])) {
				c.fault("place.latitude_deg", c.number(p.Latitude), "takes the world beyond the reach of UTM", "-84 to 84 deg")
				return place
			}
		}
		place.Grid = grid
		return place
	}
	c.fault("place.latitude_deg", c.number(p.Latitude), "is beyond the reach of UTM", "-84 to 84 deg")
	return place
}
