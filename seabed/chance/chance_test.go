package chance

import "testing"

// Published values: SplitMix64 from state 0 yields these outputs; they are
// printed as test vectors by several general-purpose libraries (for example
// the Rust crate rand_xoshiro, "splitmix64" tests, seed 1477776061723855037).
func TestMixIsSplitMix64(t *testing.T) {
	const golden = 0x9e3779b97f4a7c15
	state := uint64(1477776061723855037)
	want := []uint64{1985237415132408290, 2979275885539914483, 13511426838097143398}
	for i, w := range want {
		state += golden
		if got := Mix(state); got != w {
			t.Errorf("output %d: got %d, want %d", i, got, w)
		}
	}
}

func TestStreamsAreIndependentByName(t *testing.T) {
	a, b, again := Stream(7, "gnss"), Stream(7, "speckle"), Stream(7, "gnss")
	same := 0
	for range 1000 {
		x, y, z := a.Uint64(), b.Uint64(), again.Uint64()
		if x != z {
			t.Fatalf("the same name gave two streams: %d and %d", x, z)
		}
		if x == y {
			same++
		}
	}
	if same > 0 {
		t.Errorf("two names shared %d of 1000 draws, want 0", same)
	}
	if Seed(7, "gnss") == Seed(8, "gnss") {
		t.Error("two exercise seeds gave one stream seed")
	}
}
