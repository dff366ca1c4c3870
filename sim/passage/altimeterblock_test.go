package passage_test

import (
	"dryline/sim/passage"
	"dryline/sim/simtest"
	"math"
	"testing"

	"dryline/sonar"
)

// Over a school the altimeter measures to its top (geometry of an ellipsoid),
// and past it to the floor again.
func TestAltimeterLocksOnASchool(t *testing.T) {
	ex := simtest.Small(t)
	ex.Sonar.Effects.Schools = []sonar.School{{X: 100, Y: 280, Depth: 12.5, Length: 30, Width: 8, Height: 1.4, Density: 5, Fish: 0.2}}
	s := begin(t, ex, 1)
	s.attachMate()
	over, clear := 0, 0
	for !s.Done() && s.Now() < 200 {
		s.Advance(1)
		sc := s.Scene()
		u, v := (sc.FishY-280)/15, (sc.FishX-100)/4
		switch r := u*u + v*v; {
		case r < 0.9:
			over++
			want := sc.FishZ - (0.7*math.Sqrt(1-r) - 12.5)
			if got := s.Reading().FishAltitude; math.Abs(got-want) > 0.05 {
				t.Fatalf("%.1f m over the school the altimeter says %.2f m", want, got)
			}
		case r > 1.2:
			clear++
			if got, want := s.Reading().FishAltitude, sc.FishZ-s.World.HeightAt(sc.FishX, sc.FishY); math.Abs(got-want) > 0.05 {
				t.Fatalf("%.2f m over the floor the altimeter says %.2f m", want, got)
			}
		}
	}
	if over < 50 || clear < 500 {
		t.Errorf("%d ticks over the school and %d clear of it: no test", over, clear)
	}
	for _, row := range []struct{ z, want float64 }{{-8, 3.8}, {-12, 0.1}, {-13.5, 0}} {
		if got := passage.OverSchool(ex.Sonar.Effects.Schools, sonar.Pose{X: 100, Y: 280, Z: row.z}); math.Abs(got-row.want) > 1e-9 {
			t.Errorf("fish at %g m: got %.2f m, want %.2f", row.z, got, row.want)
		}
	}
}
