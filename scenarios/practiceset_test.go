package scenarios

import (
	"bytes"
	"math"
	"os"
	"slices"
	"testing"

	"dryline/sim"
	"dryline/sim/debrief"
	"dryline/sim/exercise"
	"dryline/sim/order"
)

// Every practice that can be set is a sound exercise, the same each time it is asked
// for, with room for what lies there.
func TestSetPracticeIsSound(t *testing.T) {
	seeds := uint64(5)
	if testing.Short() {
		seeds = 2
	}
	for _, skill := range Skills() {
		for _, difficulty := range []float64{1, 2.5, Hardest} {
			for seed := range seeds {
				name, file, err := SetPractice(skill.Name, difficulty, seed)
				if err != nil {
					t.Fatal(err)
				}
				_, again, _ := SetPractice(skill.Name, difficulty, seed)
				if !bytes.Equal(file, again) {
					t.Errorf("%s is another when it is asked for again", name)
				}
				ex, err := Parse(name+".yaml", file)
				if err != nil {
					t.Errorf("%s: %v\n%s", name, err, file)
					continue
				}
				if settled, err := ex.Settle(exercise.SeedsOf(ex.Seed)); err != nil {
					t.Errorf("%s: %v", name, err)
				} else if len(settled.Seabed.Objects) < 4 {
					t.Errorf("%s has %d objects", name, len(settled.Seabed.Objects))
				}
				if right := ex.Vessel.Antenna.Forward - ex.Vessel.Sheave.Forward; (skill.Name == "position" && difficulty > 1) == (math.Abs(ex.Desk.AntennaToTow-right) < 0.05) {
					t.Errorf("%s: the desk has %g m from antenna to sheave, and %g are true", name, ex.Desk.AntennaToTow, right)
				}
			}
		}
	}
}

func TestSetPracticeRefusesWhatIsNone(t *testing.T) {
	for _, c := range []struct {
		skill      string
		difficulty float64
	}{{"depth", 2}, {"height", 0.9}, {"height", 5.1}, {"height", math.NaN()}} {
		if _, _, err := SetPractice(c.skill, c.difficulty, 1); err == nil {
			t.Errorf("%s at %g is made", c.skill, c.difficulty)
		}
	}
}

// averageHand sails as the plan says, does nothing about what goes wrong, and reports
// every candidate of the lookout that throws a shadow.
func averageHand(t *testing.T, ex *exercise.Exercise) float64 {
	t.Helper()
	s, err := sim.New(ex, ex.Seed)
	if err != nil {
		t.Fatal(err)
	}
	witness := sim.Attend(s)
	s.AttachMate()
	for !s.Done() {
		s.Advance(600)
	}
	for _, c := range slices.Clone(s.Desk.Contacts) {
		if c.Height == 0 {
			continue
		}
		if err := s.Give(order.Command{Do: order.ClassContact, Number: c.Number, Text: "debris"}); err != nil {
			t.Fatal(err)
		}
	}
	return debrief.Make(s, witness).Score.Points
}

// A fixed average hand scores lower as the difficulty rises, in every skill.
func TestAverageHandScoresLowerAsDifficultyRises(t *testing.T) {
	if testing.Short() {
		t.Skip("flies whole exercises")
	}
	skills, seeds := Skills(), []uint64{1, 2, 3}
	if os.Getenv("DRYLINE_LONG") == "" {
		skills, seeds = skills[:1], seeds[:2]
	}
	for _, skill := range skills {
		t.Run(skill.Name, func(t *testing.T) {
			t.Parallel()
			var means []float64
			for _, difficulty := range []float64{1, 3, Hardest} {
				sum := 0.0
				for _, seed := range seeds {
					name, file, err := SetPractice(skill.Name, difficulty, seed)
					if err != nil {
						t.Fatal(err)
					}
					ex, err := Parse(name+".yaml", file)
					if err != nil {
						t.Fatal(err)
					}
					points := averageHand(t, ex)
					t.Logf("%s: %.1f", name, points)
					sum += points
				}
				means = append(means, sum/float64(len(seeds)))
			}
			t.Logf("%.1f", means)
			if means[1] > means[0]-1.5 || means[2] > means[1]-1.5 {
				t.Errorf("an average hand has %.1f at difficulties 1, 3 and 5", means)
			}
		})
	}
}
