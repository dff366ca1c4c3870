package sonar

import (
	"math"
	"testing"

	"dryline/seabed"
)

// unfurnished is ground that does not tell what stands on it: rays see what they
// meet, read every millimetre or so.
type unfurnished struct{ ground Ground }

func (u unfurnished) Trace(s *Section, x, y, ux, uy float64) {
	fine := s.Fine
	s.Fine /= 20
	u.ground.Trace(s, x, y, ux, uy)
	s.Fine = fine
}

// passed holds what echo and shadow of a thing gain and lose of the bare ground's
// energy in each channel, ping by ping as the fish tows past it.
func passed(t *testing.T, rays int, with, without Floor, pings int, step, near, far, tip float64) (echo, shadow [2][]float64) {
	t.Helper()
	spec := sharp()
	spec.Rays = rays
	for c := range spec.Channels {
		spec.Channels[c].Focus, spec.Channels[c].Gain = 0, -6
	}
	e := newEngine(t, spec)
	e.SpeckleOff, e.NoiseOff = true, true
	ws, out, clean := e.NewWorkspace(), e.NewEcho(), e.NewEcho()
	sum := func(out *Echo, channel int, from, to float64) float64 {
		total := 0.0
		for k := int(from / e.Bin()); k < int(to/e.Bin()); k++ {
			v := float64(out.Samples[channel][k]) / float64(e.channels[channel].gain[k])
			total += v * v
		}
		return total
	}
	for i := range pings {
		pose := Pose{X: 100, Y: 100 + step*(float64(i)-float64(pings)/2), Z: -3}
		e.Ping(ws, &out, with, pose, Starboard, 0)
		e.Ping(ws, &clean, without, pose, Starboard, 0)
		for c := range echo {
			echo[c] = append(echo[c], sum(&out, c, near, far)-sum(&clean, c, near, far))
			shadow[c] = append(shadow[c], 1-sum(&out, c, far+0.2, tip)/sum(&clean, c, far+0.2, tip))
		}
	}
	return echo, shadow
}

// What a few rays and strips make of thin things is what very many rays make of
// them, ping by ping: of a post, a rope near the ground, a small block, and of
// things side by side. No ping whose beam covers one misses it.
func TestThinThingsAreSeenByEveryPing(t *testing.T) {
	const at = 24.0
	here := func(o seabed.Object) seabed.Object {
		o.At = seabed.Point{X: 100 + at + o.At.X, Y: 100 + o.At.Y}
		return o
	}
	without := mudWith()
	for _, test := range []struct {
		name   string
		things []seabed.Object
	}{
		{"post of 5 cm", []seabed.Object{{Kind: "block", Class: seabed.Stone, Length: 0.05, Width: 0.05, Height: 0.8}}},
		{"post of 2 cm", []seabed.Object{{Kind: "block", Class: seabed.Stone, Length: 0.02, Width: 0.02, Height: 0.8}}},
		{"turned block", []seabed.Object{{Kind: "block", Class: seabed.Stone, Length: 0.5, Width: 0.2, Height: 0.3, Heading: 0.6}}},
		{"two posts", []seabed.Object{
			{Kind: "block", Class: seabed.Stone, Length: 0.04, Width: 0.04, Height: 0.7},
			{Kind: "block", Class: seabed.Stone, At: seabed.Point{X: 0.1, Y: 0.13}, Length: 0.04, Width: 0.04, Height: 0.7},
		}},
		{"mast that leans", []seabed.Object{{Kind: "mast", Length: 4, Width: 0.1, Height: 1.2, Heading: 0.5}}},
		{"pots on a rope", []seabed.Object{{Kind: "pot_string", Length: 30, Width: 2, Height: 2, Heading: 1.2}}},
		{"anchor and chain", []seabed.Object{{Kind: "anchor_chain", Length: 8, Width: 2, Height: 0.7, Heading: 0.9}}},
	} {
		var objects []seabed.Object
		tall, long := 0.0, 0.5
		for _, o := range test.things {
			objects = append(objects, here(o))
			tall, long = max(tall, o.Height), max(long, o.Length/2)
		}
		with := mudWith(objects...)
		near, far := math.Hypot(at-long, 7-tall)-0.1, math.Hypot(at+long, 7)
		tip := max(math.Hypot(at*7/(7-tall), 7), far+1)
		const pings, step = 25, 0.0237
		echoes, shadows := passed(t, 5, with, without, pings, step, near, far, tip)
		truths, darks := passed(t, 241, unfurnished{with}, unfurnished{without}, pings, step, near, far, tip)
		for channel := range 2 {
			echo, shadow, truth, dark := echoes[channel], shadows[channel], truths[channel], darks[channel]
			most, deep := 0.0, 0.0
			for i := range truth {
				most, deep = max(most, truth[i]), max(deep, dark[i])
			}
			for i := range truth {
				if math.Abs(echo[i]-truth[i]) > 0.1*most {
					t.Errorf("%s, channel %d, ping %d: echo %.3f of the strongest, very many rays see %.3f", test.name, channel, i, echo[i]/most, truth[i]/most)
				}
				if math.Abs(shadow[i]-dark[i]) > 0.1*max(deep, 0.1) {
					t.Errorf("%s, channel %d, ping %d: shadow takes %.3f, by very many rays %.3f", test.name, channel, i, shadow[i], dark[i])
				}
			}
		}
	}
}

