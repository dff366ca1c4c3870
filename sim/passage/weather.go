package passage

import (
	"math"

	"dryline/sim/exercise"
	"dryline/vessel"
	"dryline/vessel/sea"
)

// weather holds the sea and the air as they are at the moment.
type weather struct {
	vessel.Weather         // on the vessel
	surface        float64 // of the water over its mean level, metres

	waves   *sea.Sea
	gust    *sea.Gust  // nil for a steady wind
	steady  [2]float64 // of a steady wind, speed and where it comes from
	current sea.Profile
	tide    sea.Tide
}

func newWeather(s *exercise.Sea, seed uint64) weather {
	w := weather{waves: sea.New(s.Waves, seed), current: s.Current, tide: s.Tide}
	if s.Gusty && s.WindSpeed > 0 {
		w.gust = sea.NewGust(s.WindSpeed, s.WindFrom, seed)
	}
	w.CurrentX, w.CurrentY = w.current.At(0)
	w.steady = [2]float64{s.WindSpeed, s.WindFrom}
	w.blow(s.WindSpeed, s.WindFrom)
	w.follow(0, &occurrences{})
	return w
}

// follow brings the weather to a time, seconds, and to what happens then.
func (w *weather) follow(t float64, events *occurrences) {
	speed, from := w.steady[0], w.steady[1]
	if w.gust != nil {
		speed, from = w.gust.At(t)
	}
	if more, veer := events.squall(t); more > 0 {
		speed, from = speed+more, from+veer
	}
	w.blow(speed, from)
	if w.tide.Amplitude != 0 {
		w.surface = w.tide.Height(t)
	}
}

// blow sets the wind, which is named for where it comes from.
func (w *weather) blow(speed, from float64) {
	sin, cos := math.Sincos(from)
	w.WindX, w.WindY = -speed*sin, -speed*cos
}

// Current implements [tow.Water].
func (w *weather) Current(z float64) (east, north float64) { return w.current.At(z) }
