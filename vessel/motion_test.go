package vessel

import (
	"math"
	"math/cmplx"
	"testing"

	"dryline/vessel/sea"
)

// box is 20 m by 5 m by 1.5 m with a block coefficient of 1.
func box() Form { return Form{Length: 20, Beam: 5, Draft: 1.5, Block: 1, GM: 1} }

// wave is the frequency and the wave number of a period over deep water.
func wave(period float64) (omega, k float64) {
	omega = 2 * math.Pi / period
	return omega, omega * omega / gravity
}

// The closed forms of Jensen, Mansour and Olsen (2004), worked out outside this
// project from the paper's equations as two open implementations print them.
func TestClosedFormMotions(t *testing.T) {
	for _, test := range []struct {
		period, beta, speed                  float64
		alpha, a, f, eta, F, G, heave, pitch float64
	}{
		{4, 180, 0, 1, .80665, .80962, 1.74621, .12940, .069081, .22596, .120630},
		{4, 180, 2, 1.32024, .92157, .68841, 2.00209, .11003, .058738, .22028, .117599},
		{5, 180, 0, 1, .61528, .89253, 1.43061, .43519, .086190, .62259, .123305},
		{5, 180, 2, 1.25620, .81052, .86309, 1.75640, .42084, .083347, .73916, .146391},
		{5, 0, 2, .74380, .38639, .88237, 1.24087, .43024, .085209, .53387, .105733},
		{6, 180, 2, 1.21350, .62499, .91962, 1.44124, .62552, .076542, .90152, .110315},
		{8, 180, 2, 1.16012, .36992, .94761, 1.22973, .80661, .052108, .99191, .064079},
		{10, 180, 2, 1.12810, .23649, .95937, 1.14405, .87899, .035761, 1.00561, .040913},
		{6, 135, 2, 1.15096, .57949, .92089, 1.39408, .73537, .060702, 1.02517, .084624},
		{6, 90, 2, 1, .46652, .91890, 1.29819, .91890, 0, 1.19291, 0},
	} {
		form := box()
		omega, k := wave(test.period)
		cos := math.Cos(test.beta * deg)
		alpha := 1 - k*test.speed*cos/omega
		ke := math.Abs(k * cos)
		force, moving := form.section(k, alpha)
		r := form.Response(omega, k, test.beta*deg, test.speed)
		f := cmplx.Abs(force)
		smith := math.Exp(-ke * form.Draft)
		for _, c := range []struct {
			name            string
			got, want, unit float64
		}{
			{"alpha", alpha, test.alpha, 1e-5},
			{"A", amplitudeRatio(k*form.Beam, k*form.Draft, alpha), test.a, 1e-5},
			{"f", f, test.f, 1e-5},
			{"eta", 1 / cmplx.Abs(moving), test.eta, 1e-5},
			{"F", smith * f * alongHeave(ke, form.Length), test.F, 1e-5},
			{"G", smith * f * alongPitch(ke, form.Length), test.G, 1e-6},
			{"heave", cmplx.Abs(r.Heave), test.heave, 1e-5},
			{"pitch", cmplx.Abs(r.Pitch), test.pitch, 1e-6},
		} {
			if math.Abs(c.got-c.want) > 0.51*c.unit {
				t.Errorf("%g s from %g deg at %g m/s: got %s %.7f, want %.6f", test.period, test.beta, test.speed, c.name, c.got, c.want)
			}
		}
	}
}

