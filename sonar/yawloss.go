package sonar

import "math"

// yawLoss tabulates how much of an echo's intensity is left when the fish has
// yawed between sending and hearing: the product of a beam with itself turned,
//
//	C(d) = int b(x) b(x-d) dx / int b(x)^2 dx
//
// with b the one-way power pattern and d the yaw, in one-way half-power
// widths. Exact for a uniform line in the far field; the width of a focused or
// near beam is not taken into account.
type yawLoss [yawSteps + 1]float32

const (
	yawSteps = 64
	yawEnd   = 3.0 // half-power widths
)

// yawLossOfLine is the table for a uniform line: sinc^2 patterns by simple sums.
var yawLossOfLine = func() *yawLoss {
	t := new(yawLoss)
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
		d := yawEnd * float64(i) / yawSteps
		sum := 0.0
		for x := -side; x <= side+d; x += step {
			sum += b(x) * b(x-d)
		}
		t[i] = float32(sum / whole)
	}
	return t
}()

// loseByYaw takes from each bin what the yaw between sending and hearing costs.
func (t *tuned) loseByYaw(intensity []float32, yawRate, bin, soundSpeed float64) {
	perBin := math.Abs(yawRate) * 2 * bin / soundSpeed / t.oneWay * (yawSteps / yawEnd)
	const slight = 2.5 // steps of the table: an eighth of a decibel
	if perBin*float64(len(intensity)) < slight {
		return
	}
	for k := range intensity {
		u := min((float64(k)+0.5)*perBin, yawSteps-1e-6)
		i := int(u)
		f := float32(u - float64(i))
		intensity[k] *= yawLossOfLine[i] + f*(yawLossOfLine[i+1]-yawLossOfLine[i])
	}
}
