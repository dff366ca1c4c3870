package vessel

import (
	"math"

	"dryline/vessel/sea"
)

// Form is a hull as waves feel it.
type Form struct {
	Length, Beam, Draft float64 // at the water line, metres
	Block               float64 // block coefficient, share of the box of the three
	GM                  float64 // metacentric height, metres
}

const (
	gravity = 9.81 // m/s^2
	// viscousRoll is the damping of roll by keel, bilges and chines over
	// critical damping: our own choice.
	viscousRoll = 0.1
)

// Response is the motion of a hull in a wave of one metre of amplitude, as complex
// amplitudes: with the wave at midships Re exp(-i w t), w the frequency of
// encounter, the hull does Re H exp(-i w t).
type Response struct {
	Heave complex128 // up, m/m
	Pitch complex128 // bow up, rad/m
	Roll  complex128 // starboard down, rad/m
}

// Response returns the response to a long-crested wave of frequency omega and
// wave number k that goes beta radians to starboard of the heading (0
// following, pi head, pi/2 from port), at a speed in m/s.
//
// Heave and pitch are the closed forms of J. J. Jensen, A. E. Mansour and A. S.
// Olsen, "Estimation of ship motions using closed-form expressions", Ocean
// Engng 31, 61-85 (2004), for a box of breadth B = Beam*Block:
//
//	a = w/omega = 1 - k V cos(beta)/omega ,  ke = |k cos(beta)|
//	A = 2 sin(k B a^2/2) exp(-k T a^2)
//	f = sqrt((1 - k T)^2 + (A^2/(k B a^3))^2)
//	F = K f 2/(ke L) sin(ke L/2) ,  K = exp(-ke T)
//	G = K f 24/((ke L)^2 L) (sin(ke L/2) - ke L/2 cos(ke L/2))
//	eta = 1/sqrt((1 - 2 k T a^2)^2 + (A^2/(k B a^2))^2)
//	|heave| = eta |F| ,  |pitch| = eta |G|
//
// Two variants of K are in use in open implementations, exp(-ke T) and
// exp(-k T). They are the same with the sea ahead or astern; from the side the
// first, taken here, gives more. The phases are ours: those of the two complex
// numbers whose sizes are f and 1/eta. That leaves the sizes as published, and
// in long waves the hull rises and pitches with the surface.
//
// Roll is [Form.roll]. Over shallow water k is the wave's own and the
// hydrodynamics stay those of deep water. Left out: flare, trim, the hull's own
// waves on each other, surge, sway and yaw.
func (f Form) Response(omega, k, beta, speed float64) Response {
	if omega <= 0 || k <= 0 {
		return Response{}
	}
	sin, cos := math.Sincos(beta)
	alpha := 1 - k*speed*cos/omega
	force, moving := f.section(k, alpha)
	ke := math.Abs(k * cos)
	h := complex(math.Exp(-ke*f.Draft), 0) * force / moving
	return Response{
		Heave: h * complex(alongHeave(ke, f.Length), 0),
		Pitch: h * complex(0, math.Copysign(alongPitch(ke, f.Length), cos)),
		Roll:  f.roll(omega, k, sin, ke, alpha),
	}
}

// section returns what a wave does to a section of the hull and what moving the
// section takes, per metre of each, over the stiffness: spring, mass and damping
// as complex numbers of size f and 1/eta.
func (f Form) section(k, alpha float64) (force, moving complex128) {
	kb, kt, a2 := k*f.Beam*f.Block, k*f.Draft, alpha*alpha
	if a2 < 1e-12 { // A is O(a^2), so the damping goes with it
		return complex(1-kt, 0), 1
	}
	size := amplitudeRatio(kb, kt, alpha)
	damping := size * size / (kb * a2)
	return complex(1-kt, -damping/math.Abs(alpha)), complex(1-2*kt*a2, -math.Copysign(damping, alpha))
}

// amplitudeRatio is A, of the waves a heaving section makes to its heave.
func amplitudeRatio(kb, kt, alpha float64) float64 {
	a2 := alpha * alpha
	return 2 * math.Sin(kb*a2/2) * math.Exp(-kt*a2)
}

// alongHeave is the mean of the wave along the hull.
func alongHeave(ke, length float64) float64 {
	x := ke * length / 2
	if x < 1e-4 {
		return 1 - x*x/6
	}
	return math.Sin(x) / x
}

