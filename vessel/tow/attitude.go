package tow

import "math"

// Attitude is how the fish lies in the water. Each axis is a damped oscillator
// about the place where three moments balance:
//
//   - the fins turn the body into the flow, 1/2 rho U^2 S a l per radian, with
//     S the area of a pair, a its lift slope pi/2 AR (R. T. Jones, NACA Report
//     835, 1946) and l its distance behind the middle; moving through the
//     water sideways as the body turns they damp it by 1/2 rho U S a l^2;
//   - the cable pulls at the tow point, x forward of the middle and h above it;
//   - the weight hangs below the tow point.
//
// so that, for small angles, with the pull (X, Y, Z) forward, to starboard and
// up and the flow climbing by gamma on a course chi,
//
//	I theta'' = Z (x - h theta) - X h + F (gamma + fins - theta) - C theta'
//	I psi''   = Y x + F (chi - psi) - C psi'
//	J phi''   = h (Y - Z phi) - D phi'
//
// The fins are set so that the pitch is the trim in a steady tow at the speed
// the gear starts with. Inertia is that of a slender rod and the water it
// moves, I = (m + m_a) L^2/12, and about the axis J = m r^2 with the radius of
// a round body of that volume, as if its mass were in its skin (our own choice).
//
// Left out: the munk moment of the body, coupling of the axes, stall, fins
// that are not alike in both planes.
type Attitude struct {
	Pitch float64 // nose up positive, radians
	Roll  float64 // starboard side down positive, radians
	Yaw   float64 // grid bearing of the body, radians

	PitchRate, RollRate, YawRate float64 // radians per second
}

const (
	finArm    = 0.4         // of the length of the fish, l
	finSlope  = math.Pi / 2 // a, aspect ratio 1
	finSpan   = 0.12        // of the length, middle of a fin from the axis
	stillSlow = 0.3         // damping in still water, 1/s: drag of the body, our own choice
)

// poise is the fish as something that swings.
type poise struct {
	pitch, roll, yaw swing

	rigid          bool    // no length: it lies along the flow at its trim
	trim, fins     float64 // radians
	inertia, axial float64 // I and J, kg m^2
	vane           float64 // F/U^2, kg
	damp, dampRoll float64 // C/U and D/U, kg m
	forward, above float64 // of the tow point, metres
}

func (s *Spec) poise(speed, heading float64) poise {
	f, m := &s.Fish, s.material()
	p := poise{rigid: f.Length <= 0, trim: f.Pitch, forward: f.TowForward, above: f.TowAbove}
	p.yaw.angle, p.pitch.angle = heading, f.Pitch
	if p.rigid {
		return p
	}
	arm, span := finArm*f.Length, finSpan*f.Length
	p.inertia = (m.fishMass + m.fishDisplaced) * f.Length * f.Length / 12
	radius2 := max(m.fishDisplaced/(waterDensity*math.Pi*f.Length), 0.03*0.03)
	p.axial = m.fishMass * radius2
	p.vane = 0.5 * waterDensity * f.FinArea * finSlope * arm
	p.damp = p.vane * arm
	p.dampRoll = 2 * 0.5 * waterDensity * f.FinArea * finSlope * span * span
	l := s.loads(max(speed, 0.5))
	if flow := p.vane * max(speed, 0.5) * max(speed, 0.5); flow > 0 {
		p.fins = p.trim - (l.down*(p.forward-p.above*p.trim)-l.drag*p.above)/flow
		p.fins = min(max(p.fins, -mostFins), mostFins)
	}
	return p
}

// mostFins bounds the setting of the fins, radians.
const mostFins = 0.35

// step swings the fish for dt seconds: pull is that of the cable on it, N, and
// flow its velocity through the water, m/s.
func (p *poise) step(dt float64, pull, flow vec) {
	speed := flow.length()
	level := math.Hypot(flow.x, flow.y)
	course := p.yaw.angle
	if level > 0.05 {
		course += math.Remainder(math.Atan2(flow.x, flow.y)-p.yaw.angle, 2*math.Pi)
	}
	if p.rigid {
		if level > 0.2 {
			p.yaw.rate = (course - p.yaw.angle) / dt
			p.yaw.angle = course
		}
		return
	}
	sin, cos := math.Sincos(p.yaw.angle)
	ahead, abeam := pull.x*sin+pull.y*cos, pull.x*cos-pull.y*sin
	up := max(pull.z, 0)
	climb := math.Atan2(flow.z, max(level, 0.3))

	vane, hang := p.vane*speed*speed, up*p.above
	stiff := vane + hang + 1e-3
	rest := (up*p.forward - ahead*p.above + vane*(climb+p.fins)) / stiff
	p.pitch.step(dt, stiff/p.inertia, p.damp*speed/p.inertia+stillSlow, rest)
	p.pitch.angle = min(max(p.pitch.angle, -mostTilt), mostTilt)

	rest = course
	if vane > 0 {
		rest += min(max(abeam*p.forward/vane, -1), 1)
	}
	p.yaw.step(dt, vane/p.inertia, p.damp*speed/p.inertia+stillSlow, rest)

	rest = 0
	if up > 0 {
		rest = math.Atan2(abeam, up)
	}
	p.roll.step(dt, (hang+1e-3)/p.axial, p.dampRoll*speed/p.axial+stillSlow, rest)
	p.roll.angle = min(max(p.roll.angle, -mostTilt), mostTilt)
}

// mostTilt keeps a fish that was thrown about from turning over, radians.
const mostTilt = 1.2

func (p *poise) attitude() Attitude {
	return Attitude{
		Pitch: p.pitch.angle, Roll: p.roll.angle, Yaw: math.Remainder(p.yaw.angle, 2*math.Pi),
		PitchRate: p.pitch.rate, RollRate: p.roll.rate, YawRate: p.yaw.rate,
	}
}
