package nav

import "math/rand/v2"

// DepthSpec is how the pressure sensor on the fish lies. Besides its bias it
// may carry a calibration error stated as makers do, a share of full scale: one
// draw that holds for the whole exercise. Left out: air pressure (1 hPa is
// 1 cm), and the density that turns pressure into depth.
type DepthSpec struct {
	Timing
	Errors            // metres
	FullScale float64 // metres
	Share     float64 // of full scale, standard deviation; 0.001 is 0.1 %
}

type depth struct {
	clock
	chance      *rand.Rand
	calibration float64 // the draw, in standard deviations
}

func (d *depth) read(s *DepthSpec, now float64, past *history, r *Reading) {
	if !d.speaks(&s.Timing, now, FishDepth, r) {
		return
	}
	t := past.ago(s.Delay)
	r.FishDepth = max(s.spoil(t.FishDepth+s.FullScale*s.Share*d.calibration, d.chance), 0)
}
