package dataset

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Hamilton's method of largest remainders, worked by hand, with one for each share first.
func TestApportion(t *testing.T) {
	for _, c := range []struct {
		shares []float64
		n      int
		want   []int
	}{
		{[]float64{70, 15, 15}, 100, []int{70, 15, 15}},
		{[]float64{70, 15, 15}, 10, []int{7, 2, 1}}, // 7, 1.5, 1.5: the tie to the first
		{[]float64{70, 15, 15}, 4, []int{2, 1, 1}},
		{[]float64{70, 15, 15}, 1, []int{1, 0, 0}},
		{[]float64{100, 0, 0}, 5, []int{5, 0, 0}},
		{[]float64{50, 0, 50}, 3, []int{2, 0, 1}},
	} {
		if diff := cmp.Diff(c.want, apportion(c.shares, c.n)); diff != "" {
			t.Errorf("%v of %d: %s", c.shares, c.n, diff)
		}
	}
}

// Seeds of scenes are their own, and survive a float64; a scene is in one split, and the
// split does not hang on the order of the spec.
func TestSeedsAndSplits(t *testing.T) {
	spec := &Spec{Seed: 5}
	seeds := map[uint64]bool{}
	for i := range 1000 {
		seed := spec.SeedOf(fmt.Sprint("exercise", i%3), i)
		if seeds[seed] || uint64(float64(seed)) != seed {
			t.Fatalf("seed %d twice, or too long", seed)
		}
		seeds[seed] = true
		spec.Scenes = append(spec.Scenes, Scene{Seed: seed})
	}
	spec.Divide([3]float64{70, 15, 15})
	first, count := map[uint64]Split{}, map[Split]int{}
	for _, s := range spec.Scenes {
		first[s.Seed] = s.Split
		count[s.Split]++
	}
	if diff := cmp.Diff(map[Split]int{Train: 700, Val: 150, Test: 150}, count); diff != "" {
		t.Error(diff)
	}
	for i, j := 0, len(spec.Scenes)-1; i < j; i, j = i+1, j-1 {
		spec.Scenes[i], spec.Scenes[j] = spec.Scenes[j], spec.Scenes[i]
	}
	spec.Divide([3]float64{70, 15, 15})
	for _, s := range spec.Scenes {
		if first[s.Seed] != s.Split {
			t.Fatalf("scene of seed %d: %s, was %s", s.Seed, s.Split, first[s.Seed])
		}
	}
}
