package coach

import (
	"fmt"
	"math"
)

// Grade says how a reading compares with what is wanted of it.
type Grade int

// The grades.
const (
	Fine    Grade = iota
	Near          // a limit
	Past          // it
	Unknown       // nothing tells it
)

// Judgement is how a moment stands to what the exercise wants. Hints are made of
// it, and who shows readings colours them by it, so that the two never contradict
// each other.
type Judgement struct {
	Low, High float64 // height of the fish wanted, share of the range scale
	Height    Grade   // of the fish over the floor, to that and to what is safe
	Off       Grade   // of the vessel off the line, while it is logged
	Tension   Grade   // of the cable, to its working load
}

// nearly is the share of a limit from which on it is near: our own choice.
const nearly = 0.7

// toLimit is how a value stands to a limit, none if it is 0.
func toLimit(v, limit float64) Grade {
	switch {
	case limit <= 0:
		return Fine
	case v > limit:
		return Past
	case v > nearly*limit:
		return Near
	}
	return Fine
}

// Judge says how a moment stands.
func (c *Coach) Judge(v View) Judgement {
	c.read(v.Lines)
	s := c.see(&v)
	j := Judgement{Tension: toLimit(v.Bridge.Tension, v.Bridge.WorkingLoad)}
	j.Low, j.High = c.band()
	if s.logging && s.within {
		j.Off = toLimit(math.Abs(s.vesselOff), c.ex.Score.OffLine)
	}
	switch share := s.share(); {
	case v.BottomMisses > 0 || v.Height <= 0 || v.Recorder.RangeScale <= 0:
		j.Height = Unknown
	case share < j.Low-deadBand || share > j.High+deadBand || s.height() < c.close(&s):
		j.Height = Past
	}
	return j
}

// share is the height of the fish as a share of the range scale.
func (s *sight) share() float64 { return s.height() / max(s.Recorder.RangeScale, 1) }

// close is the height under which a swell or a slow moment would put the fish on
// the floor, metres: our own choice.
func (c *Coach) close(s *sight) float64 {
	low, _ := c.band()
	return max(1.5, 0.4*low*s.Recorder.RangeScale)
}

// Percent writes a share that is past a limit, with a decimal where whole percents
// would say that it is the limit.
func Percent(share, limit float64) string {
	if math.Round(100*share) == math.Round(100*limit) {
		return fmt.Sprintf("%.1f %%", 100*share)
	}
	return fmt.Sprintf("%.0f %%", 100*share)
}
