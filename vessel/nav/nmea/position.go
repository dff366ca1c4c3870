package nmea

import (
	"dryline/seabed/units"
	"dryline/vessel/nav"
)

const kmh = 1 / 3.6 // m/s

// AppendGGA appends the fix: time, latitude, longitude, quality, satellites,
// HDOP. The time is that of the fix. Height and what follows stay empty.
func (s *Source) AppendGGA(dst []byte, r *nav.Reading) []byte {
	start := len(dst)
	p, t, ok := s.fix(r)
	dst = begin(dst, "GPGGA")
	dst = clock(dst, t)
	dst = coordinate(dst, p.Lat, 2, 'N', 'S', ok)
	dst = coordinate(dst, p.Lon, 3, 'E', 'W', ok)
	dst = letter(dst, s.flags(r, ok).quality)
	dst = append(dst, ',')
	if ok && r.Satellites >= 0 && r.Satellites < 100 {
		dst = padded(dst, r.Satellites, 2)
	}
	dst = number(dst, r.HDOP, 1, ok)
	dst = append(dst, ",,M,,M,,"...)
	return end(dst, start)
}

// AppendRMC appends the least a navigator needs: time of the fix, status,
// latitude, longitude, speed over ground in knots, course over ground, date
// and mode.
func (s *Source) AppendRMC(dst []byte, r *nav.Reading) []byte {
	start := len(dst)
	p, t, ok := s.fix(r)
	f := s.flags(r, ok)
	dst = begin(dst, "GPRMC")
	dst = clock(dst, t)
	dst = letter(dst, f.status)
	dst = coordinate(dst, p.Lat, 2, 'N', 'S', ok)
	dst = coordinate(dst, p.Lon, 3, 'E', 'W', ok)
	dst = number(dst, r.SpeedOverGround/units.Knot, 2, ok)
	dst = angle(dst, float64(r.Course), 2, ok)
	dst = append(dst, ',')
	dst = padded(dst, t.Day(), 2)
	dst = padded(dst, int(t.Month()), 2)
	dst = padded(dst, t.Year()%100, 2)
	dst = append(dst, ",,"...) // variation
	dst = letter(dst, f.mode)
	return end(dst, start)
}

// AppendVTG appends course over ground, and speed in knots and in km/h.
func (s *Source) AppendVTG(dst []byte, r *nav.Reading) []byte {
	start := len(dst)
	_, _, ok := s.fix(r)
	dst = begin(dst, "GPVTG")
	dst = angle(dst, float64(r.Course), 2, ok)
	dst = append(dst, ",T,,M"...)
	dst = number(dst, r.SpeedOverGround/units.Knot, 2, ok)
	dst = letter(dst, 'N')
	dst = number(dst, r.SpeedOverGround/kmh, 2, ok)
	dst = letter(dst, 'K')
	dst = letter(dst, s.flags(r, ok).mode)
	return end(dst, start)
}

// AppendZDA appends date and time of the reading, in UTC.
func (s *Source) AppendZDA(dst []byte, r *nav.Reading) []byte {
	start := len(dst)
	t := s.at(r.Time)
	dst = begin(dst, "GPZDA")
	dst = clock(dst, t)
	dst = append(dst, ',')
	dst = padded(dst, t.Day(), 2)
	dst = append(dst, ',')
	dst = padded(dst, int(t.Month()), 2)
	dst = append(dst, ',')
	dst = padded(dst, t.Year(), 4)
	dst = append(dst, ",00,00"...)
	return end(dst, start)
}
