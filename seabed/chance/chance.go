// Package chance derives every stream of randomness from one exercise seed.
//
// Each cause of chance (waves, GNSS, speckle, ...) has a name, and its stream
// depends on nothing but the seed and that name. Switching one effect off
// therefore cannot move another, and neither the clock nor the number of
// cores ever reaches a random number. The package is a leaf: every room may
// import it.
package chance

import (
	"hash/fnv"
	"math/bits"
	"math/rand/v2"
)

// Seed returns the seed of the named stream.
func Seed(seed uint64, name string) uint64 {
	h := fnv.New64a()
	h.Write([]byte(name)) // a hash never fails to write
	return Mix(seed ^ bits.RotateLeft64(h.Sum64(), 17))
}

// Mix is the finaliser of SplitMix64 (Steele, Lea and Flood, "Fast splittable
// pseudorandom number generators", OOPSLA 2014, variant 13 of Stafford's
// mixers): a bijection in which every input bit flips each output bit with
// probability close to one half.
func Mix(x uint64) uint64 {
	x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9
	x = (x ^ (x >> 27)) * 0x94d049bb133111eb
	return x ^ (x >> 31)
}

// Stream returns the named stream as a general-purpose generator.
func Stream(seed uint64, name string) *rand.Rand {
	s := Seed(seed, name)
	return rand.New(rand.NewPCG(s, Mix(s+0x9e3779b97f4a7c15)))
}
