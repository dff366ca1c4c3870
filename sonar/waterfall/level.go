package waterfall

import (
	"math"

	"dryline/sonar/recorder"
)

// Prior foretells the counts of a channel over ordinary ground before anything is
// learnt: the sonar equation for its settings.
type Prior interface {
	// Counts fills dst with mean amplitudes at slant ranges, metres; short of the height
	// of the fish there is noise alone.
	Counts(dst []float64, set recorder.Receiver, slants []float64, height float64)
}

// Flat is a prior of the same counts everywhere, for a record of which nothing is
// known.
type Flat float64

// Counts implements [Prior].
func (f Flat) Counts(dst []float64, set recorder.Receiver, _ []float64, _ float64) {
	for i := range dst {
		dst[i] = float64(f) * math.Pow(10, set.Gain/20)
	}
}

// Leveller takes out of the record of a channel what belongs to the angle and not
// to the ground: the fall of backscatter and of the beams towards the far range.
//
// It divides by the prior; by a shape for each side, learnt from the record
// ([shape]), which is about nothing but how the level changes from one grazing
// angle to the next; and by one level for both sides. So ground that always lies on
// one side keeps its own level, and the shape of one side knows nothing of what
// lies on the other. Levelling a record over angles is common practice, no source;
// the way of learning is our own.
type Leveller struct {
	prior Prior
	set   recorder.Receiver
	sides [2]shape
	level mean // of both sides over the prior, dB

	divisor   [2][angleBins + 1]float32 // one over shape and level; the last repeats the one before
	unsettled int                       // pings learnt since it was worked out

	n       int // samples of a side
	bin     float64
	kept    [knotsKept]knots
	at      *knots // of the altitude
	settled int    // how often shape and level were worked out
}

// NewLeveller returns a leveller that expects a prior, for a receiver as it is set.
func NewLeveller(prior Prior, set recorder.Receiver) *Leveller {
	l := &Leveller{prior: prior, set: set}
	l.Settle()
	return l
}

// Clone returns a leveller that has learnt the same and goes its own way from there.
func (l *Leveller) Clone() *Leveller {
	c := *l
	c.kept, c.at = [knotsKept]knots{}, nil
	return &c
}

// Set tells the leveller how the receiver is set from now on. What it has learnt
// stands: it is about the ground.
func (l *Leveller) Set(r recorder.Receiver) {
	if l.set != r {
		l.set = r
		l.forget()
	}
}

// settleAfter is after how many pings learnt shape and level are worked out anew.
const settleAfter = 30

// Prepare readies the factors for rows of n samples, each so many metres of slant
// range, from an altitude in metres. Call it before [Leveller.Learn] and
// [Leveller.Level]. Altitudes are told apart by half a hundredth, and the prior's part
// in the factors is kept for the latest.
func (l *Leveller) Prepare(n int, bin, altitude float64) {
	if l.n != n || l.bin != bin {
		l.n, l.bin = n, bin
		l.forget()
	}
	key := int(math.Round(math.Log(altitude) / altitudeStep))
	l.at = &l.kept[key&(knotsKept-1)]
	if !l.at.laid || l.at.key != key {
		l.at.key, l.at.laid = key, true
		l.at.lay(n, bin, math.Exp(float64(key)*altitudeStep))
		l.at.expect(l.prior, l.set)
	}
	if l.unsettled >= settleAfter {
		l.Settle()
	}
}

// forget drops all that was laid out for another receiver or other rows.
func (l *Leveller) forget() {
	for i := range l.kept {
		l.kept[i].laid = false
	}
}

func sized(s []float32, n int) []float32 {
	if cap(s) < n {
		return make([]float32, n)
	}
	return s[:n]
}

// Settle works out what was learnt, for those who have learnt all there is.
func (l *Leveller) Settle() {
	l.unsettled = 0
	l.settled++
	level := l.level.shrunk()
	for side := range l.sides {
		c := l.sides[side].correction()
		for i, v := range c {
			l.divisor[side][i] = float32(math.Pow(10, -(level+v)/20))
		}
		l.divisor[side][angleBins] = l.divisor[side][angleBins-1]
	}
}

// Learn takes a ping into the shapes and the level.
func (l *Leveller) Learn(port, starboard []uint16) {
	for side, samples := range [2][]uint16{port, starboard} {
		levels, seen := l.levels(samples)
		l.sides[side].learn(&levels, seen)
		if m, ok := middle(&levels, seen); ok {
			l.level.add(m)
		}
	}
	l.unsettled++
}

// levels are the mean amplitudes of a side over the prior by angle, dB, of those
// bins, from the first, that lie wholly within the record; silent ones are NaN.
func (l *Leveller) levels(samples []uint16) (levels [angleBins]float64, seen int) {
	from := l.at.edges[0]
	for ; seen < angleBins; seen++ {
		to := l.at.edges[seen+1]
		if to > len(samples) {
			break
		}
		sum := float32(0)
		for k, v := range samples[from:to] {
			sum += float32(v) * l.at.expected[from+k]
		}
		levels[seen] = 20 * math.Log10(float64(sum)/float64(max(to-from, 1)))
		if !(sum > 0) {
			levels[seen] = math.NaN()
		}
		from = to
	}
	return levels, seen
}

// Level fills dst with the levelled amplitudes of one side, 0 for port.
func (l *Leveller) Level(dst []float32, samples []uint16, side int) {
	dst = dst[:len(samples)]
	factor := l.at.factors(side, l.settled, &l.divisor[side])[:len(samples)]
	for k, v := range samples {
		dst[k] = float32(v) * factor[k]
	}
}
