package sonar

import "math"

// propagateInto turns the energy gathered per bin into intensity at the receiver,
// linear re 1 uPa^2: source level, spreading, absorption.
func (t *tuned) propagateInto(energy []float32) {
	for k, p := range t.propagate[:len(energy)] {
		energy[k] *= p
	}
}

// receive turns the intensity of one channel into samples: pulse, noise,
// speckle, gain, quantisation.
//
// Echo and noise are both sums of many independent contributions, so their
// sum's intensity is exponential about the sum of their means, whatever share
// each has. Only the echo has texture.
func (e *Engine) receive(dst []uint16, ws *Workspace, t *tuned, side Side, pose Pose) {
	intensity := ws.energy[:len(dst)]
	convolve(intensity, ws.scratch, t.kernel)
	noise := t.noise
	if e.NoiseOff {
		noise = 0
	}
	gain := t.gain[:len(dst)]
	if e.SpeckleOff {
		for k, i := range intensity {
			dst[k] = quantise(i+noise, gain[k])
		}
		return
	}
	r := t.speckle.rowsAt(pose.Run, e.seed+uint64(side))
	if ws.coarse {
		e.texture(intensity, ws, t, &r)
	}
	for k, i := range intensity {
		dst[k] = quantise((i+noise)*t.speckle.at(&r, k), gain[k])
	}
}

// texture varies the mean where few scatterers share a cell.
func (e *Engine) texture(intensity []float32, ws *Workspace, t *tuned, r *rows) {
	for k, density := range ws.grain[:len(intensity)] {
		if density == 0 {
			continue
		}
		if shape := density * t.cell[k]; shape < manyShape {
			intensity[k] *= e.textures.at(shape, t.speckle.deviate(r, k))
		}
	}
}

func quantise(intensity, gain float32) uint16 {
	v := float32(math.Sqrt(float64(intensity)))*gain + 0.5
	return uint16(min(v, fullScale))
}

// convolve replaces x by its convolution with an odd, symmetric kernel. scratch
// is at least as long as x.
func convolve(x, scratch, kernel []float32) {
	half := len(kernel) / 2
	if half == 0 {
		return
	}
	copy(scratch, x)
	for k := range x {
		low, high := max(0, k-half), min(len(x), k+half+1)
		sum := float32(0)
		w := kernel[low-k+half:]
		for i, v := range scratch[low:high] {
			sum += v * w[i]
		}
		x[k] = sum
	}
}
