package passage_test

import (
	"testing"

	"dryline/seabed"
	"dryline/sim/exercise"
	"dryline/sim/hand"
	"dryline/sim/order"
	"dryline/sim/passage"
)

// under is a passage under way with what a test looks at.
type under struct {
	*passage.Passage
	Exercise *exercise.Exercise
	World    *seabed.World
	Mate     *hand.Mate
	Brief    *exercise.Brief // the mate's own
	Commands []order.Command
}

// begin sets an exercise up with a seed.
func begin(t testing.TB, ex *exercise.Exercise, seed uint64) *under {
	t.Helper()
	seeds := exercise.SeedsOf(seed)
	u := &under{Exercise: ex, World: seabed.New(ex.Seabed, seeds.Ground), Brief: ex.Brief()}
	var err error
	if u.Passage, err = passage.New(ex, u.World, seeds); err != nil {
		t.Fatal(err)
	}
	u.Given(func(c order.Command) { u.Commands = append(u.Commands, c) })
	return u
}

// attachMate lets the mate run the plan.
func (u *under) attachMate() {
	u.Mate = hand.NewMate(u.Brief)
	u.SetHand(u.Mate)
}

// count is how often a kind of mishap happened.
func (u *under) count(kind passage.Kind) (n int) {
	for _, m := range u.Mishaps() {
		if m.What == kind {
			n++
		}
	}
	return n
}
