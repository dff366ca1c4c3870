package sonar

import (
	"math"
	"runtime"
	"sync"
	"testing"

	"dryline/seabed"
	"dryline/sonar/acoustics"
)

const deg = math.Pi / 180

// plane is a flat floor with an optional block across every ray.
type plane struct {
	z         float64
	class     seabed.Class
	from, to  float64 // ground range of the block
	height    float64
	rod       bool // a rod along the track at ground range from, height above the floor
	rodRadius float64
}

func (f plane) Trace(p *seabed.Profile, x, y, ux, uy float64) {
	p.G = p.Steps
	if p.Fine > 0 && f.height > 0 && !f.rod { // sharp edges, as the real floor gives
		p.G = nil
		for i, g := range p.Steps {
			p.G = append(p.G, g)
			if g > f.from-0.2 && g < f.to+0.2 && i+1 < len(p.Steps) {
				for q := g + p.Fine; q < p.Steps[i+1]; q += p.Fine {
					p.G = append(p.G, q)
				}
			}
		}
	}
	n := len(p.G)
	p.Z = append(p.Z[:0], make([]float64, n)...)
	p.Class = append(p.Class[:0], make([]seabed.Class, n)...)
	p.Object = append(p.Object[:0], make([]uint16, n)...)
	p.Raised = p.Raised[:0]
	for i, g := range p.G {
		p.Z[i], p.Class[i] = f.z, f.class
		if f.height > 0 && !f.rod && g >= f.from && g <= f.to {
			p.Z[i], p.Class[i], p.Object[i] = f.z+f.height, seabed.Concrete, 1
		}
	}
	if f.rod {
		p.Raised = append(p.Raised, seabed.Raised{
			G: f.from, Z0: f.z + f.height - f.rodRadius, Z1: f.z + f.height + f.rodRadius,
			Class: seabed.Steel, Object: 1,
		})
	}
}

// twoChannels is an invented sonar: 450 and 900 kHz at 50 m.
func twoChannels() Spec {
	return Spec{
		RangeScale: 50, Samples: 2000, Depression: 20 * deg, VerticalBeam: 50 * deg, Rays: 5,
		Channels: []Channel{
			{Name: "450", Frequency: 450e3, Bandwidth: 20e3, PulseLength: 1e-3, ArrayLength: 0.48, Focus: Dynamic, PulseShading: "hamming", SourceLevel: 210, NoiseFigure: 8, TVGSpreading: 30, TVGAbsorption: 110},
			{Name: "900", Frequency: 900e3, Bandwidth: 40e3, PulseLength: 5e-4, ArrayLength: 0.48, Focus: Dynamic, PulseShading: "hamming", SourceLevel: 208, NoiseFigure: 8, TVGSpreading: 30, TVGAbsorption: 290},
		},
	}
}

// sharp is the same sonar with a pulse shorter than a sample, for geometry to
// the sample.
func sharp() Spec {
	s := twoChannels()
	for i := range s.Channels {
		s.Channels[i].Bandwidth, s.Channels[i].PulseLength = 0, 20e-6
	}
	return s
}

func temperate() Sea {
	return Sea{
		Temperature: 11, Salinity: 34, PH: 8, Depth: 10, Wind: 4,
		SoundSpeed: acoustics.ModelMackenzie, Absorption: acoustics.ModelFrancoisGarrison,
	}
}

