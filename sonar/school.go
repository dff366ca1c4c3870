package sonar

import (
	"fmt"
	"math"

	"dryline/seabed/chance"
)

// school is a School ready to be sounded: single fish, standing still, each a
// point that answers, and an ellipsoid that hides what is behind it.
//
// A fish of length L answers by Love (1971) for its side, in metres,
//
//	TS = 22.8 log L - 2.8 log lambda - 22.9 dB
//
// (J. Acoust. Soc. Am. 49, 816-823; the coefficients from memory), meant for
// 1 <= L/lambda <= 100 and extrapolated beyond. It takes out of the sound what
// falls on it: side and shadow, twice its silhouette of about 0.2 L^2 (our own
// choice; the extinction of fish at these frequencies is not published). Left
// out: swimming, tilt, and what makes the fish of a school keep their distance.
type school struct {
	spec     School
	sin, cos float64
	fish     [][3]float64 // of the middle: east, north, up
	each     float64      // real fish that one of them stands for
	kappa    float64      // extinction, 1/m
}

// mostFish is how many fish of a school are kept; of more, each stands for some.
const mostFish = 4000

func newSchool(spec *School, seed uint64, index int) school {
	s := school{spec: *spec}
	s.sin, s.cos = math.Sincos(spec.Heading)
	a, b, c := spec.Length/2, spec.Width/2, spec.Height/2
	count := spec.Density * 4 / 3 * math.Pi * a * b * c
	n := max(int(min(count, mostFish)), 1)
	s.each = max(count/float64(n), 0)
	s.kappa = spec.Density * 2 * 0.2 * spec.Fish * spec.Fish
	rng := chance.Stream(seed, fmt.Sprint("sonar/school", index))
	// Fish gather about some middles, which makes the edge ragged.
	var middles [16][3]float64
	for i := 0; i < len(middles); {
		m := [3]float64{2*rng.Float64() - 1, 2*rng.Float64() - 1, 2*rng.Float64() - 1}
		if m[0]*m[0]+m[1]*m[1]+m[2]*m[2] < 0.6 {
			middles[i] = m
			i++
		}
	}
	for len(s.fish) < n {
		m, spread := &middles[rng.IntN(len(middles))], 0.12+0.28*rng.Float64()
		u, v, w := m[0]+spread*rng.NormFloat64(), m[1]+spread*rng.NormFloat64(), m[2]+spread*rng.NormFloat64()
		if u*u+v*v+w*w > 1 {
			continue
		}
		s.fish = append(s.fish, [3]float64{
			a*u*s.sin + b*v*s.cos, a*u*s.cos - b*v*s.sin, c * w,
		})
	}
	return s
}

// strength is the backscattering cross-section of one fish, m^2.
func (s *school) strength(wavelength float64) float64 {
	return math.Pow(10, (22.8*math.Log10(s.spec.Fish)-2.8*math.Log10(wavelength)-22.9)/10)
}

// sliceLength is the longest stretch of ground range one piece stands for.
const sliceLength = 0.4

// cut appends the pieces of the school on a ray: the ellipse in its vertical
// plane, sliced. Sound on its way to the floor crosses a slice at a slant, which
// makes it thicker; the slope of a ray to the piece from the fish is left out
// there, the pieces being short.
func (s *school) cut(dst []piece, x, y, ux, uy, end float64) []piece {
	// In the school's own axes, scaled to a unit sphere.
	dx, dy := x-s.spec.X, y-s.spec.Y
	a, b := 2/s.spec.Length, 2/s.spec.Width
	pa, pb := (dx*s.sin+dy*s.cos)*a, (dx*s.cos-dy*s.sin)*b
	ua, ub := (ux*s.sin+uy*s.cos)*a, (ux*s.cos-uy*s.sin)*b
	qa, qb, qc := ua*ua+ub*ub, pa*ua+pb*ub, pa*pa+pb*pb-1
	root := qb*qb - qa*qc
	if root <= 0 {
		return dst
	}
	root = math.Sqrt(root)
	g0, g1 := max((-qb-root)/qa, 0), min((-qb+root)/qa, end)
	if g1 <= g0 {
		return dst
	}
	n := int(math.Ceil((g1 - g0) / sliceLength))
	step := (g1 - g0) / float64(n)
	for i := range n {
		g := g0 + (float64(i)+0.5)*step
		q := max(-(qa*g*g + 2*qb*g + qc), 0)
		half := s.spec.Height / 2 * math.Sqrt(q)
		// The fish thin out towards the edge, about as 5/2 (1 - r^2), which keeps
		// their number; its mean over the height of a slice is 5/3 q.
		through := float32(math.Exp(-2 * s.kappa * step * 5 / 3 * q))
		dst = append(dst, piece{g: g, z0: -s.spec.Depth - half, z1: -s.spec.Depth + half, through: through})
	}
	return dst
}

// schoolEcho adds the fish of all schools one by one.
type schoolEcho []school

func (e schoolEcho) add(a *arrival) {
	for i := range e {
		e[i].add(a)
	}
}

func (s *school) add(a *arrival) {
	dx, dy, dz := s.spec.X-a.pose.X, s.spec.Y-a.pose.Y, -s.spec.Depth-a.pose.Z
	along, across := a.ahead(dx, dy)
	size := max(s.spec.Length, s.spec.Width) / 2
	end := float64(len(a.intensity)) * a.engine.bin
	edge := a.lobeEdge(end)
	if math.Abs(along) > size+edge || across < -size || math.Hypot(along, across) > end+size {
		return
	}
	sigma := s.each * s.strength(a.channel.wavelength)
	sin, cos := math.Sincos(a.pose.Heading)
	for i := range s.fish {
		f := &s.fish[i]
		ex, ey := dx+f[0], dy+f[1]
		along := ex*sin + ey*cos
		if math.Abs(along) > edge {
			continue
		}
		z := dz + f[2]
		r2 := ex*ex + ey*ey + z*z
		out := ex*cos - ey*sin
		if (out > 0) != (a.side == Starboard) {
			continue
		}
		r := math.Sqrt(r2)
		if math.Abs(along) > a.lobeEdge(r) {
			continue
		}
		a.target(sigma, along, r, -z/r)
	}
}
