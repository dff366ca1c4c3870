package lanes_test

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"dryline/seabed"
	"dryline/sonar"
	"dryline/sonar/acoustics"
	"dryline/sonar/recorder"
)

const (
	embreeAlong = 100.0 // of the fish on the grid, metres east
	embreeUp    = -5.0  // and up
	embreeReach = 50.0  // metres
	embreeRays  = 5
	perMetre    = 64
)

// BenchmarkAgainstEmbree holds a ping that walks evenly, all in, against Embree 3, a general
// library for ray tracing, casting a ray at every sample the ping reads, in packets of 16
// neighbours, one core, in turn. The floor is triangles: as fine as it is read, micro-relief and all, which is the
// like of what the ping walks, and for comparison the bare nodes. A ray finds where it meets the floor and no
// more; the ping goes on to echoes and counts. Medians, nanoseconds a sample and a ray. It needs g++ and
// libembree-dev.
func BenchmarkAgainstEmbree(b *testing.B) {
	caster := buildCaster(b)
	world := seabed.New(seabed.Spec{
		East: 200, North: 200, Depth: 12, Base: seabed.MediumSand,
		Relief: seabed.Relief{Height: 1, Wavelength: 30, Octaves: 3},
	}, 4)
	for _, cell := range []float64{1.0 / perMetre, 0.25} {
		b.Run(fmt.Sprintf("cells of %g m", cell), func(b *testing.B) { againstEmbree(b, caster, world, cell) })
	}
}

func againstEmbree(b *testing.B, caster string, world *seabed.World, cell float64) {
	floor, rays := filepath.Join(b.TempDir(), "floor"), embreeCasts(world)
	if err := os.WriteFile(floor, embreeFloor(world, cell), 0o644); err != nil {
		b.Fatal(err)
	}
	ping := evenPing(b, world)
	var ours, theirs []float64
	for b.Loop() {
		const rounds = 5
		for range rounds {
			ours = append(ours, ping(0.1))
			c := exec.Command(caster, "0.1", floor)
			c.Stdin = bytes.NewReader(rays)
			out, err := c.Output()
			if err != nil {
				b.Fatal(err)
			}
			theirs = append(theirs, tookWell(b, string(out), world))
		}
	}
	slices.Sort(ours)
	slices.Sort(theirs)
	a, e := ours[len(ours)/2], theirs[len(theirs)/2]
	b.ReportMetric(a, "ns/sample")
	b.ReportMetric(e, "ns/ray")
	b.ReportMetric(e/a, "times")
}

// buildCaster builds the program that casts rays, or skips.
func buildCaster(b *testing.B) string {
	compiler, err := exec.LookPath("g++")
	if err != nil {
		b.Skip("there is no g++ here")
	}
	to := filepath.Join(b.TempDir(), "rays")
	out, err := exec.Command(compiler, "-O3", "-march=native", "-DNDEBUG", "../../testdata/embree/rays.cpp", "-lembree3", "-o", to).CombinedOutput()
	if err != nil {
		if strings.Contains(string(out), "embree3/rtcore.h") || strings.Contains(string(out), "-lembree3") {
			b.Skip("Embree 3 (libembree-dev) is not installed here")
		}
		b.Fatalf("%v\n%s", err, out)
	}
	return to
}

// embreeFloor is the floor that the rays cross: with the micro-relief where cells are
// finer than nodes.
func embreeFloor(world *seabed.World, cell float64) []byte {
	const west, south, east, north = embreeAlong - embreeReach - 4, 99.5, embreeAlong + embreeReach + 4, 100.5
	columns, rows := int((east-west)/cell)+1, int((north-south)/cell)+1
	floor := []float64{float64(columns), float64(rows), cell, west, south}
	var row seabed.Profile
	for i := range columns {
		row.Steps = append(row.Steps, float64(i)*cell)
	}
	for j := range rows {
		y := south + float64(j)*cell
		if world.TraceGround(&row, west, y, 1, 0); cell < 0.25 {
			floor = append(floor, row.Z...)
			continue
		}
		for i := range columns {
			floor = append(floor, world.HeightAt(west+float64(i)*cell, y))
		}
	}
	return packed(floor)
}

