package sonar

import (
	"math"
	"slices"
	"testing"

	"dryline/seabed"
)

// thermocline is an invented cast: warm water over cold, 9 m/s slower through
// three metres. Its corners are rounded by nothing.
var thermocline = []CastPoint{{0, 1505}, {6, 1505}, {9, 1496}, {40, 1496}}

// shoot follows one ray by fourth-order Runge-Kutta on the ray equations with
// time as the variable, independently of the tables: dg/dt = c cos, dz/dt =
// c sin, dtheta/dt = -cos dc/dz (Jensen, Kuperman, Porter and Schmidt,
// Computational Ocean Acoustics, 2011, chapter 3). It returns where and when
// the ray reaches the floor.
func shoot(p profile, depth, theta, floor float64) (g, t float64) {
	type state struct{ g, z, theta float64 }
	rate := func(s state) state {
		c, gradient := p.at(s.z)
		return state{c * math.Cos(s.theta), c * math.Sin(s.theta), -math.Cos(s.theta) * gradient}
	}
	add := func(a state, h float64, b state) state {
		return state{a.g + h*b.g, a.z + h*b.z, a.theta + h*b.theta}
	}
	s := state{0, depth, theta}
	const dt = 2e-6
	for t < 0.1 {
		k1 := rate(s)
		k2 := rate(add(s, dt/2, k1))
		k3 := rate(add(s, dt/2, k2))
		k4 := rate(add(s, dt, k3))
		n := add(add(add(add(s, dt/6, k1), dt/3, k2), dt/3, k3), dt/6, k4)
		if n.z >= floor {
			f := (floor - s.z) / (n.z - s.z)
			return s.g + f*(n.g-s.g), t + f*dt
		}
		s, t = n, t+dt
	}
	return math.Inf(1), t
}

// travel is the time to a floor point, by shooting rays until one lands there.
func travel(p profile, depth, floor, g float64) float64 {
	steep, shallow := math.Pi/2-0.01, 0.0
	for range 60 {
		mid := (steep + shallow) / 2
		if at, _ := shoot(p, depth, mid, floor); at < g {
			steep = mid
		} else {
			shallow = mid
		}
	}
	_, t := shoot(p, depth, (steep+shallow)/2, floor)
	return t
}

// A bright strip on the floor under a thermocline appears in the rendered
// samples at the travel time of an independent ray integration, and its
// displacement against straight rays is what that integration says.
func TestRefractionDisplacement(t *testing.T) {
	sea := temperate()
	sea.Cast = thermocline
	e, err := NewEngine(sharp(), sea, 1500, 1)
	if err != nil {
		t.Fatal(err)
	}
	e.SpeckleOff, e.NoiseOff = true, true
	p, err := newProfile(thermocline)
	if err != nil {
		t.Fatal(err)
	}
	const depth, floor = 5.0, 14.0
	for _, at := range []float64{12, 25, 38, 46} {
		world := strip{z: -floor, at: at}
		echo := e.NewEcho()
		e.Ping(e.NewWorkspace(), &echo, world, Pose{Z: -depth}, Starboard, 0)
		// The strip is the only thing that answers strongly.
		sum, weight := 0.0, 0.0
		for k, v := range echo.Samples[0] {
			i := float64(v) * float64(v)
			sum, weight = sum+i*(float64(k)+0.5), weight+i
		}
		got := sum / weight * e.Bin() / e.SoundSpeed() // one way, seconds
		want := travel(p, depth, floor, at)
		straight := math.Hypot(at, floor-depth) / e.SoundSpeed()
		// Half a sample, and the width of the strip.
		if tol := e.Bin() / e.SoundSpeed(); math.Abs(got-want) > tol {
			t.Errorf("strip at %g m: heard after %.4f ms one way, rays say %.4f (straight %.4f, a sample is %.4f)",
				at, got*1e3, want*1e3, straight*1e3, tol*1e3)
		}
	}
}

// strip is a black floor with a narrow bright strip along the track.
type strip struct{ z, at float64 }

func (f strip) Trace(s *Section, x, y, ux, uy float64) {
	s.G = s.Steps
	s.Z = append(s.Z[:0], make([]float64, len(s.G))...)
	s.Class = append(s.Class[:0], make([]seabed.Class, len(s.G))...)
	s.Object = append(s.Object[:0], make([]uint16, len(s.G))...)
	s.Raised = s.Raised[:0]
	for i, g := range s.G {
		s.Z[i], s.Class[i] = f.z, seabed.Unset // answers nothing
		if i > 0 && s.G[i-1] < f.at && g >= f.at {
			s.Class[i] = seabed.Rock
		}
	}
}

