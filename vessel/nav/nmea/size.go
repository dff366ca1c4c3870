package nmea

import (
	"math"

	"dryline/vessel/nav"
)

// Size is the most bytes that a report of these kinds takes, every display good
// and its numbers as wide as at sea: less than 100 kn, 1000 m of water and 10 km
// of cable. Most reports are a few bytes shorter.
func (s *Source) Size(kinds []Kind) int {
	const degree = math.Pi / 180
	wide := nav.Reading{
		Valid: math.MaxUint16, Quality: nav.Autonomous, Satellites: 10, HDOP: 10, SpeedOverGround: 40,
		RateOfTurn: -15 * degree, Heave: -10, Pitch: -10 * degree, Roll: -10 * degree,
		CableOut: 9999, FishDepth: 800, FishAltitude: 199, FishHeading: 359 * degree, FishPitch: -10 * degree, FishRoll: -10 * degree,
		WindSpeed: 50, TrueWindSpeed: 50,
	}
	var text []byte
	for _, k := range kinds {
		text = s.Append(text, k, &wide)
	}
	return len(text)
}
