package sonar

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"math"
	"os"
	"os/exec"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"
)

// A ping that walks evenly over each scene, past what stands there, on both sides.
func evenPose(n int) (Pose, Side) {
	return Pose{X: 100, Y: 97 + 0.5*float64(n%12), Z: -4 - float64(n%3), Pitch: 0.01, Roll: 0.002 * float64(n%7), Speed: 2}, Side((n + 1) % 2)
}

// Labels of an even walk are those of the plain one at the same steps, but for where
// one thing ends and another begins; they change no sample.
func TestEvenLabelsAreThoseOfThePlainWalk(t *testing.T) {
	for _, scene := range evenScenes() {
		even, plain := scene.engines(t, twoChannels())
		floor := scene.floor
		ws, plainWs := even.NewWorkspace(), plain.NewWorkspace()
		got, want, unlabelled := even.NewLabelledEcho(), plain.NewLabelledEcho(), even.NewEcho()
		other, far, all := 0, 0, 0
		kinds := map[LabelKind]bool{}
		for n := range 4 {
			pose, side := evenPose(n)
			stepEvenly(plain, plainWs, floor, pose)
			even.Ping(ws, &got, floor, pose, side, 1)
			even.Ping(ws, &unlabelled, floor, pose, side, 1)
			plain.Ping(plainWs, &want, floor, pose, side, 1)
			if !bytes.Equal(raw(got.Samples[0]), raw(unlabelled.Samples[0])) {
				t.Errorf("%s, ping %d: labels change the samples", scene.name, n)
			}
			for k, l := range want.Labels {
				all++
				kinds[l.Kind] = true
				g := got.Labels[k]
				if g.Kind != l.Kind || g.Class != l.Class || g.Object != l.Object {
					other++
				} else if math.Abs(float64(g.Ground-l.Ground)) > 1e-3 || math.Abs(float64(g.Height-l.Height)) > 1e-3 || math.Abs(float64(g.Sine-l.Sine)) > 2e-3 {
					far++ // another facet of nearly the same strength
				}
			}
		}
		t.Logf("%s: of %d labels %d show another thing, %d another place; %d kinds", scene.name, all, other, far, len(kinds))
		if other > all/1000 || far > all/100 {
			t.Errorf("%s: of %d labels %d show another thing, %d another place", scene.name, all, other, far)
		}
	}
}

// evenPings flies some pings over every scene and returns a digest of their samples by ping.
// The workspaces are shared by so many goroutines; none makes a workspace for every ping.
func evenPings(t testing.TB, workers int) [][sha256.Size]byte {
	const pings = 4
	var all [][sha256.Size]byte
	for _, scene := range evenScenes() {
		e := scene.engine(t, twoChannels(), true)
		floor := scene.floor
		digests := make([][sha256.Size]byte, pings)
		ping := func(ws *Workspace, n int) {
			echo := e.NewEcho()
			pose, side := evenPose(n)
			e.Ping(ws, &echo, floor, pose, side, uint64(n))
			digests[n] = sha256.Sum256(append(raw(echo.Samples[0]), raw(echo.Samples[1])...))
		}
		if workers == 0 {
			for n := range pings {
				ping(e.NewWorkspace(), pings-1-n)
			}
		}
		var group sync.WaitGroup
		for w := range workers {
			group.Go(func() {
				ws := e.NewWorkspace()
				for n := w; n < pings; n += workers {
					ping(ws, n)
				}
			})
		}
		group.Wait()
		all = append(all, digests...)
	}
	return all
}

// A ping is the same to the byte whatever its workspace did before.
func TestEvenPingsAreTheSameOnAnyNumberOfWorkers(t *testing.T) {
	want := evenPings(t, 0)
	for _, workers := range []int{1, 2} {
		if got := evenPings(t, workers); !slices.Equal(got, want) {
			t.Errorf("%d workers: other samples than one workspace a ping", workers)
		}
	}
}

// The same to the byte with all vectors, those of AVX2 alone and none: run again as the
// machine would without them.
func TestEvenPingsAreTheSameWithoutVectors(t *testing.T) {
	const asked = "DRYLINE_EVEN_PINGS"
	digest := func() string { return fmt.Sprintf("%x", sha256.Sum256(fmt.Append(nil, evenPings(t, 1)))) }
	if os.Getenv(asked) != "" {
		fmt.Println("digest", digest())
		return
	}
	if testing.Short() {
		t.Skip("runs itself again")
	}
	want := digest()
	for _, off := range []string{"cpu.avx512f=off", "cpu.avx512f=off,cpu.avx2=off"} {
		again := exec.Command(os.Args[0], "-test.run=^TestEvenPingsAreTheSameWithoutVectors$")
		again.Env = append(os.Environ(), asked+"=1", "GODEBUG="+off)
		out, err := again.Output()
		if err != nil {
			t.Fatalf("%s: %v\n%s", off, err, out)
		}
		if !strings.Contains(string(out), "digest "+want) {
			t.Errorf("%s: other samples", off)
		}
	}
}

// A ping allocates nothing, whatever it meets.
func TestEvenPingAllocatesNothing(t *testing.T) {
	if testing.Short() {
		t.Skip("flies over every scene")
	}
	for _, scene := range evenScenes() {
		e := scene.engine(t, twoChannels(), true)
		floor := scene.floor
		ws, echo, labelled := e.NewWorkspace(), e.NewEcho(), e.NewLabelledEcho()
		n := 0
		ping := func() {
			pose, side := evenPose(n % 12)
			e.Ping(ws, &echo, floor, pose, side, uint64(n))
			e.Ping(ws, &labelled, floor, pose, side, uint64(n))
			n++
		}
		for range 12 {
			ping()
		}
		if got := testing.AllocsPerRun(12, ping); got != 0 {
			t.Errorf("%s: %g allocations a ping", scene.name, got)
		}
	}
}

// BenchmarkEvenPing is both sides of a ping in lanes at 1/64 m and in coarse steps of 8 cm, in turn on
// one machine: medians and their ratio.
func BenchmarkEvenPing(b *testing.B) {
	for _, scene := range evenScenes() {
		spec := twoChannels()
		spec.Rays = 5
		even, plain := scene.engines(b, spec)
		forms := [2]*Engine{plain, even}
		b.Run(scene.name, func(b *testing.B) {
			var (
				spaces [2]*Workspace
				echoes [2][2]Echo
				took   [2][]float64 // microseconds
			)
			for i, e := range forms {
				spaces[i], echoes[i] = e.NewWorkspace(), [2]Echo{e.NewEcho(), e.NewEcho()}
			}
			n := 0
			ping := func() {
				pose, _ := evenPose(n % 12)
				pose.Z = -5
				for i, e := range forms {
					begun := time.Now()
					e.Ping(spaces[i], &echoes[i][0], scene.floor, pose, Port, uint64(n))
					e.Ping(spaces[i], &echoes[i][1], scene.floor, pose, Starboard, uint64(n))
					took[i] = append(took[i], float64(time.Since(begun).Nanoseconds())/1000)
				}
				n++
			}
			for range 12 {
				ping()
			}
			took = [2][]float64{}
			for b.Loop() {
				ping()
			}
			for i := range took {
				slices.Sort(took[i])
			}
			middle := len(took[0]) / 2
			b.ReportMetric(took[0][middle], "coarse-us")
			b.ReportMetric(took[1][middle], "even-us")
			b.ReportMetric(took[1][middle]/took[0][middle], "ratio")
		})
	}
}