// alongPitch is the slope of the wave as the whole hull feels it, rad/m.
func alongPitch(ke, length float64) float64 {
	x := ke * length / 2
	if x < 1e-2 { // the difference below loses its digits
		return ke * (1 - x*x/10)
	}
	sin, cos := math.Sincos(x)
	return 6 / (x * x * length) * (sin - x*cos)
}

// roll is the roll of Jensen, Mansour and Olsen (2004) for a hull that is one
// prism of breadth Beam and section Block*Beam*Draft:
//
//	(TN/2pi)^2 C phi" + B phi' + C phi = M ,  C = g D GM
//	B = L b + mu C TN/pi
//	|M| = |sin beta| sqrt(rho g^2 b/w) (2/ke) |sin(ke L/2)|
//	b = rho A B^2 sqrt(2g/B) a exp(b1 n^-1.3) n^d ,  n = w sqrt(B/2g)
//
// with a, b1 and d linear in B/T over 1 to 3 and over 3 to 6, and not continuous
// between; B/T is held within 1 to 6. n has to be without dimension for the
// moment to fit the slope of moderately long waves, though one open listing
// prints the frequency itself. In very long waves b dies away faster than the moment can;
// there the moment is never less than that of the slope, C k sin(beta)
// exp(-k T), which makes the hull lie along the surface. That, the single prism
// and mu = 0.1 are our own choices. For B/T from 3 to 4 the published fit gives
// two to three times the moment of the undisturbed wave, from 5 on about that.
func (f Form) roll(omega, k, sinBeta, ke, alpha float64) complex128 {
	w := math.Abs(alpha * omega)
	if f.GM <= 0 {
		return 0
	}
	mass := waterDensity * f.Block * f.Length * f.Beam * f.Draft
	stiffness := gravity * mass * f.GM
	period := f.RollPeriod()
	b := f.rollDamping(w)
	damping := f.Length*b + viscousRoll*stiffness*period/math.Pi

	moment := stiffness * k * math.Exp(-k*f.Draft)
	if w > 0 {
		moment = max(moment, f.Length*sectionMoment(b, w))
	}
	moment *= sinBeta * alongHeave(ke, f.Length)
	r := w * period / (2 * math.Pi)
	// A surface that rises to starboard lays the hull to port.
	return complex(0, -moment) / complex(stiffness*(1-r*r), -math.Copysign(w*damping, alpha))
}

// sectionMoment is the moment a wave from abeam has on a metre of hull that makes
// waves of its own with damping b, N a metre of amplitude.
func sectionMoment(b, w float64) float64 {
	return math.Sqrt(waterDensity * gravity * gravity * b / w)
}

// rollDamping is b, the damping of roll by the waves a section makes: the moment
// per metre of hull and rad/s of roll, N s.
func (f Form) rollDamping(w float64) float64 {
	n := w * math.Sqrt(f.Beam/(2*gravity))
	if n < 1e-2 {
		return 0
	}
	ratio := min(max(f.Beam/f.Draft, 1), 6)
	a, b, d := 0.256*ratio-0.286, -0.11*ratio-2.55, 0.033*ratio-1.419
	if ratio < 3 {
		a, b, d = -3.94*ratio+13.69, -2.12*ratio-1.89, 1.16*ratio-7.97
	}
	logN := math.Log(n)
	return waterDensity * f.Block * f.Beam * f.Draft * f.Beam * f.Beam * math.Sqrt(2*gravity/f.Beam) *
		a * math.Exp(b*math.Exp(-1.3*logN)+d*logN)
}

// RollPeriod returns the natural period of roll in seconds,
//
//	TN = 2 c Beam/sqrt(GM) ,  c = 0.4 below 45 m, else 0.373 + 0.023 B/T - 0.043 L/100
//
// (IMO Resolution A.685(17); 0.4 is the fishing vessel code's).
func (f Form) RollPeriod() float64 {
	c := 0.4
	if f.Length >= 45 {
		c = 0.373 + 0.023*f.Beam/f.Draft - 0.043*f.Length/100
	}
	return 2 * c * f.Beam / math.Sqrt(f.GM)
}

// Attitude is how a hull lies in the waves: heave up in metres, pitch bow up and
// roll starboard down in radians, and their rates a second.
type Attitude struct {
	Heave, Pitch, Roll             float64
	HeaveRate, PitchRate, RollRate float64
}

