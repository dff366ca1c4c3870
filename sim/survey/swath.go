package survey

import "dryline/vessel/nav"

// SwathBy names the bearing that the swath is laid square to.
//
// Rays run out square to the fish, and in a cross current the fish swims askew to
// the course made good by a crab angle a: laid square to the course, ground at a
// range g across lies 2 g sin(a/2) from where it is, nearly all of it along the
// track. Laid by the ship's heading it is right as far as the fish heads as the ship
// does, which the stream at its depth and her leeway decide. By the fish's compass
// it is as right as the compass. The NOAA Field Procedures Manual 2014, 4.3.2.1.3,
// takes the course made good rather than the ship's heading where the crab is large,
// and warns of fish compasses.
type SwathBy string

// What a swath may be laid square to.
const (
	SwathByCourse SwathBy = "course" // the track made good
	SwathByVessel SwathBy = "vessel" // the ship's heading
	SwathByFish   SwathBy = "fish"   // the compass in the fish
)

// SwathBearings lists them.
func SwathBearings() []SwathBy {
	return []SwathBy{SwathByCourse, SwathByVessel, SwathByFish}
}

// bearing is the grid bearing to lay a swath square to. While the instrument it asks
// for is silent it is the course.
func (b SwathBy) bearing(course float64, r *nav.Reading) float64 {
	switch {
	case b == SwathByVessel && r.Valid.Has(nav.Heading):
		return float64(r.GridHeading())
	case b == SwathByFish && r.Valid.Has(nav.FishAttitude):
		return float64(r.FishHeading.Grid(r.Convergence))
	}
	return course
}