func newEngine(t testing.TB, spec Spec) *Engine {
	t.Helper()
	c := acoustics.Mackenzie(11, 34, 10)
	e, err := NewEngine(spec, temperate(), c, 1)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

// ping makes one quiet starboard ping from 7 m above the floor.
func ping(e *Engine, floor Floor, altitude float64) Echo {
	echo := e.NewEcho()
	e.Ping(e.NewWorkspace(), &echo, floor, Pose{Z: -10 + altitude}, Starboard, 0)
	return echo
}

// The level of a uniform flat floor is the sonar equation's,
//
//	RL = SL - 40 log R - 2 alpha R + Sb + 10 log(R Theta delta/cos gamma)
//
// (Urick, Principles of Underwater Sound, 1983, chapter 8) with the vertical
// pattern both ways. Every term is evaluated here by package acoustics, whose
// own tests hold it to published tables; the samples come from the walk.
func TestUniformFloorFollowsTheSonarEquation(t *testing.T) {
	spec := twoChannels()
	e := newEngine(t, spec)
	e.SpeckleOff, e.NoiseOff = true, true
	const altitude = 7.0
	echo := ping(e, plane{z: -10, class: seabed.MediumSand}, altitude)
	bottom, err := acoustics.Sediment("medium_sand").Bottom()
	if err != nil {
		t.Fatal(err)
	}
	c := acoustics.Mackenzie(11, 34, 10)
	for k, channel := range spec.Channels {
		wavelength := c / channel.Frequency
		array := acoustics.LineArray{Length: channel.ArrayLength}
		pulse := acoustics.Pulse{Duration: channel.PulseLength, Bandwidth: channel.Bandwidth, Shading: acoustics.HammingShading()}
		vertical := acoustics.VerticalBeam{
			Array:      acoustics.LineArrayForWidth(spec.VerticalBeam, wavelength, acoustics.Shading{}),
			Depression: spec.Depression, BackLobe: backLobe,
		}
		alpha := acoustics.FrancoisGarrison(channel.Frequency, 11, 34, 10, 8)
		for gamma := 10.0; gamma <= 70; gamma += 2.5 {
			bin := int(altitude / math.Sin(gamma*deg) / e.Bin())
			r := (float64(bin) + 0.5) * e.Bin()
			g := math.Asin(altitude / r)
			level := acoustics.ReverberationLevel(channel.SourceLevel, bottom.Strength(g, channel.Frequency, c), r, alpha,
				acoustics.ReverberationArea(r, array.EquivalentWidth(wavelength), pulse.Resolution(c), g))
			level += acoustics.Decibels(vertical.TwoWay(g, wavelength))
			// Back from counts: take off the recorder's gain, which is set, not physics.
			sum := 0.0
			for i := bin - 2; i <= bin+2; i++ {
				v := float64(echo.Samples[k][i]) / float64(e.channels[k].gain[i])
				sum += v * v
			}
			got := acoustics.Decibels(sum / 5)
			if d := got - level; math.Abs(d) > 0.2 {
				t.Errorf("%s kHz at %.1f deg: rendered %.2f dB, sonar equation %.2f dB", channel.Name, gamma, got, level)
			}
		}
	}
}

// A block of known height on a flat floor: its height from the shadow in the
// rendered samples, by similar triangles H = h S/(R+S) with R and S slant to
// the block's top and the shadow's tip (IHO C-13, chapter 4, 2.3.11.4; exact
// on a flat floor measured that way), to one sample's worth.
func TestShadowGivesTheHeightBack(t *testing.T) {
	e := newEngine(t, sharp())
	e.SpeckleOff, e.NoiseOff = true, true
	for _, test := range []struct{ altitude, at, height float64 }{
		{7, 20, 1}, {7, 35, 0.5}, {5, 15, 2}, {8, 30, 0.25},
	} {
		echo := ping(e, plane{z: -10, class: seabed.MediumSand, from: test.at, to: test.at + 0.6, height: test.height}, test.altitude)
		intensity := func(k int) float64 {
			v := float64(echo.Samples[1][k]) / float64(e.channels[1].gain[k])
			return v * v
		}
		// The far top edge casts the tip. From the middle of the shadow, out to
		// where each side is lit, counting the part of a sample that is.
		mid := int((math.Hypot(test.at+0.6, test.altitude-test.height) + 0.2) / e.Bin())
		end, start := mid, mid
		for intensity(end) < 0.5*intensity(end+1) || intensity(end) == 0 {
			end++
		}
		for intensity(start) == 0 {
			start--
		}
		tip := float64(end) + 1 - intensity(end)/intensity(end+1)
		if intensity(end-1) > 0 {
			tip -= intensity(end-1) / intensity(end+1)
		}
		top := float64(start) + min(intensity(start)/intensity(start-1), 1)
		r, s := top*e.Bin(), (tip-top)*e.Bin()
		got := acoustics.HeightFromShadow(test.altitude, s, r)
		// What one sample of shadow is worth: dH/dS = h R/(R+S)^2.
		tol := e.Bin() * test.altitude * r / ((r + s) * (r + s))
		if math.Abs(got-test.height) > tol {
			t.Errorf("block of %.2f m at %.0f m from %.0f m up: shadow gives %.4f m (one sample is worth %.4f)", test.height, test.at, test.altitude, got, tol)
		}
	}
}

// A thin rod held clear of the floor throws a shadow detached from its echo:
// from g h/(h-z0) to g h/(h-z1) by similar triangles (exact mathematics).
func TestRaisedRodThrowsADetachedShadow(t *testing.T) {
	e := newEngine(t, sharp())
	e.SpeckleOff, e.NoiseOff = true, true
	const altitude, at, up, radius = 8.0, 20.0, 1.5, 0.2
	clean := ping(e, plane{z: -10, class: seabed.MediumSand}, altitude).Samples[1]
	row := ping(e, plane{z: -10, class: seabed.MediumSand, from: at, height: up, rod: true, rodRadius: radius}, altitude).Samples[1]
	echo := int(math.Hypot(at, altitude-up) / e.Bin())
	if row[echo] < 2*clean[echo] {
		t.Errorf("at the rod's range: %d counts, floor alone %d; want a bright echo", row[echo], clean[echo])
	}
	from := math.Hypot(at*altitude/(altitude-up+radius), altitude)
	to := math.Hypot(at*altitude/(altitude-up-radius), altitude)
	first, last := -1, -1
	for k := range row {
		if clean[k] > 0 && float64(row[k]) < 0.4*float64(clean[k]) {
			if first < 0 {
				first = k
			}
			last = k
		}
	}
	if math.Abs(float64(first)*e.Bin()-from) > 3*e.Bin() || math.Abs(float64(last+1)*e.Bin()-to) > 3*e.Bin() {
		t.Errorf("shadow from %.2f to %.2f m, geometry says %.2f to %.2f", float64(first)*e.Bin(), float64(last+1)*e.Bin(), from, to)
	}
}

// The first return comes from straight below, at R = h; before it there is
// only noise (exact geometry).
func TestFirstReturn(t *testing.T) {
	e := newEngine(t, sharp())
	e.NoiseOff, e.SpeckleOff = true, true
	row := ping(e, plane{z: -10, class: seabed.Mud}, 6.4).Samples[0]
	k := 0
	for row[k] == 0 {
		k++
	}
	if got := float64(k) * e.Bin(); math.Abs(got-6.4) > 3*e.Bin() {
		t.Errorf("first return at %.3f m, want 6.4", got)
	}
}

// A small bright object is drawn as wide along track as the beam: about the
// length of an unfocused array in its near field, R theta with dynamic focus.
// Trade facts (common practice, no source): a high-frequency focused sonar
// resolves about 10 cm at 40 m and 6 to 8 cm at 25 m.
func TestBeamWidthAlongTrack(t *testing.T) {
	for _, test := range []struct {
		name     string
		length   float64
		focus    float64
		at       float64
		min, max float64 // of the half-power width, metres
	}{
		{"unfocused, near field", 0.5, 0, 25, 0.40, 0.60},
		{"focused dynamically at 40 m", 0.5, Dynamic, 40, 0.07, 0.13},
		{"focused dynamically at 25 m", 0.5, Dynamic, 25, 0.045, 0.08},
		{"focused at 40 m, seen at 20 m", 0.5, 40, 20, 0.20, 0.32},
		{"focused at 40 m, seen there", 0.5, 40, 40, 0.07, 0.13},
	} {
		spec := twoChannels()
		spec.Channels = spec.Channels[1:]
		spec.Channels[0].ArrayLength, spec.Channels[0].Focus = test.length, test.focus
		spec.Channels[0].TVGAbsorption, spec.Channels[0].Gain = 0, -12
		spec.Rays, spec.Samples = 9, 500
		e := newEngine(t, spec)
		e.SpeckleOff, e.NoiseOff = true, true
		world := seabed.New(seabed.Spec{
			East: 200, North: 200, Depth: 10, Base: seabed.Mud, Relief: seabed.Relief{Wavelength: 40},
			Objects: []seabed.Object{{Kind: "block", Class: seabed.Steel, At: seabed.Point{X: 100 + test.at, Y: 100}, Length: 0.04, Width: 0.3, Height: 0.3}},
		}, 4)
		ws, echo := e.NewWorkspace(), e.NewEcho()
		// The equivalent width: what the beam gathers over all offsets, over what
		// it gathers on its axis. For this pattern it is 1.045 half-power widths.
		const step, reach = 0.02, 0.7
		total, axis, onAxis := 0.0, 0.0, 0.0
		for i := range int(2 * reach / step) {
			y := -reach + step*float64(i)
			sum := 0.0
			for n := range uint64(50) { // the jitter of the rays averages out
				e.Ping(ws, &echo, world, Pose{X: 100, Y: 100 + y, Z: -3}, Starboard, uint64(i)*50+n)
				k := int(math.Hypot(test.at-0.15, 7) / e.Bin())
				for _, v := range echo.Samples[0][k-1 : k+2] {
					sum += float64(v) * float64(v)
				}
			}
			total += sum * step
			if math.Abs(y) < 0.015+test.max/8 {
				axis, onAxis = axis+sum, onAxis+1
			}
		}
		wide := total / (axis / onAxis) / 1.045
		if wide < test.min || wide > test.max {
			t.Errorf("%s: %.3f m wide, want %.2f to %.2f", test.name, wide, test.min, test.max)
		}
	}
}

// Where nothing echoes the record holds the noise of the sonar equation,
//
//	NL = spectrum level + 10 log B - DI - 10 log(B tau)
//
// the last term for a compressed chirp only (Urick 1983, chapters 2 and 7),
// with the thermal level of Mellen (1952); in a calm as well as in a wind.
func TestNoiseFloor(t *testing.T) {
	for _, test := range []struct {
		name      string
		bandwidth float64
		wind      float64
	}{{"chirp in a wind", 20e3, 8}, {"chirp in a calm", 20e3, 0}, {"tone in a calm", 0, 0}} {
		spec := twoChannels()
		spec.Channels = spec.Channels[:1]
		spec.Channels[0].Bandwidth, spec.Channels[0].Gain, spec.Channels[0].PulseShading = test.bandwidth, 60, ""
		if test.bandwidth == 0 {
			spec.Channels[0].PulseLength = 100e-6
		}
		sea := temperate()
		sea.Wind = test.wind
		c := acoustics.Mackenzie(11, 34, 10)
		e, err := NewEngine(spec, sea, c, 1)
		if err != nil {
			t.Fatal(err)
		}
		e.SpeckleOff = true
		row := ping(e, plane{z: -100, class: seabed.Mud}, 90).Samples[0] // the floor is beyond the record
		v := float64(row[200]) / float64(e.channels[0].gain[200])
		got := acoustics.Decibels(v * v)

		channel := spec.Channels[0]
		wavelength := c / channel.Frequency
		thermal := acoustics.ThermalNoise(channel.Frequency, 11, density, c)
		spectrum := acoustics.AddLevels(thermal, acoustics.WindNoise(channel.Frequency, test.wind), thermal+channel.NoiseFigure)
		band, gain := 1/channel.PulseLength, 0.0
		if test.bandwidth > 0 {
			band, gain = test.bandwidth, 10*math.Log10(test.bandwidth*channel.PulseLength)
		}
		height := acoustics.LineArrayForWidth(spec.VerticalBeam, wavelength, acoustics.Shading{}).Length
		want := spectrum + 10*math.Log10(band) - acoustics.PistonDirectivityIndex(channel.ArrayLength, height, wavelength) - gain
		if math.Abs(got-want) > 0.1 {
			t.Errorf("%s: rendered %.2f dB, noise equation %.2f dB", test.name, got, want)
		}
	}
}

// Speckle of a uniform floor: exponential intensity, so the amplitude's
// standard deviation over its mean is sqrt(4/pi - 1) = 0.522723 and the
// intensity exceeds x times its mean with probability exp(-x) (Goodman,
// Speckle Phenomena in Optics, 2007; exact for Rayleigh amplitude).
func TestSpeckleStatistics(t *testing.T) {
	e := newEngine(t, twoChannels())
	quiet := newEngine(t, twoChannels())
	quiet.SpeckleOff = true
	floor := plane{z: -10, class: seabed.MediumSand}
	mean := ping(quiet, floor, 7).Samples[0]
	ws, echo := e.NewWorkspace(), e.NewEcho()
	n, sum, sum2, over3, over1 := 0.0, 0.0, 0.0, 0.0, 0.0
	for number := range uint64(1200) {
		e.Ping(ws, &echo, floor, Pose{Z: -3, Run: float64(number)}, Port, number)
		for k := 600; k < 1800; k++ {
			a := float64(echo.Samples[0][k]) / float64(mean[k])
			n, sum, sum2 = n+1, sum+a, sum2+a*a
			if a*a > 3 {
				over3++
			}
			if a*a > 1 {
				over1++
			}
		}
	}
	m := sum / n
	if got := math.Sqrt(sum2/n-m*m) / m; math.Abs(got-0.522723) > 0.003 {
		t.Errorf("amplitude contrast: got %.4f, want 0.5227", got)
	}
	if got := sum2 / n; math.Abs(got-1) > 0.01 {
		t.Errorf("mean intensity over the noise-free one: got %.4f, want 1", got)
	}
	for _, tail := range []struct{ x, count float64 }{{1, over1}, {3, over3}} {
		if got, want := tail.count/n, math.Exp(-tail.x); math.Abs(got-want) > 0.02*want {
			t.Errorf("P(I > %g mean): got %.5f, want %.5f", tail.x, got, want)
		}
	}
}

// An object 10 dB stronger answers 10 dB stronger, and nothing else does.
func TestObjectStrength(t *testing.T) {
	e := newEngine(t, sharp())
	e.SpeckleOff, e.NoiseOff = true, true
	floor := plane{z: -10, class: seabed.MediumSand, from: 30, to: 30.6, height: 1}
	usual := ping(e, floor, 7).Samples[0]
	e.Strengthen([]float64{-10})
	weaker := ping(e, floor, 7).Samples[0]
	k := int(math.Hypot(30.3, 6)/e.Bin()) - 2 // on the block's top
	if got := 20 * math.Log10(float64(usual[k])/float64(weaker[k])); math.Abs(got-10) > 0.2 {
		t.Errorf("on the block: %.2f dB weaker, want 10", got)
	}
	if k := int(20 / e.Bin()); usual[k] != weaker[k] {
		t.Errorf("on the floor: %d counts, before %d", weaker[k], usual[k])
	}
}

// Order of the sediments at equal grazing angle: mud < sand < gravel < rock
// (APL-UW TR 9407, tables 2 and 3).
func TestSedimentOrder(t *testing.T) {
	e := newEngine(t, twoChannels())
	e.SpeckleOff, e.NoiseOff = true, true
	for channel := range 2 {
		last := 0.0
		for _, class := range []seabed.Class{seabed.Mud, seabed.MediumSand, seabed.Gravel, seabed.Rock} {
			row := ping(e, plane{z: -10, class: class}, 7).Samples[channel]
			level := float64(row[int(7/math.Sin(20*deg)/e.Bin())])
			if level <= last {
				t.Errorf("channel %d: %v gives %.0f counts, not above the finer sediment's %.0f", channel, class, level, last)
			}
			last = level
		}
	}
}

// The same ping is the same bytes whoever makes it and in whatever order.
func TestPingsDoNotDependOnOrder(t *testing.T) {
	e := newEngine(t, twoChannels())
	world := seabed.New(seabed.Spec{
		East: 200, North: 200, Depth: 10, Base: seabed.MediumSand,
		Relief: seabed.Relief{Height: 0.6, Wavelength: 40, Octaves: 3},
	}, 4)
	pose := func(i int) Pose { return Pose{X: 100, Y: 60 + 0.4*float64(i), Z: -4 - 0.01*float64(i), Heading: 0.01} }
	const pings = 60
	forward := make([]Echo, pings)
	ws := e.NewWorkspace()
	for i := range forward {
		forward[i] = e.NewEcho()
		e.Ping(ws, &forward[i], world, pose(i), Starboard, uint64(i))
	}
	var group sync.WaitGroup
	var mu sync.Mutex
	for w := range runtime.GOMAXPROCS(0) + 1 {
		group.Go(func() {
			ws, echo := e.NewWorkspace(), e.NewEcho()
			for i := pings - 1 - w; i >= 0; i -= runtime.GOMAXPROCS(0) + 1 {
				e.Ping(ws, &echo, world, pose(i), Starboard, uint64(i))
				for c := range echo.Samples {
					for k, v := range echo.Samples[c] {
						if v != forward[i].Samples[c][k] {
							mu.Lock()
							t.Errorf("ping %d channel %d sample %d: %d, forward %d", i, c, k, v, forward[i].Samples[c][k])
							mu.Unlock()
							return
						}
					}
				}
			}
		})
	}
	group.Wait()
}

// walkPlain is the walk written for reading: one channel, one ray, every
// facet's echo spread evenly over the slant ranges it spans, nothing shared
// or precomputed.
func walkPlain(e *Engine, p *seabed.Profile, fishZ float64, weight func(bin int) float64, channel int) []float64 {
	t := e.channels[channel]
	energy := make([]float64, e.spec.Samples)
	horizon := math.Inf(-1)
	for i := 1; i < len(p.G); i++ {
		a, b := p.G[i-1], p.G[i]
		ha, hb := fishZ-p.Z[i-1], fishZ-p.Z[i]
		ea, eb := -ha/a, -hb/b
		ra, rb := math.Hypot(a, ha), math.Hypot(b, hb)
		lit, from := 0.0, ra
		if eb > horizon {
			lit = 1
			if ea < horizon {
				lit = (eb - horizon) / (eb - ea)
				from = rb - lit*(rb-ra)
			}
			horizon = eb
		}
		r := (ra + rb) / 2
		length := math.Hypot(b-a, hb-ha)
		sine := ((ha-hb)*(a+b)/2 + (b-a)*(ha+hb)/2) / r / length
		if lit == 0 || sine <= 0 {
			continue
		}
		depression := math.Asin((ha + hb) / 2 / r)
		vertical := t.vertical[int((depression+math.Pi)*verticalSteps/(2*math.Pi))]
		x := weight(int(min(from, rb)/e.bin)) * vertical * float64(t.strength[p.Class[i]][min(int(sine*strengthSteps), strengthSteps-1)]) * length * r * lit
		low, high := min(from, rb)/e.bin, max(from, rb)/e.bin
		for k := range energy { // what of the facet falls into each bin
			if part := min(high, float64(k+1)) - max(low, float64(k)); part > 0 {
				energy[k] += x * part / (high - low)
			}
		}
	}
	return energy
}

// The fast walk against the plain one, over real ground with a block on it.
// (Of stone: steel's gleam is so narrow that rounding to the next step of the
// strength table would show.)
func TestWalkAgreesWithPlainForm(t *testing.T) {
	e := newEngine(t, twoChannels())
	world := seabed.New(seabed.Spec{
		East: 200, North: 200, Depth: 10, Base: seabed.Gravel,
		Relief: seabed.Relief{Height: 1, Wavelength: 30, Octaves: 3},
		Objects: []seabed.Object{
			{Kind: "block", Class: seabed.Stone, At: seabed.Point{X: 120, Y: 100}, Length: 6, Width: 2.4, Height: 2.5, Heading: 1},
		},
	}, 4)
	ws := e.NewWorkspace()
	echo := e.NewEcho()
	pose := Pose{X: 100, Y: 100, Z: -4}
	ws.begin(e, world, pose)
	e.lay(ws, 0)
	ws.tilt(e, 0)
	world.Trace(&ws.profile, pose.X, pose.Y, 1, 0)
	e.walk(ws, &echo, 2, pose.Z)
	for channel := range 2 {
		ws.gather(channel)
		weight := func(bin int) float64 {
			return ws.lanes[channel].weights[min(bin, e.spec.Samples-1)/segmentBins*e.spec.Rays+2]
		}
		plain := walkPlain(e, &ws.profile, pose.Z, weight, channel)
		total, miss := 0.0, 0.0
		for k, want := range plain {
			total += want
			miss += math.Abs(float64(ws.energy[k]) - want)
		}
		if miss > 0.001*total {
			t.Errorf("channel %d: the walks differ by %.2f %% of the echo", channel, 100*miss/total)
		}
	}
	if len(echo.Lit) != 1 || echo.Lit[0] != 1 {
		t.Errorf("lit objects: got %v, want the block", echo.Lit)
	}
}

func TestPingAllocatesNothing(t *testing.T) {
	e := newEngine(t, twoChannels())
	world := seabed.New(seabed.Spec{East: 200, North: 200, Depth: 10, Relief: seabed.Relief{Wavelength: 40}}, 4)
	ws, echo := e.NewWorkspace(), e.NewEcho()
	pose := Pose{X: 100, Y: 100, Z: -4}
	e.Ping(ws, &echo, world, pose, Port, 0)
	if got := testing.AllocsPerRun(20, func() { e.Ping(ws, &echo, world, pose, Port, 1) }); got != 0 {
		t.Errorf("allocations per ping: got %g, want 0", got)
	}
}

// BenchmarkPing is one full dual-channel ping, both sides, at 50 m.
func BenchmarkPing(b *testing.B) {
	e := newEngine(b, twoChannels())
	world := seabed.New(seabed.Spec{
		East: 200, North: 200, Depth: 10, Base: seabed.MediumSand,
		Relief:   seabed.Relief{Height: 0.6, Wavelength: 40, Octaves: 3},
		Bedforms: []seabed.Bedform{{Kind: seabed.Waves, Height: 0.05, Wavelength: 0.5, Wander: 0.4}},
	}, 4)
	ws := e.NewWorkspace()
	port, starboard := e.NewEcho(), e.NewEcho()
	pose := Pose{X: 100, Y: 100, Z: -4}
	e.Ping(ws, &port, world, pose, Port, 0)
	e.Ping(ws, &starboard, world, pose, Starboard, 0)
	b.ReportAllocs()
	number := uint64(0)
	for b.Loop() {
		number++
		e.Ping(ws, &port, world, pose, Port, number)
		e.Ping(ws, &starboard, world, pose, Starboard, number)
	}
}
