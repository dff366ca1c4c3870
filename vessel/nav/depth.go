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
	spec *DepthSpec

	chance      *rand.Rand
	calibration float64 // the draw, in standard deviations
}

func newDepth(s *DepthSpec, stream streams) *depth {
	return &depth{clock: clock{timing: &s.Timing}, spec: s, chance: stream("depth"), calibration: stream("depth/calibration").NormFloat64()}
}

func (d *depth) read(now, _ float64, past *history, r *Reading) {
	s := d.spec
	if !d.speaks(now, FishDepth, r) {
		return
	}
	t := past.ago(s.Delay)
	r.FishDepth = max(s.spoil(t.FishDepth+s.FullScale*s.Share*d.calibration, d.chance), 0)
}
