package acoustics

// PingRate returns the highest ping rate in hertz that lets every echo from a
// slant range return before the next ping: c/2R.
func PingRate(rangeM, soundSpeed float64) float64 { return soundSpeed / (2 * rangeM) }

// PingInterval returns the time in seconds between pings at that rate.
func PingInterval(rangeM, soundSpeed float64) float64 { return 2 * rangeM / soundSpeed }

// PingAdvance returns the distance in metres travelled between two pings at a
// speed over ground in m/s.
func PingAdvance(speed, pingRate float64) float64 { return speed / pingRate }

// SpeedForPings returns the highest speed over ground in m/s at which a target
// of a length in metres is met by a number of pings, v = l·rate/N. The width
// of the beam is left out, which errs on the safe side.
func SpeedForPings(length float64, pings int, pingRate float64) float64 {
	return length * pingRate / float64(pings)
}