// A ping over things allocates nothing once its workspace has grown, however many
// they are.
func TestPingOverThingsAllocatesNothing(t *testing.T) {
	e := newEngine(t, twoChannels())
	world := mudWith(
		seabed.Object{Kind: "steel_wreck", At: seabed.Point{X: 130, Y: 100}, Length: 30, Width: 8, Height: 5, Heading: 0.3},
		seabed.Object{Kind: "anchor_chain", At: seabed.Point{X: 112, Y: 100}, Length: 8, Width: 2, Height: 0.7, Heading: 0.9},
		seabed.Object{Kind: "mooring", At: seabed.Point{X: 107, Y: 100}, Length: 1.6, Width: 1.6, Height: 4},
	)
	ws, echo := e.NewWorkspace(), e.NewEcho()
	pose := Pose{X: 100, Y: 100, Z: -4, Speed: 2}
	e.Ping(ws, &echo, world, pose, Starboard, 0)
	if len(echo.Lit) < 3 {
		t.Fatalf("objects lit: %v, want all three", echo.Lit)
	}
	if got := testing.AllocsPerRun(20, func() { e.Ping(ws, &echo, world, pose, Starboard, 1) }); got != 0 {
		t.Errorf("allocations per ping: got %g, want 0", got)
	}
}

// The ground a ping answers for lies abreast of where the fish is at R/c: a thing
// at 48 m is strongest when the ping is sent v R/c short of it (exact geometry).
func TestPingLooksAbreastOfWhereTheFishWillBe(t *testing.T) {
	const at, speed = 47.0, 4.1
	spec := sharp()
	e := newEngine(t, spec)
	e.SpeckleOff, e.NoiseOff = true, true
	with := mudWith(seabed.Object{Kind: "block", Class: seabed.Steel, At: seabed.Point{X: 100 + at, Y: 100}, Length: 0.02, Width: 0.1, Height: 0.3})
	r := math.Hypot(at-0.05, 6.85)
	for _, side := range []Side{Port, Starboard} {
		heading := 0.0
		if side == Port {
			heading = math.Pi // the block lies to port of a fish that goes south
		}
		ws, out := e.NewWorkspace(), e.NewEcho()
		sum, moment := 0.0, 0.0
		for i := -40; i <= 40; i++ {
			ahead := 0.01 * float64(i)
			pose := Pose{X: 100, Y: 100 - ahead*math.Cos(heading), Z: -3, Heading: heading, Speed: speed}
			energy := func(floor Floor) (total float64) {
				e.Ping(ws, &out, floor, pose, side, 0)
				for k := int((r - 0.3) / e.Bin()); k < int((r+0.3)/e.Bin()); k++ {
					v := float64(out.Samples[0][k])
					total += v * v
				}
				return total
			}
			v := energy(with) - energy(bare())
			sum, moment = sum+v, moment+v*ahead
		}
		if got, want := moment/sum, speed*r/e.SoundSpeed(); math.Abs(got-want) > 0.012 {
			t.Errorf("%v: strongest with the thing %.4f m ahead, want %.4f", side, got, want)
		}
	}
}

// A shadow is dark but not black: with a block across the whole of the main lobe
// it lies 18 to 35 dB below the floor about it, by side lobes, water, and sound
// scattered more than once (common practice, no source); and never is anything
// left of the ground that the block has hidden beyond that.
func TestShadowsFillALittle(t *testing.T) {
	const at = 20.0
	e := heardEverywhere(t, 10)
	e.SpeckleOff = true
	with := mudWith(seabed.Object{Kind: "block", Class: seabed.Stone, At: seabed.Point{X: 100 + at, Y: 100}, Length: 2, Width: 0.6, Height: 1.5})
	ws, out, clean := e.NewWorkspace(), e.NewEcho(), e.NewEcho()
	pose := Pose{X: 100, Y: 100, Z: -3}
	e.Ping(ws, &out, with, pose, Starboard, 0)
	e.Ping(ws, &clean, bare(), pose, Starboard, 0)
	tip := (at + 0.3) * 7 / (7 - 1.5)
	for c := range e.channels {
		var dark, lit float64
		for k := int(math.Hypot(at+0.6, 7) / e.Bin()); k < int((math.Hypot(tip, 7)-0.6)/e.Bin()); k++ {
			dark += float64(out.Samples[c][k]) * float64(out.Samples[c][k])
			lit += float64(clean.Samples[c][k]) * float64(clean.Samples[c][k])
		}
		if got := 10 * math.Log10(dark/lit); got < -35 || got > -18 {
			t.Errorf("channel %d: shadow at %.1f dB of its floor, want -35 to -18", c, got)
		}
	}
}
