//go:build amd64 && !purego

package lanes

import "golang.org/x/sys/cpu"

// What the machine has. Tests turn them off.
var (
	hasAVX2   = cpu.X86.HasAVX2
	hasAVX512 = cpu.X86.HasAVX512F && cpu.X86.HasAVX512DQ && cpu.X86.HasAVX512BW && cpu.X86.HasAVX512VL
)

func walk(out []Block, z, inverse, slope []float32, class []uint8, t *Tables, from *Progress, g, perMetre float32) {
	switch {
	case hasAVX512:
		walkAVX512(&out[0].From[0], &z[0], &inverse[0], &slope[0], &class[0], &t.Vertical[0][0], &from.Z, g, perMetre, len(out))
	case hasAVX2:
		walkAVX2(&out[0].From[0], &z[0], &inverse[0], &slope[0], &class[0], &t.Vertical[0][0], &from.Z, g, perMetre, len(out))
	default:
		walkScalar(out, z, inverse, slope, class, t, from, g, perMetre)
	}
}

func deposit(bins []Bin, blocks []Block, long []uint16) {
	last := float32(len(bins) - 1)
	switch {
	case hasAVX512:
		depositAVX512(&bins[0].First, &blocks[0].From[0], &long[0], last, len(blocks)/group)
	case hasAVX2:
		depositAVX2(&bins[0].First, &blocks[0].From[0], &long[0], last, len(blocks)/group)
	default:
		depositScalar(bins, blocks, long)
	}
}

func walkOpen(out []Block, z, inverse, slope, first, second []float32, class []uint8, t *Tables, from *Progress, g, perMetre float32) {
	switch {
	case hasAVX512:
		walkOpenAVX512(&out[0].From[0], &z[0], &inverse[0], &slope[0], &first[0], &second[0], &class[0], &t.Vertical[0][0], &from.Z, g, perMetre, len(out))
	case hasAVX2:
		walkOpenAVX2(&out[0].From[0], &z[0], &inverse[0], &slope[0], &first[0], &second[0], &class[0], &t.Vertical[0][0], &from.Z, g, perMetre, len(out))
	default:
		walkOpenScalar(out, z, inverse, slope, first, second, class, t, from, g, perMetre)
	}
}

func patterns(first, second, heights []float32, t *Tables, g float32) {
	switch {
	case hasAVX512:
		patternsAVX512(&first[0], &second[0], &heights[0], &t.Vertical[0][0], g, len(first)/Width)
	case hasAVX2:
		patternsAVX2(&first[0], &second[0], &heights[0], &t.Vertical[0][0], g, len(first)/Width)
	default:
		patternsScalar(first, second, heights, t, g)
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
