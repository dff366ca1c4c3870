package sonar

import (
	"math"

	"dryline/sonar/acoustics"
)

// interference comes from another vessel's sounder, which pings by its own clock.
// Its pings arrive at
//
//	t = Offset + j Interval
//
// whatever we do, and fall into the record at (t - time of our ping) c/2. From
// ping to ping of ours they move by the difference of the intervals, in the
// multiples that fit: dashes in slanted rows. Each lasts as long as its pulse.
// How much gets in depends on how far its frequency lies from ours,
//
//	1/(1 + (2 df/B)^8)
//
// a receiver filter of four poles and our own choice; it goes round the pulse
// compression, which it does not match, and comes from far enough to sound the
// same on both sides. Left out: its echoes from the floor.
type interference Sounder

func (s *interference) add(a *arrival) {
	if s.Interval <= 0 {
		return
	}
	c := &a.channel.spec
	pulse := acoustics.Pulse{Duration: c.PulseLength, Bandwidth: c.Bandwidth}
	x := 2 * (s.Frequency - c.Frequency) / pulse.NoiseBandwidth()
	x *= x
	x *= x
	level := acoustics.FromDecibels(s.Level) / (1 + x*x)
	perBin := a.engine.listening / float64(len(a.intensity))
	heard := float64(len(a.intensity)) * perBin
	length := max(s.PulseLength/perBin, 1)
	// The first of its pings that may still sound when we begin to listen.
	j := math.Ceil((a.pose.Time - s.PulseLength - s.Offset) / s.Interval)
	for {
		at := s.Offset + max(j, 0)*s.Interval - a.pose.Time
		if at >= heard {
			return
		}
		j = max(j, 0) + 1
		k := at / perBin
		for i := max(int(math.Round(k)), 0); i < min(int(math.Round(k+length)), len(a.intensity)); i++ {
			a.stray[i] += float32(level)
		}
	}
}
