package dataset

import (
	"math"
	"slices"

	"dryline/seabed"
	"dryline/sim"
	"dryline/sonar"
	"dryline/sonar/acoustics"
)

const (
	angleBins  = 18 // of angleWidth degrees
	angleWidth = 5
	window     = 32 // samples
)

// Floor sums up what lit floor of a sediment does at grazing angles of five degrees: sums over
// windows of 32 samples in a row that show nothing else, on the first channel. The grazing
// angle is that of the ray on level ground, of which the published laws speak.
type Floor struct {
	Sediment string `json:"sediment"`
	Grazing  int    `json:"grazing_deg"` // least of the five
	Windows  int64  `json:"windows"`
	Cut      int64  `json:"windows_left_out_at_limits"` // with samples at full scale or of a few counts

	Intensity float64 `json:"sum_of_mean_intensity"`          // counts squared, as recorded
	Contrast  float64 `json:"sum_of_contrast_squared"`        // variance over squared mean of the intensity
	Law       float64 `json:"sum_of_contrast_squared_by_law"` // 1 + 2/shape, with as many scatterers as share a cell there

	Heard       int64   `json:"windows_over_noise"` // whose echo stands over the noise expected
	Strength    float64 `json:"sum_of_strength"`    // backscattering strength, linear, from the level
	StrengthLaw float64 `json:"sum_of_strength_by_law"`
}

// merge adds what another has.
func (f *Floor) merge(b *Floor) {
	f.Windows, f.Cut, f.Heard = f.Windows+b.Windows, f.Cut+b.Cut, f.Heard+b.Heard
	f.Intensity, f.Contrast, f.Law = f.Intensity+b.Intensity, f.Contrast+b.Contrast, f.Law+b.Law
	f.Strength, f.StrengthLaw = f.Strength+b.Strength, f.StrengthLaw+b.StrengthLaw
}

// level is of the mean intensity, dB re 1 count.
func (f *Floor) level() float64 { return acoustics.Decibels(f.Intensity / float64(f.Windows)) }

// strength is the backscattering strength measured and by the law, dB.
func (f *Floor) strength() (measured, law float64) {
	return acoustics.Decibels(f.Strength / float64(f.Heard)), acoustics.Decibels(f.StrengthLaw / float64(f.Heard))
}

// contrastSquared is the variance of the intensity over its squared mean, measured and by
// the law. Of windows of n independent values of fully developed speckle, whose intensity
// is exponential, the mean of the ratio is n/(n+1), as that of the sum of squares over the
// squared sum is 2/(n+1) (moments of a flat Dirichlet distribution); it is divided out here.
func (f *Floor) contrastSquared() (measured, law float64) {
	return f.Contrast / float64(f.Windows) * (window + 1) / window, f.Law / float64(f.Windows)
}

// shapeOf is the shape of the K distribution with a contrast: variance over squared mean
// is 1 + 2/shape (Jakeman and Pusey 1976, for the intensity with one look); infinite for
// no more than speckle.
func shapeOf(contrastSquared float64) float64 {
	if contrastSquared <= 1 {
		return math.Inf(1)
	}
	return 2 / (contrastSquared - 1)
}

// floors gathers them.
type floors struct {
	sums [seabed.FirstMaterial][angleBins]Floor
	law  *floorLaw
}

// attend gathers what pings say of the floor: one in four tells enough.
func (f *floors) attend(s *sim.Session) {
	s.Observe(sim.Observer{Truth: true, Labels: true, Ping: func(p *sim.Ping) {
		if p.Line == "" || p.Lost || p.Number%4 != 0 {
			return
		}
		if f.law == nil || f.law.engine != s.Engine() {
			f.law = newFloorLaw(s.Engine())
		}
		if set := s.Desk.Recorder.Receivers; len(set) > 0 {
			f.law.receiver = set[0]
		}
		f.add(p.Port[0], p.Truth.Labels[sonar.Port], p.Truth.Pose.Z)
		f.add(p.Starboard[0], p.Truth.Labels[sonar.Starboard], p.Truth.Pose.Z)
	}})
}

func (f *floors) add(samples []uint16, labels []sonar.Label, fish float64) {
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
		f.window(samples, labels, k+1-window, fish)
	}
}

// window adds the window that begins at a sample.
func (f *floors) window(samples []uint16, labels []sonar.Label, from int, fish float64) {
	const (
		full  = math.MaxUint16
		faint = 20 // counts: below it whole counts are steps
	)
	below, ground := 0.0, 0.0
	for k := from; k < from+window; k++ {
		below, ground = below+fish-float64(labels[k].Height), ground+float64(labels[k].Ground)
	}
	below, ground = below/window, ground/window
	grazing := math.Atan2(below, ground)
	class := labels[from].Class
	if class >= seabed.FirstMaterial || grazing < 0 {
		return
	}
	sum := &f.sums[class][min(int(grazing*180/math.Pi/angleWidth), angleBins-1)]
	total, squares, mean := 0.0, 0.0, 0.0
	for _, v := range samples[from : from+window] {
		if v == full {
			sum.Cut++
			return
		}
		x := float64(v) * float64(v)
		total, squares, mean = total+x, squares+x*x, mean+float64(v)
	}
	if mean < faint*window {
		sum.Cut++
		return
	}
	m := total / window
	sum.Windows++
	sum.Intensity += m
	sum.Contrast += (squares - total*m) / (window - 1) / (m * m)
	sum.Law += f.law.contrastSquared(class, from+window/2)
	if strength, ok := f.law.strength(m, math.Hypot(below, ground), below); ok {
		sum.Heard++
		sum.Strength += strength
		sum.StrengthLaw += f.law.published(class, grazing)
	}
}

// all are those of which there is anything, by sediment and angle.
func (f *floors) all() []Floor {
	list := []Floor{}
	for class := range f.sums {
		for k := range f.sums[class] {
			if sum := f.sums[class][k]; sum.Windows+sum.Cut > 0 {
				sum.Sediment, sum.Grazing = seabed.Class(class).String(), k*angleWidth
				list = append(list, sum)
			}
		}
	}
	return list
}

// mergeFloors adds what a scene has to a list of the same order.
func mergeFloors(all []Floor, more []Floor) []Floor {
	for i := range more {
		m := &more[i]
		at, there := slices.BinarySearchFunc(all, m, func(a Floor, m *Floor) int { return a.order() - m.order() })
		if !there {
			all = slices.Insert(all, at, Floor{Sediment: m.Sediment, Grazing: m.Grazing})
		}
		all[at].merge(m)
	}
	return all
}

// order is by sediment, finest first, and angle.
func (f *Floor) order() int {
	class, _ := seabed.ParseSediment(f.Sediment)
	return int(class)*1000 + f.Grazing
}
