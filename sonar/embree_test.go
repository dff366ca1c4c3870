package sonar

import (
	"bufio"
	"encoding/binary"
	"fmt"
	"math"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"dryline/seabed"
	"dryline/sonar/lanes"
)

// caster is a general-purpose ray tracer that casts rays at the same floor: Embree 3 (Wald,
// Woop, Benthin, Johnson and Ernst, ACM Transactions on Graphics 33, 2014), see testdata/embree.
type caster struct {
	in  *bufio.Writer
	out *bufio.Reader
}

// startCaster builds and starts it, or skips where it or a compiler of C++ is missing: it is no
// part of what CI needs.
func startCaster(t testing.TB) *caster {
	t.Helper()
	program := filepath.Join(t.TempDir(), "cast")
	if _, err := exec.LookPath("c++"); err != nil {
		t.Skip("there is no C++ compiler")
	}
	if out, err := exec.Command("c++", "-O3", "-march=native", "-o", program, "testdata/embree/cast.cpp", "-lembree3").CombinedOutput(); err != nil {
		t.Skipf("Embree 3 (libembree-dev) is not installed here: %v\n%.300s", err, out)
	}
	run := exec.Command(program)
	in, err := run.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	out, err := run.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := run.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		in.Close()
		run.Wait()
	})
	return &caster{bufio.NewWriter(in), bufio.NewReader(out)}
}

func (c *caster) write(t testing.TB, values ...any) {
	t.Helper()
	for _, v := range values {
		if err := binary.Write(c.in, binary.LittleEndian, v); err != nil {
			t.Fatal(err)
		}
	}
}

func (c *caster) read(t testing.TB, to any) {
	t.Helper()
	if err := c.in.Flush(); err != nil {
		t.Fatal(err)
	}
	if err := binary.Read(c.out, binary.LittleEndian, to); err != nil {
		t.Fatal(err)
	}
}

const (
	castRays  = 5
	castNodes = 200 // 50 m
	castUp    = 6.0 // of the fish over the floor, metres
	castSpan  = 1.2 // either side of the middle, metres
)

// castFloor is rippled sand, and a fan of rays over it, half a degree apart.
func castFloor() (world *seabed.World, stretches []seabed.Stretch, z float64) {
	world = seabed.New(seabed.Spec{
		East: 200, North: 200, Depth: 12, Base: seabed.MediumSand, Relief: seabed.Relief{Height: 1, Wavelength: 30, Octaves: 3},
	}, 4)
	z = world.HeightAt(100, 100) + castUp
	stretches = make([]seabed.Stretch, castRays)
	for r := range stretches {
		ux, uy := castDirection(r)
		world.TraceStretch(&stretches[r], 100, 100, ux, uy, castNodes, z)
	}
	return world, stretches, z
}

func castDirection(ray int) (ux, uy float64) {
	uy, ux = math.Sincos(float64(ray-castRays/2) * 0.5 * math.Pi / 180)
	return ux, uy
}

// send gives the floor, as triangles of a width, and rays from the fish to every sample of ours, and
// returns how far each of them got.
func (c *caster) send(t testing.TB, world *seabed.World, stretches []seabed.Stretch, z, step float64) []float32 {
	t.Helper()
	nx, ny := int(52/step), int(2*castSpan/step)+1
	c.write(t, int32(nx), int32(ny), float32(0), float32(-castSpan), float32(step))
	row := seabed.Profile{Steps: make([]float64, nx)}
	for i := range row.Steps {
		row.Steps[i] = float64(i) * step
	}
	heights := make([]float32, nx)
	for j := range ny {
		world.TraceGround(&row, 100, 100-castSpan+float64(j)*step, 1, 0)
		for i, h := range row.Z {
			heights[i] = float32(h - z)
		}
		c.write(t, heights)
	}
	var rays []float32
	for r := range stretches {
		ux, uy := castDirection(r)
		for i, h := range stretches[r].Z {
			g := float64(i+1) * lanes.Step
			rays = append(rays, float32(g*ux), float32(g*uy), h)
		}
	}
	c.write(t, int32(len(rays)/3), rays)
	far := make([]float32, len(rays)/3)
	c.read(t, far)
	return far
}

// What our walk says is lit is what a ray tracer sees: the share of a ray's way at which
// the floor stopped the ray to it. It goes by triangles 2 cm wide, which cut
// crests by a millimetre.
func TestAnotherRayTracerSeesTheSameFloor(t *testing.T) {
	c := startCaster(t)
	world, stretches, z := castFloor()
	far := c.send(t, world, stretches, z, 0.02)
	const hair = 0.004 // metres: what is that near the horizon may be hidden or not
	other, hidden, samples := 0, 0, 0
	for r := range stretches {
		horizon := math.Inf(-1)
		for i, h := range stretches[r].Z {
			g := float64(i+1) * lanes.Step
			tangent := float64(h) / g
			lit := far[samples] > 1-1e-4 // of the way to the sample
			if !lit {
				hidden++
			}
			if (tangent > horizon) != lit && math.Abs(tangent-horizon)*g > hair {
				other++
			}
			horizon = max(horizon, tangent)
			samples++
		}
	}
	t.Logf("of %d samples %d are hidden to Embree, and %d otherwise to us by more than %g mm", samples, hidden, other, hair*1000)
	if hidden < samples/50 {
		t.Error("it sees everything: nothing is compared")
	}
	if other > samples/200 {
		t.Errorf("of %d samples %d are not seen alike", samples, other)
	}
}

// BenchmarkAgainstEmbree measures what a sample of ours costs all in, with floor, echo in two channels
// and all that is received, and what a ray at the same sample costs Embree, in turn on one core: medians
// and their ratio. Triangles of 1/64 m have the micro-relief that we see; those of 0.25 m have none. Building
// its tree of triangles is not counted, nor ours of tiles.
func BenchmarkAgainstEmbree(b *testing.B) {
	for _, step := range []float64{lanes.Step, 0.25} {
		b.Run(fmt.Sprintf("triangles of %g m", step), func(b *testing.B) {
			c := startCaster(b)
			world, stretches, z := castFloor()
			far := c.send(b, world, stretches, z, step)
			spec := twoChannels()
			spec.Rays = castRays
			e := newEngine(b, spec)
			ws, echo := e.NewWorkspace(), e.NewEcho()
			samples := castRays * len(ws.even.steps)
			pose := Pose{X: 100, Y: 100, Z: z}
			var ours, theirs []float64
			for b.Loop() {
				const rounds = 20
				begun := time.Now()
				for n := range rounds {
					e.Ping(ws, &echo, Ground{world}, pose, Starboard, uint64(n))
				}
				ours = append(ours, float64(time.Since(begun).Nanoseconds())/float64(rounds*samples))
				var each float64
				c.write(b, int32(rounds))
				c.read(b, &each)
				theirs = append(theirs, each)
			}
			slices.Sort(ours)
			slices.Sort(theirs)
			b.ReportMetric(ours[len(ours)/2], "ns/sample")
			b.ReportMetric(theirs[len(theirs)/2], "embree-ns/ray")
			b.ReportMetric(theirs[len(theirs)/2]/ours[len(ours)/2], "ratio")
			b.ReportMetric(float64(len(far)), "rays")
		})
	}
}
