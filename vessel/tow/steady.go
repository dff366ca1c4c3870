package tow

import "math"

// Shape is the steady shape of a straight tow.
type Shape struct {
	Layback float64 // metres from the sheave
	Depth   float64 // of the fish below still water, metres
	Tension float64 // at the sheave, N
	Angle   float64 // of the cable at the sheave, to the horizontal, radians
}

const waterDensity = 1025.0 // kg/m^3

// loads are the forces on a tow at one speed.
type loads struct {
	normal     float64 // R = 1/2 rho Cn d U^2, N/m
	tangential float64 // F = 1/2 rho pi d Ct U^2, N/m
	weight     float64 // w, N/m
	drag, down float64 // on the fish, N
}

func (s *Spec) loads(speed float64) loads {
	q := 0.5 * waterDensity * speed * speed
	return loads{
		normal:     q * s.Cable.Normal * s.Cable.Diameter,
		tangential: q * math.Pi * s.Cable.Diameter * s.Cable.Tangential,
		weight:     s.Cable.Weight,
		drag:       q * s.Fish.DragArea,
		down:       s.Fish.Weight + q*s.Fish.Depressor,
	}
}

// link is a point of the cable: tension, angle, and distance from the fish.
type link struct{ tension, angle, x, z float64 }

// slope is the right-hand side of the steady equations.
func (l *loads) slope(a link) link {
	sin, cos := math.Sincos(a.angle)
	return link{
		tension: l.weight*sin + l.tangential*cos*math.Abs(cos),
		angle:   (l.weight*cos - l.normal*sin*math.Abs(sin)) / a.tension,
		x:       cos,
		z:       sin,
	}
}

func (a link) plus(h float64, b link) link {
	return link{a.tension + h*b.tension, a.angle + h*b.angle, a.x + h*b.x, a.z + h*b.z}
}

// step advances the cable as far as one step may go, at most a length, and says
// how far: fourth-order Runge-Kutta, and exactly where it is straight.
func (l *loads) step(a link, most float64) (link, float64) {
	ds := l.stride(a)
	k1 := l.slope(a)
	if math.IsInf(ds, 1) {
		k1.angle = 0
		return a.plus(most, k1), most
	}
	ds = min(ds, most)
	k2 := l.slope(a.plus(ds/2, k1))
	k3 := l.slope(a.plus(ds/2, k2))
	k4 := l.slope(a.plus(ds, k3))
	return a.plus(ds/6, k1).plus(ds/3, k2).plus(ds/3, k3).plus(ds/6, k4), ds
}

// along advances the cable by a length.
func (l *loads) along(a link, length float64) link {
	for length > 0 {
		next, ds := l.step(a, length)
		a, length = next, length-ds
	}
	return a
}

const (
	strideShare = 0.08 // of the length over which the equations change
	straight    = 1e-9 // radians off the critical angle that no longer matter
)

// stride is how long a step may be, metres: a share of the length over which
// the equations change, T over the forces on a metre of cable. Where the tension
// is small the cable bends sharply and, near the critical angle, is held there so
// hard that longer steps would throw it about. At that angle it is straight, its
// tension grows evenly and a step may be of any length; from a fish of whatever
// weight it comes there within a few hundred steps.
func (l *loads) stride(a link) float64 {
	sin, cos := math.Sincos(a.angle)
	weight, across := l.weight*math.Abs(sin), l.normal*math.Abs(sin)
	bend := math.Abs(l.weight*cos - across*sin)
	hold := weight + 2*across*math.Abs(cos) // how bend falls with the angle
	if bend <= straight*hold {
		return math.Inf(1)
	}
	soon := math.Sqrt(2 * l.normal * bend) // how fast hold itself comes on
	return strideShare * a.tension / (max(bend, soon) + hold + weight + l.tangential*cos*cos)
}

