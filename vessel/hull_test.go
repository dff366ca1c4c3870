package vessel

import (
	"math"
	"testing"

	"dryline/vessel/nav/geodesy"
)

const deg = math.Pi / 180

// launch is a ten-metre workboat with invented particulars.
func launch() Spec {
	return Spec{
		Length: 10, Beam: 3.2, Draft: 1, Mass: 9000,
		TurningIndex: 1.2, TimeIndex: 1, RudderMax: 30 * deg, RudderRate: 1000,
		SpeedMax: 5, WindAreaFront: 7, WindAreaSide: 16,
	}
}

// Nomoto's step response, r = K delta (1 - exp(-t/T)) and its integral: the
// closed form of the published first-order equation, K 0.5, T 3 s, 10 deg.
func TestNomotoStepResponse(t *testing.T) {
	s := launch()
	s.TurningIndex, s.TimeIndex = 0.5*10/2, 3*2.0/10
	for _, test := range []struct{ at, rate, heading float64 }{
		{1, 1.41734, 0.74797}, {3, 3.16060, 5.51819}, {6, 4.32332, 17.03003}, {12, 4.90842, 45.27473},
	} {
		h := Hull{Spec: s}
		const dt = 0.001
		for range int(test.at/dt + 0.5) {
			h.Surge = 2 // held, as the closed form assumes
			h.Step(dt, Orders{Rudder: 10 * deg}, Weather{})
		}
		if got := h.YawRate / deg; math.Abs(got-test.rate) > 2e-3*test.rate {
			t.Errorf("rate after %g s: got %.5f deg/s, want %.5f", test.at, got, test.rate)
		}
		if got := h.Heading / deg; math.Abs(got-test.heading) > 3e-3*test.heading {
			t.Errorf("heading after %g s: got %.5f deg, want %.5f", test.at, got, test.heading)
		}
	}
}

// R = U/(K delta) = L/(K' delta): the same at any speed.
func TestTurningCircleIndependentOfSpeed(t *testing.T) {
	for _, speed := range []float64{1, 2, 4} {
		h := Hull{Spec: launch()}
		h.Surge = speed
		for range 3000 {
			h.Surge = speed
			h.Step(0.05, Orders{Rudder: 20 * deg}, Weather{})
		}
		want := h.Spec.Length / (h.Spec.TurningIndex * 20 * deg)
		if got := speed / h.YawRate; math.Abs(got-want) > 1e-6*want {
			t.Errorf("radius at %g m/s: got %.3f m, want %.3f", speed, got, want)
		}
	}
}

// From rest u = u_max tanh(t/tau), tau = m/(k u_max): closed form of the
// surge equation (exact mathematics).
func TestSurgeFromRest(t *testing.T) {
	s := launch()
	s.WindAreaFront, s.WindAreaSide = 0, 0
	h := Hull{Spec: s}
	tau := s.Mass / (h.resistance() * s.SpeedMax)
	const dt = 0.002
	for _, test := range []struct{ at, want float64 }{{0.5, 0.46212}, {1, 0.76159}, {2, 0.96403}} {
		h := Hull{Spec: s}
		for range int(test.at * tau / dt) {
			h.Step(dt, Orders{Thrust: 1}, Weather{})
		}
		if got := h.Surge / s.SpeedMax; math.Abs(got-test.want) > 1e-3 {
			t.Errorf("at %g tau: got %.5f of full speed, want %.5f", test.at, got, test.want)
		}
	}
}

// A hull that answers the helm within a decimetre closes the line as the
// guidance alone does, from 50 m to 5 m off in 33.665 s; see TestLineOfSightTimes.
func TestLineIsClosedAsTheGuidanceSays(t *testing.T) {
	s := launch()
	s.TimeIndex, s.WindAreaFront, s.WindAreaSide = 0.01, 0, 0
	h := Hull{Spec: s, X: 50, Heading: -math.Atan(50.0 / 20)}
	h.Surge = 2
	a := Autopilot{Lookahead: 20}
	track := geodesy.Track{AX: 0, AY: 0, BX: 0, BY: 1000}
	at := 0.0
	for h.X > 5 && at < 200 {
		at += 0.01
		h.Surge = 2
		k, tc := h.Nomoto()
		rudder := a.Steer(0.01, track, Helm{X: h.X, Y: h.Y, Heading: h.Heading, YawRate: h.YawRate}, k, tc)
		h.Step(0.01, Orders{Rudder: rudder}, Weather{})
	}
	if math.Abs(at-33.665) > 0.01*33.665 {
		t.Errorf("50 to 5 m took %.2f s, the guidance alone 33.665 s", at)
	}
}

