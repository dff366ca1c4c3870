package sonar

import "math"

// passage is the rays from one depth to another that turn back in the same layer,
// or in none, in water whose sound speed c changes linearly from point to point
// of a cast.
//
// A ray of it is known by u, the tangent of its grazing angle where the water it
// passes is fastest, at speed M. By Snell's law cos(theta)/c is the same
// everywhere, so that with
//
//	S = sqrt(u^2 + 1 - c^2/M^2)
//
// the sine of its grazing angle is S/sqrt(1+u^2) and the tangent S M/c. Along the
// arc of a circle between speeds a and b, dz apart and of gradient q = (b-a)/dz,
// it covers the ground dg and takes the time dt:
//
//	dg = (cos(theta_a)/a q)^-1 (sin(theta_a) - sin(theta_b)) = dz (a+b) / (M (Sa+Sb))
//	dt = ln((b/a) (1+sin(theta_a)) / (1+sin(theta_b))) / q
//
// (Jensen, Kuperman, Porter and Schmidt, Computational Ocean Acoustics, 2011,
// chapter 3). The second form of dg needs no gradient; dt is worked out by
// logarithms of one plus a term that is small with it.
type passage struct {
	fastest float64 // M, m/s
	spans   []span
	back    turnBack // where all of them turn
	start   float64  // sound speed at the fish, m/s
	end     float64  // and at the other depth
	up      float64  // 1 for rays launched upwards, -1 downwards
}

// span is a stretch with one gradient.
type span struct {
	a, b, dz float64 // sound speeds at its ends, in order of travel, and its height
	times    float64 // it is passed: once or, by rays that turn, twice
	da, db   float64 // 1 - c^2/M^2 at its ends
}

// turnBack is the stretch in which rays turn.
type turnBack struct {
	gradient float64 // its size, 0 for a passage without one
	d        float64 // 1 - c^2/M^2 where it is entered
}

// below is 1 - c^2/M^2.
func below(c, fastest float64) float64 { return (fastest - c) * (fastest + c) / (fastest * fastest) }

// ground is the ground range at which the ray of a u arrives, metres.
func (p *passage) ground(u float64) float64 {
	g := 0.0
	for i := range p.spans {
		s := &p.spans[i]
		g += s.times * s.dz * (s.a + s.b) / (math.Sqrt(u*u+s.da) + math.Sqrt(u*u+s.db))
	}
	g /= p.fastest
	if p.back.gradient > 0 {
		g += 2 * p.fastest / p.back.gradient * math.Sqrt(u*u+p.back.d)
	}
	return g
}

// time is how long the ray of a u takes, seconds.
func (p *passage) time(u float64) float64 {
	t := 0.0
	cosine := 1 / math.Sqrt(1+u*u) // where it is fastest
	for i := range p.spans {
		s := &p.spans[i]
		sa, sb := math.Sqrt(u*u+s.da)*cosine, math.Sqrt(u*u+s.db)*cosine
		q := (s.b - s.a) / s.dz
		x := cosine / p.fastest
		t += s.times * s.dz * (logOver(q*s.dz/s.a)/s.a +
			x*x*(s.a+s.b)/((sa+sb)*(1+sb))*logOver(x*x*q*s.dz*(s.a+s.b)/((sa+sb)*(1+sb))))
	}
	if q := p.back.gradient; q > 0 {
		t += 2 / q * math.Atanh(math.Sqrt(u*u+p.back.d)*cosine)
	}
	return t
}

// logOver is ln(1+x)/x, for any x over -1.
func logOver(x float64) float64 {
	if math.Abs(x) < 1e-9 {
		return 1 - x/2
	}
	return math.Log1p(x) / x
}

// tangents are those of the elevations of launch and arrival, up positive.
func (p *passage) tangents(u float64) (launch, arrive float64) {
	launch = p.up * math.Sqrt(u*u+below(p.start, p.fastest)) * p.fastest / p.start
	arrive = p.up * math.Sqrt(u*u+below(p.end, p.fastest)) * p.fastest / p.end
	if p.back.gradient > 0 {
		arrive = -arrive
	}
	return launch, arrive
}

