package sim_test

import (
	"math"
	"testing"

	"dryline/sim"
	"dryline/sim/simtest"
	"dryline/sonar"
)

// A session with a wake tells every ping behind the vessel of it, and only then.
func TestSessionTellsOfTheWake(t *testing.T) {
	ex := simtest.Small(t)
	ex.Plan.CableOut = 8
	told := func(w sonar.Wake) (n int) {
		ex.Sonar.Effects.Wake = w
		s := begin(t, ex)
		s.Observe(sim.Observer{Truth: true, Ping: func(p *sim.Ping) {
			c := p.Truth.Pose.Wake[sonar.Port][0]
			if s.Now() < 60 || c.Strength <= 0 {
				return
			}
			n++
			if math.Abs(c.Range) > 3 || c.Age > 20 || c.Age <= 0 {
				t.Errorf("ping %d: %+v, want the vessel's track close by and fresh", p.Number, c)
			}
		}})
		s.Advance(600)
		s.Advance(100)
		return n
	}
	if n := told(sonar.Wake{Attenuation: 1, HalfLife: 60, Width: 4, Depth: 2}); n < 100 {
		t.Errorf("%d pings were told of the wake, want all", n)
	}
	if n := told(sonar.Wake{}); n != 0 {
		t.Errorf("%d pings were told of a wake that is off", n)
	}
}
