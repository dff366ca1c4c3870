package main

import (
	"github.com/spf13/cobra"

	"dryline/sonar/acoustics"
)

// usualSoundSpeed, in m/s, is what the NOAA Field Procedures Manual, 3.2.3, has
// used where the speed of sound is not known.
const usualSoundSpeed = 1500

// Limits that several calculators share.
var (
	rangeLimits      = above(0, 10000)  // m
	soundSpeedLimits = from(1300, 1700) // m/s
)

func newPingRateCommand() *cobra.Command {
	var rangeScale, soundSpeed float64
	c := newCalculator(&cobra.Command{
		Use:   "ping-rate",
		Short: "Highest ping rate for a range scale, and the speed it allows",
		Long: `Highest ping rate for a range scale, with one ping in the water at a time, and
the highest speed over ground that still gives three pings a metre.`,
	}, func() (answer, error) {
		rate := acoustics.PingRate(rangeScale, soundSpeed)
		speed := acoustics.SpeedForPings(1, 3, rate)
		return answer{
			results: []result{
				{"ping_rate_hz", "Ping rate", "Hz", rate, 3},
				{"ping_interval_s", "Ping interval", "s", acoustics.PingInterval(rangeScale, soundSpeed), 4},
				{"speed_three_pings_per_metre_m_s", "Speed for 3 pings a metre", "m/s", speed, 3},
				{"speed_three_pings_per_metre_kn", "Speed for 3 pings a metre", "kn", speed / knot, 2},
			},
			source: "Rate c/2R, speed rate/3; three pings on a 1 m object: NOAA Field Procedures Manual 2.5.2.1",
		}, nil
	})
	numberFlag(c, &rangeScale, "range", "m", rangeLimits, "range scale, one side")
	optionalNumberFlag(c, &soundSpeed, "sound-speed", "m/s", soundSpeedLimits, usualSoundSpeed, "speed of sound")
	return c
}
