package vessel

import "math"

// Hull is a vessel under way.
type Hull struct {
	Spec Spec

	X, Y     float64 // of her origin, metres
	Heading  float64 // grid bearing, radians
	Surge    float64 // through the water, m/s
	Leeway   float64 // through the water, to starboard, m/s
	YawRate  float64 // radians per second
	Rudder   float64 // radians
	Thrust   float64 // newtons
	VX, VY   float64 // over ground, m/s
	TowForce float64 // pull of the cable, newtons, aft; set by whoever owns it
}

// Weather is what pushes the vessel: velocities towards which wind and
// current flow, m/s on the grid.
type Weather struct{ WindX, WindY, CurrentX, CurrentY float64 }

// Orders are what the helm and the engine are told.
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
// over the step. Surge is m du/dt = thrust - k u|u| - tow - wind, with k from
// the speed at full power. Wind pushes as [WindShape] says. Leeway is the steady
// balance of its push sideways with the drag of the hull, approached over one
// ship's length. Left out: sway in turns, speed lost in turns, waves.
func (h *Hull) Step(dt float64, o Orders, w Weather) {
	s := &h.Spec
	want := min(max(o.Rudder, -s.RudderMax), s.RudderMax)
	h.Rudder += min(max(want-h.Rudder, -s.RudderRate*dt), s.RudderRate*dt)

	k, t := h.Nomoto()
	h.YawRate += (k*h.Rudder - h.YawRate) * (1 - math.Exp(-dt/t))
	h.Heading = Wrap(h.Heading + h.YawRate*dt)

	sin, cos := math.Sincos(h.Heading)
	windX, windY := w.WindX-h.VX, w.WindY-h.VY // felt on board
	ahead, abeam := windX*sin+windY*cos, windX*cos-windY*sin

	full := h.resistance() * s.SpeedMax * s.SpeedMax
	h.Thrust = full * min(max(o.Thrust, -0.5), 1)
	felt := math.Hypot(ahead, abeam)
	push, shove := s.shape().Force(felt, math.Atan2(-abeam, -ahead), s.WindAreaFront, s.WindAreaSide)
	force := h.Thrust - h.resistance()*h.Surge*math.Abs(h.Surge) - h.TowForce + push
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
