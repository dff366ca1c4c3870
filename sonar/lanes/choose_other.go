//go:build !amd64 || purego

package lanes

func walk(out []Block, z, inverse, slope []float32, class []uint8, t *Tables, from *Progress, g, perMetre float32) {
	walkScalar(out, z, inverse, slope, class, t, from, g, perMetre)
}

func walkBent(out []Block, z, inverse, slope []float32, class []uint8, bent Bending, t *Tables, from *Progress, g, perMetre float32) {
	walkBentScalar(out, z, inverse, slope, class, bent, t, from, g, perMetre)
}

func deposit(bins []Bin, blocks []Block, long []uint16) { depositScalar(bins, blocks, long) }

func receive(dst []uint16, r *Reception) { receiveScalar(dst, r, 0) }

func gather(dst, energy, factor, left []float32) { gatherScalar(dst, energy, factor, left) }

func settle(first, second []float32, bins []Bin, weights, weights2 []float32) {
	settleScalar(first, second, bins[1:], weights, weights2, bins[0])
}

func draw(draws []uint32, state uint64) { drawScalar(draws, state, 0) }

func convolve(dst, values, kernel []float32) { convolveScalar(dst, values, kernel) }

func addRings(dst, factor, rings []float32) { addRingsScalar(dst, factor, rings) }

func lowest(z []float32) float32 { return lowestScalar(z) }
