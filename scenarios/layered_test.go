package scenarios

import (
	"runtime"
	"strings"
	"testing"

	"dryline/sim"
	"dryline/sim/order"
)

// Layers in the water cost a survey little memory, however many depths its fish
// is hauled through: what is worked out for one is let go of for another.
func TestLayeredWaterCostsLittleMemory(t *testing.T) {
	const cast = `sea:
  cast:
    - { depth_m: 0, sound_speed_m_s: 1505 }
    - { depth_m: 6, sound_speed_m_s: 1505 }
    - { depth_m: 9, sound_speed_m_s: 1496 }
sonar:`
	spent := func(source string) float64 {
		ex, err := Parse("layered.yaml", []byte(source))
		if err != nil {
			t.Fatal(err)
		}
		s, err := sim.New(ex, 1)
		if err != nil {
			t.Fatal(err)
		}
		s.Workers = 1
		shallow, deep := 99.0, 0.0
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		for _, cable := range []float64{45, 5} {
			if err := s.Give(order.Command{Do: order.Cable, Value: cable}); err != nil {
				t.Fatal(err)
			}
			for range 60 {
				s.Advance(10)
				depth := s.Reading().FishDepth
				shallow, deep = min(shallow, depth), max(deep, depth)
			}
		}
		runtime.ReadMemStats(&after)
		if deep-shallow < 5 {
			t.Fatalf("the fish came from %.1f to %.1f m deep only", shallow, deep)
		}
		return float64(after.TotalAlloc-before.TotalAlloc) / 1e6
	}
	plain := spent(small(t))
	layered := spent(strings.Replace(small(t), "sonar:", cast, 1))
	if layered > plain+3 {
		t.Errorf("allocated %.1f MB, %.1f MB without the layers", layered, plain)
	}
}
