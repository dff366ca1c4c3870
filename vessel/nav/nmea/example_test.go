package nmea_test

import (
	"fmt"
	"math"
	"time"

	"dryline/vessel/nav"
	"dryline/vessel/nav/geodesy"
	"dryline/vessel/nav/nmea"
)

// The same fix as a simulated one, and as some listeners want it.
func Example() {
	grid, err := geodesy.NewLocalGrid(geodesy.Degrees(47.2, -33.4))
	if err != nil {
		panic(err)
	}
	src := nmea.Source{Grid: grid, Start: time.Date(2026, 11, 25, 10, 15, 0, 0, time.UTC)}
	r := nav.Reading{
		Time: 30, FixTime: 30, Valid: nav.Fix, Quality: nav.RTK, Satellites: 14, HDOP: 0.7,
		SpeedOverGround: 2, Course: geodesy.TrueBearing(math.Pi / 2),
	}
	buf := src.AppendRMC(nil, &r)
	src.Plain = true
	buf = src.AppendRMC(buf, &r)
	buf = nmea.AppendHDT(buf, &r) // no heading
	for _, c := range buf {
		if c != '\r' {
			fmt.Print(string(rune(c)))
		}
	}
	// Output:
	// $GPRMC,101530.00,V,4712.000000,N,03324.000000,W,3.89,090.00,251126,,,S*41
	// $GPRMC,101530.00,A,4712.000000,N,03324.000000,W,3.89,090.00,251126,,,R*57
	// $HEHDT,,T*01
}