// embreeCasts are rays from the fish at every sample of the rays of a ping, neighbours
// together.
func embreeCasts(world *seabed.World) []byte {
	list := []float64{0}
	for _, side := range []float64{-1, 1} {
		for m := range embreeRays {
			sin, cos := math.Sincos(0.002 * float64(m-embreeRays/2))
			for k := range int(embreeReach * perMetre) {
				t := float64(k+1) / perMetre
				x, y := embreeAlong+side*t*cos, 100+t*sin
				list = append(list, embreeAlong, 100, embreeUp, x, y, world.HeightAt(x, y))
			}
		}
	}
	list[0] = float64(len(list)-1) / 6
	return packed(list)
}

func packed(list []float64) []byte {
	var out bytes.Buffer
	binary.Write(&out, binary.NativeEndian, list) // to memory: never fails
	return out.Bytes()
}

// tookWell reads what the caster says: how long a ray takes, and that rays met the floor
// where it lies.
func tookWell(b *testing.B, out string, world *seabed.World) float64 {
	lines := strings.Split(strings.TrimSpace(out), "\n")
	took, triangles := 0.0, 0
	if _, err := fmt.Sscan(lines[0], &took, &triangles); err != nil || len(lines) < 20 {
		b.Fatalf("the caster says %q: %v", out, err)
	}
	for _, l := range lines[1:] {
		var ray int
		var x, y, z float64
		if _, err := fmt.Sscan(l, &ray, &x, &y, &z); err != nil {
			b.Fatalf("ray %q met no floor", l)
		}
		if d := z - world.HeightAt(x, y); math.Abs(d) > 0.1 {
			b.Fatalf("ray %d met the floor %.3f m over where it lies", ray, d)
		}
	}
	return took
}

// evenPing flies both sides of pings for some seconds and returns the nanoseconds a sample
// that was read.
func evenPing(b *testing.B, world *seabed.World) func(seconds float64) float64 {
	spec := sonar.Spec{
		RangeScale: embreeReach, Samples: 2000, Depression: 0.35, VerticalBeam: 0.87, Rays: embreeRays,
		Channels: []sonar.Channel{
			{Name: "450", Frequency: 450e3, Bandwidth: 20e3, PulseLength: 1e-3, ArrayLength: 0.48, SourceLevel: 210, NoiseFigure: 8, Receiver: recorder.Receiver{TVGSpreading: 30, TVGAbsorption: 110}},
			{Name: "900", Frequency: 900e3, Bandwidth: 40e3, PulseLength: 5e-4, ArrayLength: 0.48, SourceLevel: 208, NoiseFigure: 8, Receiver: recorder.Receiver{TVGSpreading: 30, TVGAbsorption: 290}},
		},
	}
	water := sonar.Sea{
		Temperature: 11, Salinity: 34, PH: 8, Depth: 10, Wind: 4,
		SoundSpeed: acoustics.ModelMackenzie, Absorption: acoustics.ModelFrancoisGarrison,
	}
	e, err := sonar.NewEngine(spec, water, acoustics.Mackenzie(11, 34, 8), 1)
	if err != nil {
		b.Fatal(err)
	}
	ws, echo := e.NewWorkspace(), [2]sonar.Echo{e.NewEcho(), e.NewEcho()}
	number := uint64(0)
	return func(seconds float64) float64 {
		begun, pings := time.Now(), 0
		for time.Since(begun).Seconds() < seconds {
			pose := sonar.Pose{X: embreeAlong, Y: 97 + 0.5*float64(number%12), Z: embreeUp, Speed: 2}
			for side := range echo {
				e.Ping(ws, &echo[side], sonar.Ground{World: world}, pose, sonar.Side(side), number)
			}
			number++
			pings++
		}
		return time.Since(begun).Seconds() * 1e9 / float64(pings) / (2 * embreeRays * embreeReach * perMetre)
	}
}
