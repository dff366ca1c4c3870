package record

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"

	"dryline/seabed/chance"
	"dryline/sim/survey"
	"dryline/sonar/recorder"
	"dryline/vessel/nav"
)

// speckled makes pings as a sonar gives them: noise before the bottom, then speckle
// about a level that falls off, its amplitude Rayleigh distributed (Goodman,
// Speckle Phenomena in Optics, 2007).
type speckled struct {
	rng  *rand.Rand
	ping survey.Ping
	set  survey.Recorder
}

func newSpeckled(channels, samples int) *speckled {
	s := &speckled{rng: chance.Stream(1, "record/test"), set: survey.Recorder{RangeScale: 50, Samples: samples, Nominal: 4000}}
	for range channels {
		s.set.Channels = append(s.set.Channels, "c")
		s.set.Receivers = append(s.set.Receivers, recorder.Receiver{Gain: 3, TVGSpreading: 30})
		s.ping.Port = append(s.ping.Port, make([]uint16, samples))
		s.ping.Starboard = append(s.ping.Starboard, make([]uint16, samples))
	}
	return s
}

// next is the ping of a number, in the memory of the last.
func (s *speckled) next(number uint64) *survey.Ping {
	p := &s.ping
	p.Number = number
	t := float64(number) / 15
	p.Fix = survey.Fix{Time: t, X: 2 * t, Y: 100 + math.Sin(t), Heading: 0.1, Depth: 8, Altitude: 6, Layback: 40, VesselX: 2*t + 40, VesselY: 100, Speed: 2, CableOut: 45}
	for _, side := range [2][][]uint16{p.Port, p.Starboard} {
		for _, row := range side {
			for k := range row {
				level := 15.0
				if share := float64(k) / float64(len(row)); share > 0.12 {
					level = 2000 * (1.2 - share)
				}
				row[k] = uint16(min(level*math.Sqrt(2*s.rng.ExpFloat64()), recorder.FullScale))
			}
		}
	}
	return p
}

// full is a backing that runs out of room.
type full struct {
	Backing
	left int
}

var errNoRoom = errors.New("no room")

func (f *full) Write(p []byte) (int, error) {
	if len(p) > f.left {
		n, _ := f.Backing.Write(p[:f.left])
		f.left = 0
		return n, errNoRoom
	}
	f.left -= len(p)
	return f.Backing.Write(p)
}

func cloned(p *survey.Ping) survey.Ping {
	c := *p
	for _, side := range []*[][]uint16{&c.Port, &c.Starboard} {
		*side = slices.Clone(*side)
		for i, row := range *side {
			(*side)[i] = slices.Clone(row)
		}
	}
	return c
}

func reading(t float64) *nav.Reading { return &nav.Reading{Time: t, X: t, FishDepth: 8} }
