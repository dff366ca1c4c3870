package sonar

import (
	"math"

	"dryline/seabed/chance"
)

// drops decides which pings the recorder never gets. What it does with a gap is
// the recorder's choice; this one writes a blank row, all zeros. A ping is lost
// by itself with probability Share, or with a run that begins at it or shortly
// before it, with probability Bursts; runs are 2 to Length long, all lengths
// alike. How often is the exercise's; there is no source.
type drops struct {
	single, burst uint64 // of 2^64
	length        int
	seed          uint64
}

func newDrops(d Drops, seed uint64) drops {
	odds := func(p float64) uint64 { return uint64(min(max(p, 0), 1)*math.MaxUint32) << 32 }
	return drops{odds(d.Share), odds(d.Bursts), min(d.Length, LongestBurst), chance.Seed(seed, "sonar/drops")}
}

// lost reports whether the ping of that number is.
func (d *drops) lost(number uint64) bool {
	if d.single > 0 && chance.Mix(d.seed^chance.Mix(2*number)) < d.single {
		return true
	}
	if d.burst == 0 || d.length < 2 {
		return false
	}
	for back := range uint64(d.length) {
		if back > number {
			break
		}
		draw := chance.Mix(d.seed ^ chance.Mix(2*(number-back)+1))
		if draw < d.burst && back < 2+chance.Mix(draw)%uint64(d.length-1) {
			return true
		}
	}
	return false
}

// blank is the row of a ping that never came.
func (dst *Echo) blank() {
	dst.Lit, dst.Across = dst.Lit[:0], Across{}
	clear(dst.Labels)
	for _, row := range dst.Samples {
		clear(row)
	}
}
