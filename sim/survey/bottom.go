package survey

import (
	"math"
	"sort"
)

// BottomTracker finds the first return in the samples: the height of the fish.
//
// Straight below the fish is the floor to both sides: where one side answers much
// earlier than the other, something stands or hangs in the water there or the first
// return has faded here, and the one nearer to the last answers tells the height.
//
// The record before it is water, after the sonar's own pulse and whatever else is
// heard there: its quietest quarter stands for it. The first return is where the
// mean of a few samples rises well above that and stays there. The gate
// follows the last few answers, so one bubble does not lead it astray; when
// nothing answers inside the gate the gate widens, and where that goes on the other
// instrument is believed again: a fish that lay on the floor is elsewhere when it flies.
type BottomTracker struct {
	recent [7]float64 // last answers, metres, oldest overwritten
	count  int
	misses int
	sums   []int
}

const (
	trackWindow = 6   // samples averaged
	trackRise   = 5.0 // over the noise
	trackFloor  = 12  // counts: below this nothing is an echo
	foundAgain  = 20  // pings without an answer, after which it begins as at the start: our own choice
	trackApart  = 0.1 // of the height, between the sides: a slope of 25 degrees comes to so much
)

// Find returns the height of the fish in metres from both sides of a ping,
// each sample bin metres of slant range; ok is false if it found no bottom,
// and the last height stands. expected is what another instrument says, used
// until the tracker has answers of its own; 0 is none.
func (b *BottomTracker) Find(port, starboard []uint16, bin, expected float64) (height float64, ok bool) {
	middle := b.median()
	if b.count == 0 || b.misses > foundAgain && expected > 0 {
		b.count, b.misses, middle = 0, 0, expected
	}
	low, high := 0.3, float64(len(port))*bin
	if middle > 0 {
		open := 0.25 + 0.15*float64(b.misses)
		low, high = max(low, middle*(1-open)), min(high, middle*(1+open))
	}
	best := 0.0
	for _, row := range [2][]uint16{port, starboard} {
		h, found := b.first(row, int(low/bin), int(high/bin), bin)
		switch {
		case !found:
		case !ok:
			best, ok = h, true
		case middle > 0 && math.Abs(h-best) > trackApart*max(h, best):
			if math.Abs(h-middle) < math.Abs(best-middle) {
				best = h
			}
		default:
			best = min(h, best)
		}
	}
	if !ok {
		b.misses++
		return middle, false
	}
	b.misses = 0
	b.recent[b.count%len(b.recent)] = best
	b.count++
	return b.now(), true
}

// first looks for the first return of one side between two samples.
func (b *BottomTracker) first(row []uint16, from, to int, bin float64) (float64, bool) {
	b.sums = append(b.sums[:0], 0)
	to = min(to, len(row)-4*trackWindow)
	total := 0
	for _, v := range row[:max(0, min(to+4*trackWindow, len(row)))] {
		total += int(v)
		b.sums = append(b.sums, total)
	}
	if to <= from || from < 2 {
		return 0, false
	}
	mean := func(i, n int) float64 { return float64(b.sums[i+n]-b.sums[i]) / float64(n) }
	noise := math.Inf(1)
	for i := range 4 {
		noise = min(noise, mean(i*from/4, max(from/4, 1)))
	}
	threshold := max(trackRise*noise, trackFloor)
	for k := from; k < to; k++ {
		if mean(k, trackWindow) > threshold && mean(k+trackWindow, 2*trackWindow) > threshold {
			// Walk into the window to the sample that rises.
			for i := k; i < k+trackWindow; i++ {
				if float64(row[i]) > threshold {
					return (float64(i) + 0.5) * bin, true
				}
			}
			return (float64(k+trackWindow) - 0.5) * bin, true
		}
	}
	return 0, false
}

// now is the height at the last answer: the median of the recent answers, which is
// that of the ping in their middle, brought up by their median rise from ping to ping
// (the estimator of Theil and Sen). A median alone lags, and where the height of a
// fish that sinks is taken for that of some pings ago the first return is levelled
// as if it lay in the water.
func (b *BottomTracker) now() float64 {
	const n = len(b.recent)
	middle := b.median()
	if b.count < n {
		return middle
	}
	var rises [n * (n - 1) / 2]float64
	k := 0
	for j := 1; j < n; j++ {
		for i := range j {
			rises[k] = (b.recent[(b.count+j)%n] - b.recent[(b.count+i)%n]) / float64(j-i)
			k++
		}
	}
	sort.Float64s(rises[:])
	const most = 0.03 // of the height: what no fish or floor does in three pings
	ahead := rises[len(rises)/2] * float64(n/2)
	return middle + min(max(ahead, -most*middle), most*middle)
}

// median of the recent answers, 0 if there are none.
func (b *BottomTracker) median() float64 {
	n := min(b.count, len(b.recent))
	if n == 0 {
		return 0
	}
	var s [len(b.recent)]float64
	copy(s[:], b.recent[:n])
	sort.Float64s(s[:n])
	return s[n/2]
}
