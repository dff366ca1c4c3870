package waterfall

import "math"

// Leveller takes out of the record what belongs to the angle and not to the
// ground: the fall of backscatter and of the vertical beam towards the far
// range. It learns the mean shape of the record over the grazing angle from
// the record itself (common practice, no source) and divides by it. It forgets
// nothing, so after the first minutes the divisor hardly moves and mud stays
// darker than sand.
type Leveller struct {
	mean  [shapeBins]float64     // counts, by ln(R/h)
	pings [shapeBins]float64     // taken into each mean
	shape [shapeBins + 1]float64 // what is divided by; the last repeats the one before

	factor   []float32 // one over the shape at every sample, for
	bin      float64   // this bin,
	altitude float64   // at this altitude,
	known    int       // when so many sides had been learnt,
	learnt   int       // and so many since
}

const (
	shapeBins = 64
	shapeSpan = 3.2 // of ln(R/h): out to R = 24 h
	// prior is how many pings the first guess, flat, weighs.
	prior = 3.0
)

// NewLeveller returns a leveller for a recorder whose ordinary echo is at so
// many counts.
func NewLeveller(nominal float64) *Leveller {
	l := new(Leveller)
	for i := range l.mean {
		l.mean[i] = nominal
	}
	for i := range l.pings {
		l.pings[i] = prior
	}
	l.settle()
	return l
}

// binOf is the place of slant range r in the shape, in bins.
func binOf(r, altitude float64) float64 {
	return math.Log(r/altitude) * (shapeBins / shapeSpan)
}

// Learn takes one side of a ping into the mean shape.
func (l *Leveller) Learn(samples []uint16, bin, altitude float64) {
	first := int(altitude/bin) + 1
	for i := range shapeBins {
		r0 := altitude * math.Exp(float64(i)*shapeSpan/shapeBins)
		r1 := altitude * math.Exp(float64(i+1)*shapeSpan/shapeBins)
		from, to := max(int(r0/bin), first), min(int(r1/bin), len(samples))
		if to <= from {
			continue
		}
		sum := 0
		for _, v := range samples[from:to] {
			sum += int(v)
		}
		l.pings[i]++
		l.mean[i] += (float64(sum)/float64(to-from) - l.mean[i]) / l.pings[i]
	}
	l.settle()
	l.learnt++
}

// settle works out the shape from the means. Angles seldom seen (the far range
// from an unusual height) borrow from their nearer neighbour until they have
// been seen often enough to speak for themselves.
func (l *Leveller) settle() {
	const enough = 200.0 // pings
	l.shape[0] = l.mean[0]
	for i := 1; i < shapeBins; i++ {
		w := min((l.pings[i]-prior)/enough, 1)
		l.shape[i] = w*l.mean[i] + (1-w)*l.shape[i-1]
	}
	l.shape[shapeBins] = l.shape[shapeBins-1]
}

// Level fills dst with the levelled amplitudes of samples. In the water column
// the shape of the first return stands.
func (l *Leveller) Level(dst []float32, samples []uint16, bin, altitude float64) {
	l.refresh(len(samples), bin, altitude)
	dst = dst[:len(samples)]
	factor := l.factor[:len(samples)]
	for k, v := range samples {
		dst[k] = float32(v) * factor[k]
	}
}

// refresh works out what each sample is multiplied by, again when the altitude
// has changed by three thousandths or the shape has learnt a sixteenth more than it
// knew, or for a while.
func (l *Leveller) refresh(n int, bin, altitude float64) {
	const often = 30 // sides of pings
	stale := l.learnt >= often || 16*l.learnt > l.known
	if len(l.factor) == n && l.bin == bin && math.Abs(altitude-l.altitude) < 3e-3*l.altitude && !stale {
		return
	}
	l.known += l.learnt
	l.learnt, l.bin, l.altitude = 0, bin, altitude
	l.factor = append(l.factor[:0], make([]float32, n)...)
	for k := range l.factor {
		s := binOf((float64(k)+0.5)*bin, altitude) - 0.5 // means belong to the middle of their bin
		if s <= 0 {
			l.factor[k] = float32(1 / max(l.shape[0], 1))
			continue
		}
		i := min(int(s), shapeBins-1)
		f := min(s-float64(i), 1)
		l.factor[k] = float32(1 / max(l.shape[i]+f*(l.shape[i+1]-l.shape[i]), 1))
	}
}

// toneSteps tabulates the tone curve to levelled amplitudes of toneEnd, beyond
// which it is white.
const (
	toneSteps = 4096
	toneEnd   = 12.0
)

var toneTable = func() (t [toneSteps]uint8) {
	for i := range t {
		v := (float64(i) + 0.5) * toneEnd / toneSteps
		t[i] = uint8(min(max(256*(1-math.Exp(-0.55*v)), 1), 255))
	}
	return t
}()

// Tone turns a levelled amplitude into grey, 1 to 255: an ordinary echo comes
// out a little below the middle, ten times that close to white, and the
// gradient is steepest in the dark, where shadows are told from the floor.
func Tone(v float32) uint8 {
	if v >= toneEnd {
		return toneTable[toneSteps-1]
	}
	return toneTable[max(int(v*(toneSteps/toneEnd)), 0)]
}
