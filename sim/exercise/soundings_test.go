package exercise_test

import (
	"bufio"
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"dryline/scenarios"
	"dryline/seabed"
	"dryline/sim/exercise"
)

// The stated error is that of IHO S-44, order 1b (testdata/plan/tvu.tsv).
func TestSoundingErrorIsThatOfTheStandard(t *testing.T) {
	f, err := os.Open("../../testdata/plan/tvu.tsv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows := 0
	for lines := bufio.NewScanner(f); lines.Scan(); {
		var depth, want float64
		if n, _ := fmt.Sscan(lines.Text(), &depth, &want); n != 2 || strings.HasPrefix(lines.Text(), "#") {
			continue
		}
		rows++
		if got := exercise.SoundingError(depth); math.Abs(got-want) > 5e-5 {
			t.Errorf("at %g m: within %.5f m, want %.4f", depth, got, want)
		}
	}
	if rows != 4 {
		t.Errorf("%d rows, want 4", rows)
	}
}

func find(t *testing.T, name string) *exercise.Exercise {
	t.Helper()
	ex, err := scenarios.Find(name)
	if err != nil {
		t.Fatal(err)
	}
	return ex
}

// Of the soundings of many seeds 95 of 100 are within the stated error of the relief, which is that of the sea
// floor that is sailed over: with nothing on it and no roughness the floor is nowhere else by more than its tiles take off.
func TestSoundingsAreAsGoodAsStated(t *testing.T) {
	ex := find(t, "sloping-bank")
	within, all, sum := 0, 0, 0.0
	for seed := range uint64(40) {
		s := ex.Sound(exercise.SeedsOf(seed))
		floor := seabed.ReliefOf(&ex.Seabed, seed)
		for j := range s.NY {
			for i := range s.NX {
				x, y, d := s.At(i, j)
				miss := d + floor(x, y)
				sum += miss
				all++
				if math.Abs(miss) <= exercise.SoundingError(-floor(x, y)) {
					within++
				}
			}
		}
	}
	// Four standard deviations of a share of 0.95 and of a mean of none.
	share, n := float64(within)/float64(all), float64(all)
	if bound := 4 * math.Sqrt(0.95*0.05/n); math.Abs(share-0.95) > bound {
		t.Errorf("%.4f of %d soundings are within the stated error, want 0.95 within %.4f", share, all, bound)
	}
	if bound := 4 * 0.45 / math.Sqrt(n); math.Abs(sum/n) > bound {
		t.Errorf("they are wrong by %.4f m on the whole, want none within %.4f", sum/n, bound)
	}

	bare := ex.Seabed
	bare.Objects, bare.Pipelines, bare.Bedforms, bare.Patches, bare.Featureless = nil, nil, nil, nil, true
	world, floor := seabed.New(bare, 3), seabed.ReliefOf(&bare, 3)
	for x := 5.0; x < bare.East; x += 61.7 {
		for y := 5.0; y < bare.North; y += 83.1 {
			if a, b := world.HeightAt(x, y), floor(x, y); math.Abs(a-b) > 0.05 {
				t.Errorf("at %.0f, %.0f: the floor is at %.3f m and the relief at %.3f", x, y, a, b)
			}
		}
	}
}

// What lies on the floor makes no mark, charted or not: the soundings are the same without.
func TestSoundingsDoNotSeeWhatLiesThere(t *testing.T) {
	for _, info := range scenarios.Embedded() {
		ex := find(t, info.Name)
		seeds := exercise.SeedsOf(ex.Seed)
		settled, err := ex.Settle(seeds)
		if err != nil {
			t.Fatal(err)
		}
		with := settled.Sound(seeds)
		bare := *settled
		bare.Seabed.Objects, bare.Seabed.Pipelines, bare.Placed, bare.Elsewhere = nil, nil, nil, nil
		bare.Seabed.Bedforms, bare.Seabed.Patches = nil, nil
		without := bare.Sound(seeds)
		if !slices.Equal(with.Depth, without.Depth) {
			t.Errorf("%s: things on the floor are in its soundings", info.Name)
		}
		if want := max(3*ex.Seabed.Depth, 25); math.Abs(with.Step-want) > 2.5 {
			t.Errorf("%s: soundings every %g m, want %g by S-44, 3.5.2", info.Name, with.Step, want)
		}
	}
}

// Depths are known all over the exercise and where she turns, and go evenly from sounding to sounding.
func TestDepthsBetweenSoundings(t *testing.T) {
	s := exercise.Soundings{X0: 0, Y0: 0, Step: 10, NX: 2, NY: 2, Depth: []float64{10, 12, 14, 18}}
	for _, row := range []struct {
		x, y, want float64
		known      bool
	}{{0, 0, 10, true}, {10, 0, 12, true}, {0, 10, 14, true}, {10, 10, 18, true}, {5, 5, 13.5, true}, {5, 0, 11, true}, {-0.1, 5, 0, false}, {5, 10.1, 0, false}} {
		if d, known := s.DepthAt(row.x, row.y); known != row.known || known && math.Abs(d-row.want) > 1e-12 {
			t.Errorf("at %g, %g: %g m, known %v; want %g, %v", row.x, row.y, d, known, row.want, row.known)
		}
	}
	ex := find(t, "first-line")
	d := ex.Sound(exercise.SeedsOf(1))
	for _, at := range [][2]float64{{0, 0}, {ex.Seabed.East, ex.Seabed.North}, {-ex.Plan.RunIn, -ex.Plan.RunIn}, {ex.Seabed.East + 2*ex.Plan.TurnRadius, 5}} {
		if _, known := d.DepthAt(at[0], at[1]); !known {
			t.Errorf("at %v no depth is charted", at)
		}
	}
	if _, known := (&exercise.Soundings{}).DepthAt(1, 1); known {
		t.Error("of no soundings a depth is known")
	}
}
