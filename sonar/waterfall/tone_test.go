package waterfall

import (
	"math"
	"testing"
)

func TestToneRisesAndMarksNoData(t *testing.T) {
	last := uint8(0)
	for v := float32(0); v < 20; v += 0.01 {
		g := Tone(v)
		if g < max(last, 1) {
			t.Fatalf("tone(%g) = %d after %d; 0 is no data and the curve rises", v, g, last)
		}
		last = g
	}
	if got := Tone(1); got < 95 || got > 125 {
		t.Errorf("an ordinary echo is %d, want a little below the middle", got)
	}
	if Tone(-1) != 1 || Tone(float32(math.Inf(1))) != 255 {
		t.Errorf("ends: %d and %d, want 1 and 255", Tone(-1), Tone(float32(math.Inf(1))))
	}
}