// Limits of the closed forms: exact mathematics.
func TestClosedFormLimits(t *testing.T) {
	form := box()
	omega, k := wave(120)
	for _, beta := range []float64{0, 40, 135, 180} {
		r := form.Response(omega, k, beta*deg, 1)
		ke := k * math.Abs(math.Cos(beta*deg))
		if math.Abs(cmplx.Abs(r.Heave)-1) > 2e-3 {
			t.Errorf("long wave from %g: got heave %.5f, want 1", beta, cmplx.Abs(r.Heave))
		}
		if got := cmplx.Abs(r.Pitch); math.Abs(got-ke) > 2e-3*ke {
			t.Errorf("long wave from %g: got pitch %.7f rad/m, want the slope %.7f", beta, got, ke)
		}
	}
	for n := 1.0; n <= 3; n++ {
		k := 2 * math.Pi * n / form.Length
		if got := cmplx.Abs(form.Response(math.Sqrt(gravity*k), k, math.Pi, 0).Heave); got > 1e-12 {
			t.Errorf("%g waves along the hull: got heave %.3g, want 0", n, got)
		}
	}
	for _, period := range []float64{3, 5, 9} {
		omega, k := wave(period)
		if got := cmplx.Abs(form.Response(omega, k, math.Pi/2, 2).Pitch); got > 1e-12 {
			t.Errorf("%g s from abeam: got pitch %.3g, want 0", period, got)
		}
		for _, beta := range []float64{0, math.Pi} {
			if got := cmplx.Abs(form.Response(omega, k, beta, 2).Roll); got > 1e-12 {
				t.Errorf("%g s at %g: got roll %.3g, want 0", period, beta, got)
			}
		}
		port, starboard := form.Response(omega, k, 1, 2), form.Response(omega, k, -1, 2)
		if port.Heave != starboard.Heave || port.Pitch != starboard.Pitch || port.Roll != -starboard.Roll {
			t.Errorf("%g s: a sea from the other side is not the mirror image", period)
		}
	}
	// Close to the speed of the wave nothing is singular.
	k = omega * omega / gravity
	for _, off := range []float64{-1e-3, -1e-6, 0, 1e-6, 1e-3} {
		r := form.Response(omega, k, 0, omega/k*(1+off))
		if got := cmplx.Abs(r.Heave); math.IsNaN(got) || math.Abs(got-1) > 0.01 {
			t.Errorf("riding along, %g off: got heave %g, want 1", off, got)
		}
	}
}

// The two ways to the same slope of a series and a closed form meet.
func TestAlongHullIsSmooth(t *testing.T) {
	for _, x := range []float64{1e-4, 1e-2} {
		below, above := 2*x*(1-1e-9)/20, 2*x*(1+1e-9)/20
		if a, b := alongHeave(below, 20), alongHeave(above, 20); math.Abs(a-b) > 1e-8 {
			t.Errorf("heave at x %g: %.12f and %.12f", x, a, b)
		}
		if a, b := alongPitch(below, 20), alongPitch(above, 20); math.Abs(a-b) > 1e-8*a {
			t.Errorf("pitch at x %g: %.12g and %.12g", x, a, b)
		}
	}
}

// IMO Resolution A.685(17): T = 2 C B/sqrt(GM), with 0.4 for small vessels.
func TestRollPeriod(t *testing.T) {
	for _, test := range []struct {
		form Form
		want float64
	}{
		{Form{Length: 20, Beam: 5, Draft: 1.5, GM: 1}, 4},
		{Form{Length: 12, Beam: 4, Draft: 1, GM: 0.64}, 4},
		{Form{Length: 100, Beam: 16, Draft: 4, GM: 1}, 2 * 16 * (0.373 + 0.092 - 0.043)},
	} {
		if got := test.form.RollPeriod(); math.Abs(got-test.want) > 1e-12 {
			t.Errorf("%+v: got %.4f s, want %.4f", test.form, got, test.want)
		}
	}
}

// Roll is an oscillator: a quarter period behind its moment at its own period,
// where roll over slope is greatest, and along the surface in long waves.
func TestRollResonance(t *testing.T) {
	form := box()
	best, at := 0.0, 0.0
	for period := 2.0; period < 15; period += 0.01 {
		omega, k := wave(period)
		if ratio := cmplx.Abs(form.Response(omega, k, math.Pi/2, 0).Roll) / k; ratio > best {
			best, at = ratio, period
		}
	}
	if math.Abs(at-form.RollPeriod()) > 0.15*form.RollPeriod() {
		t.Errorf("got most roll at %.2f s, want about %.2f", at, form.RollPeriod())
	}
	omega, k := wave(form.RollPeriod())
	// The moment is -i, so the roll is -i/-i = real and positive.
	if got := cmplx.Phase(form.Response(omega, k, math.Pi/2, 0).Roll); math.Abs(got) > 1e-9 {
		t.Errorf("at resonance: got phase %.6f, want 0", got)
	}
	// There only damping holds it: |M| = w B |phi|.
	mass := waterDensity * form.Length * form.Beam * form.Draft
	b := form.rollDamping(omega)
	damping := form.Length*b + 0.1*gravity*mass*form.GM*form.RollPeriod()/math.Pi
	want := form.Length * sectionMoment(b, omega) / (omega * damping)
	if got := cmplx.Abs(form.Response(omega, k, math.Pi/2, 0).Roll); math.Abs(got-want) > 1e-9 {
		t.Errorf("at resonance: got %.6f rad/m, want %.6f", got, want)
	}
}

