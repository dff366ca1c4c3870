package lanes

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// SplitMix64 from the seed 1234567: the first numbers of its stream as its author's own program gives
// them (S. Vigna, splitmix64.c, public domain; the values as widely quoted, from memory), cut to two
// of 24 bits each.
func TestDrawIsSplitMix64(t *testing.T) {
	stream := []uint64{6457827717110365317, 3203168211198807973, 9817491932198370423, 4593380528125082431, 16408922859458223821}
	var want []uint32
	for _, x := range stream {
		want = append(want, uint32(x%(1<<24)), uint32(x/(1<<24)%(1<<24)))
	}
	for n := range len(want) + 1 {
		got := make([]uint32, n)
		Draw(got, 1234567)
		if !slices.Equal(got, want[:n]) {
			t.Errorf("%d samples: %d, want %d", n, got, want[:n])
		}
	}
}

func TestFormsDrawAlike(t *testing.T) {
	rng := rand.New(rand.NewPCG(21, 22))
	for n := range 100 {
		state := rng.Uint64()
		var want []uint32
		forms(func(name string) {
			draws := make([]uint32, n+1)
			draws[n] = 7
			Draw(draws[:n], state)
			if want == nil {
				want = draws
			}
			if !slices.Equal(draws, want) || draws[n] != 7 {
				t.Errorf("%s, %d samples: not the scalar draws", name, n)
			}
		})
	}
}

func BenchmarkDraw(b *testing.B) {
	const n = 1000
	draws := make([]uint32, n)
	benchmark(b, "sample", n, func() { Draw(draws, 5) })
}
