package sonar

import (
	"math"
	"testing"
)

// casts are invented waters, each with something of its own that bends sound.
var casts = []struct {
	name string
	cast []CastPoint
}{
	{"thermocline", thermocline},
	{"cold fresh over warm salt", []CastPoint{{0, 1480}, {3, 1482}, {6, 1500}, {12, 1502}, {40, 1503}}},
	{"slow layer", []CastPoint{{0, 1500}, {5, 1490}, {10, 1490}, {15, 1502}, {30, 1500}}},
	{"fast layer", []CastPoint{{0, 1490}, {4, 1490}, {6, 1500}, {9, 1492}, {30, 1491}}},
	{"one gradient", []CastPoint{{0, 1490}, {20, 1670}}},
	{"many layers", []CastPoint{{0, 1505}, {2, 1503}, {4, 1504}, {6, 1498}, {8, 1499}, {10, 1494}, {12, 1495}, {20, 1493}}},
}

// land follows one ray by fourth-order Runge-Kutta, like shoot, to where it first
// crosses a depth; elevation is its launch's, up positive.
func land(p profile, depth, elevation, to float64) (g, t, arrival float64) {
	type state struct{ g, z, theta float64 }
	rate := func(s state) state {
		c, gradient := p.at(s.z)
		return state{c * math.Cos(s.theta), c * math.Sin(s.theta), -math.Cos(s.theta) * gradient}
	}
	add := func(a state, h float64, b state) state {
		return state{a.g + h*b.g, a.z + h*b.z, a.theta + h*b.theta}
	}
	s := state{0, depth, -elevation}
	const dt = 3e-6
	for t < 0.2 {
		k1 := rate(s)
		k2 := rate(add(s, dt/2, k1))
		k3 := rate(add(s, dt/2, k2))
		k4 := rate(add(s, dt, k3))
		n := add(add(add(add(s, dt/6, k1), dt/3, k2), dt/3, k3), dt/6, k4)
		if t > 0 && (n.z-to)*(s.z-to) <= 0 {
			f := (to - s.z) / (n.z - s.z)
			return s.g + f*(n.g-s.g), t + f*dt, -(s.theta + f*(n.theta-s.theta))
		}
		s, t = n, t+dt
	}
	return math.Inf(1), t, 0
}

// Every ray that is found, straight or turned, does arrive where and when it is
// said to, by an integration that knows no circles.
func TestRaysArriveWhereTheyAreSaidTo(t *testing.T) {
	for _, row := range casts {
		p, err := newProfile(row.cast)
		if err != nil {
			t.Fatal(err)
		}
		direct, turned, hairs := 0, 0, 0
		for _, depth := range []float64{2, 5.3, 8.1, 11} {
			for _, to := range []float64{0.5, 4.2, 7, 9.9, 14, 21} {
				var ways passages
				ways.lay(p, depth, to)
				most := math.Inf(1)
				for _, g := range []float64{0.4, 7, 22, 43, 69, 97} {
					way, u := ways.reach(g, most)
					if way == nil {
						continue
					}
					most = u
					if way.back.gradient > 0 {
						turned++
					} else {
						direct++
					}
					launch, arrive := way.tangents(u)
					there, _ := p.at(to)
					gotG, gotTime, gotArrival := land(p, depth, math.Atan(launch), to)
					if math.Abs(gotG-g) > 0.005 {
						// A grazing ray lands far off for a hair of angle: then rays a hair
						// to either side land to either side.
						const hair = 2e-5
						a, _, _ := land(p, depth, math.Atan(launch)-hair, to)
						b, _, _ := land(p, depth, math.Atan(launch)+hair, to)
						if hairs++; min(a, b) > g || max(a, b) < g {
							t.Errorf("%s, from %g m to %g m deep at %g m: it lands at %.4f m, beside it at %.4f and %.4f", row.name, depth, to, g, gotG, a, b)
						}
						continue
					}
					if late := way.time(u) - gotTime - (g-gotG)*math.Cos(gotArrival)/there; math.Abs(late)*1500 > 5e-4 {
						t.Errorf("%s, from %g m to %g m deep at %g m: %.7f s said, %.7f s taken", row.name, depth, to, g, way.time(u), gotTime)
					}
					if math.Abs(math.Tan(gotArrival)-arrive) > 2e-3*(1+arrive*arrive) {
						t.Errorf("%s, from %g m to %g m deep at %g m: arrives with %.5f, said %.5f", row.name, depth, to, g, math.Tan(gotArrival), arrive)
					}
				}
			}
		}
		if direct < 40 || turned == 0 || hairs > (direct+turned)/10 {
			t.Errorf("%s: %d straight and %d turned rays, %d of them off by a hair; want both, and few off", row.name, direct, turned, hairs)
		}
	}
}
