package app

import (
	"math"
	"slices"

	"dryline/seabed/units"
	"dryline/sim/order"
)

const knot = units.Knot

// Steps of the receiver's settings.
const (
	gainStep   = 3.0  // dB
	spreadStep = 5.0  // of k in k log10(R)
	lossStep   = 10.0 // dB/km
)

// scales are the range scales to choose from, metres.
var scales = []float64{15, 20, 25, 30, 40, 50, 75, 100, 150, 200}

// faster orders another speed.
func (p *post) faster(by float64) {
	want := math.Round((p.orderedTo(order.Speed, p.view.Bridge.Speed)+by)/(0.1*knot)) * 0.1 * knot
	p.give(order.Command{Do: order.Speed, Value: min(max(want, 0), p.brief.Vessel.SpeedMax)})
}

// payOut orders more cable, or less.
func (p *post) payOut(by float64) {
	want := math.Round(p.orderedTo(order.Cable, p.view.Bridge.CableOrdered) + by)
	p.give(order.Command{Do: order.Cable, Value: min(max(want, p.brief.Tow.Winch.Min), p.brief.Tow.Cable.Length)})
}

// rangeScale orders the next longer or shorter range scale.
func (p *post) rangeScale(by int) {
	have := p.orderedTo(order.Range, p.view.Recorder.RangeScale)
	next := slices.IndexFunc(scales, func(s float64) bool { return s > have+0.5 })
	if by < 0 {
		next = len(scales) - 1
		for next >= 0 && scales[next] >= have-0.5 {
			next--
		}
	}
	if next >= 0 {
		p.give(order.Command{Do: order.Range, Value: scales[next]})
	}
}

// amplify changes a setting of a channel's receiver.
func (p *post) amplify(channel int, do order.Do, by float64) {
	rec := &p.view.Recorder
	now, low, high := rec.Receivers[channel].Gain, -60.0, 60.0
	switch do {
	case order.TVG:
		now, low = rec.Receivers[channel].TVGSpreading, 0
	case order.TVGLoss:
		now, low, high = rec.Receivers[channel].TVGAbsorption, 0, 1000
	}
	if o := p.pending(do); o != nil && o.Text == rec.Channels[channel] {
		now = o.Value
	}
	p.give(order.Command{Do: do, Text: rec.Channels[channel], Value: min(max(now+by, low), high)})
}
