//go:build amd64 && !purego

package lanes

import (
	"unsafe"

	"golang.org/x/sys/cpu"
)

// What the machine has. Tests turn them off.
var (
	hasAVX2   = cpu.X86.HasAVX2
	hasAVX512 = cpu.X86.HasAVX512F && cpu.X86.HasAVX512DQ && cpu.X86.HasAVX512BW && cpu.X86.HasAVX512VL
)

func walk(out []Block, z, inverse, slope []float32, class []uint8, t *Tables, from *Progress, g, perMetre float32) {
	switch {
	case hasAVX512:
		walkAVX512(&out[0].From[0], &z[0], &inverse[0], &slope[0], &class[0], (*float32)(unsafe.Pointer(t)), &from.Z, g, perMetre, len(out))
	case hasAVX2:
		walkAVX2(&out[0].From[0], &z[0], &inverse[0], &slope[0], &class[0], (*float32)(unsafe.Pointer(t)), &from.Z, g, perMetre, len(out))
	default:
		walkScalar(out, z, inverse, slope, class, t, from, g, perMetre)
	}
}

func walkBent(out []Block, z, inverse, slope []float32, class []uint8, bent Bending, t *Tables, from *Progress, g, perMetre float32) {
	switch {
	case hasAVX512:
		walkBentAVX512(&out[0].From[0], &z[0], &inverse[0], &slope[0], &class[0], &bent.Launch[0], &bent.Arrive[0], &bent.Excess[0], (*float32)(unsafe.Pointer(t)), &from.Z, g, perMetre, len(out))
	case hasAVX2:
		walkBentAVX2(&out[0].From[0], &z[0], &inverse[0], &slope[0], &class[0], &bent.Launch[0], &bent.Arrive[0], &bent.Excess[0], (*float32)(unsafe.Pointer(t)), &from.Z, g, perMetre, len(out))
	default:
		walkBentScalar(out, z, inverse, slope, class, bent, t, from, g, perMetre)
	}
}

func deposit(bins []Bin, blocks []Block, long []uint16) {
	last := float32(len(bins) - 1)
	switch {
	case hasAVX512:
		depositAVX512(&bins[0].First, &blocks[0].From[0], &long[0], last, len(blocks)/group, len(blocks)%group)
	case hasAVX2:
		depositAVX2(&bins[0].First, &blocks[0].From[0], &long[0], last, len(blocks)/group, len(blocks)%group)
	default:
		depositScalar(bins, blocks, long)
	}
}

// settle is for whole segments; bins begin with the one before.
func settle(first, second []float32, bins []Bin, weights, weights2 []float32) {
	switch {
	case hasAVX512:
		settleAVX512(&first[0], &second[0], &bins[1].First, &weights[0], &weights2[0], len(first)/Width)
	case hasAVX2:
		settleAVX2(&first[0], &second[0], &bins[1].First, &weights[0], &weights2[0], len(first)/Width)
	default:
		settleScalar(first, second, bins[1:], weights, weights2, bins[0])
	}
}

// receive is for whole vectors.
func receive(dst []uint16, r *Reception) {
	switch {
	case hasAVX512:
		receiveAVX512(&dst[0], &r.Echo[0], &r.Stray[0], &r.Gain[0], &r.First[0], &r.Second[0], r.A, r.B, r.Noise, &r.Draws[0], &r.Fields[0], r.Full, len(dst)/16)
	case hasAVX2:
		receiveAVX2(&dst[0], &r.Echo[0], &r.Stray[0], &r.Gain[0], &r.First[0], &r.Second[0], r.A, r.B, r.Noise, &r.Draws[0], &r.Fields[0], r.Full, len(dst)/8)
	default:
		receiveScalar(dst, r, 0)
	}
}

// gather is for whole segments.
func gather(dst, energy, factor, left []float32) {
	switch {
	case hasAVX512:
		gatherAVX512(&dst[0], &energy[0], &factor[0], &left[0], len(dst)/Width)
	case hasAVX2:
		gatherAVX2(&dst[0], &energy[0], &factor[0], &left[0], len(dst)/Width)
	default:
		gatherScalar(dst, energy, factor, left)
	}
}

// draw is for whole vectors.
func draw(draws []uint32, state uint64) {
	if hasAVX512 {
		drawAVX512(&draws[0], state, len(draws)/Width)
		return
	}
	drawScalar(draws, state, 0)
}

// convolve is for whole vectors.
func convolve(dst, values, kernel []float32) {
	switch {
	case hasAVX512:
		convolveAVX512(&dst[0], &values[0], &kernel[0], len(kernel), len(dst)/16)
	case hasAVX2:
		convolveAVX2(&dst[0], &values[0], &kernel[0], len(kernel), len(dst)/8)
	default:
		convolveScalar(dst, values, kernel)
	}
}

func addRings(dst, factor, rings []float32) {
	if hasAVX2 || hasAVX512 { // whoever has the second has the first
		addRingsAVX2(&dst[0], &factor[0], &rings[0], len(rings))
		return
	}
	addRingsScalar(dst, factor, rings)
}

// lowest is for whole vectors.
func lowest(z []float32) float32 {
	var lanes [Width]float32
	switch {
	case hasAVX512:
		lowestAVX512(&lanes[0], &z[0], len(z)/16)
	case hasAVX2:
		lowestAVX2(&lanes[0], &z[0], len(z)/8)
	default:
		return lowestScalar(z)
	}
	return lowestScalar(lanes[:])
}
