package nmea

import (
	"math"
	"strconv"
	"time"
)

// number appends a field with so many digits after the point, or an empty one
// if it is not to be believed, not finite, or too long for any sentence.
func number(dst []byte, v float64, decimals int, ok bool) []byte {
	const limit = 99999.5
	dst = append(dst, ',')
	if !ok || !(math.Abs(v) < limit) {
		return dst
	}
	at := len(dst)
	dst = strconv.AppendFloat(dst, v, 'f', decimals, 64)
	if dst[at] == '-' && zero(dst[at+1:]) {
		return append(dst[:at], dst[at+1:]...)
	}
	return dst
}

// zero reports whether a number in digits is nothing.
func zero(digits []byte) bool {
	for _, d := range digits {
		if d != '0' && d != '.' {
			return false
		}
	}
	return true
}

// angle appends a direction in degrees, from 000 up to but not including 360,
// with three digits before the point.
func angle(dst []byte, radians float64, decimals int, ok bool) []byte {
	dst = append(dst, ',')
	if !ok || math.IsNaN(radians) || math.IsInf(radians, 0) {
		return dst
	}
	scale := 1
	for range decimals {
		scale *= 10
	}
	n := int(math.Round(math.Mod(radians*180/math.Pi, 360)*float64(scale))) % (360 * scale)
	if n < 0 {
		n += 360 * scale
	}
	dst = padded(dst, n/scale, 3)
	dst = append(dst, '.')
	return padded(dst, n%scale, decimals)
}

// letter appends a field of one letter.
func letter(dst []byte, c byte) []byte { return append(dst, ',', c) }

// coordinate appends a latitude or longitude as degrees, minutes with six
// decimals (1.9 mm of latitude), and the letter of its half of the globe.
// width is how many digits the degrees have.
func coordinate(dst []byte, radians float64, width int, plus, minus byte, ok bool) []byte {
	if !ok {
		return append(dst, ',', ',')
	}
	const decimals, minute = 6, 1_000_000
	// Rounded before it is split, so that minutes never come to 60.
	n := int64(math.Round(math.Abs(radians) * 180 / math.Pi * 60 * minute))
	half := plus
	if radians < 0 && n > 0 {
		half = minus
	}
	dst = append(dst, ',')
	dst = padded(dst, int(n/(60*minute)), width)
	dst = padded(dst, int(n/minute%60), 2)
	dst = append(dst, '.')
	dst = padded(dst, int(n%minute), decimals)
	return letter(dst, half)
}

// clock appends a time of day to the hundredth of a second.
func clock(dst []byte, t time.Time) []byte {
	dst = append(dst, ',')
	dst = padded(dst, t.Hour(), 2)
	dst = padded(dst, t.Minute(), 2)
	dst = padded(dst, t.Second(), 2)
	dst = append(dst, '.')
	return padded(dst, t.Nanosecond()/int(10*time.Millisecond), 2)
}

// padded appends n, which is not negative, with at least width digits.
func padded(dst []byte, n, width int) []byte {
	for limit := 10; width > 1; width, limit = width-1, limit*10 {
		if n < limit {
			dst = append(dst, '0')
		}
	}
	return strconv.AppendInt(dst, int64(n), 10)
}
