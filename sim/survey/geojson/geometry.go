package geojson

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
)

// Position is a WGS84 longitude and latitude in degrees, east and north
// positive.
type Position struct {
	Lon, Lat float64
}

// Geometry is one of [Point], [LineString] and [Polygon].
type Geometry interface {
	// kind is the value of the "type" member.
	kind() string
	// appendCoordinates appends the "coordinates" value and grows the box by it.
	appendCoordinates(dst []byte, b *box) ([]byte, error)
}

// Point is a single place (RFC 7946 section 3.1.2).
type Point Position

// LineString is a line through two or more places (section 3.1.4).
type LineString []Position

// Polygon is an area (section 3.1.6): its outer ring, then any holes. A ring
// has three or more corners, given in either direction, with or without the
// first repeated at the end.
type Polygon [][]Position

func (Point) kind() string      { return "Point" }
func (LineString) kind() string { return "LineString" }
func (Polygon) kind() string    { return "Polygon" }

func (p Point) appendCoordinates(dst []byte, b *box) ([]byte, error) {
	at, err := fix(Position(p))
	if err != nil {
		return nil, err
	}
	b.add(at)
	return at.append(dst), nil
}

func (l LineString) appendCoordinates(dst []byte, b *box) ([]byte, error) {
	if len(l) < 2 {
		return nil, fmt.Errorf("line of %d positions, want 2 or more", len(l))
	}
	line, err := fixLine(l)
	if err != nil {
		return nil, err
	}
	return appendLine(dst, line, b), nil
}

func (p Polygon) appendCoordinates(dst []byte, b *box) ([]byte, error) {
	if len(p) == 0 {
		return nil, errors.New("polygon without a ring")
	}
	dst = append(dst, '[')
	for i, corners := range p {
		ring, err := fixLine(corners)
		if err == nil {
			ring, err = wind(ring, i == 0)
		}
		if err != nil {
			return nil, fmt.Errorf("ring %d: %w", i, err)
		}
		if i > 0 {
			dst = append(dst, ',')
		}
		dst = appendLine(dst, ring, b)
	}
	return append(dst, ']'), nil
}

// fixed is a position in whole units of 1e-8 degrees, as it is written.
type fixed struct {
	lon, lat int64
}

const unitsPerDegree = 1e8

// fix rounds a position, or says why it is none.
func fix(p Position) (fixed, error) {
	// Written so that NaN fails too.
	if !(math.Abs(p.Lon) <= 180) {
		return fixed{}, fmt.Errorf("longitude %v is not in -180 to 180 degrees", p.Lon)
	}
	if !(math.Abs(p.Lat) <= 90) {
		return fixed{}, fmt.Errorf("latitude %v is not in -90 to 90 degrees", p.Lat)
	}
	return fixed{
		lon: int64(math.Round(p.Lon * unitsPerDegree)),
		lat: int64(math.Round(p.Lat * unitsPerDegree)),
	}, nil
}

// fixLine rounds a run of positions.
func fixLine(line []Position) ([]fixed, error) {
	out := make([]fixed, len(line))
	for i, p := range line {
		var err error
		if out[i], err = fix(p); err != nil {
			return nil, fmt.Errorf("position %d: %w", i, err)
		}
		if i > 0 && math.Abs(line[i].Lon-line[i-1].Lon) > 180 {
			return nil, fmt.Errorf("position %d: line crosses the antimeridian; cut it there", i)
		}
	}
	return out, nil
}

// wind returns a closed ring that runs anticlockwise if it is an outer one and
// clockwise if it is a hole.
func wind(ring []fixed, outer bool) ([]fixed, error) {
	if n := len(ring); n > 1 && ring[0] == ring[n-1] {
		ring = ring[:n-1]
	}
	if len(ring) < 3 {
		return nil, fmt.Errorf("%d corners, want 3 or more", len(ring))
	}
	area := signedArea(ring)
	if area == 0 {
		return nil, errors.New("ring encloses no area")
	}
	if (area > 0) != outer {
		slices.Reverse(ring[1:]) // the first corner stays first
	}
	return append(ring, ring[0]), nil
}

// signedArea returns twice the area of an open ring in square units, positive
// if anticlockwise. It is exact for rings less than half a degree across.
func signedArea(ring []fixed) float64 {
	sum := 0.
	for i := 1; i < len(ring)-1; i++ {
		ax, ay := float64(ring[i].lon-ring[0].lon), float64(ring[i].lat-ring[0].lat)
		bx, by := float64(ring[i+1].lon-ring[0].lon), float64(ring[i+1].lat-ring[0].lat)
		sum += float64(ax*by) - float64(ay*bx)
	}
	return sum
}

func (f fixed) append(dst []byte) []byte {
	dst = append(dst, '[')
	dst = appendDegrees(dst, f.lon)
	dst = append(dst, ',')
	dst = appendDegrees(dst, f.lat)
	return append(dst, ']')
}

// appendDegrees appends a number of units in degrees: a quotient of whole
// numbers, so that its shortest decimal form has at most 8 decimals.
func appendDegrees(dst []byte, units int64) []byte {
	return strconv.AppendFloat(dst, float64(units)/unitsPerDegree, 'f', -1, 64)
}

func appendLine(dst []byte, line []fixed, b *box) []byte {
	dst = append(dst, '[')
	for i, f := range line {
		if i > 0 {
			dst = append(dst, ',')
		}
		b.add(f)
		dst = f.append(dst)
	}
	return append(dst, ']')
}

// box is the extent of what was written.
type box struct {
	west, south, east, north int64
	set                      bool
}

func (b *box) add(f fixed) {
	if !b.set {
		*b = box{f.lon, f.lat, f.lon, f.lat, true}
		return
	}
	b.west, b.east = min(b.west, f.lon), max(b.east, f.lon)
	b.south, b.north = min(b.south, f.lat), max(b.north, f.lat)
}
