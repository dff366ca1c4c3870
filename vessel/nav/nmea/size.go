package nmea

import (
	"math"

	"dryline/seabed/units"
	"dryline/vessel/nav"
)

// Size is the most bytes that a report of these kinds takes, every display good
// and its numbers as wide as at sea: less than 100 kn, 1000 m of water and 10 km
// of cable. Most reports are a few bytes shorter.
func (s *Source) Size(kinds []Kind) int {
	wide := nav.Reading{
		Valid: math.MaxUint16, Quality: nav.Autonomous, Satellites: 10, HDOP: 10, SpeedOverGround: 40,
		RateOfTurn: -15 * units.Degree, Heave: -10, Pitch: -10 * units.Degree, Roll: -10 * units.Degree,
		CableOut: 9999, FishDepth: 800, FishAltitude: 199, FishHeading: 359 * units.Degree, FishPitch: -10 * units.Degree, FishRoll: -10 * units.Degree,
		WindSpeed: 50, TrueWindSpeed: 50,
	}
	var text []byte
	for _, k := range kinds {
		text = s.Append(text, k, &wide)
	}
	return len(text)
}