// Plain line of sight hangs at Delta tan(beta) off the line in a cross
// current, 1.7498 m with a crab angle of 5 degrees and Delta 20 m; the integral
// term takes that to zero and holds it with kappa y_int = Delta tan(beta) (Borhaug
// et al. 2008).
func TestIntegralFindsTheCrabAngle(t *testing.T) {
	for _, test := range []struct {
		name              string
		integral, current float64
		want              float64
	}{
		{"plain", 0, 2 * math.Sin(5*deg), 1.7498},
		{"plain, more", 0, 0.3, 20 * math.Tan(math.Asin(0.3/2))},
		{"integral", 0.3, 2 * math.Sin(5*deg), 0},
		{"integral, more", 0.3, 0.3, 0},
	} {
		s := launch()
		s.WindAreaFront, s.WindAreaSide = 0, 0 // her own wind would make leeway
		h := Hull{Spec: s}
		h.Surge = 2
		a := Autopilot{Lookahead: 20, Integral: test.integral}
		track := geodesy.Track{AX: 0, AY: 0, BX: 0, BY: 1000}
		for range 6000 {
			h.Surge = 2
			k, tc := h.Nomoto()
			rudder := a.Steer(0.1, track, Helm{X: h.X, Y: h.Y, Heading: h.Heading, YawRate: h.YawRate}, k, tc)
			h.Step(0.1, Orders{Rudder: rudder, Thrust: 0.16}, Weather{CurrentX: test.current}) // (2/5)^2
		}
		if math.Abs(h.X-test.want) > 0.001 {
			t.Errorf("%s: %.4f m off the line, want %.4f", test.name, h.X, test.want)
		}
		if crab := 20 * math.Tan(math.Asin(test.current/2)); test.integral > 0 && math.Abs(test.integral*a.yInt-crab) > 0.001 {
			t.Errorf("%s: kappa y_int is %.4f m, want %.4f", test.name, test.integral*a.yInt, crab)
		}
	}
}

// A long ship on a long lookahead finds the crab angle of a current abeam within
// a few minutes, about as soon as a small craft does on hers.
func TestLongLookaheadFindsTheCrabAngleToo(t *testing.T) {
	for _, lookahead := range []float64{20, 90} {
		s := launch()
		s.Length = lookahead / 2
		h, a := Hull{Spec: s, Surge: 2.1}, NewAutopilot(lookahead)
		for range 2400 {
			k, tt := h.Nomoto()
			helm := Helm{X: h.X, Y: h.Y, Heading: h.Heading, YawRate: h.YawRate, SpeedOverGround: math.Hypot(h.VX, h.VY)}
			rudder := a.Steer(0.1, geodesy.Track{BY: 5000}, helm, k, tt)
			h.Surge = 2.1
			h.Step(0.1, Orders{Rudder: rudder}, Weather{CurrentX: 0.3})
		}
		if math.Abs(h.X) > 2 {
			t.Errorf("lookahead %g m: %.1f m off the line after four minutes, want less than 2", lookahead, h.X)
		}
	}
}

func TestEngineHoldsSpeedOverGround(t *testing.T) {
	h := Hull{Spec: launch(), PullY: -400}
	a := Autopilot{Lookahead: 20}
	for range 3000 {
		helm := Helm{SpeedOverGround: math.Hypot(h.VX, h.VY)}
		h.Step(0.1, Orders{Thrust: a.Engine(0.1, 2.2, h.Spec.SpeedMax, helm)}, Weather{CurrentY: -0.6, WindY: -7})
	}
	if got := math.Hypot(h.VX, h.VY); math.Abs(got-2.2) > 0.01 {
		t.Errorf("speed over ground: got %.3f m/s, want 2.2", got)
	}
}

// A pull to port at the stern turns the bow to starboard, and is held by port
// rudder; in a turn she loses way; a right-handed propeller walks her bow to
// port from rest.
func TestTowTurnAndPropellerPushTheBow(t *testing.T) {
	s := launch()
	s.Sheave = Offset{Forward: -5}
	h := Hull{Spec: s, Surge: 2, PullX: -300}
	for range 100 {
		h.Step(0.1, Orders{Thrust: 0.2}, Weather{})
	}
	if h.YawRate <= 0 || h.Leeway >= 0 {
		t.Errorf("pulled to port at the stern: rate of turn %.4f and leeway %.4f, want to starboard and to port", h.YawRate, h.Leeway)
	}

	straight, round := Hull{Spec: launch()}, Hull{Spec: launch()}
	for range 1200 {
		straight.Step(0.1, Orders{Thrust: 0.5}, Weather{})
		round.Step(0.1, Orders{Thrust: 0.5, Rudder: 30 * deg}, Weather{})
	}
	// 60 to 80 % in a full-rudder turn (from memory, no source).
	if share := round.Surge / straight.Surge; share < 0.6 || share > 0.8 {
		t.Errorf("keeps %.2f of her speed in a full turn, want 0.6 to 0.8", share)
	}

	s = launch()
	s.PropellerWalk = 3 * deg
	h = Hull{Spec: s}
	for range 50 {
		h.Step(0.1, Orders{Thrust: 0.4}, Weather{})
	}
	if h.Heading >= 0 {
		t.Errorf("heading %.4f rad after setting off, want the bow to port", h.Heading)
	}
}
