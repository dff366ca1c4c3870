package sonar

import (
	"bytes"
	"encoding/binary"
	"math"
	"testing"

	"dryline/seabed"
	"dryline/sonar/acoustics"
)

// bottomless is a floor beyond the end of any record.
var bottomless = plane{z: -400, class: seabed.Mud}

// tone is one channel with a short pulse of one tone, so that echoes stand
// where they are.
func tone() Spec {
	spec := twoChannels()
	spec.Channels = spec.Channels[:1]
	spec.Channels[0].Bandwidth, spec.Channels[0].PulseLength = 0, 30e-6
	return spec
}

// spoilt is a quiet engine with the effects, in a wind.
func spoilt(t testing.TB, spec Spec, wind float64, fx Effects) *Engine {
	t.Helper()
	spec.Effects = fx
	sea := temperate()
	sea.Wind = wind
	e, err := NewEngine(spec, sea, acoustics.Mackenzie(11, 34, 10), 1)
	if err != nil {
		t.Fatal(err)
	}
	e.SpeckleOff, e.NoiseOff = true, true
	return e
}

// heard is the intensity of each sample of one ping; the spec has one channel.
func heard(e *Engine, floor Floor, pose Pose, side Side) []float64 {
	echo, ws := e.NewEcho(), e.NewWorkspace()
	e.Ping(ws, &echo, floor, pose, side, 0)
	out := make([]float64, len(ws.energy))
	for k, v := range ws.energy { // as the receiver left it, before noise, gain and quantisation
		out[k] = float64(v + ws.stray[k])
	}
	return out
}

// begins is the slant range of the first sample that is not silent.
func begins(e *Engine, row []float64) float64 {
	for k, v := range row {
		if v > 0 {
			return float64(k) * e.bin
		}
	}
	return math.Inf(1)
}

// everything switches every effect on.
func everything() Effects {
	return Effects{
		SurfaceEcho: true, SurfaceGhosts: true, SecondBottom: true, CrossTalk: -40,
		Bubbles:  Bubbles{On: true, NoiseRise: 3},
		Wake:     Wake{Attenuation: 1, HalfLife: 60, Width: 4, Spread: 0.03, Depth: 2},
		Sounders: []Sounder{{Frequency: 455e3, Interval: 0.21, PulseLength: 1e-3, Level: 120}},
		Schools:  []School{{X: 120, Y: 100, Depth: 7, Length: 8, Width: 5, Height: 3, Heading: 0.4, Density: 6, Fish: 0.25}},
		Kelp:     []Kelp{{Height: 3, Radius: 0.3, Density: 0.3, Through: 0.6}},
		Seeps:    []Seep{{X: 88, Y: 100, Z: -10, Rise: 0.23, Width: 0.3, Strength: -30}},
		Springs:  []Spring{{X: 112, Y: 100, Z: -10, Rise: 0.3, Width: 0.8, Strength: -40}},
		Layers:   []Layer{{Depth: 5, Thickness: 1, Strength: -55, Swing: 0.5, Swell: 40}},
		Hum:      Hum{Level: 80, Frequency: 50, Sharpness: 4},
		Drops:    Drops{Share: 0.05, Bursts: 0.01, Length: 8},
		CurrentX: 0.05, CurrentY: 0.1,
	}
}

func waked(x, y float64, number uint64) Pose {
	p := Pose{X: x, Y: y, Z: -3, Heading: 0.01, Time: float64(number) / 15, Run: y}
	for side := range p.Wake {
		p.Wake[side][0] = Crossing{Range: 1, Age: 20, Slant: 1, Strength: 1, Along: y}
	}
	return p
}

