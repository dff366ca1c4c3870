package tow

import (
	"math"

	"dryline/seabed/chance"
)

// JitterSpec is how a fish moves about where the tow has it, from causes that the
// tow does not model, as standard deviations. Zero is a fish on rails.
type JitterSpec struct {
	Heave  float64 // metres
	Pitch  float64 // radians
	Roll   float64 // radians
	Yaw    float64 // radians
	Period float64 // mean period, seconds
}

// motion is one axis of the jitter: a sum of sines about the mean period, each
// with its own phase, which is near Gaussian and never repeats within a survey
// (Longuet-Higgins, "The statistical analysis of a random, moving surface",
// Phil. Trans. R. Soc. A 249, 1957, for the sum of many sines).
type motion struct {
	amplitude float64
	omega     [motionSines]float64
	phase     [motionSines]float64
}

const motionSines = 7

func newMotion(seed uint64, name string, deviation, period float64) motion {
	m := motion{amplitude: deviation * math.Sqrt(2.0/motionSines)}
	if deviation <= 0 || period <= 0 {
		m.amplitude = 0
		return m
	}
	rng := chance.Stream(seed, "tow/unrest/"+name)
	for i := range m.omega {
		// Evenly over two thirds of an octave either way, not in step.
		spread := math.Exp2((float64(i)+0.2+0.6*rng.Float64())/motionSines*4/3 - 2.0/3)
		m.omega[i] = 2 * math.Pi / period * spread
		m.phase[i] = 2 * math.Pi * rng.Float64()
	}
	return m
}

// at returns the motion and its rate at a time.
func (m *motion) at(t float64) (x, rate float64) {
	if m.amplitude == 0 {
		return 0, 0
	}
	for i, w := range m.omega {
		sin, cos := math.Sincos(w*t + m.phase[i])
		x += sin
		rate += w * cos
	}
	return m.amplitude * x, m.amplitude * rate
}

// Jitter moves a fish about where the tow has it.
type Jitter struct{ heave, pitch, roll, yaw motion }

// NewJitter draws the motions from a seed. Each axis has its own stream:
// changing one leaves the others as they were.
func NewJitter(s JitterSpec, seed uint64) *Jitter {
	return &Jitter{
		heave: newMotion(seed, "heave", s.Heave, s.Period),
		pitch: newMotion(seed, "pitch", s.Pitch, 0.8*s.Period),
		roll:  newMotion(seed, "roll", s.Roll, 1.1*s.Period),
		yaw:   newMotion(seed, "yaw", s.Yaw, 1.6*s.Period),
	}
}

// Displacement is the jitter at one moment.
type Displacement struct {
	Heave, Pitch, Roll, Yaw float64 // metres up; radians
	YawRate                 float64 // radians per second
}

// At returns the jitter at a time, seconds.
func (j *Jitter) At(t float64) Displacement {
	var d Displacement
	d.Heave, _ = j.heave.at(t)
	d.Pitch, _ = j.pitch.at(t)
	d.Roll, _ = j.roll.at(t)
	d.Yaw, d.YawRate = j.yaw.at(t)
	return d
}
