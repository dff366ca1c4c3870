package main

import (
	"fmt"

	"dryline/vessel/nav/nmea"
)

// byNeed are the kinds in the order in which a slow line keeps them: VTG and ZDA
// say nothing that RMC does not, DBT nothing that DPT does not.
var byNeed = []nmea.Kind{nmea.RMC, nmea.GGA, nmea.HDT, nmea.XDR, nmea.DPT, nmea.MWV, nmea.ROT, nmea.ZDA, nmea.VTG, nmea.DBT}

// fit returns the kinds that a serial line of a speed carries at so many reports
// a second of the clock on the wall, and says in a line what it left out. A byte
// is 10 bits on the line: 8 of data, a start and a stop bit ("NMEA Revealed"
// v2.24, gpsd project). What was chosen by name is never thinned but refused.
func fit(kinds []nmea.Kind, chosen bool, baud int, reports float64, size func([]nmea.Kind) int) (fits []nmea.Kind, note string, err error) {
	const bitsPerByte = 10
	carries := float64(baud) / bitsPerByte
	takes := func(kinds []nmea.Kind) float64 { return float64(size(kinds)) * reports }
	if takes(kinds) <= carries {
		return kinds, "", nil
	}
	problem := fmt.Sprintf("%s take up to %.0f bytes/s and %d baud carry %.0f", nmea.Join(kinds), takes(kinds), baud, carries)
	for n := len(byNeed) - 1; n > 0 && !chosen; n-- {
		if kept := among(kinds, byNeed[:n]); len(kept) > 0 && takes(kept) <= carries {
			return kept, fmt.Sprintf("--serial: %s: %s left out", problem, nmea.Join(among(kinds, byNeed[n:]))), nil
		}
	}
	return nil, "", usagef("--serial: %s; want a higher --baud, a lower --rate or --speed-up, or fewer --sentences", problem)
}

// among are those of the kinds that are wanted, in their own order.
func among(kinds, wanted []nmea.Kind) (some []nmea.Kind) {
	for _, k := range kinds {
		for _, w := range wanted {
			if k == w {
				some = append(some, k)
			}
		}
	}
	return some
}
