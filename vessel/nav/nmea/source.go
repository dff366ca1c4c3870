package nmea

import (
	"math"
	"time"

	"dryline/vessel/nav"
	"dryline/vessel/nav/geodesy"
)

// Source holds what sentences need besides a reading.
type Source struct {
	Grid  geodesy.LocalGrid
	Start time.Time // when the reading's time was 0

	// Plain gives a simulated fix the flags of a real one: quality 1, 2 or 4,
	// mode A, D or R, status A. Some listeners take nothing else. Caution: then
	// no sentence says that it is simulated.
	Plain bool
}

// at is a time of the session in UTC, to the hundredth of a second.
func (s *Source) at(seconds float64) time.Time {
	d := time.Duration(math.Round(seconds*100)) * 10 * time.Millisecond
	return s.Start.Add(d).UTC().Round(10 * time.Millisecond)
}

// fix is the position, whether there is one, and when it was fixed: without
// one, now.
func (s *Source) fix(r *nav.Reading) (p geodesy.LatLon, t time.Time, ok bool) {
	if !r.Valid.Has(nav.Fix) || r.Quality == nav.NoFix {
		return p, s.at(r.Time), false
	}
	p = s.Grid.ToLatLon(r.X, r.Y)
	if math.Abs(p.Lat) <= math.Pi/2 && math.Abs(p.Lon) <= math.Pi { // NaN is not
		return p, s.at(r.FixTime), true
	}
	return p, s.at(r.Time), false
}

// flags are quality, mode and status of a fix.
type flags struct{ quality, mode, status byte }

// flags says of what kind a fix is. Status is V for every mode but those of a
// real fix (public descriptions name A and D; that R may be A is from memory).
func (s *Source) flags(r *nav.Reading, ok bool) flags {
	switch {
	case !ok:
		return flags{'0', 'N', 'V'}
	case !s.Plain:
		return flags{'8', 'S', 'V'}
	}
	switch r.Quality {
	case nav.Differential:
		return flags{'2', 'D', 'A'}
	case nav.RTK:
		return flags{'4', 'R', 'A'}
	}
	return flags{'1', 'A', 'A'}
}

// status is the letter for data that do or do not hold good.
func status(ok bool) byte {
	if ok {
		return 'A'
	}
	return 'V'
}
