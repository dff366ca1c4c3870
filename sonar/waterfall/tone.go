package waterfall

import "math"

// toneSteps tabulates the tone curve to levelled amplitudes of toneEnd, beyond
// which it is white.
const (
	toneSteps = 4096
	toneEnd   = 12.0
)

var toneTable = func() (t [toneSteps]uint8) {
	for i := range t {
		v := (float64(i) + 0.5) * toneEnd / toneSteps
		t[i] = uint8(min(max(256*(1-math.Exp(-0.55*v)), 1), 255))
	}
	return t
}()

// Tone turns a levelled amplitude into grey, 1 to 255: an ordinary echo comes
// out a little below the middle, ten times that close to white, and the
// gradient is steepest in the dark, where shadows are told from the floor.
func Tone(v float32) uint8 {
	if v >= toneEnd {
		return toneTable[toneSteps-1]
	}
	return toneTable[max(int(v*(toneSteps/toneEnd)), 0)]
}