// atFish is the end of the cable at the fish. A cable with nothing at its end is
// straight, at the critical angle.
func (l *loads) atFish() link {
	if l.drag == 0 && l.down == 0 {
		return link{angle: l.critical()}
	}
	return link{tension: math.Hypot(l.drag, l.down), angle: math.Atan2(l.down, l.drag)}
}

// Steady solves the straight tow in uniform flow: speed through the water in
// m/s, cable out from the sheave in metres, sheave above water in metres.
//
//	dT/ds     = w sin(phi) + F cos(phi)|cos(phi)|
//	T dphi/ds = w cos(phi) - R sin(phi)|sin(phi)|
//	dx/ds = cos(phi) , dz/ds = sin(phi)
//	at the fish: T cos(phi) = D , T sin(phi) = W + 1/2 rho CL A U^2
//
// with the independence principle for the cross-flow (Ablow and Schechter,
// "Numerical simulation of undersea cable dynamics", Ocean Engng 10, 1983;
// the statics are in Berteaux, Buoy Engineering, 1976), by RK4 in steps as
// long as the cable allows. The stretch in air is a catenary of its weight in
// air. Left out: strumming, stretch, wind.
func (s *Spec) Steady(speed, cableOut, sheaveHeight float64) Shape {
	l := s.loads(speed)
	dry := s.material().mass * gravity
	at, used, ds := l.atFish(), 0.0, 0.0
	for used < cableOut {
		var next link
		if next, ds = l.step(at, cableOut-used); used+ds+climb(next, dry, sheaveHeight) > cableOut {
			break
		}
		at, used = next, used+ds
	}
	// The last piece, partly wet: bisect for where the air takes over.
	lo, hi := 0.0, ds
	for range 40 {
		mid := (lo + hi) / 2
		if used+mid+climb(l.along(at, mid), dry, sheaveHeight) > cableOut {
			hi = mid
		} else {
			lo = mid
		}
	}
	top := hang(l.along(at, lo), dry, max(cableOut-used-lo, 0))
	return Shape{
		Layback: max(top.x, 0),
		Depth:   max(top.z-sheaveHeight, 0),
		Tension: top.tension,
		Angle:   top.angle,
	}
}

// climb is the length of cable in air that rises from a point of the cable to
// a sheave that high, metres. In a catenary of weight w the tension grows by w
// with every metre up: the sheave is at h, the length s with
//
//	(T + w h)^2 = H^2 + (V + w s)^2
func climb(a link, w, sheaveHeight float64) float64 {
	if sheaveHeight <= 0 {
		return 0
	}
	up := a.tension * math.Sin(a.angle)
	more := (2*a.tension + w*sheaveHeight) * sheaveHeight
	return more / (math.Sqrt(up*up+w*more) + up)
}

// hang is the end of a length of cable in air above a point of the cable: a
// catenary, with the differences that lose digits on a light cable written out.
func hang(a link, w, length float64) link {
	sin, cos := math.Sincos(a.angle)
	across, up := a.tension*cos, a.tension*sin
	top := math.Hypot(across, up+w*length)
	rise := length * (2*up + w*length) / (top + a.tension)
	// asinh((V + w s)/H) - asinh(V/H) = log(1 + y)
	reach := (length + rise) / (a.tension + up)
	if y := w * reach; y > 0 {
		reach *= math.Log1p(y) / y
	}
	return link{tension: top, angle: math.Atan2(up+w*length, across), x: a.x + across*reach, z: a.z + rise}
}

// CriticalAngle is the angle to which a long cable settles, radians: where
// weight and normal drag balance,
//
//	cos(phi_c) = (-q + sqrt(q^2+4))/2 ,  q = w/R.
func (s *Spec) CriticalAngle(speed float64) float64 {
	l := s.loads(speed)
	return l.critical()
}

// critical is written so that no digits are lost at any q: sin^2 = q cos.
func (l *loads) critical() float64 {
	if l.normal == 0 {
		return math.Pi / 2
	}
	q := l.weight / l.normal
	cos := 2 / (q + math.Sqrt(q*q+4))
	return math.Atan2(math.Sqrt(q*cos), cos)
}
