package debrief

import (
	"math"
	"testing"

	"dryline/sim/order"
)

// The mate's run beside a run of the mate is that run; beside one the other way round it
// is turned.
func TestModelBesideTheMatesOwnRun(t *testing.T) {
	if testing.Short() {
		t.Skip("flies three sessions")
	}
	s := run(t, small(t))
	r := report(s)
	if err := AddModel(&r, s.Session); err != nil {
		t.Fatal(err)
	}
	for _, l := range r.Lines {
		g := l.Model
		if g == nil || len(g.Along) < 20 {
			t.Fatalf("%s: no run of the mate beside it", l.Name)
		}
		for i, along := range g.Along {
			k := 0
			for j := range l.Series.Along {
				if math.Abs(l.Series.Along[j]-along) < math.Abs(l.Series.Along[k]-along) {
					k = j
				}
			}
			if math.Abs(l.Series.Along[k]-along) < 1 && (math.Abs(l.Series.FishOff[k]-g.FishOff[i]) > 0.3 || math.Abs(l.Series.Altitude[k]-g.Altitude[i]) > 1.5) {
				t.Fatalf("%s at %.0f m: fish off %.2f m and %.1f %% up, beside it %.2f m and %.1f %%", l.Name, along, l.Series.FishOff[k], l.Series.Altitude[k], g.FishOff[i], g.Altitude[i])
			}
		}
	}
	other := small(t)
	other.Plan.Order[1].Reversed = false
	orders := run(t, other).Commands
	turned := follow(t, small(t), append([]order.Command{}, orders...))
	r = report(turned)
	if err := AddModel(&r, turned.Session); err != nil {
		t.Fatal(err)
	}
	g := r.Lines[1].Model
	if g == nil || g.Along[0] < g.Along[len(g.Along)-1] {
		t.Errorf("L2 is run from its beginning and the mate's from its end, yet it is not turned: %v", g)
	}
}
