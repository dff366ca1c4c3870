package tow

import "math"

// vec is a vector east, north, up.
type vec struct{ x, y, z float64 }

func (a vec) plus(b vec) vec           { return vec{a.x + b.x, a.y + b.y, a.z + b.z} }
func (a vec) minus(b vec) vec          { return vec{a.x - b.x, a.y - b.y, a.z - b.z} }
func (a vec) times(k float64) vec      { return vec{a.x * k, a.y * k, a.z * k} }
func (a vec) dot(b vec) float64        { return a.x*b.x + a.y*b.y + a.z*b.z }
func (a vec) length() float64          { return math.Sqrt(a.dot(a)) }
func (a vec) mix(b vec, f float64) vec { return a.plus(b.minus(a).times(f)) }

// sym is a symmetric 3x3 matrix.
type sym struct{ xx, xy, xz, yy, yz, zz float64 }

// ray adds k t t^T + m I.
func (a *sym) ray(k, m float64, t vec) {
	kx, ky := k*t.x, k*t.y
	a.xx += kx*t.x + m
	a.xy += kx * t.y
	a.xz += kx * t.z
	a.yy += ky*t.y + m
	a.yz += ky * t.z
	a.zz += k*t.z*t.z + m
}

// rays adds k t t^T + m I + l u u^T.
func (a *sym) rays(k, m float64, t vec, l float64, u vec) {
	kx, ky, lx, ly := k*t.x, k*t.y, l*u.x, l*u.y
	a.xx += kx*t.x + lx*u.x + m
	a.xy += kx*t.y + lx*u.y
	a.xz += kx*t.z + lx*u.z
	a.yy += ky*t.y + ly*u.y + m
	a.yz += ky*t.z + ly*u.z
	a.zz += k*t.z*t.z + l*u.z*u.z + m
}

func (a *sym) times(v vec) vec {
	return vec{
		a.xx*v.x + a.xy*v.y + a.xz*v.z,
		a.xy*v.x + a.yy*v.y + a.yz*v.z,
		a.xz*v.x + a.yz*v.y + a.zz*v.z,
	}
}

// inverse is by cofactors; the matrix is positive definite.
func (a *sym) inverse() sym {
	xx := a.yy*a.zz - a.yz*a.yz
	xy := a.xz*a.yz - a.xy*a.zz
	xz := a.xy*a.yz - a.xz*a.yy
	k := 1 / (a.xx*xx + a.xy*xy + a.xz*xz)
	return sym{
		xx * k, xy * k, xz * k,
		(a.xx*a.zz - a.xz*a.xz) * k, (a.xy*a.xz - a.xx*a.yz) * k,
		(a.xx*a.yy - a.xy*a.xy) * k,
	}
}

// takeSandwich subtracts K s K, where K = c t t^T + b I and st = s t.
func (a *sym) takeSandwich(c, b float64, t, st vec, s *sym) {
	q, p, b2 := c*c*t.dot(st), c*b, b*b
	a.xx -= q*t.x*t.x + 2*p*t.x*st.x + b2*s.xx
	a.xy -= q*t.x*t.y + p*(t.x*st.y+t.y*st.x) + b2*s.xy
	a.xz -= q*t.x*t.z + p*(t.x*st.z+t.z*st.x) + b2*s.xz
	a.yy -= q*t.y*t.y + 2*p*t.y*st.y + b2*s.yy
	a.yz -= q*t.y*t.z + p*(t.y*st.z+t.z*st.y) + b2*s.yz
	a.zz -= q*t.z*t.z + 2*p*t.z*st.z + b2*s.zz
}
