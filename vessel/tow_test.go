package vessel

import (
	"math"
	"testing"
)

// Towing at a fixed thrust she slows to where k u^2 = thrust - T cos(phi), the
// balance of the surge equation m du/dt = T - k u|u| with the pull of the cable
// in it (Fossen, Handbook of Marine Craft Hydrodynamics and Motion Control,
// 2011; exact mathematics). k comes back as thrust over the square of the speed
// she makes without the tow, so that no constant of the hull is assumed.
func TestTheTowSlowsHer(t *testing.T) {
	settle := func(heading, thrust, aft, abeam float64) *Hull {
		s := launch()
		s.WindAreaFront, s.WindAreaSide = 0, 0
		h := &Hull{Spec: s, Heading: heading, Surge: 2}
		for range 6000 {
			sin, cos := math.Sincos(h.Heading)
			h.PullX, h.PullY = -aft*sin+abeam*cos, -aft*cos-abeam*sin
			h.Step(0.1, Orders{Thrust: thrust}, Weather{})
		}
		return h
	}
	for _, heading := range []float64{0, 70 * deg, -100 * deg, math.Pi} {
		for _, thrust := range []float64{0.3, 0.7} {
			free := settle(heading, thrust, 0, 0)
			k := free.Thrust / (free.Surge * free.Surge)
			for _, share := range []float64{0.1, 0.4, 0.8, -0.2} { // the last pushes her on
				pull := share * free.Thrust
				got, want := settle(heading, thrust, pull, 0).Surge, math.Sqrt((free.Thrust-pull)/k)
				if math.Abs(got-want) > 1e-4*want {
					t.Errorf("heading %.0f deg, thrust %.1f, pull %.0f N: got %.4f m/s, want %.4f", heading/deg, thrust, pull, got, want)
				}
			}
			// A pull from the side does not slow her.
			if got := settle(heading, thrust, 0, 0.1*free.Thrust).Surge; math.Abs(got-free.Surge) > 1e-6 {
				t.Errorf("heading %.0f deg, pulled from abeam: got %.5f m/s, want %.5f", heading/deg, got, free.Surge)
			}
		}
	}
}
