package main

import (
	"math"

	"github.com/spf13/cobra"

	"dryline/sonar/acoustics"
)

func newResolutionCommand() *cobra.Command {
	var rangeM, beamwidth, bandwidth, speed, soundSpeed float64
	c := newCalculator(&cobra.Command{
		Use:   "resolution",
		Short: "Smallest distance at which two objects show apart",
		Long: `Smallest distance at which two objects at a slant range show apart.

Along the track it is the larger of two lengths: the width of the beam at that
range, and the advance between pings when the range is the range scale. Objects
closer than the beam is wide run together in every ping; objects closer than one
advance can fall on neighbouring pings with none in between.

Across the track it is the length of a compressed chirp, along the slant.`,
	}, func() (answer, error) {
		footprint := acoustics.Footprint(rangeM, beamwidth*math.Pi/180)
		advance := acoustics.PingAdvance(speed*knot, acoustics.PingRate(rangeM, soundSpeed))
		return answer{
			results: []result{
				{"along_track_m", "Along the track", "m", max(footprint, advance), 4},
				{"across_track_m", "Across the track", "m", acoustics.ChirpResolution(bandwidth*1e3, soundSpeed), 4},
				{"ping_spacing_m", "Ping spacing", "m", advance, 4},
				{"beam_footprint_m", "Beam footprint", "m", footprint, 4},
			},
			source: "Along: larger of beam R θ (far field; IHO C-13, chapter 4, 2.3.6) and ping spacing 2 R v/c; across: c/2B along the slant",
		}, nil
	})
	numberFlag(c, &rangeM, "range", "m", rangeLimits, "slant range, taken as the range scale too")
	numberFlag(c, &beamwidth, "beamwidth-deg", "deg", above(0, 90), "horizontal beam width between half-power points")
	numberFlag(c, &bandwidth, "bandwidth-khz", "kHz", above(0, 5000), "bandwidth of the chirp")
	numberFlag(c, &speed, "speed-kn", "kn", from(0, 30), "speed over ground")
	optionalNumberFlag(c, &soundSpeed, "sound-speed", "m/s", soundSpeedLimits, usualSoundSpeed, "speed of sound")
	return c
}
