package app

import (
	"fmt"
	"math"
)

// place is a place in UTM, as the chart has it.
func (p *post) place(x, y float64) string {
	east, north := p.brief.Place.Grid.ToUTM(x, y)
	return fmt.Sprintf("%.1f E %.1f N", east, north)
}

// globe is a place in degrees and minutes.
func (p *post) globe(x, y float64) string {
	at := p.brief.Place.Grid.ToLatLon(x, y)
	return minutes(at.Lat, "N", "S") + " " + minutes(at.Lon, "E", "W")
}

// minutes writes an angle in radians as degrees and minutes, to two metres.
func minutes(angle float64, positive, negative string) string {
	side := positive
	if angle < 0 {
		side, angle = negative, -angle
	}
	thousandths := int(math.Round(angle * 180 / math.Pi * 60 * 1000))
	return fmt.Sprintf("%d°%02d.%03d' %s", thousandths/60000, thousandths/1000%60, thousandths%1000, side)
}
