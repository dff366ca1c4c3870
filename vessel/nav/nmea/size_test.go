package nmea

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"dryline/vessel/nav"
	"dryline/vessel/nav/geodesy"
)

// No report at sea is longer than its size says, and the size is not much
// longer than a report is.
func TestNoReportIsLongerThanItsSize(t *testing.T) {
	src := place(t)
	for _, k := range Kinds() {
		kinds := []Kind{k}
		size := src.Size(kinds)
		if long := len(src.Append(nil, k, shown())); long > size || long < size*4/5 {
			t.Errorf("%s: a report of %d bytes, of size %d", k, long, size)
		}
	}
	// All as wide as it says at once.
	r := shown()
	r.SpeedOverGround, r.RateOfTurn, r.WindSpeed, r.TrueWindSpeed, r.Satellites, r.HDOP = 51, -0.29, 51, 51, 24, 12
	r.CableOut, r.FishDepth, r.FishAltitude, r.Heave = 9999, 800, 199, -12
	r.Pitch, r.Roll, r.FishPitch, r.FishRoll = -0.5, -0.5, -0.5, -0.5
	for _, k := range Kinds() {
		if text := src.Append(nil, k, r); len(text) != src.Size([]Kind{k}) {
			t.Errorf("%s: %d bytes, of size %d: %s", k, len(text), src.Size([]Kind{k}), text)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		v := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		turn := func(name string) geodesy.TrueBearing { return geodesy.TrueBearing(v(name, 0, 2*math.Pi)) }
		r := &nav.Reading{
			Time: v("time", 0, 86400), Valid: nav.Set(rapid.Uint16().Draw(t, "valid")),
			X: v("x", -15000, 15000), Y: v("y", -15000, 15000), FixTime: v("fix time", 0, 86400),
			Quality: nav.Quality(rapid.IntRange(0, 3).Draw(t, "quality")), Satellites: rapid.IntRange(0, 40).Draw(t, "satellites"),
			HDOP: v("hdop", 0, 20), SpeedOverGround: v("speed", 0, 50), Course: turn("course"), Heading: turn("heading"),
			RateOfTurn: v("turn", -0.29, 0.29), Heave: v("heave", -20, 20), Pitch: v("pitch", -1, 1), Roll: v("roll", -1, 1),
			CableOut: v("cable", -99, 9999), FishDepth: v("depth", 0, 500), FishAltitude: v("altitude", 0, 499),
			FishHeading: turn("fish"), FishPitch: v("fish pitch", -1, 1), FishRoll: v("fish roll", -1, 1),
			WindSpeed: v("wind", 0, 51), WindFrom: v("from", -math.Pi, math.Pi), TrueWindSpeed: v("true wind", 0, 51), TrueWindFrom: turn("true"),
		}
		for _, k := range Kinds() {
			if text := src.Append(nil, k, r); len(text) > src.Size([]Kind{k}) {
				t.Fatalf("%s: %d bytes, of size %d: %s", k, len(text), src.Size([]Kind{k}), text)
			}
		}
		if got, want := src.Size(Kinds()), src.Size(Kinds()[:3])+src.Size(Kinds()[3:]); got != want {
			t.Fatalf("sizes do not add up: %d and %d", got, want)
		}
	})
}
