package sonar

import (
	"math"

	"dryline/sonar/lanes"
	"dryline/sonar/recorder"
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
	lanes.Draw(ws.draws, e.noiseStream(channel, side, number))
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

// convolve replaces x by its convolution with an odd kernel. scratch is as long as x and the kernel together.
func convolve(x, scratch, kernel []float32) {
	half := len(kernel) / 2
	if half == 0 {
		return
	}
	// Nothing lies before the first bin and after the last.
	values := scratch[:len(x)+2*half]
	clear(values[:half])
	copy(values[half:], x)
	clear(values[half+len(x):])
	lanes.Convolve(x, values, kernel)
}
