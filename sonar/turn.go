package sonar

import "math"

// turned is what is left of an echo when the fish has yawed between sending
// and hearing: the product of a beam with itself turned,
//
//	C(d) = int b(x) b(x-d) dx / int b(x)^2 dx
//
// with b the one-way power pattern and d the turn, in one-way half-power
// widths. Exact for a uniform line in the far field; the width of a focused or
// near beam is not taken into account.
type turned [turnSteps + 1]float32

const (
	turnSteps = 64
	turnEnd   = 3.0 // half-power widths
)

// turns is the table for a uniform line: sinc^2 patterns by simple sums.
var turns = func() *turned {
	t := new(turned)
	const (
		step = 0.005
		side = 8.0
		// Half-power widths to the sinc's argument over pi.
		scale = 0.885893
	)
	b := func(x float64) float64 {
		u := math.Pi * x * scale
		if math.Abs(u) < 1e-9 {
			return 1
		}
		s := math.Sin(u) / u
		return s * s
	}
	whole := 0.0
	for x := -side; x <= side; x += step {
		whole += b(x) * b(x)
	}
	for i := range t {
		d := turnEnd * float64(i) / turnSteps
		sum := 0.0
		for x := -side; x <= side+d; x += step {
			sum += b(x) * b(x-d)
		}
		t[i] = float32(sum / whole)
	}
	return t
}()

// turn takes from each bin what the yaw between sending and hearing costs.
func (t *tuned) turn(intensity []float32, yawRate, bin, soundSpeed float64) {
	perBin := math.Abs(yawRate) * 2 * bin / soundSpeed / t.oneWay * (turnSteps / turnEnd)
	const slight = 2.5 // steps of the table: an eighth of a decibel
	if perBin*float64(len(intensity)) < slight {
		return
	}
	for k := range intensity {
		u := min((float64(k)+0.5)*perBin, turnSteps-1e-6)
		i := int(u)
		f := float32(u - float64(i))
		intensity[k] *= turns[i] + f*(turns[i+1]-turns[i])
	}
}
