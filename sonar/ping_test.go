package sonar

import (
	"runtime"
	"sync"
	"testing"

	"dryline/seabed"
)

// The same ping is the same bytes whoever makes it and in whatever order.
func TestPingsDoNotDependOnOrder(t *testing.T) {
	e := newEngine(t, twoChannels())
	world := Ground{seabed.New(seabed.Spec{
		East: 200, North: 200, Depth: 10, Base: seabed.MediumSand,
		Relief: seabed.Relief{Height: 0.6, Wavelength: 40, Octaves: 3},
	}, 4)}
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

func TestPingAllocatesNothing(t *testing.T) {
	e := newEngine(t, twoChannels())
	world := Ground{seabed.New(seabed.Spec{East: 200, North: 200, Depth: 10, Relief: seabed.Relief{Wavelength: 40}}, 4)}
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
	world := Ground{seabed.New(seabed.Spec{
		East: 200, North: 200, Depth: 10, Base: seabed.MediumSand,
		Relief:   seabed.Relief{Height: 0.6, Wavelength: 40, Octaves: 3},
		Bedforms: []seabed.Bedform{{Kind: seabed.Waves, Height: 0.05, Wavelength: 0.5, Wander: 0.4}},
	}, 4)}
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
