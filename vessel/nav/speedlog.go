package nav

import "math/rand/v2"

// SpeedLogSpec is how the speed log lies: ahead through the water, with a scale
// error. Left out: leeway and the boundary layer, which scales it.
type SpeedLogSpec struct {
	Timing
	Errors         // m/s
	Scale  float64 // share read too much
}

type speedLog struct {
	clock
	spec *SpeedLogSpec

	chance *rand.Rand
}

func newSpeedLog(s *SpeedLogSpec, stream streams) *speedLog {
	return &speedLog{clock: clock{timing: &s.Timing}, spec: s, chance: stream("log")}
}

func (l *speedLog) read(now, _ float64, past *history, r *Reading) {
	s := l.spec
	if !l.speaks(now, WaterSpeed, r) {
		return
	}
	r.WaterSpeed = s.spoil(past.ago(s.Delay).WaterAhead*(1+s.Scale), l.chance)
}
