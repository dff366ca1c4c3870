package sonar

import (
	"math"
	"testing"

	"dryline/seabed"
)

// A small bright object is drawn as wide along track as the beam: about the
// length of an unfocused array in its near field, R theta with dynamic focus.
// Trade facts (common practice, no source): a high-frequency focused sonar
// resolves about 10 cm at 40 m and 6 to 8 cm at 25 m.
func TestBeamWidthAlongTrack(t *testing.T) {
	for _, test := range []struct {
		name     string
		length   float64
		focus    float64
		at       float64
		min, max float64 // of the half-power width, metres
	}{
		{"unfocused, near field", 0.5, 0, 25, 0.40, 0.60},
		{"focused dynamically at 40 m", 0.5, Dynamic, 40, 0.07, 0.13},
		{"focused dynamically at 25 m", 0.5, Dynamic, 25, 0.045, 0.08},
		{"focused at 40 m, seen at 20 m", 0.5, 40, 20, 0.20, 0.32},
		{"focused at 40 m, seen there", 0.5, 40, 40, 0.07, 0.13},
	} {
		spec := twoChannels()
		spec.Channels = spec.Channels[1:]
		spec.Channels[0].ArrayLength, spec.Channels[0].Focus = test.length, test.focus
		spec.Channels[0].TVGAbsorption, spec.Channels[0].Gain = 0, -12
		spec.Rays, spec.Samples = 9, 500
		e := newEngine(t, spec)
		e.SpeckleOff, e.NoiseOff = true, true
		world := Ground{seabed.New(seabed.Spec{
			East: 200, North: 200, Depth: 10, Base: seabed.Mud, Relief: seabed.Relief{Wavelength: 40},
			Objects: []seabed.Object{{Kind: "block", Class: seabed.Steel, At: seabed.Point{X: 100 + test.at, Y: 100}, Length: 0.04, Width: 0.3, Height: 0.3}},
		}, 4)}
		ws, echo := e.NewWorkspace(), e.NewEcho()
		// The equivalent width: what the beam gathers over all offsets, over what
		// it gathers on its axis. For this pattern it is 1.045 half-power widths.
		const step, reach = 0.02, 0.7
		total, axis, onAxis := 0.0, 0.0, 0.0
		for i := range int(2 * reach / step) {
			y := -reach + step*float64(i)
			sum := 0.0
			for n := range uint64(50) { // the jitter of the rays averages out
				e.Ping(ws, &echo, world, Pose{X: 100, Y: 100 + y, Z: -3}, Starboard, uint64(i)*50+n)
				k := int(math.Hypot(test.at-0.15, 7) / e.Bin())
				for _, v := range echo.Samples[0][k-1 : k+2] {
					sum += float64(v) * float64(v)
				}
			}
			total += sum * step
			if math.Abs(y) < 0.015+test.max/8 {
				axis, onAxis = axis+sum, onAxis+1
			}
		}
		wide := total / (axis / onAxis) / 1.045
		if wide < test.min || wide > test.max {
			t.Errorf("%s: %.3f m wide, want %.2f to %.2f", test.name, wide, test.min, test.max)
		}
	}
}
