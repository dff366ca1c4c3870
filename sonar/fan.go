package sonar

import (
	"math"

	"dryline/sonar/acoustics"
)

// Along track a two-way beam has this shape, whatever its width: the far-field
// pattern of a line array over x, its offset from the axis in half-power
// widths. Near the array the true pattern is flatter with ripples; the width
// is right there, the shape is not.
//
// A fan is the rays on which a beam is sampled. Ray m runs at an offset of
// place[m] widths of the widest channel, along the straight line that joins
// the beam's width at the array to its width at the reference range. A
// channel of another width weighs the rays by where they fall in its own beam.
type fan struct {
	place  []float64 // in half-power widths of the widest channel
	near   float64   // width of that channel at the array, metres
	far    float64   // and at the reference range
	at     float64   // the reference range, metres
	jitter float64   // widths: how far the rays are shifted at most, either way
}

const (
	// reach is how far the fan goes on each side, in half-power widths: to about
	// -12 dB two-way.
	reach = 1.0
	// Weights are worked out for segments of segmentBins bins.
	segmentShift = 8
	segmentBins  = 1 << segmentShift
)

// widthAt is the half-power two-way width of the channel's beam along track at
// a slant range, metres.
//
// Unfocused it is R theta, never less than the length of the array. Focused at
// a fixed range F it is that of the converging aperture, L|1-R/F|, never less
// than R theta (geometry of a converging beam, diffraction at the focus).
// Focused dynamically on receive it is R theta all the way (see
// acoustics.LineArray.AlongTrackWidth); what the wide transmit beam then adds
// is left out.
func (t *tuned) widthAt(r float64) float64 {
	width := max(r*t.halfPower, t.wavelength/2)
	switch {
	case t.spec.Focus == Dynamic:
		return width
	case t.spec.Focus > 0:
		return max(width, t.array.Length*math.Abs(1-r/t.spec.Focus))
	}
	return max(width, t.array.Length)
}

// spread returns the factor of the beam's width on the level: energy that a
// far-field beam would put into R theta goes into the width there is.
func (t *tuned) spread(r float64) float64 {
	return r * t.halfPower / t.widthAt(r)
}

func (e *Engine) newFan() fan {
	end := float64(e.spec.Samples) * e.bin
	widest := e.channels[0]
	for _, t := range e.channels[1:] {
		if t.widthAt(end/2) > widest.widthAt(end/2) {
			widest = t
		}
	}
	f := fan{near: widest.widthAt(0), far: widest.widthAt(end), at: end}
	if focus := widest.spec.Focus; focus > 0 && focus != Dynamic {
		f.far, f.at = widest.widthAt(focus), focus
	}
	step := 2 * reach / float64(e.spec.Rays)
	for m := range e.spec.Rays {
		f.place = append(f.place, (float64(m)-float64(e.spec.Rays-1)/2)*step)
	}
	f.jitter = step / 2
	return f
}

// line is how far a ray of that place runs ahead of the beam axis: off metres at
// the array and slope more for each metre of slant range.
func (f *fan) line(place float64) (off, slope float64) {
	return place * f.near, place * (f.far - f.near) / f.at
}

// lay sets the rays of one ping and each channel's weights on them.
//
// The fan is shifted by a part of its spacing, drawn anew for every ping, so
// that the rays of many pings sample the lobe evenly. A channel much narrower
// than the spacing would then be sampled off its axis: the shift is no more
// than half its own width. The weights of a channel add up to its equivalent
// rectangular two-way width at every range, so a uniform floor returns exactly
// what the sonar equation says.
func (e *Engine) lay(ws *Workspace, shift float64) {
	f := &e.fan
	narrow := 1.0
	end := float64(e.spec.Samples) * e.bin
	for _, t := range e.channels {
		narrow = min(narrow, t.widthAt(end/2)/e.fan.widthAt(end/2))
	}
	shift *= min(2*f.jitter, narrow)
	for m, p := range f.place {
		ws.off[m], ws.slope[m] = f.line(p + shift)
		ws.inLobe[m] = math.Abs(p+shift) <= 0.5
	}
	rays := len(f.place)
	for c, t := range e.channels {
		for s := range ws.segments {
			r := min((float64(s)+0.5)*segmentBins*e.bin, end)
			width := t.widthAt(r)
			weights := ws.lanes[c].weights[s*rays : (s+1)*rays]
			sum := 0.0
			for m := range weights {
				x := (ws.off[m] + ws.slope[m]*r) / width
				weights[m] = e.shape.at(x)
				sum += weights[m]
			}
			if sum < 1e-6 { // every ray falls outside: the nearest stands for the beam
				weights[nearest(ws.off, ws.slope, r)] = 1
				sum = 1
			}
			for m := range weights {
				weights[m] *= t.width / sum
			}
		}
	}
}

// widthAt is the width of the fan's own channel along its straight line.
func (f *fan) widthAt(r float64) float64 { return f.near + (f.far-f.near)*r/f.at }

func nearest(off, slope []float64, r float64) int {
	best := 0
	for m := range off {
		if math.Abs(off[m]+slope[m]*r) < math.Abs(off[best]+slope[best]*r) {
			best = m
		}
	}
	return best
}

// lobe is the two-way far-field pattern of a uniform line by offset in
// half-power widths, as a table: it is asked for some hundred times a ping.
type lobe [lobeSteps + 1]float32

const (
	lobeSteps = 512
	lobeEnd   = 2.0 // widths: near the first null
)

func newLobe() *lobe {
	l := new(lobe)
	const wavelength = 0.01
	array := acoustics.LineArray{Length: 1}
	width := array.TwoWayHalfPowerWidth(wavelength)
	for i := range l {
		l[i] = float32(array.TwoWay(float64(i)*lobeEnd/lobeSteps*width, wavelength))
	}
	return l
}

func (l *lobe) at(x float64) float64 {
	i := int(math.Abs(x) * (lobeSteps / lobeEnd))
	if i >= lobeSteps {
		return 0
	}
	return float64(l[i])
}

// bearingAcross is the bearing from the fish of a ray that drifts slope metres
// ahead of the beam axis for each metre of range.
func bearingAcross(heading, slope float64, side Side) float64 {
	angle := math.Atan(slope)
	if side == Port {
		return heading - math.Pi/2 + angle
	}
	return heading + math.Pi/2 - angle
}
