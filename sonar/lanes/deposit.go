package lanes

// Bin is what falls into a bin in the two channels, and what of the same facets falls
// into the next: 16 bytes, one vector, so that a facet across the border of two bins
// is one sum.
type Bin struct {
	First, Second, FirstNext, SecondNext float32
}

// group is how many blocks are taken together.
const group = 8

// Deposit adds what blocks answer to the bins. The last of bins takes what lies beyond the
// record. long is memory of at least len(blocks).
//
// The echo of a facet is spread evenly over the slant ranges it spans: mostly one bin or
// two. Longer ones (steep ground, and bins shorter than a step) are added one by one after
// their group. A group of blocks is gone through across, a sample of every block, then
// the next sample, as neighbouring samples share a bin and each sum would wait for the
// last. That order is part of the result.
func Deposit(bins []Bin, blocks []Block, long []uint16) {
	long = long[:len(blocks)]
	whole := len(blocks) / group * group
	if whole > 0 {
		deposit(bins, blocks[:whole], long)
	}
	if whole < len(blocks) {
		depositScalar(bins, blocks[whole:], long[whole:])
	}
	for n, mask := range long {
		if mask != 0 {
			spreadLong(bins, &blocks[n], mask)
		}
	}
}

func depositScalar(bins []Bin, blocks []Block, long []uint16) {
	last := float32(len(bins) - 1)
	for len(blocks) > 0 {
		n := min(group, len(blocks))
		clear(long[:n])
		for q := range 4 { // the order in which vectors are turned into records
			for quarter := range 4 {
				l := 4*quarter + q
				for k := range blocks[:n] {
					b := &blocks[k]
					from, to := b.From[l], b.To[l]
					at, end := int32(least(from, last)), int32(least(to, last))
					here, further := float32(at), float32(end)
					beyond := here + 1
					share := float32(1)
					if further != here {
						share = (beyond - from) / (to - from)
					}
					first, second := b.First[l], b.Second[l]
					if further > beyond {
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
		blocks, long = blocks[n:], long[n:]
	}
}

// spreadLong adds the facets of a block that a mask chooses, each over many bins.
func spreadLong(bins []Bin, b *Block, mask uint16) {
	end := float32(len(bins) - 1)
	for l := range Width {
		if mask>>l&1 == 0 {
			continue
		}
		from, to := b.From[l], b.To[l]
		density := 1 / (to - from)
		for k := int32(from); float32(k) < least(to, end); k++ {
			share := float32((least(to, float32(k+1)) - most(from, float32(k))) * density)
			bins[k].First += float32(b.First[l] * share)
			bins[k].Second += float32(b.Second[l] * share)
		}
	}
}