// PointHeave returns how far a point on board is above where it is in still
// water, metres: forward and starboard of midships, in metres.
func (a Attitude) PointHeave(forward, starboard float64) float64 {
	return a.Heave + forward*a.Pitch - starboard*a.Roll
}

// PointHeaveRate returns how fast it rises, m/s.
func (a Attitude) PointHeaveRate(forward, starboard float64) float64 {
	return a.HeaveRate + forward*a.PitchRate - starboard*a.RollRate
}

// Motion moves a hull in a sea.
//
// The responses hold for one heading and speed; when either has changed
// enough they are worked out again, and the hull goes over to the new ones
// through blendTime, so that nothing jumps. Which wave meets the hull where
// needs no such care: it is looked up at the hull's own position.
type Motion struct {
	form  Form
	waves []sea.Component

	was, is        []Response // times amplitude
	heading, speed float64    // of is
	since          float64    // when is was worked out
	started        bool
}

const (
	headingStep = 3 * math.Pi / 180 // radians
	speedStep   = 0.2               // m/s
	blendTime   = 1.0               // seconds
)

// NewMotion returns the motion of a form in waves; no waves is a level hull.
func NewMotion(form Form, waves []sea.Component) *Motion {
	return &Motion{
		form: form, waves: waves,
		was: make([]Response, len(waves)), is: make([]Response, len(waves)),
	}
}

// At returns the attitude of a hull at a time in seconds. Times may not run
// backwards; it allocates nothing.
func (m *Motion) At(t float64, h *Hull) Attitude {
	if len(m.waves) == 0 {
		return Attitude{}
	}
	m.follow(t, h)
	blend := min(max((t-m.since)/blendTime, 0), 1)
	blend *= blend * (3 - 2*blend)
	var a Attitude
	for i := range m.waves {
		c := &m.waves[i]
		r := m.is[i]
		if blend < 1 {
			r = mix(m.was[i], r, blend)
		}
		sin, cos := math.Sincos(c.WaveNumber*(h.X*c.DX+h.Y*c.DY) - c.Omega*t + c.Phase)
		wave := complex(cos, sin)
		met := c.Omega - c.WaveNumber*(h.VX*c.DX+h.VY*c.DY) // frequency of encounter
		heave, pitch, roll := r.Heave*wave, r.Pitch*wave, r.Roll*wave
		a.Heave += real(heave)
		a.Pitch += real(pitch)
		a.Roll += real(roll)
		a.HeaveRate += met * imag(heave) // Re(-i w H e) = w Im(H e)
		a.PitchRate += met * imag(pitch)
		a.RollRate += met * imag(roll)
	}
	return a
}

// follow works out the responses again when heading or speed asks for it.
func (m *Motion) follow(t float64, h *Hull) {
	sin, cos := math.Sincos(h.Heading)
	speed := h.VX*sin + h.VY*cos
	if m.started && math.Abs(Wrap(h.Heading-m.heading)) < headingStep && math.Abs(speed-m.speed) < speedStep {
		return
	}
	blend := min(max((t-m.since)/blendTime, 0), 1)
	blend *= blend * (3 - 2*blend)
	for i, c := range m.waves {
		m.was[i] = mix(m.was[i], m.is[i], blend)
		// Bearing of the wave less heading, from the dot and cross products.
		beta := math.Atan2(c.DX*cos-c.DY*sin, c.DX*sin+c.DY*cos)
		m.is[i] = m.form.Response(c.Omega, c.WaveNumber, beta, speed).times(c.Amplitude)
	}
	if !m.started {
		copy(m.was, m.is)
	}
	m.heading, m.speed, m.since, m.started = h.Heading, speed, t, true
}

// mix goes from a to b as w goes from 0 to 1.
func mix(a, b Response, w float64) Response {
	return Response{
		Heave: a.Heave + complex(w, 0)*(b.Heave-a.Heave),
		Pitch: a.Pitch + complex(w, 0)*(b.Pitch-a.Pitch),
		Roll:  a.Roll + complex(w, 0)*(b.Roll-a.Roll),
	}
}

func (r Response) times(a float64) Response {
	c := complex(a, 0)
	return Response{r.Heave * c, r.Pitch * c, r.Roll * c}
}
