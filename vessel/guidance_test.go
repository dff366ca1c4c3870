package vessel

import (
	"math"
	"testing"

	"dryline/vessel/nav/geodesy"
)

// Line-of-sight guidance with perfect course keeping closes a line as
// dy/dt = -U y/sqrt(Delta^2 + y^2) (Fossen, Handbook of Marine Craft Hydrodynamics
// and Motion Control, 2011), from y0 to y1 in [G(y0) - G(y1)]/U with
// G = sqrt(Delta^2 + y^2) - Delta atanh(Delta/sqrt(Delta^2 + y^2)): exact, worked
// out outside this project.
func TestLineOfSightTimes(t *testing.T) {
	for _, row := range []struct{ from, to, lookahead, want float64 }{
		{50, 1, 20, 49.908}, {50, 5, 20, 33.665}, {20, 1, 20, 32.211}, {10, 0.1, 30, 69.489},
	} {
		for _, bearing := range []float64{0, 1.1, -2} {
			for _, side := range []float64{1, -1} {
				const u, dt = 2.0, 0.001
				sin, cos := math.Sincos(bearing)
				track := geodesy.Track{AX: 7, AY: -9, BX: 7 + 1000*sin, BY: -9 + 1000*cos}
				a := Autopilot{Lookahead: row.lookahead}
				x, y := track.AX+side*row.from*cos, track.AY-side*row.from*sin
				at := 0.0
				for off := row.from; off > row.to && at < 200; at += dt {
					s, c := math.Sincos(a.guide(dt, track, x, y))
					x, y = x+u*s*dt, y+u*c*dt
					_, across := track.Offset(x, y)
					off = side * across
				}
				if math.Abs(at-row.want) > 1e-3*row.want {
					t.Errorf("%g to %g m, lookahead %g, bearing %g, side %+g: got %.3f s, want %.3f", row.from, row.to, row.lookahead, bearing, side, at, row.want)
				}
			}
		}
	}
}

// The integral term as published, in numbers: Delta 20, y_e 10, kappa 0.3 and
// y_int 40 make the heading -atan(22/20) off the line and dy_int/dt
// 20 10/(400 + 22^2) = 0.2262 (Borhaug, Pavlov and Pettersen, CDC 2008).
func TestIntegralTerm(t *testing.T) {
	for _, row := range []struct{ ye, yInt, rate, turn float64 }{
		{10, 40, 200.0 / 884, 22.0 / 20},
		{-10, -40, -200.0 / 884, -22.0 / 20},
		{5, -60, 100.0 / 569, -13.0 / 20}, // past the line by what it has learnt
		{0, 30, 0, 9.0 / 20},
	} {
		a := Autopilot{Lookahead: 20, Integral: 0.3, yInt: row.yInt}
		const dt = 0.1
		got := a.guide(dt, geodesy.Track{BY: 1000}, row.ye, 300)
		if rate := (a.yInt - row.yInt) / dt; math.Abs(rate-row.rate) > 1e-12 || math.Abs(got+math.Atan(row.turn)) > 1e-12 {
			t.Errorf("%g m off with y_int %g: y_int grows by %.5f, heading %.5f rad; want %.5f, %.5f", row.ye, row.yInt, rate, got, row.rate, -math.Atan(row.turn))
		}
	}
}

// Holding a heading is a critically damped loop: after a step she closes by
// 1 - (1 + w t) exp(-w t), w = 1.2/T, and does not overshoot (J. P. Den Hartog,
// Mechanical Vibrations, 1956, for the response; w is our own choice).
func TestHeadingHoldIsCriticallyDamped(t *testing.T) {
	s := launch()
	const dt, step = 0.001, 5 * deg
	h := Hull{Spec: s}
	var a Autopilot
	for i := 1; i < 40000; i++ {
		h.Surge = 2
		k, tc := h.Nomoto()
		h.Step(dt, Orders{Rudder: a.Hold(step, Helm{Heading: h.Heading, YawRate: h.YawRate}, k, tc)}, Weather{})
		w := 1.2 / tc * float64(i) * dt
		if want := step * (1 - (1+w)*math.Exp(-w)); math.Abs(h.Heading-want) > 1e-3*step {
			t.Fatalf("after %.2f s: heading %.5f rad, want %.5f", float64(i)*dt, h.Heading, want)
		}
	}
}
