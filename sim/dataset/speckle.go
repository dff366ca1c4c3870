package dataset

import (
	"math"

	"dryline/sim"
	"dryline/sonar"
)

const (
	angleBins = 18 // of five degrees
	window    = 32 // samples
)

// Angle is what lit floor does at grazing angles of five degrees: sums over windows of 32
// samples in a row that show floor of one sediment, on the first channel.
type Angle struct {
	Windows   int64   `json:"windows"`
	Intensity float64 `json:"sum_of_mean_intensity"`      // counts squared, as recorded
	Contrast  float64 `json:"sum_of_contrast_squared"`    // variance over squared mean of the intensity
	Cut       int64   `json:"windows_left_out_at_limits"` // with samples at full scale or under a few counts
}

// Angles are by grazing angle: bin k is from 5k to 5k+5 degrees.
type Angles [angleBins]Angle

// attend gathers what pings say of it.
func (a *Angles) attend(s *sim.Session) {
	s.Observe(sim.Observer{Truth: true, Labels: true, Ping: func(p *sim.Ping) {
		if p.Line == "" || p.Lost || p.Number%4 != 0 { // one in four tells enough
			return
		}
		a.add(p.Port[0], p.Truth.Labels[sonar.Port])
		a.add(p.Starboard[0], p.Truth.Labels[sonar.Starboard])
	}})
}

func (a *Angles) add(samples []uint16, labels []sonar.Label) {
	run := 0
	for k := range labels {
		l := &labels[k]
		if l.Kind != sonar.FloorLabel || run > 0 && l.Class != labels[k-1].Class {
			run = 0
			continue
		}
		if run++; run < window {
			continue
		}
		run = 0
		a.window(samples[k+1-window:k+1], labels[k-window/2].Grazing())
	}
}

func (a *Angles) window(samples []uint16, grazing float64) {
	const (
		full  = math.MaxUint16
		faint = 20 // counts: below it whole counts are steps
	)
	bin := &a[min(int(grazing*180/math.Pi/5), angleBins-1)]
	sum, squares, mean := 0.0, 0.0, 0.0
	for _, v := range samples {
		if v == full {
			bin.Cut++
			return
		}
		x := float64(v) * float64(v)
		sum, squares, mean = sum+x, squares+x*x, mean+float64(v)
	}
	if mean < faint*window {
		bin.Cut++
		return
	}
	m := sum / window
	bin.Windows++
	bin.Intensity += m
	bin.Contrast += (squares - sum*m) / (window - 1) / (m * m)
}

// merge adds what another scene has.
func (a *Angles) merge(b *Angles) {
	for k := range a {
		a[k].Windows += b[k].Windows
		a[k].Intensity += b[k].Intensity
		a[k].Contrast += b[k].Contrast
		a[k].Cut += b[k].Cut
	}
}

// contrastSquared is the variance of the intensity over its squared mean. Of windows of n
// independent values of fully developed speckle, whose intensity is exponential, the mean
// of the ratio is n/(n+1), as that of the sum of squares over the squared sum is 2/(n+1)
// (moments of a flat Dirichlet distribution); it is divided out here.
func (a *Angle) contrastSquared() float64 {
	return a.Contrast / float64(a.Windows) * (window + 1) / window
}

// shape is the shape of the K distribution with that contrast: variance over squared mean
// is 1 + 2/shape (Jakeman and Pusey 1976, for the intensity with one look); infinite for
// no more than speckle.
func (a *Angle) shape() float64 {
	over := a.contrastSquared() - 1
	if over <= 0 {
		return math.Inf(1)
	}
	return 2 / over
}
