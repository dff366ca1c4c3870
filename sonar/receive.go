package sonar

import (
	"math"

	"dryline/sonar/lanes"
	"dryline/sonar/recorder"

	"gonum.org/v1/gonum/blas/blas32"
)

// receive turns the intensity of one channel into samples: pulse, speckle,
// noise, gain, quantisation.
//
// Speckle belongs to the ground, noise to the ping: see [speckle] and
// [fields]. Of the echo alone the local mean varies, see texture.
func (e *Engine) receive(dst []uint16, ws *Workspace, channel int, side Side, pose Pose, number uint64) {
	t := e.channels[channel]
	intensity, stray := ws.energy[:len(dst)], ws.stray[:len(dst)]
	convolve(intensity, ws.scratch, t.kernel)
	noise := t.noise
	if e.NoiseOff {
		noise = 0
	}
	gain := t.gain[:len(dst)]
	if e.SpeckleOff {
		for k, i := range intensity {
			dst[k] = quantise(i+noise+stray[k], gain[k])
		}
		return
	}
	r := t.speckle.rowsAt(pose.Run, e.seed+uint64(side))
	if ws.coarse {
		e.texture(intensity, ws, t, &r)
	}
	random := e.noiseStream(channel, side, number)
	random.fill(ws.draws)
	lanes.Receive(dst, &lanes.Reception{
		Echo: intensity, Stray: stray, Gain: gain, Noise: noise,
		First: t.speckle.table[r.first:], Second: t.speckle.table[r.second:], A: r.a, B: r.b,
		Draws: ws.draws, Fields: noiseFields, Full: recorder.FullScale,
	})
}

func root(x float32) float32 { return float32(math.Sqrt(float64(x))) }

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
	v := root(intensity)*gain + 0.5
	if v > recorder.FullScale {
		return recorder.FullScale
	}
	return uint16(int32(v))
}

// convolve replaces x by its convolution with an odd kernel. scratch is at
// least as long as x.
func convolve(x, scratch, kernel []float32) {
	half := len(kernel) / 2
	if half == 0 {
		return
	}
	copy(scratch, x)
	clear(x)
	n := len(x)
	for j, w := range kernel {
		// What lies shift bins further out.
		shift := j - half
		from, to := max(0, -shift), min(n, n-shift)
		if from >= to {
			continue
		}
		blas32.Axpy(w, blas32.Vector{N: to - from, Inc: 1, Data: scratch[from+shift : to+shift]},
			blas32.Vector{N: to - from, Inc: 1, Data: x[from:to]})
	}
}
