package sim_test

import (
	"reflect"
	"slices"
	"testing"

	"dryline/seabed"
	"dryline/seabed/placing"
	"dryline/sim"
	"dryline/sim/exercise"
	"dryline/sim/simtest"
	"dryline/vessel/nav"
)

// causes holds what each cause of chance made of a short run.
type causes struct {
	ground   []float64 // heights of the bare floor
	placed   []seabed.Object
	readings []nav.Reading
	samples  []uint16
}

func caused(t *testing.T, ex *exercise.Exercise, seeds exercise.Seeds) (c causes) {
	t.Helper()
	s, err := sim.NewSeeded(ex, seeds)
	if err != nil {
		t.Fatal(err)
	}
	s.Observe(sim.Observer{
		Ping: func(p *sim.Ping) {
			if p.Truth != nil {
				t.Error("the truth is shown to an observer who did not ask for it")
			}
			c.samples = append(append(c.samples, p.Port[0]...), p.Starboard[0]...)
		},
		Reading: func(r *nav.Reading) { c.readings = append(c.readings, *r) },
	})
	for x := 20.0; x < 380; x += 30 {
		c.ground = append(c.ground, s.World().HeightAt(x, 550))
	}
	c.placed = s.Exercise.Seabed.Objects
	s.Advance(60)
	return c
}

// Every cause of chance has a seed of its own: another one changes what it is the seed of
// and nothing that hangs on the others alone.
func TestEachCauseHasItsSeed(t *testing.T) {
	ex := simtest.Rough(t)
	ex.Seabed.Relief.Height, ex.Seabed.Relief.Octaves = 1, 3
	ex.Placed = []placing.Group{{
		Name: "boulder", Fewest: 3, Most: 3, Kinds: []placing.Choice{{Kind: "boulder", Weight: 1}}, Spacing: 5,
		Area: seabed.Area{Polygon: []seabed.Point{{X: 10, Y: 10}, {X: 390, Y: 10}, {X: 390, Y: 60}, {X: 10, Y: 60}}}, // far from where she starts
	}}
	one := exercise.SeedsOf(3)
	plain := caused(t, ex, one)
	if len(plain.placed) != 4 || len(plain.readings) != 60 || len(plain.samples) < 20000 {
		t.Fatalf("%d objects, %d readings, %d samples", len(plain.placed), len(plain.readings), len(plain.samples))
	}
	if !reflect.DeepEqual(plain, caused(t, ex, one)) {
		t.Fatal("the same seeds give something else")
	}
	for name, row := range map[string]struct {
		change                           func(*exercise.Seeds)
		ground, placed, weather, samples bool // what comes out otherwise
	}{
		"ground":  {func(s *exercise.Seeds) { s.Ground++ }, true, false, true, true}, // the fish measures its height over it
		"placed":  {func(s *exercise.Seeds) { s.Placed++ }, false, true, false, false},
		"weather": {func(s *exercise.Seeds) { s.Weather++ }, false, false, true, true},
		"sonar":   {func(s *exercise.Seeds) { s.Sonar++ }, false, false, false, true},
		"one":     {func(s *exercise.Seeds) { s.One++ }, false, false, false, false}, // a name only
	} {
		seeds := one
		row.change(&seeds)
		got := caused(t, ex, seeds)
		if other := !slices.Equal(plain.ground, got.ground); other != row.ground {
			t.Errorf("%s: other ground %v, want %v", name, other, row.ground)
		}
		if other := !reflect.DeepEqual(plain.placed, got.placed); other != row.placed {
			t.Errorf("%s: other objects %v, want %v", name, other, row.placed)
		}
		if other := !reflect.DeepEqual(plain.readings, got.readings); other != row.weather {
			t.Errorf("%s: other readings %v, want %v", name, other, row.weather)
		}
		if other := !slices.Equal(plain.samples, got.samples); other != row.samples {
			t.Errorf("%s: other samples %v, want %v", name, other, row.samples)
		}
	}
}
