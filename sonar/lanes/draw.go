package lanes

import "dryline/seabed/chance"

// golden is the step that a stream of SplitMix64 counts in.
const golden = 0x9e3779b97f4a7c15

const drawBits = 2 * FieldBits

// Draw fills draws with two numbers below FieldSteps each, as [Receive] takes them: one number of
// the stream of SplitMix64 after a state does for two samples.
func Draw(draws []uint32, state uint64) {
	whole := len(draws) / Width * Width
	if whole > 0 {
		draw(draws[:whole], state)
	}
	drawScalar(draws, state, whole)
}

// drawScalar goes on from an even sample to the end.
func drawScalar(draws []uint32, state uint64, from int) {
	state += uint64(from/2) * golden
	draws = draws[from:]
	for ; len(draws) >= 2; draws = draws[2:] {
		state += golden
		x := chance.Mix(state)
		draws[0], draws[1] = uint32(x)&(1<<drawBits-1), uint32(x>>drawBits)&(1<<drawBits-1)
	}
	if len(draws) == 1 {
		draws[0] = uint32(chance.Mix(state+golden)) & (1<<drawBits - 1)
	}
}
