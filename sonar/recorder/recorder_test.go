package recorder

import (
	"math"
	"testing"
)

// The gain undoes what the sonar equation takes (Urick, Principles of Underwater
// Sound, 3rd edition 1983, chapters 2 and 8, from memory): two-way spherical
// spreading 40 log R and absorption 2 a R, less the 10 log R by which the ground
// in the beam grows. With an absorption of 110 dB/km, from 10 to 50 m that is
// 30 log 5 + 2 x 0.110 x 40 = 20.969 + 8.8 dB.
func TestTVGUndoesSpreadingAndAbsorption(t *testing.T) {
	r := Receiver{Gain: 6, TVGSpreading: 30, TVGAbsorption: 110}
	if got, want := r.TVG(50)-r.TVG(10), 29.769; math.Abs(got-want) > 5e-4 {
		t.Errorf("from 10 to 50 m it grows by %.4f dB, want %.3f", got, want)
	}
	if got, want := r.TVG(0.25), 0.055; math.Abs(got-want) > 1e-12 {
		t.Errorf("at 0.25 m it is %v dB, want the absorption alone, %v", got, want)
	}
	if math.Exp2(16)-1 != FullScale {
		t.Errorf("sixteen bits do not end at %d", FullScale)
	}
}
