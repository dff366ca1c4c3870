package survey

import (
	"math"
	"testing"
)

// Levelling goes by the height over the general floor (exact geometry of a made-up
// tow): at once another when cable is paid out, and not lifted by a wreck.
func TestSteadyHeight(t *testing.T) {
	var h SteadyHeight
	if h.Metres() != 0 {
		t.Errorf("before the first ping: %g m", h.Metres())
	}
	depth, worst := 10.0, 0.0
	for i := range 300 {
		if i >= 200 && i < 240 { // the mate pays out: 1.6 m in 40 pings
			depth += 0.04
		}
		h.Add(26-depth, depth)
		worst = max(worst, math.Abs(h.Metres()-(26-depth)))
	}
	if worst > 0.01 {
		t.Errorf("while the fish sinks over level ground its height is %.2f m off", worst)
	}
	for range 15 { // a wreck, 2.5 m high
		h.Add(26-depth-2.5, depth)
	}
	if got := 26 - depth - h.Metres(); got > 0.6 {
		t.Errorf("over a wreck the general floor rises by %.2f m, want at most a quarter of the wreck", got)
	}
}
