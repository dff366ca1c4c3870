package setspec

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"

	"dryline/seabed/chance"
	"dryline/sim/exercise"
	"dryline/sim/provenance"
)

// Spec is a whole set.
type Spec struct {
	Name        string // short, used in file names
	Title       string
	Description string
	Creator     string // who answers for the set
	Published   string // day, such as 2031-05-14: a set is the same whenever it is made
	Source      []byte // the file it was read from, whole
	Hash        string // SHA-256 of Source, hex
	Seed        uint64
	Products    Products
	Scenes      []Scene
}

// Products says what is written of each scene, besides its truth and its session log.
type Products struct {
	Pings   bool // labelled pings as netCDF
	Zarr    bool // the same as Zarr in a zip file, compressed
	Images  bool // tiles of waterfalls, with COCO annotations
	Mosaic  bool // tiles of the mosaic, with COCO annotations
	Rasters bool // what was recorded and what is true on one grid, as GeoTIFF
	Tables  bool // pings and objects as Parquet
}

// Value is a value of an exercise file that chance has set in a scene.
type Value struct {
	Key   string `json:"key"`
	Value string `json:"value"`
}

// Split says what a scene is for.
type Split string

// The splits.
const (
	Train Split = "train"
	Val   Split = "val"
	Test  Split = "test"
)

// Splits are all of them, in order.
func Splits() []Split { return []Split{Train, Val, Test} }

// Scene is one session of a set.
type Scene struct {
	Name       string // of its folder
	Exercise   string
	Seed       uint64
	Background bool // nothing but the sea floor: no objects and no pipelines
	Values     []Value
	Split      Split

	// Open reads the scene's exercise, with its values set.
	Open func() (*exercise.Exercise, error)
}

// shape counts the ways in which a scene has been written: one more whenever another file, or
// another thing in its list, is written of the same spec.
const shape = 3

// Identity stands for the bytes of a scene: two of the same identity are the same. It is
// made of the exercise, the seed, what is written and how, the engine and the platform.
func (sc *Scene) Identity(spec *Spec, ex *exercise.Exercise) string {
	sum := sha256.Sum256(fmt.Appendf(nil, "%d|%d|%s|%s|%d|%v|%v|%s", shape, provenance.Engine, provenance.Platform(), ex.Hash, sc.Seed, sc.Background, spec.Products, sc.Split))
	return hex.EncodeToString(sum[:])
}

// SeedOf is the seed of a scene of an exercise in a set, short enough for any reader of
// numbers.
func (s *Spec) SeedOf(exercise string, number int) uint64 {
	return chance.Seed(s.Seed, fmt.Sprintf("dataset/%s/%d", exercise, number)) >> 12
}

// Divide splits the scenes in the shares of train, val and test, which sum up to more than
// 0: whole scenes, each by the place that its seed gives it among all, so that no ground is
// on both sides. Every share above 0 has a scene as long as there are enough.
func (s *Spec) Divide(shares [3]float64) {
	order := make([]int, len(s.Scenes))
	for i := range order {
		order[i] = i
	}
	place := func(i int) uint64 { return chance.Seed(s.Scenes[i].Seed, "dataset/split") }
	slices.SortFunc(order, func(a, b int) int { return cmp.Or(cmp.Compare(place(a), place(b)), a-b) })
	for k, n := range apportion(shares[:], len(order)) {
		for _, i := range order[:n] {
			s.Scenes[i].Split = Splits()[k]
		}
		order = order[n:]
	}
}

// apportion gives out n things in proportion to shares: by largest remainder (Hamilton's
// method), and one to each share above 0 first, in order, while there are any.
func apportion(shares []float64, n int) []int {
	out := make([]int, len(shares))
	sum := 0.0
	for _, v := range shares {
		sum += v
	}
	left := n
	for k, v := range shares {
		if out[k] = int(v / sum * float64(n)); v > 0 {
			out[k] = max(out[k], 1)
		}
		out[k] = min(out[k], left)
		left -= out[k]
	}
	for ; left > 0; left-- {
		most := 0
		for k, v := range shares {
			if v/sum*float64(n)-float64(out[k]) > shares[most]/sum*float64(n)-float64(out[most]) {
				most = k
			}
		}
		out[most]++
	}
	return out
}
