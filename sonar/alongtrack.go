package sonar

import (
	"math"

	"dryline/sonar/acoustics"
)

// alongTrack is the two-way beam of a channel along the track, tabulated from
// the line integral of its array (acoustics.LineArray.AlongTrackPattern) over
// range and offset: near and far, in and out of focus, with its side lobes out
// to the second null. One table stands for the bins of a segment.
type alongTrack struct {
	segments []*beamAt
	middle   float64 // slant range in the middle of the first, metres
	step     float64 // and from one to the next
}

// beamAt is the beam in the middle of a segment.
type beamAt struct {
	defocus  float64   // of the array there, see acoustics.LineArray.Defocus
	perMetre float64   // steps of the tables to the metre of offset
	share    []float32 // of the two-way beam from the axis out to each offset; a half at the end
	power    []float32 // two-way at each offset, over gain
	gain     float64   // the beam's integral over that of the far field's
	width    float64   // between half-power points of a far-field beam with as many scatterers in it, metres
	left     []float32 // of a floor's echo, by what the fish has turned; see turned
}

const (
	// Tables are worked out for segments of segmentBins bins.
	segmentShift = 4
	segmentBins  = 1 << segmentShift
	beamSteps    = 128 // of offset
	// lobes is how far the tables go beyond half the array, in lambda/L: past the
	// second null of a uniform line, whose next lobe is -36 dB two-way.
	lobes = 2.1
	// nearest is the least slant range that is told apart, metres.
	nearest = 1.0

	turnSteps = 32
	turnEnd   = 3.0 // one-way half-power widths
)

func (e *Engine) newAlongTrack(t *tuned) *alongTrack {
	n := (e.spec.Samples + segmentBins - 1) >> segmentShift
	b := &alongTrack{step: segmentBins * e.bin, middle: segmentBins * e.bin / 2}
	for s := range n + 1 { // one more, for what ends with the last bin
		r := max(b.middle+float64(s)*b.step, nearest)
		q := t.array.Defocus(r, t.wavelength, t.spec.Focus)
		if s > 0 && b.segments[s-1].defocus == q { // the same but for its scale
			at := *b.segments[s-1]
			scale := max(b.middle+float64(s-1)*b.step, nearest) / r
			at.perMetre *= scale
			at.width /= scale
			b.segments = append(b.segments, &at)
			continue
		}
		b.segments = append(b.segments, t.newBeamAt(r, q))
	}
	return b
}

func (t *tuned) newBeamAt(r, defocus float64) *beamAt {
	a := t.array
	unit := r * t.wavelength / a.Length
	step := (math.Abs(defocus)/2 + lobes) * unit / beamSteps
	at := &beamAt{defocus: defocus, perMetre: 1 / step}
	pattern := make([]float64, beamSteps+1)
	a.AlongTrackPattern(pattern, step, r, t.wavelength, t.spec.Focus)
	at.gain = acoustics.FromDecibels(-a.AlongTrackLoss(r, t.wavelength, t.spec.Focus))
	sums := make([]float64, beamSteps+1)
	for i := 1; i <= beamSteps; i++ {
		sums[i] = sums[i-1] + (pattern[i-1]+pattern[i])/2
	}
	for i := range pattern {
		at.share = append(at.share, float32(sums[i]/(2*sums[beamSteps])))
		at.power = append(at.power, float32(pattern[i]/at.gain))
	}
	far := make([]float64, beamSteps+1)
	const all = -1 // in focus at every range
	a.AlongTrackPattern(far, lobes*unit/beamSteps, r, t.wavelength, all)
	at.width = t.halfPower * r * step * participants(pattern) / (lobes * unit / beamSteps * participants(far))
	left := make([]float64, turnSteps+1)
	a.AlongTrackOverlaps(left, turnEnd*t.oneWay/turnSteps, r, t.wavelength, t.spec.Focus)
	for _, v := range left {
		at.left = append(at.left, float32(v))
	}
	return at
}

// participants is how many steps of a pattern take part in an echo: the square of
// its sum over the sum of its squares.
func participants(pattern []float64) float64 {
	sum, squares := 0.0, 0.0
	for _, p := range pattern {
		sum += p
		squares += p * p
	}
	return sum * sum / squares
}

// gained and wide name two values of the beam.
func (at *beamAt) gained() float64 { return at.gain }
func (at *beamAt) wide() float64   { return at.width }

// within is the share of the beam that lies astern of an offset ahead of the
// axis, metres.
func (at *beamAt) within(offset float64) float64 {
	u := math.Abs(offset) * at.perMetre
	half := 0.5
	if u < beamSteps {
		i := int(u)
		half = float64(at.share[i] + float32(u-float64(i))*(at.share[i+1]-at.share[i]))
	}
	if offset < 0 {
		return 0.5 - half
	}
	return 0.5 + half
}

// at is the two-way power at an offset and a slant range in bins, over what the
// near field leaves of a floor's echo; nothing beyond the second null.
func (b *alongTrack) at(offset float64, bin int) float64 {
	at := b.segments[min(bin>>segmentShift, len(b.segments)-1)]
	u := math.Abs(offset) * at.perMetre
	if u >= beamSteps {
		return 0
	}
	i := int(u)
	return float64(at.power[i] + float32(u-float64(i))*(at.power[i+1]-at.power[i]))
}

// between is a value of the beam at a slant range, on straight lines between the
// segments.
func (b *alongTrack) between(r float64, of func(*beamAt) float64) float64 {
	u := max((r-b.middle)/b.step, 0)
	i := min(int(u), len(b.segments)-2)
	p, q := of(b.segments[i]), of(b.segments[i+1])
	return p + min(u-float64(i), 1)*(q-p)
}

// turned fills dst, by segment, with the share that is left where echoes are lost because the array hears from another
// place, and on another heading, than it sent: the product of the beam with
// itself turned (acoustics.LineArray.AlongTrackOverlaps). Sound from slant range
// R is under way for 2R/c; meanwhile a fish of speed v goes ahead, which turns
// the echo astern by 2v/c whatever the range, and at a yaw rate w it turns by
// 2wR/c, on the starboard side with the echo and on the port side against it.
// Left out: the current, which carries the sound along.
func (b *alongTrack) turned(dst []float32, pose *Pose, side Side, oneWay, soundSpeed float64) {
	ahead, perMetre := 2*pose.Speed/soundSpeed, 2*pose.YawRate/soundSpeed
	if side == Starboard {
		perMetre = -perMetre
	}
	steps := turnSteps / (turnEnd * oneWay)
	for s := range dst {
		r := b.middle + float64(s)*b.step
		u := min(math.Abs(ahead+perMetre*r)*steps, turnSteps-1e-6)
		i := int(u)
		left := b.segments[s].left
		dst[s] = left[i] + float32(u-float64(i))*(left[i+1]-left[i])
	}
}