// The moment from the damping of a broad section against that of the pressure
// of the undisturbed wave on bottom and sides, added up over a box (Froude and
// Krylov; exact for linear waves but for diffraction, which is small there).
// It holds only if the fit is read with a frequency without dimension.
func TestRollMomentAgainstFroudeKrylov(t *testing.T) {
	form := Form{Length: 20, Beam: 8, Draft: 1.5, Block: 1, GM: 1}
	for n := 0.6; n <= 1.2; n += 0.1 {
		omega := n * math.Sqrt(2*gravity/form.Beam)
		k := omega * omega / gravity
		want := 0.0
		const pieces = 1000
		for i := range pieces {
			share := (float64(i) + 0.5) / pieces
			y, z := (share-0.5)*form.Beam, share*form.Draft
			want += math.Exp(-k*form.Draft) * math.Sin(k*y) * y * form.Beam / pieces
			want -= 2 * math.Exp(-k*z) * math.Sin(k*form.Beam/2) * z * form.Draft / pieces
		}
		want *= waterDensity * gravity
		if got := sectionMoment(form.rollDamping(omega), omega); math.Abs(got-want) > 0.25*want {
			t.Errorf("n %.1f: got %.0f N m/m, want %.0f", n, got, want)
		}
	}
}

// In long waves every point on board goes up and down with the surface beside
// it, whichever way the waves come: this pins all the signs.
func TestHullLiesOnLongWaves(t *testing.T) {
	for _, bearing := range []float64{0, 50, 90, 170, 225, 300} {
		sin, cos := math.Sincos(bearing * deg)
		omega, k := wave(60)
		waves := []sea.Component{{Amplitude: 2, Omega: omega, WaveNumber: k, DX: sin, DY: cos, Phase: 0.7}}
		h := &Hull{X: 40, Y: -30, Heading: 0.6}
		m := NewMotion(box(), waves)
		for s := 0.0; s < 60; s += 3 {
			a := m.At(s, h)
			for _, at := range []Offset{{}, {Forward: 300}, {Forward: -300}, {Starboard: 300}, {Starboard: -200, Forward: 100}} {
				// The plane through midships, to the first order in k.
				x, y := h.At(at)
				const small = 1e-3
				mid := waves[0].At(h.X, h.Y, s)
				want := mid + (waves[0].At(h.X+small*(x-h.X), h.Y+small*(y-h.Y), s)-mid)/small
				if got := a.PointHeave(at.Forward, at.Starboard); math.Abs(got-want) > 0.02 {
					t.Errorf("waves to %g after %g s at %+v: got %.4f m, want %.4f", bearing, s, at, got, want)
				}
			}
		}
	}
}

// sailing is a hull under way in a sea, turning.
func sailing() (*Motion, func(t float64) *Hull) {
	s := sea.New(sea.Conditions{Hs: 1, Tp: 5, Toward: 2, Depth: 20}, 3)
	h := &Hull{}
	return NewMotion(Form{Length: 14, Beam: 4.5, Draft: 1.4, Block: 0.5, GM: 1}, s.Components()), func(t float64) *Hull {
		h.Heading = 2 * deg * t
		sin, cos := math.Sincos(h.Heading)
		h.VX, h.VY = 2.5*sin, 2.5*cos
		h.X, h.Y = 2.5/(2*deg)*(1-cos), 2.5/(2*deg)*sin
		return h
	}
}

// Rates are the slopes of what they are rates of, and nothing jumps while the
// responses are worked out again and again in a turn.
func TestMotionIsSmooth(t *testing.T) {
	m, at := sailing()
	const dt = 0.01
	last := m.At(0, at(0))
	worst, most := 0.0, 0.0
	for i := 1; i < 6000; i++ {
		now := m.At(float64(i)*dt, at(float64(i)*dt))
		for _, c := range []struct{ a, b, rateA, rateB float64 }{
			{last.Heave, now.Heave, last.HeaveRate, now.HeaveRate},
			{10 * last.Pitch, 10 * now.Pitch, 10 * last.PitchRate, 10 * now.PitchRate},
			{10 * last.Roll, 10 * now.Roll, 10 * last.RollRate, 10 * now.RollRate},
		} {
			worst = max(worst, math.Abs((c.b-c.a)/dt-(c.rateA+c.rateB)/2))
			most = max(most, math.Abs(c.rateB))
		}
		last = now
	}
	// What the change of the responses themselves adds is left out of the rates.
	if worst > 0.15*most {
		t.Errorf("got a step %.3f m/s off its rate, the greatest rate is %.3f", worst, most)
	}
	// On a steady course nothing is left out.
	m, _ = sailing()
	h := &Hull{VX: 1, VY: 2, Heading: 0.4}
	last = m.At(0, h)
	for i := 1; i < 2000; i++ {
		h.X, h.Y = h.X+h.VX*dt, h.Y+h.VY*dt
		now := m.At(float64(i)*dt, h)
		if got, want := (now.PointHeave(-6, 1)-last.PointHeave(-6, 1))/dt, (now.PointHeaveRate(-6, 1)+last.PointHeaveRate(-6, 1))/2; math.Abs(got-want) > 1e-3 {
			t.Fatalf("after %g s: got %.5f m/s, rate says %.5f", float64(i)*dt, got, want)
		}
		last = now
	}
}