// With everything on, a ping is the same bytes whoever makes it and in
// whatever order, and allocates nothing.
func TestEffectsKeepNoState(t *testing.T) {
	spec := twoChannels()
	spec.Effects = everything()
	e := newEngine(t, spec)
	world := Ground{seabed.New(seabed.Spec{East: 200, North: 200, Depth: 10, Base: seabed.MediumSand, Relief: seabed.Relief{Wavelength: 40}}, 4)}
	const pings = 40
	forward := make([]Echo, pings)
	ws := e.NewWorkspace()
	for i := range forward {
		forward[i] = e.NewEcho()
		e.Ping(ws, &forward[i], world, waked(100, 92+0.4*float64(i), uint64(i)), Side(i%2), uint64(i))
	}
	again, other := e.NewEcho(), e.NewWorkspace()
	for i := pings - 1; i >= 0; i-- {
		e.Ping(other, &again, world, waked(100, 92+0.4*float64(i), uint64(i)), Side(i%2), uint64(i))
		for c := range again.Samples {
			if !bytes.Equal(raw(again.Samples[c]), raw(forward[i].Samples[c])) {
				t.Fatalf("ping %d channel %d differs when made in another order", i, c)
			}
		}
	}
	for side := range Side(2) {
		pose := waked(100, 100, 7)
		if e.spoilers.drops.lost(7) {
			t.Fatal("ping 7 is lost: choose another")
		}
		e.Ping(ws, &again, world, pose, side, 7)
		if got := testing.AllocsPerRun(10, func() { e.Ping(ws, &again, world, pose, side, 7) }); got != 0 {
			t.Errorf("%v: %g allocations per ping with every effect, want 0", side, got)
		}
	}
}

func raw(samples []uint16) []byte {
	b := make([]byte, 0, 2*len(samples))
	for _, v := range samples {
		b = binary.LittleEndian.AppendUint16(b, v)
	}
	return b
}

// Switching one effect on leaves all samples that it has no part in as they
// were, to the bit, whatever else is on.
func TestEffectsDoNotMoveEachOther(t *testing.T) {
	school := School{X: 125, Y: 100, Depth: 6, Length: 6, Width: 4, Height: 1.5, Density: 8, Fish: 0.3}
	for _, test := range []struct {
		name     string
		add      func(*Effects)
		from, to float64 // slant ranges it may touch
	}{
		{"school and its shadow", func(fx *Effects) { fx.Schools = []School{school} }, 22.5, 50},
		{"layer", func(fx *Effects) { fx.Layers = []Layer{{Depth: 9, Thickness: 0.1, Strength: -40}} }, 5.1, 50},
		{"sounder", func(fx *Effects) {
			fx.Sounders = append(fx.Sounders, Sounder{Frequency: 450e3, Interval: 10, Offset: 0.02, PulseLength: 1e-3, Level: 140})
		}, 14, 17},
		{"surface", func(fx *Effects) { fx.SurfaceEcho = true }, 3.4, 50},
		{"other pings lost", func(fx *Effects) { fx.Drops = Drops{Share: 0.5} }, 60, 60},
	} {
		base := Effects{Sounders: []Sounder{{Frequency: 450e3, Interval: 0.01, PulseLength: 2e-4, Level: 120}}, Hum: Hum{Level: 80, Frequency: 50}}
		row := func(fx Effects) []uint16 {
			spec := twoChannels()
			spec.Effects = fx
			e := newEngine(t, spec)
			number := uint64(3)
			for e.spoilers.drops.lost(number) && number < 3 {
				number++
			}
			if e.spoilers.drops.lost(number) {
				t.Fatal("ping 3 is lost: choose another")
			}
			echo := e.NewEcho()
			e.Ping(e.NewWorkspace(), &echo, plane{z: -12, class: seabed.MediumSand}, Pose{X: 100, Y: 100, Z: -3.5}, Starboard, number)
			return echo.Samples[0]
		}
		without := row(base)
		test.add(&base)
		with := row(base)
		changed := 0
		for k := range with {
			r := (float64(k) + 0.5) * 50 / 2000
			if with[k] == without[k] {
				continue
			}
			changed++
			if r < test.from || r > test.to {
				t.Errorf("%s: sample at %.2f m is %d, was %d", test.name, r, with[k], without[k])
				break
			}
		}
		if changed == 0 && test.from < 50 {
			t.Errorf("%s: changes nothing", test.name)
		}
	}
}

