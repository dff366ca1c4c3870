package seabed

import (
	"math"
	"testing"
)

// The slope that is said to be drawn is the one drawn, along a line, in steps as
// long as facets: twice the variance of one direction.
func TestDrawnSlope(t *testing.T) {
	for _, class := range []Class{FineSand, Gravel, Seagrass} {
		w := New(Spec{East: 500, North: 500, Depth: 12, Base: class, Relief: Relief{Wavelength: 40}}, 7)
		var p Profile
		for g := 0.0; g < 200; g += microStep {
			p.Steps = append(p.Steps, g)
		}
		sum, n := 0.0, 0.0
		for i := range 60 {
			turn := float64(i)
			w.Trace(&p, 250+50*math.Cos(3*turn), 250+50*math.Sin(3*turn), math.Sin(turn), math.Cos(turn))
			for k := 1; k < len(p.Z); k++ {
				d := (p.Z[k] - p.Z[k-1]) / microStep
				sum, n = sum+d*d, n+1
			}
		}
		if got, want := math.Sqrt(2*sum/n), class.DrawnSlope(); math.Abs(got-want) > 0.03*want {
			t.Errorf("%v: a slope of %.4f is drawn, %.4f is said (%.3f of its roughness)", class, got, want, got/classes[class].rms)
		}
	}
}
