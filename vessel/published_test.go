package vessel

import (
	"math"
	"testing"
)

// The table of W. Blendermann, "Parameter identification of wind loads on
// ships", J. Wind Eng. Ind. Aerodyn. 51, 339-351 (1994): CDt, CDl,AF from the bow
// and the stern, delta. Four directions take it back out of the force alone:
// from ahead and astern X = rho/2 V^2 CDl AF, from abeam Y = rho/2 V^2 CDt AL,
// and at 45 degrees, where sin^2 2g is 1, the denominator holds delta.
func TestBlendermannTable(t *testing.T) {
	const front, side, wind = 20.0, 60.0, 10.0
	q := 0.5 * 1.224 * wind * wind
	for _, row := range []struct {
		kind                          string
		transverse, bow, stern, cross float64
	}{
		{"research_vessel", .85, .55, .65, .60},
		{"speed_boat", .90, .55, .60, .60},
		{"fishing_vessel", .95, .70, .70, .40},
		{"tender", .85, .55, .55, .65},
		{"supply_vessel", .90, .55, .80, .55},
	} {
		w, ok := WindShapes[row.kind]
		if !ok {
			t.Errorf("no wind shape %q", row.kind)
			continue
		}
		ahead, _ := w.Force(wind, 0, front, side)
		astern, _ := w.Force(wind, math.Pi, front, side)
		_, abeam := w.Force(wind, math.Pi/2, front, side)
		_, quarter := w.Force(wind, math.Pi/4, front, side)
		// Y(45) = Y(90) sin(45)/(1 - delta/2 (1 - CDl AF/AL/CDt)).
		d := abeam * math.Sin(math.Pi/4) / quarter
		delta := 2 * (1 - d) / (1 - row.bow*front/side/row.transverse)
		for _, c := range []struct {
			name      string
			got, want float64
		}{
			{"CDl from the bow", -ahead / q / front, row.bow}, {"CDl from the stern", astern / q / front, row.stern},
			{"CDt", -abeam / q / side, row.transverse}, {"delta", delta, row.cross},
		} {
			if math.Abs(c.got-c.want) > 1e-9 {
				t.Errorf("%s: %s %.4f, published %.2f", row.kind, c.name, c.got, c.want)
			}
		}
	}
}

// zigzag puts the rudder over by an angle each time the heading has swung past
// it on the other side, and returns how far beyond it swings the first and the
// second time, and when the rudder was put over.
func zigzag(s Spec, speed, angle float64) (overshoot [2]float64, executed [3]float64) {
	const dt = 0.0005
	h := Hull{Spec: s}
	order, n := angle, 0
	most := 0.0
	for i := 1; n < 4 && i < 4e5; i++ {
		h.Surge = speed
		h.Step(dt, Orders{Rudder: order}, Weather{})
		swung := h.Heading * math.Copysign(1, order)
		if n > 0 && n < 3 {
			// Beyond the angle on the side she swings to, the rudder against her.
			most = max(most, -swung-angle)
		}
		if swung >= angle {
			if n > 0 && n < 3 {
				overshoot[n-1] = most
			}
			if n < 3 {
				executed[n] = float64(i) * dt
			}
			order, most = -order, 0
			n++
		}
	}
	return overshoot, executed
}

// Zig-zags of Nomoto's first-order model with a rudder that is over at once. The
// first overshoot is T r1 - K delta T ln(1 + r1/(K delta)) (closed form); all were
// computed outside this project from the published equation.
func TestZigZag(t *testing.T) {
	for _, row := range []struct {
		k, t, angle   float64
		first, second float64 // execute, seconds
		o1, o2        float64 // overshoot, degrees
	}{
		{0.5, 3, 20, 4.2796, 13.30, 5.839, 7.924},
		{0.5, 3, 10, 4.2796, 13.30, 2.918, 3.962},
		{1.0, 2, 20, 2.40, 7.53, 6.740, 9.753},
		{0.5, 31, 20, 11.844, 40.46, 12.951, 26.923},
		{0.5, 31, 10, 11.84, 40.46, 6.475, 13.461},
	} {
		s := launch()
		const speed = 2.0
		s.TurningIndex, s.TimeIndex = row.k*s.Length/speed, row.t*speed/s.Length
		s.RudderRate = 1e6
		o, at := zigzag(s, speed, row.angle*deg)
		if math.Abs(at[0]-row.first) > 0.006 || math.Abs(at[1]-row.second) > 0.02 {
			t.Errorf("K %g T %g %g/%g: rudder over at %.3f and %.3f s, want %.3f and %.2f", row.k, row.t, row.angle, row.angle, at[0], at[1], row.first, row.second)
		}
		if math.Abs(o[0]/deg-row.o1) > 0.002*row.o1 || math.Abs(o[1]/deg-row.o2) > 0.002*row.o2 {
			t.Errorf("K %g T %g %g/%g: overshoot %.3f and %.3f deg, want %.3f and %.3f", row.k, row.t, row.angle, row.angle, o[0]/deg, o[1]/deg, row.o1, row.o2)
		}
		rate := row.k * row.angle * (1 - math.Exp(-at[0]/row.t))
		closed := row.t*rate - row.k*row.angle*row.t*math.Log1p(rate/(row.k*row.angle))
		if math.Abs(o[0]/deg-closed) > 0.001*closed {
			t.Errorf("K %g T %g %g/%g: overshoot %.4f deg, closed form %.4f", row.k, row.t, row.angle, row.angle, o[0]/deg, closed)
		}
		// A rudder that takes its time lets her swing further.
		s.RudderRate = 30 * deg
		slow, _ := zigzag(s, speed, row.angle*deg)
		s.RudderRate = 10 * deg
		slower, _ := zigzag(s, speed, row.angle*deg)
		if !(o[0] < slow[0] && slow[0] < slower[0] && o[1] < slow[1] && slow[1] < slower[1]) {
			t.Errorf("K %g T %g: overshoot %.3v at once, %.3v at 30 deg/s, %.3v at 10; want ever more", row.k, row.t, o, slow, slower)
		}
	}
}

// With the engine stopped u = u0/(1 + k u0 t/m), she runs on for ever slower and
// her way is m/k ln(1 + k u0 t/m): closed form of the surge equation (exact
// mathematics).
func TestCoastDown(t *testing.T) {
	s := launch()
	s.WindAreaFront, s.WindAreaSide = 0, 0
	const u0, dt = 4.0, 0.002
	h := Hull{Spec: s, Surge: u0}
	// k from the speed at full power, as the spec says it.
	probe := Hull{Spec: s, Surge: s.SpeedMax}
	probe.Step(1e-9, Orders{Thrust: 1}, Weather{})
	k := probe.Thrust / (s.SpeedMax * s.SpeedMax)
	tau := s.Mass / (k * u0)
	for i := 1; i <= int(5*tau/dt); i++ {
		h.Step(dt, Orders{}, Weather{})
		at := float64(i) * dt
		if i%2000 != 0 {
			continue
		}
		if want := u0 / (1 + at/tau); math.Abs(h.Surge-want) > 1e-3*want {
			t.Fatalf("after %.1f s: got %.5f m/s, want %.5f", at, h.Surge, want)
		}
		if want := u0 * tau * math.Log1p(at/tau); math.Abs(h.Y-want) > 1e-3*want {
			t.Fatalf("after %.1f s: got %.3f m, want %.3f", at, h.Y, want)
		}
	}
}
