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
	chance *rand.Rand
}

func (l *speedLog) read(s *SpeedLogSpec, now float64, past *history, r *Reading) {
	if !l.speaks(&s.Timing, now, WaterSpeed, r) {
		return
	}
	r.WaterSpeed = s.spoil(past.ago(s.Delay).WaterAhead*(1+s.Scale), l.chance)
}
