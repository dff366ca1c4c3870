package vessel

import (
	"math"
	"testing"
)

// The wind that pushes is the one felt on board. In still air her own way makes
// a head wind: she settles at k u^2 + rho/2 CDl AF u^2 = thrust; a wind from
// astern as fast as she goes is none; from ahead of 8 m/s it is u + 8 (balance of
// the surge equation with Blendermann's force; exact). k is thrust over the square
// of the speed she makes without windage.
func TestTheWindFeltIsRelative(t *testing.T) {
	const thrust = 0.5
	settle := func(front float64, heading, wind float64) *Hull {
		s := launch()
		s.WindAreaFront, s.WindAreaSide, s.Wind = front, front, Tender
		h := &Hull{Spec: s, Heading: heading, Surge: 3}
		sin, cos := math.Sincos(heading)
		for range 4000 {
			h.Step(0.1, Orders{Thrust: thrust}, Weather{WindX: wind * sin, WindY: wind * cos})
		}
		return h
	}
	const front = 40.0
	free := settle(0, 0, 0)
	k := free.Thrust / (free.Surge * free.Surge)
	air := 0.5 * 1.224 * 0.55 * front // bow and stern alike
	for _, heading := range []float64{0, 2} {
		for _, wind := range []float64{0, free.Surge, -8, 9} { // the way she goes
			// k u^2 = thrust + air (w - u)|w - u|, by bisection.
			lo, hi := 0.0, 10.0
			for range 60 {
				u := (lo + hi) / 2
				if k*u*u < free.Thrust+air*(wind-u)*math.Abs(wind-u) {
					lo = u
				} else {
					hi = u
				}
			}
			if got := settle(front, heading, wind).Surge; math.Abs(got-lo) > 1e-3*lo {
				t.Errorf("heading %g, wind of %.2f m/s along: got %.4f m/s, want %.4f", heading, wind, got, lo)
			}
		}
	}
	// And it comes from where it is felt: a wind on the beam comes from ahead of
	// it to a vessel under way.
	s := launch()
	h := Hull{Spec: s, Surge: 3, VY: 3}
	h.Step(1e-6, Orders{}, Weather{WindX: 5})
	without := Hull{Spec: s, Surge: 3, VY: 3}
	without.Spec.WindAreaFront, without.Spec.WindAreaSide = 0, 0
	without.Step(1e-6, Orders{}, Weather{WindX: 5})
	push, _ := Tender.Force(math.Hypot(3, 5), math.Atan2(-5, 3), s.WindAreaFront, s.WindAreaSide)
	if got, want := (h.Surge-without.Surge)/1e-6*s.Mass, push; math.Abs(got-want) > 1e-3*math.Abs(want) {
		t.Errorf("wind of 5 m/s on the beam at 3 m/s: %.2f N ahead, want %.2f", got, want)
	}
}

// Pushed sideways under way she drifts until the hull balances it, as a wing of
// low aspect ratio 2T/L with lift slope pi/2 AR and a plate with cross-flow drag 1:
// F = rho/2 L T (v^2 + pi T/L U v) (R. T. Jones, NACA Report 835, 1946). At rest
// only the plate is left.
func TestLeewayBalancesThePush(t *testing.T) {
	for _, row := range []struct{ speed, push float64 }{{2, 100}, {2, 800}, {4, 800}, {1, 300}, {0, 300}} {
		s := launch()
		s.WindAreaFront, s.WindAreaSide, s.Sheave = 0, 0, Offset{}
		h := Hull{Spec: s, PullX: row.push}
		for range 3000 {
			h.Surge = row.speed
			h.Step(0.1, Orders{Thrust: row.speed * row.speed / 25}, Weather{}) // holds it
		}
		v := h.Leeway
		if got := 0.5 * 1025 * s.Length * s.Draft * (v*v + math.Pi*s.Draft/s.Length*row.speed*v); math.Abs(got-row.push) > 2e-3*row.push {
			t.Errorf("at %g m/s: leeway of %.4f m/s balances %.1f N, want %g", row.speed, v, got, row.push)
		}
		if math.Abs(h.VX-v) > 1e-6 {
			t.Errorf("at %g m/s: goes %.4f m/s to starboard over ground, leeway %.4f", row.speed, h.VX, v)
		}
	}
}
