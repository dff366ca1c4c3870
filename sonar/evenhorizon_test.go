package sonar

import (
	"math"
	"slices"
	"testing"
)

// What a strip asks of the horizon of its cell against going over all of the ray; and a walk that keeps it
// gives what one without does.
func TestHorizonOfARay(t *testing.T) {
	for _, scene := range evenScenes() {
		if scene.name != "rock" && scene.name != "wreck in layered water, strengthened" {
			continue
		}
		e := scene.engine(t, twoChannels(), true)
		ws, echo := e.NewWorkspace(), e.NewEcho()
		e.Ping(ws, &echo, scene.floor, Pose{X: 100, Y: 98, Z: -8}, Starboard, 1)
		v := ws.even
		p := &v.pairs[0]
		whole := slices.Clone(p.blocks)
		v.walkMarking(ws, p)
		if !slices.Equal(whole, p.blocks) {
			t.Errorf("%s: another echo of the walk that keeps its horizon", scene.name)
		}
		highest := float32(math.Inf(-1))
		var horizon []float32
		for i := range v.ground.Z {
			highest = max(highest, v.tangent(ws, i))
			horizon = append(horizon, highest)
			if got := v.horizonAt(ws, i); got != highest {
				t.Fatalf("%s, sample %d: horizon %g, want %g", scene.name, i, got, highest)
			}
		}
		risen := 0
		for _, from := range []int{0, 5, 127, 128, 700, 1600, 3100, len(horizon) - 1} {
			for _, above := range []float32{-1, 0, 1e-4, 0.01, 0.05, 9} {
				tangent := horizon[from] + above
				want := len(horizon) - 1
				for i := from; i < len(horizon); i++ {
					if horizon[i] >= tangent {
						want = i
						break
					}
				}
				if want > from && want < len(horizon)-1 {
					risen++
				}
				if got := v.rises(ws, from, tangent); got != want {
					t.Errorf("%s, from %d: risen to %g at %d, want %d", scene.name, from, tangent, got, want)
				}
			}
		}
		if risen < 5 {
			t.Errorf("%s: risen only %d times", scene.name, risen)
		}
	}
}

// Shares known from the last strip are those of a place worked out anew.
func TestSharesAreThoseOfTheBeam(t *testing.T) {
	e := newEngine(t, twoChannels())
	ws := e.NewWorkspace()
	want := make([]float64, ws.segments)
	type weighed struct {
		band
		altitude    float64
		first, last int
	}
	list := []weighed{
		{band{-0.3, 0.1}, 7, 20, 60}, {band{0.1, 0.2}, 7, 10, 50}, {band{0.2, 0.9}, 7, 40, 90}, {band{0.9, 1}, 6.8, 40, 90},
		{band{0.9, 1}, 7, 100, ws.segments - 1}, {band{1, 1.4}, 7, 0, 20}, {band{1.2, 1.4}, 7, 0, ws.segments - 1},
	}
	for i := range 60 { // more than are kept
		at := 0.1 * float64(i%17)
		list = append(list, weighed{band{at, at + 0.1}, 5 + 0.2*float64(i%3), i, ws.segments - 60 + i})
	}
	for _, s := range list {
		if !e.weighBand(ws, s.band, s.altitude, s.first, s.last) {
			t.Errorf("%v: nothing of a beam there", s.band)
		}
		for c, channel := range e.channels {
			e.weigh(want, channel, s.from, s.to, s.altitude, s.first, s.last)
			if got := ws.lanes[c].strip[s.first : s.last+1]; !slices.Equal(got, want[s.first:s.last+1]) {
				t.Errorf("%v, channel %d: other weights than worked out anew", s.band, c)
			}
		}
	}
}