// find returns the u between two whose ray arrives at ground range g, which has
// to lie between theirs: by false position on 1/g, which is nearly linear in u,
// with the ends held back in turn (the Illinois method; Dowell and Jarratt, BIT
// 11, 1971, from memory).
func (p *passage) find(g, a, b float64) float64 {
	miss := func(u float64) float64 { return 1 - g/p.ground(u) }
	fa, fb := miss(a), miss(b)
	u := a
	for range 100 {
		if math.IsInf(fa, 0) || math.IsInf(fb, 0) || fa == fb {
			u = (a + b) / 2
		} else {
			u = (a*fb - b*fa) / (fb - fa)
		}
		f := miss(u)
		switch {
		case math.Abs(f) < 1e-10:
			return u
		case f*fb < 0:
			a, fa = b, fb
		default:
			fa /= 2
		}
		b, fb = u, f
	}
	return u
}

// passages are the ways from one depth to another: straight there, and by the
// other side of the fish, turned back in one layer or another.
type passages struct {
	direct  passage
	turned  []passage
	out     []span      // the way to the other side, as far as rays may turn
	samples []turnedRay // of every turned passage, in order of launch; empty until asked for
	sampled bool
}

type turnedRay struct {
	passage int
	u, g    float64
}

// turnedRays is how many rays of each turned passage are sampled.
const turnedRays = 32

// lay works out the ways from a depth to another, in the memory it has.
func (w *passages) lay(p profile, from, to float64) {
	d := &w.direct
	d.start, _ = p.at(from)
	d.end, _ = p.at(to)
	d.spans = p.spans(d.spans[:0], from, to)
	d.fastest = d.start
	for _, s := range d.spans {
		d.fastest = max(d.fastest, s.b)
	}
	d.relate()
	w.out, w.sampled = w.out[:0], false
	if to >= from {
		d.up = -1
		w.out = p.spans(w.out, from, min(from, 0)) // none turns above the surface
	} else {
		d.up = 1
		w.out = p.spans(w.out, from, max(from, p[len(p)-1].Depth)) // nor where the speed no longer changes
	}
}

// relate works out what depends on the greatest speed.
func (p *passage) relate() {
	for i := range p.spans {
		s := &p.spans[i]
		s.da, s.db = below(s.a, p.fastest), below(s.b, p.fastest)
	}
}

// turn works out the turned passages and samples them.
func (w *passages) turn() {
	w.samples, w.sampled = w.samples[:0], true
	d := &w.direct
	fastest, n := d.fastest, 0
	for k, s := range w.out {
		if s.b <= fastest {
			continue // no ray that gets here turns here
		}
		if n == len(w.turned) {
			w.turned = append(w.turned, passage{})
		}
		t := &w.turned[n]
		t.start, t.end, t.up, t.fastest = d.start, d.end, -d.up, fastest
		t.spans = append(t.spans[:0], d.spans...)
		for _, passed := range w.out[:k] {
			passed.times = 2
			t.spans = append(t.spans, passed)
		}
		t.relate()
		t.back = turnBack{gradient: (s.b - s.a) / s.dz, d: below(s.a, fastest)}
		steepest := math.Sqrt((s.b-fastest)*(s.b+fastest)) / fastest
		for i := range turnedRays {
			f := float64(i) / (turnedRays - 1)
			u := steepest * f * f // closest where rays are level, as a small turn goes far there
			w.samples = append(w.samples, turnedRay{n, u, t.ground(u)})
		}
		fastest = s.b
		n++
	}
}

// reach returns the first passage that has a ray arriving at a ground range, and
// the ray's u; nil if none has. least is a u that the ray of a direct passage
// does not exceed.
func (w *passages) reach(g, most float64) (*passage, float64) {
	d := &w.direct
	if g < d.ground(0) {
		steepest := 0.0 // the u if all of the way were as fast as the fastest of it: more than enough
		for _, s := range d.spans {
			steepest += s.dz * (s.a + s.b) / (2 * g * d.fastest)
		}
		return d, d.find(g, 0, min(steepest, most))
	}
	if !w.sampled {
		w.turn()
	}
	for i := 1; i < len(w.samples); i++ {
		a, b := w.samples[i-1], w.samples[i]
		if a.passage == b.passage && (a.g-g)*(b.g-g) <= 0 {
			t := &w.turned[b.passage]
			return t, t.find(g, a.u, b.u)
		}
	}
	return nil, 0
}