// Sound that speeds up with depth bends away from the floor: beyond the range
// at which the last ray grazes it nothing is lit. In a constant gradient b the
// rays are circles of radius c/(b cos theta) (exact), and the limiting ray
// from height h above the floor touches it at g = sqrt(h (2 c/b + h)).
func TestShadowZone(t *testing.T) {
	const depth, floor, gradient = 5.0, 10.0, 9.0
	sea := temperate()
	sea.Cast = []CastPoint{{0, 1490}, {20, 1490 + 20*gradient}}
	e, err := NewEngine(sharp(), sea, 1500, 1)
	if err != nil {
		t.Fatal(err)
	}
	e.SpeckleOff, e.NoiseOff = true, true
	echo := e.NewEcho()
	e.Ping(e.NewWorkspace(), &echo, plane{z: -floor, class: seabed.Rock}, Pose{Z: -depth}, Starboard, 0)
	last := 0
	for k, v := range echo.Samples[0] {
		if v > 0 {
			last = k
		}
	}
	h := floor - depth
	touch := math.Sqrt(h * (2*(1490+floor*gradient)/gradient - h)) // by Snell at the floor, where the ray is level
	// Slant range by the reference speed, as the samples have it.
	p, err := newProfile(sea.Cast)
	if err != nil {
		t.Fatal(err)
	}
	limit := travel(p, depth, floor, touch-1e-3) * e.SoundSpeed()
	if got := float64(last) * e.Bin(); math.Abs(got-limit) > 1 {
		t.Errorf("the floor is lit to %.1f m of slant range, the limiting ray touches it at %.1f m", got, limit)
	}
}

// The table says what rays traced step by step say, at every depth and range:
// within the two millimetres to which those are traced, and the same points are
// lit but for a column here and there.
func TestRefractionAgreesWithTracedRays(t *testing.T) {
	for _, row := range casts[:5] { // among many layers tracing joins rays that are parted
		p, err := newProfile(row.cast)
		if err != nil {
			t.Fatal(err)
		}
		for _, depth := range []float64{2, 5.3, 11} {
			const end, reference = 50, 1497
			plain := newPlainRefraction(p, depth, end, reference)
			var fast refraction
			fast.begin(p, depth, end, reference)
			points, parted := 0, 0
			for j := range plain.rows {
				if math.Abs(float64(j)*rowStep-depth) < 1.5*rowStep {
					continue // next to the fish's own depth tracing has no level ray
				}
				for i, got := range fast.row(j) {
					want := plain.table[j*plain.columns+i]
					g := float64(i) / fast.perMetre
					drop := float64(j)*rowStep - depth
					if g < 0.1*math.Abs(drop) {
						continue // steeper than matters for where sound lands
					}
					points++
					if (got.launch == dark) != (want.launch == dark) {
						parted++
						continue
					}
					if got.launch == dark {
						continue
					}
					slack := 1e-3 * (1 + drop*drop/(g*g)) // of a tangent that its angle has to a thousandth
					if math.Abs(float64(got.excess-want.excess)) > 2e-3 ||
						math.Abs(float64(got.launch-want.launch)) > slack || math.Abs(float64(got.arrive-want.arrive)) > slack {
						t.Errorf("%s from %g m, at %.2f m and %g m deep: got %+v, traced rays say %+v", row.name, depth, g, float64(j)*rowStep, got, want)
					}
				}
			}
			if parted > points/200 {
				t.Errorf("%s from %g m: lit or dark otherwise than traced rays at %d of %d points", row.name, depth, parted, points)
			}
		}
	}
}

// A new fish depth costs no more than the rows a floor lies in, and all of them
// together a bounded memory, whoever asks in what order.
func TestRefractionsAreCheapAndBounded(t *testing.T) {
	sea := temperate()
	sea.Cast = thermocline
	e, err := NewEngine(sharp(), sea, 1500, 1)
	if err != nil {
		t.Fatal(err)
	}
	var floor Floor = plane{z: -14, class: seabed.Rock}
	echo, again := e.NewEcho(), e.NewEcho()
	ws := e.NewWorkspace()
	ping := func(dst *Echo, ws *Workspace, step int) {
		e.Ping(ws, dst, floor, Pose{Z: -1 - float64(step)*refractionStep}, Starboard, uint64(step))
	}
	for step := range 2 * refractionsKept { // every place is taken twice
		ping(&echo, ws, step)
	}
	step := 0
	if n := testing.AllocsPerRun(100, func() { ping(&echo, ws, step); step++ }); n > 0 {
		t.Errorf("a ping from a new depth allocates %g times, want none once the places are taken", n)
	}
	for _, step := range []int{0, 99, 16, 50} {
		ping(&echo, ws, step)
		ping(&again, e.NewWorkspace(), step)
		if !slices.Equal(echo.Samples[0], again.Samples[0]) {
			t.Errorf("depth step %d: a workspace that has been elsewhere makes another ping", step)
		}
	}
}

// Without a gradient nothing is corrected.
func TestUniformCastIsStraight(t *testing.T) {
	p, err := newProfile([]CastPoint{{0, 1490}, {30, 1490}})
	if err != nil {
		t.Fatal(err)
	}
	var r refraction
	r.begin(p, 5, 50, 1490)
	for g := 3.0; g < 49; g += 0.7 {
		for z := 7.0; z < 18; z += 0.9 {
			c := r.at(g, z)
			if math.Abs(float64(c.excess)) > 0.01 || math.Abs(float64(c.launch)) > 0.01 {
				t.Fatalf("at %.1f m, %.1f m deep: %+v, want nothing", g, z, c)
			}
		}
	}
}

func TestBadCasts(t *testing.T) {
	for _, cast := range [][]CastPoint{{{0, 150}}, {{3, 1500}, {3, 1490}}} {
		if _, err := newProfile(cast); err == nil {
			t.Errorf("%v was accepted", cast)
		}
	}
}