// A hull meets head seas of 6 s at 2 m/s 1.21350 times as often (the published
// alpha, as above): her position alone does it.
func TestEncounter(t *testing.T) {
	omega, k := wave(6)
	m := NewMotion(box(), []sea.Component{{Amplitude: 1, Omega: omega, WaveNumber: k, DY: -1}})
	h := &Hull{VY: 2}
	first, lastUp, ups, before := 0.0, 0.0, 0, 0.0
	most := 0.0
	const dt = 0.01
	for i := range 60000 {
		h.Y = 2 * dt * float64(i)
		z := m.At(dt*float64(i), h).Heave
		if i > 0 && before < 0 && z >= 0 {
			lastUp = dt * (float64(i) - z/(z-before))
			if ups == 0 {
				first = lastUp
			}
			ups++
		}
		before, most = z, max(most, z)
	}
	if got, want := (lastUp-first)/float64(ups-1), 6/1.21350; math.Abs(got-want) > 1e-4 {
		t.Errorf("got a period of encounter of %.5f s, want %.5f", got, want)
	}
	if math.Abs(most-0.90152) > 1e-4 {
		t.Errorf("got heave %.5f m, want 0.90152", most)
	}
}

// The responses follow the hull: after a turn and the time to blend she moves
// as one that had been on the new course all along.
func TestMotionFollowsCourse(t *testing.T) {
	s := sea.New(sea.Conditions{Hs: 1, Tp: 5, Toward: 2}, 3)
	form := Form{Length: 14, Beam: 4.5, Draft: 1.4, Block: 0.5, GM: 1}
	turned, straight := NewMotion(form, s.Components()), NewMotion(form, s.Components())
	turned.At(0, &Hull{VY: 2})
	h := &Hull{VX: 2, Heading: 90 * deg}
	a, b := turned.At(1, h), straight.At(1, h)
	if a == b {
		t.Error("took on the new course at once")
	}
	a, b = turned.At(2.5, h), straight.At(2.5, h)
	if a != b {
		t.Errorf("after the turn: got %+v, want %+v", a, b)
	}
}

// A new course in the middle of going over to another does not jump either.
func TestMotionTurnsAgain(t *testing.T) {
	s := sea.New(sea.Conditions{Hs: 1, Tp: 5, Toward: 2}, 3)
	m := NewMotion(Form{Length: 14, Beam: 4.5, Draft: 1.4, Block: 0.5, GM: 1}, s.Components())
	h := &Hull{VY: 2}
	m.At(0, h)
	h.Heading = 90 * deg
	m.At(1, h)
	want := m.At(1.4, h)
	h.Heading = 200 * deg
	got := m.At(1.4, h)
	if math.Abs(got.Heave-want.Heave)+math.Abs(got.Pitch-want.Pitch)+math.Abs(got.Roll-want.Roll) > 1e-12 {
		t.Errorf("got %+v, want %+v", got, want)
	}
	if later := m.At(1.9, h); later == want {
		t.Error("did not go over to the new course")
	}
}

func TestNoSeaNoMotion(t *testing.T) {
	m := NewMotion(box(), nil)
	if got := m.At(10, &Hull{VY: 2}); got != (Attitude{}) {
		t.Errorf("got %+v, want none", got)
	}
}

func TestMotionAllocatesNothing(t *testing.T) {
	m, at := sailing()
	now := 0.0
	if n := testing.AllocsPerRun(1000, func() { now += 0.05; m.At(now, at(now)) }); n != 0 {
		t.Errorf("got %g allocations, want 0", n)
	}
}

func BenchmarkMotion(b *testing.B) {
	b.Run("straight", func(b *testing.B) {
		m, at := sailing()
		h, now := at(0), 0.0
		for b.Loop() {
			now += 0.05
			m.At(now, h)
		}
	})
	b.Run("turning", func(b *testing.B) {
		m, at := sailing()
		now := 0.0
		for b.Loop() {
			now += 0.05
			m.At(now, at(now))
		}
	})
}