// What the trainee sets wrong spoils the record by itself: too much gain clips
// it, too little leaves it dark, a TVG that forgets spreading or absorption
// darkens the far range, and a range scale too short ends before the target.
func TestWrongSettingsSpoilTheRecord(t *testing.T) {
	floor := plane{z: -10, class: seabed.MediumSand, from: 40, to: 41, height: 1}
	row := func(change func(*Spec)) []uint16 {
		spec := twoChannels()
		spec.Channels = spec.Channels[:1]
		change(&spec)
		e := newEngine(t, spec)
		e.NoiseOff = true
		return ping(e, floor, 7).Samples[0]
	}
	mean := func(row []uint16, r0, r1, scale float64) float64 {
		sum, n := 0.0, 0.0
		for k, v := range row {
			if r := float64(k) * scale / float64(len(row)); r >= r0 && r < r1 {
				sum, n = sum+float64(v), n+1
			}
		}
		return sum / n
	}
	good := row(func(*Spec) {})
	clipped := 0
	for _, v := range row(func(s *Spec) { s.Channels[0].Gain = 50 })[400:1500] {
		if v == 65535 {
			clipped++
		}
	}
	if clipped < 550 {
		t.Errorf("50 dB too much gain clips %d of 1100 samples, want most", clipped)
	}
	if dark := mean(row(func(s *Spec) { s.Channels[0].Gain = -50 }), 10, 38, 50); dark > mean(good, 10, 38, 50)/100 {
		t.Errorf("50 dB too little gain leaves a mean of %.0f counts", dark)
	}
	for name, change := range map[string]func(*Spec){
		"no spreading":  func(s *Spec) { s.Channels[0].TVGSpreading = 0 },
		"no absorption": func(s *Spec) { s.Channels[0].TVGAbsorption = 0 },
	} {
		bad := row(change)
		if near, far := mean(bad, 10, 14, 50)/mean(good, 10, 14, 50), mean(bad, 32, 38, 50)/mean(good, 32, 38, 50); far > 0.7*near {
			t.Errorf("TVG with %s: far range at %.3f of the right record, near range at %.3f; want it darker", name, far, near)
		}
	}
	short := row(func(s *Spec) { s.RangeScale = 30 })
	if bright := mean(short, 29, 30, 30); bright > 3*mean(short, 25, 28, 30) {
		t.Errorf("a range scale of 30 m shows the block at 40 m (%.0f counts)", bright)
	}
	if mean(good, 40.3, 40.8, 50) < 2*mean(good, 36, 39, 50) {
		t.Error("the block does not show on the right range scale: nothing was tested")
	}
}

// BenchmarkPingEffects is BenchmarkPing with the effects of an ordinary
// exercise, and with every effect there is.
func BenchmarkPingEffects(b *testing.B) {
	school := School{X: 115, Y: 100, Depth: 7, Length: 10, Width: 6, Height: 3, Density: 5, Fish: 0.25}
	for _, row := range []struct {
		name string
		fx   Effects
	}{
		{"none", Effects{}},
		{"surface", Effects{SurfaceEcho: true}},
		{"ordinary, school away", Effects{SurfaceEcho: true, Schools: []School{{X: 400, Y: 400, Length: 10, Width: 6, Height: 3, Density: 5, Fish: 0.25}}, Sounders: []Sounder{{Frequency: 455e3, Interval: 0.25, PulseLength: 1e-3, Level: 110}}}},
		{"ordinary, school in view", Effects{SurfaceEcho: true, Schools: []School{school}, Sounders: []Sounder{{Frequency: 455e3, Interval: 0.25, PulseLength: 1e-3, Level: 110}}}},
		{"every effect", everything()},
	} {
		b.Run(row.name, func(b *testing.B) {
			spec := twoChannels()
			row.fx.Drops = Drops{} // a lost ping is quick
			spec.Effects = row.fx
			e := newEngine(b, spec)
			world := Ground{seabed.New(seabed.Spec{
				East: 200, North: 200, Depth: 10, Base: seabed.MediumSand,
				Relief:   seabed.Relief{Height: 0.6, Wavelength: 40, Octaves: 3},
				Bedforms: []seabed.Bedform{{Kind: seabed.Waves, Height: 0.05, Wavelength: 0.5, Wander: 0.4}},
			}, 4)}
			ws := e.NewWorkspace()
			port, starboard := e.NewEcho(), e.NewEcho()
			number := uint64(0)
			b.ReportAllocs()
			for b.Loop() {
				number++
				pose := waked(100, 100, number)
				e.Ping(ws, &port, world, pose, Port, number)
				e.Ping(ws, &starboard, world, pose, Starboard, number)
			}
		})
	}
}
