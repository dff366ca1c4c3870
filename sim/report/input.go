package report

import (
	"math"
	"time"

	"dryline/sim/exercise"
	"dryline/sim/survey"
	"dryline/vessel/nav/geodesy"
)

// Input holds all that reports are drawn up from.
type Input struct {
	Brief    *exercise.Brief
	Desk     *survey.Desk
	Surveyor string  // empty if nobody said
	Now      float64 // of the session, seconds
	Ended    string  // why it is over, in a word; empty while it runs
	Engine   int
	Licence  string
	Caution  string
	Cell     float64 // of the mosaic handed over, metres
	Chips    []Chip  // by contact
}

// Chip is a picture of a contact from one pass: its echo and its shadow.
type Chip struct {
	Contact int
	Name    string // of the file
	Caption string
	PNG     []byte
}

// utc is a time of the session by the clock.
func (in *Input) utc(t float64) time.Time {
	return in.Brief.Start.Add(time.Duration(math.Round(t*10)) * 100 * time.Millisecond).UTC()
}

const stamp = "2006-01-02T15:04:05.0Z"

// true bearing of a grid bearing at a point, degrees from 0 to 360.
func (in *Input) trueBearing(grid, x, y float64) float64 {
	return degrees(grid + in.Brief.Place.Grid.ConvergenceAt(x, y))
}

func degrees(radians float64) float64 {
	d := math.Mod(radians*180/math.Pi, 360)
	if d < 0 {
		d += 360
	}
	return d
}

// place is a point in the coordinates that people see.
type place struct {
	Easting, Northing   float64
	Latitude, Longitude float64 // degrees
}

func (in *Input) place(x, y float64) place {
	var p place
	p.Easting, p.Northing = in.Brief.Place.Grid.ToUTM(x, y)
	p.Latitude, p.Longitude = in.Brief.Place.Grid.ToLatLon(x, y).Degrees()
	return p
}

// meanBearing is the mean of true bearings, degrees.
type meanBearing struct{ sin, cos float64 }

func (m *meanBearing) add(b geodesy.TrueBearing) {
	sin, cos := math.Sincos(float64(b))
	m.sin, m.cos = m.sin+sin, m.cos+cos
}

func (m *meanBearing) degrees() float64 { return degrees(math.Atan2(m.sin, m.cos)) }
