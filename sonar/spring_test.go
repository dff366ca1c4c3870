package sonar

import (
	"math"
	"testing"
)

// A plume of fresh water, towed over end to end: so far above its mouth it is a disc of
// radius d/2 + 0.12 h, which has drifted with the current for as long as it took to rise by
// w ~ z^(-1/3) (Morton, Taylor and Turner 1956; from memory), and it scatters in all by
// (d/2)^(10/3) of the radius to the -4/3. The moments of its echo along the track say so.
func TestAPlumeSpreadsDriftsAndFades(t *testing.T) {
	const mouth, rise, current, width = -40.0, 0.4, 0.05, 1.0
	e := spoilt(t, tone(), 0, Effects{CurrentY: current, Springs: []Spring{{X: 3, Z: mouth, Rise: rise, Width: width, Strength: -20}}})
	heights := []float64{2, 6, 10, 14}
	const step = 0.05
	var sum, first, second [4]float64
	ws, echo := e.NewWorkspace(), e.NewEcho()
	for y := -3.0; y < 12; y += step {
		pose := Pose{Y: y, Z: -2, Heading: 0}
		e.Ping(ws, &echo, bottomless, pose, Starboard, 0)
		for i, h := range heights {
			for k := range ws.energy {
				up := -2 - mouth - math.Sqrt(max(math.Pow((float64(k)+0.5)*e.bin, 2)-9, 0))
				if math.Abs(up-h) < 0.5 {
					// By the sonar equation the level goes with 40 log r; here it is taken out.
					v := float64(ws.energy[k] / e.channels[0].propagate[k])
					sum[i] += v
					first[i] += v * y
					second[i] += v * y * y
				}
			}
		}
	}
	radius := func(h float64) float64 { return width/2 + 0.12*h }
	for i, h := range heights {
		z0 := width / 2 / 0.12
		age := 0.0 // by small steps
		for x := 0.0; x < h; x += 0.001 {
			age += 0.001 / (rise * math.Cbrt(z0/(z0+x)))
		}
		at := first[i] / sum[i]
		if math.Abs(at-current*age) > 0.1 {
			t.Errorf("%g m up: %.2f m down the current, want %.2f", h, at, current*age)
		}
		if i == 0 {
			continue
		}
		// The beam is as wide at nearly the same range; of a disc the variance is b^2/4.
		grown := (second[i]/sum[i] - at*at) - (second[0]/sum[0] - math.Pow(first[0]/sum[0], 2))
		want := (math.Pow(radius(h), 2) - math.Pow(radius(heights[0]), 2)) / 4
		if math.Abs(grown-want) > 0.12*want+0.02 {
			t.Errorf("%g m up: variance along the track grown by %.3f m2, want %.3f", h, grown, want)
		}
		// A narrow beam at r sees a share of a point that goes with r; the pattern hardly changes.
		got := sum[i] / sum[0] * (38 - heights[0]) / (38 - h)
		if fade := math.Pow(radius(h)/radius(heights[0]), -4.0/3); math.Abs(got/fade-1) > 0.25 {
			t.Errorf("%g m up: level %.3f of that at %g m, want %.3f", h, got, heights[0], fade)
		}
	}
}
