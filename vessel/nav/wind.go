package nav

import (
	"math"
	"math/rand/v2"

	"dryline/vessel/nav/geodesy"
)

// WindSpec is how the wind sensor lies. It feels the wind that comes over a
// moving vessel; the true wind is worked out from that and the heading, course
// and speed shown, as a display on the bridge does. Left out: the vessel's own
// shelter, and the growth of wind with height.
type WindSpec struct {
	Timing
	Speed Errors // m/s
	From  Errors // radians
}

type wind struct {
	clock
	spec *WindSpec

	chance *rand.Rand
}

func newWind(s *WindSpec, stream streams) *wind {
	return &wind{clock: clock{timing: &s.Timing}, spec: s, chance: stream("wind")}
}

func (w *wind) read(now, _ float64, past *history, r *Reading) {
	s := w.spec
	if !w.speaks(now, Wind|TrueWind, r) {
		return
	}
	t := past.ago(s.Delay)
	x, y := t.WindX-t.VX, t.WindY-t.VY
	from := math.Atan2(-x, -y) - t.Heading
	r.WindSpeed = max(s.Speed.spoil(math.Hypot(x, y), w.chance), 0)
	r.WindFrom = math.Remainder(s.From.spoil(from, w.chance), 2*math.Pi)
	r.Valid.put(TrueWind, r.Valid.Has(Fix|Heading))

	// The air's way over ground is the vessel's less where the wind felt is from.
	sinW, cosW := math.Sincos(float64(r.GridHeading()) + r.WindFrom)
	sinC, cosC := math.Sincos(float64(r.GridCourse()))
	east := r.SpeedOverGround*sinC - r.WindSpeed*sinW
	north := r.SpeedOverGround*cosC - r.WindSpeed*cosW
	r.TrueWindSpeed = math.Hypot(east, north)
	r.TrueWindFrom = geodesy.GridBearingOf(-east, -north).True(r.Convergence)
}
