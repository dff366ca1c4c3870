package survey

import (
	"testing"

	"dryline/sonar/recorder"
)

// A bin with a sample at full scale is told from every other, however bright those are: in the eight bits of a
// row, and in the five that the window keeps; but for what is sent, before the bottom.
func TestWhatIsCutOffIsToldFromWhatIsBright(t *testing.T) {
	samples := make([]uint16, 40)
	for k := range samples {
		samples[k] = recorder.FullScale - 1
	}
	samples[2], samples[13], samples[39] = recorder.FullScale, recorder.FullScale, recorder.FullScale
	row := make([]uint8, 10)
	plainly(row, make([]float32, len(samples)), samples, 1000, 9)
	for i, v := range row {
		cut := i == 3 || i == 9
		if cut != (v == CutOff) || cut != (v>>3 == CutOff>>3) {
			t.Errorf("bin %d is %d, cut off %v", i, v, cut)
		}
	}
}
