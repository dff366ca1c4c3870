package sonar

import (
	"math"
	"slices"
	"testing"

	"dryline/seabed"
	"dryline/sonar/acoustics"
	"dryline/sonar/recorder"
)

const deg = math.Pi / 180

// plane is a flat floor with an optional block across every ray.
type plane struct {
	z         float64
	class     seabed.Class
	from, to  float64 // ground range of the block
	height    float64
	rod       bool // a rod along the track at ground range from, height above the floor
	rodRadius float64
}

// zeros returns n of them in the room of s, which append(s[:0], make(...)...) makes
// anew under the race detector.
func zeros[T any](s []T, n int) []T {
	s = slices.Grow(s[:0], n)[:n]
	clear(s)
	return s
}

func (f plane) Trace(s *Section, x, y, ux, uy float64) {
	s.G = s.Steps
	if s.Fine > 0 && f.height > 0 && !f.rod { // sharp edges, as the real floor gives
		s.G = nil
		for i, g := range s.Steps {
			s.G = append(s.G, g)
			if g > f.from-0.2 && g < f.to+0.2 && i+1 < len(s.Steps) {
				for q := g + s.Fine; q < s.Steps[i+1]; q += s.Fine {
					s.G = append(s.G, q)
				}
			}
		}
	}
	n := len(s.G)
	s.Z, s.Class, s.Object = zeros(s.Z, n), zeros(s.Class, n), zeros(s.Object, n)
	s.Raised = s.Raised[:0]
	for i, g := range s.G {
		s.Z[i], s.Class[i] = f.z, f.class
		if f.height > 0 && !f.rod && g >= f.from && g <= f.to {
			s.Z[i], s.Class[i], s.Object[i] = f.z+f.height, seabed.Concrete, 1
		}
	}
	if f.rod {
		s.Raised = append(s.Raised, seabed.Raised{
			G: f.from, Z0: f.z + f.height - f.rodRadius, Z1: f.z + f.height + f.rodRadius,
			Class: seabed.Steel, Object: 1,
		})
	}
}

// twoChannels is an invented sonar: 450 and 900 kHz at 50 m.
func twoChannels() Spec {
	return Spec{
		RangeScale: 50, Samples: 2000, Depression: 20 * deg, VerticalBeam: 50 * deg,
		Channels: []Channel{
			{Name: "450", Frequency: 450e3, Bandwidth: 20e3, PulseLength: 1e-3, ArrayLength: 0.48, Focus: Dynamic, PulseShading: "hamming", SourceLevel: 210, NoiseFigure: 8, Receiver: recorder.Receiver{TVGSpreading: 30, TVGAbsorption: 110}},
			{Name: "900", Frequency: 900e3, Bandwidth: 40e3, PulseLength: 5e-4, ArrayLength: 0.48, Focus: Dynamic, PulseShading: "hamming", SourceLevel: 208, NoiseFigure: 8, Receiver: recorder.Receiver{TVGSpreading: 30, TVGAbsorption: 290}},
		},
	}
}

// sharp is the same sonar with a pulse shorter than a sample, for geometry to
// the sample.
func sharp() Spec {
	s := twoChannels()
	for i := range s.Channels {
		s.Channels[i].Bandwidth, s.Channels[i].PulseLength = 0, 20e-6
	}
	return s
}

func temperate() Sea {
	return Sea{
		Temperature: 11, Salinity: 34, PH: 8, Depth: 10, Wind: 4,
		SoundSpeed: acoustics.ModelMackenzie, Absorption: acoustics.ModelFrancoisGarrison,
	}
}

func newEngine(t testing.TB, spec Spec) *Engine {
	t.Helper()
	c := acoustics.Mackenzie(11, 34, 10)
	e, err := NewEngine(spec, temperate(), c, 1)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

// ping makes one quiet starboard ping from 7 m above the floor.
func ping(e *Engine, floor Floor, altitude float64) Echo {
	echo := e.NewEcho()
	e.Ping(e.NewWorkspace(), &echo, floor, Pose{Z: -10 + altitude}, Starboard, 0)
	return echo
}
