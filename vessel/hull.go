package vessel

import "math"

// Hull is a vessel under way.
type Hull struct {
	Spec Spec

	X, Y    float64 // of her origin, metres
	Heading float64 // grid bearing, radians
	Surge   float64 // through the water, m/s
	Leeway  float64 // through the water, to starboard, m/s
	YawRate float64 // radians per second
	Rudder  float64 // radians
	Thrust  float64 // newtons
	VX, VY  float64 // over ground, m/s

	PullX, PullY float64 // of the tow cable at the sheave, grid, newtons; set by whoever owns it
}

// Weather pushes the vessel: the velocities of wind and current, towards where
// they flow, m/s on the grid.
type Weather struct{ WindX, WindY, CurrentX, CurrentY float64 }

// Orders holds what the helm and the engine are told.
type Orders struct {
	Rudder float64 // radians, limited to the hull's own range
	Thrust float64 // share of full ahead, -0.5 .. 1
}

const (
	airDensity   = 1.224  // kg/m^3, as in Blendermann (1994)
	waterDensity = 1025.0 // kg/m^3
)

// Step advances the vessel by dt seconds.
//
// Steering is Nomoto's first-order model T dr/dt + r = K delta with
// K = K'U/L and T = T'L/U (Nomoto et al. 1957; scaling as in Fossen, Handbook
// of Marine Craft Hydrodynamics and Motion Control, 2011), integrated exactly
// over the step; to the rudder is added what the side pull of the tow and the
// walk of the propeller are worth. Surge is m du/dt = thrust - k u|u| - tow -
// wind, with k from the speed at full power, and more of it in a turn. Wind
// pushes as [WindShape] says. Leeway is the steady balance of wind and tow
// sideways with the drag of the hull, approached over one ship's length. Left
// out: sway in turns, added resistance in waves, and that real hulls need not
// follow the scaling: fits to a 45 m training ship keep T near 33 s from 2 to 4
// m/s (van Amerongen, Adaptive Steering of Ships, Delft 1982).
func (h *Hull) Step(dt float64, o Orders, w Weather) {
	s := &h.Spec
	want := min(max(o.Rudder, -s.RudderMax), s.RudderMax)
	h.Rudder += min(max(want-h.Rudder, -s.RudderRate*dt), s.RudderRate*dt)

	sin, cos := math.Sincos(h.Heading)
	towAhead, towAbeam := h.PullX*sin+h.PullY*cos, h.PullX*cos-h.PullY*sin
	k, t := h.Nomoto()
	turning := h.Rudder + h.towRudder(towAbeam) + h.walk()
	h.YawRate += (k*turning - h.YawRate) * (1 - math.Exp(-dt/t))
	h.Heading = Wrap(h.Heading + h.YawRate*dt)

	sin, cos = math.Sincos(h.Heading)
	windX, windY := w.WindX-h.VX, w.WindY-h.VY // felt on board
	ahead, abeam := windX*sin+windY*cos, windX*cos-windY*sin

	full := h.resistance() * s.SpeedMax * s.SpeedMax
	h.Thrust = full * min(max(o.Thrust, -0.5), 1)
	felt := math.Hypot(ahead, abeam)
	push, shove := s.shape().Force(felt, math.Atan2(-abeam, -ahead), s.WindAreaFront, s.WindAreaSide)
	shove += towAbeam
	force := h.Thrust - h.resistance()*h.turnDrag()*h.Surge*math.Abs(h.Surge) + towAhead + push
	h.Surge += force / s.Mass * dt

	drift := math.Copysign(s.leeway(math.Abs(shove), math.Abs(h.Surge)), shove)
	settle := s.Length / max(math.Abs(h.Surge), 0.5)
	h.Leeway += (drift - h.Leeway) * (1 - math.Exp(-dt/settle))

	h.VX = h.Surge*sin + h.Leeway*cos + w.CurrentX
	h.VY = h.Surge*cos - h.Leeway*sin + w.CurrentY
	h.X += h.VX * dt
	h.Y += h.VY * dt
}

// Nomoto returns K (1/s) and T (s) at the present speed. Below half a metre
// per second the scaling would leave no steering at all and an endless time
// constant; the wash of the propeller on the rudder stands in for it.
func (h *Hull) Nomoto() (k, t float64) {
	u := max(math.Abs(h.Surge), 0.5)
	return h.Spec.TurningIndex * u / h.Spec.Length, h.Spec.TimeIndex * h.Spec.Length / u
}

