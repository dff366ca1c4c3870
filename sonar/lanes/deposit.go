package lanes

import "math/bits"

// Bin collects what falls into a bin in the two channels, and what of the same facets falls
// into the next: 16 bytes, one vector, so that a facet across the border of two bins
// is one sum.
type Bin struct {
	First, Second, FirstNext, SecondNext float32
}

// group is how many blocks are taken together.
const group = 8

// Deposit adds what blocks answer to the bins. The last of bins takes what lies beyond the
// record. long, of the length of blocks, takes a bit for each facet that it leaves to [Spread].
//
// The echo of a facet is spread evenly over the slant ranges it spans: mostly one bin or
// two. A group of blocks is gone through across, a sample of every block, then
// the next sample, as neighbouring samples share a bin and each sum would wait for the
// last. That order is part of the result.
func Deposit(bins []Bin, blocks []Block, long []uint16) {
	long = long[:len(blocks)]
	if len(blocks) > 0 {
		deposit(bins, blocks, long)
	}
}

func depositScalar(bins []Bin, blocks []Block, long []uint16) {
	for len(blocks) > 0 {
		n := min(group, len(blocks))
		clear(long[:n])
		depositGroup(bins, blocks[:n], long[:n])
		blocks, long = blocks[n:], long[n:]
	}
}

// depositGroup deposits a group, the last maybe not full. Whether a facet reaches into the next
// bin is as good as chance: nothing branches on it. What comes before the border is more than
// all of a facet that does not reach it.
func depositGroup(bins []Bin, blocks []Block, long []uint16) {
	last := uint(len(bins) - 1)
	long = long[:len(blocks)]
	for i := range Width {
		l := i%4*4 + i/4 // the order in which vectors are turned into records
		for k := range blocks {
			b := &blocks[k]
			from, to := b.From[l], b.To[l]
			first, second := b.First[l], b.Second[l]
			at, end := uint(int32(from)), uint(int32(to))
			if at >= last { // beyond the record
				bins[last].First += first
				bins[last].Second += second
				continue
			}
			share := min((float32(int32(at+1))-from)/(to-from), 1)
			if end > at+1 && at+1 < last {
				long[k] |= 1 << l
				first, second = 0, 0
			}
			near, nearSecond := float32(first*share), float32(second*share)
			bin := &bins[at]
			bin.First += near
			bin.Second += nearSecond
			bin.FirstNext += first - near
			bin.SecondNext += second - nearSecond
		}
	}
}

// Spread adds the facets that [Deposit] left, each over more than two bins (steep ground, and
// bins shorter than a step), to the energy of the bins. Such a facet lies at one place of the
// ground however many slant ranges it spans, so it has the weight of the segment that it
// begins in and not, as in [Settle], those of its bins.
func Spread(first, second []float32, blocks []Block, long []uint16, weights, weights2 []float32) {
	long = long[:len(blocks)]
	for n, mask := range long {
		for ; mask != 0; mask &= mask - 1 {
			b, l := &blocks[n], bits.TrailingZeros16(mask)
			from, to := b.From[l], b.To[l]
			at := int32(from)
			density := 1 / (to - from)
			x, y := float32(b.First[l]*weights[at/Width]), float32(b.Second[l]*weights2[at/Width])
			end := least(to, float32(len(first)))
			for k := at; float32(k) < end; k++ {
				share := float32((least(to, float32(k+1)) - most(from, float32(k))) * density)
				first[k] += float32(x * share)
				second[k] += float32(y * share)
			}
		}
	}
}