// towRudder is the rudder angle that the tow's pull to starboard at the sheave
// is worth, radians. The moment of the rudder is 1/2 rho U^2 A a L/2 per radian,
// with the area A = L T/100 (1 + 25 (B/L)^2) of the classification societies'
// minimum rule (from memory) and the lift slope a of a rudder of aspect ratio
// 1.5, 2 pi 1.5/3.5, both estimates.
func (h *Hull) towRudder(pull float64) float64 {
	s := &h.Spec
	u := max(math.Abs(h.Surge), 0.5)
	slim := s.Beam / s.Length
	area := s.Length * s.Draft / 100 * (1 + 25*slim*slim)
	const slope = 2 * math.Pi * 1.5 / 3.5
	moment := 0.5 * waterDensity * u * u * area * slope * s.Length / 2
	return min(max(pull*s.Sheave.Forward/moment, -s.RudderMax), s.RudderMax)
}

// walk is the rudder angle that the sideways bite of the propeller is worth,
// radians: a right-handed one swings the bow to port going ahead and to
// starboard going astern, most when there is thrust and little way on (common
// practice, no source; the law of its fading is our own choice).
func (h *Hull) walk() float64 {
	s := &h.Spec
	full := h.resistance() * s.SpeedMax * s.SpeedMax
	way := h.Surge / (0.2 * s.SpeedMax)
	return -s.PropellerWalk * h.Thrust / full / (1 + way*way)
}

// turnDrag is how much more she drags in a turn: 1 + 2.4 (r L/U)^2, which takes
// her to three quarters of her speed at a rate of 0.57 U/L, within the 60 to
// 80 % that small craft keep in a full-rudder turn (from memory).
func (h *Hull) turnDrag() float64 {
	rate := h.YawRate * h.Spec.Length / max(math.Abs(h.Surge), 0.5)
	return 1 + 2.4*min(rate*rate, 1)
}

// resistance is k in the drag k u|u|, N s^2/m^2: a blunt small-craft estimate,
// half of it skin friction on the wetted hull and half form and wave drag.
func (h *Hull) resistance() float64 {
	s := &h.Spec
	const total = 0.02
	return 0.5 * waterDensity * total * s.Length * (s.Beam + 2*s.Draft)
}

// leeway is the speed sideways at which the hull balances a push, m/s:
//
//	F = 1/2 rho L T (Cd v^2 + CL U v) ,  CL = pi/2 AR ,  AR = 2T/L
//
// cross-flow drag, plus the lift of the hull as a wing of low aspect ratio with
// its image in the surface (R. T. Jones, NACA Report 835, 1946).
func (s *Spec) leeway(push, surge float64) float64 {
	const crossFlow = 1.0
	lift := math.Pi * s.Draft / s.Length * surge
	c := push / (0.5 * waterDensity * s.Length * s.Draft)
	return (math.Sqrt(lift*lift+4*crossFlow*c) - lift) / (2 * crossFlow)
}

// shape is how the hull stands in the wind, a tender if nothing is said.
func (s *Spec) shape() WindShape {
	if s.Wind == (WindShape{}) {
		return Tender
	}
	return s.Wind
}

// At returns where an offset on board is on the grid.
func (h *Hull) At(o Offset) (x, y float64) {
	sin, cos := math.Sincos(h.Heading)
	return h.X + o.Forward*sin + o.Starboard*cos, h.Y + o.Forward*cos - o.Starboard*sin
}

// VelocityAt returns the velocity over ground of an offset on board, m/s.
func (h *Hull) VelocityAt(o Offset) (vx, vy float64) {
	sin, cos := math.Sincos(h.Heading)
	// Yaw swings a point ahead to starboard, a point to starboard aft.
	return h.VX + h.YawRate*(o.Forward*cos-o.Starboard*sin),
		h.VY + h.YawRate*(-o.Forward*sin-o.Starboard*cos)
}

// Wrap returns the bearing in -pi..pi.
func Wrap(a float64) float64 { return a - 2*math.Pi*math.Round(a/(2*math.Pi)) }
