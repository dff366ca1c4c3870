package debrief

import (
	"reflect"
	"testing"

	"dryline/seabed"
	"dryline/sim"
	"dryline/sim/survey"
)

// Contacts go one to one to what truly lies there, by the plan of it.
func TestTargets(t *testing.T) {
	s := start(t, small(t))
	ex := *s.Exercise
	ex.Seabed.Objects = []seabed.Object{
		{Name: "block", Kind: "block", At: seabed.Point{X: 100, Y: 300}, Length: 2, Width: 2, Height: 1.2, Burial: 0.2},
		{Name: "hulk", Kind: "hulk", At: seabed.Point{X: 160, Y: 300}, Length: 30, Width: 6, Height: 4},
		{Name: "tyre", Kind: "tyre", At: seabed.Point{X: 300, Y: 300}, Length: 0.7, Width: 0.7, Height: 0.2},
	}
	ex.Score.ContactWithin = 8
	s.Exercise = &ex
	s.Desk.Lines = []*survey.LineRecord{{Name: "L1"}, {Name: "L2"}}
	s.Truth.Seen = [][]sim.Sight{
		{{Number: 1}, {Number: 2}, {Number: 9, Line: 1}, {Number: 10, Line: 1}, {Number: 11, Line: 1}},
		{{Number: 3}, {Number: 3}, {Number: 4}}, // ping 3 by both sides
		nil,
	}
	s.Desk.Contacts = []survey.Contact{
		{Number: 1, X: 107, Y: 300, Length: 3, Height: 1, Shadow: 2, ByHand: true}, // 6 m from the block's side
		{Number: 2, X: 104, Y: 296, Length: 2.5, Height: 9, ByHand: true},          // 3 m east of its side, 3 m south
		{Number: 3, X: 160, Y: 322, Length: 12, Height: 3, Shadow: 5, ByHand: true, Lines: []string{"L1"}},
		{Number: 4, X: 300, Y: 308.5, Length: 1, ByHand: true, Lines: []string{"L2"}}, // 8.15 m from the tyre
		{Number: 5, X: 300, Y: 301, Length: 1},                                        // the lookout's, which nobody took up
		{Number: 6, X: 300, Y: 302, ByHand: true, Action: survey.Dismiss, Reason: "fish"},
	}
	r := report(s)
	got, falses := r.Targets, r.FalseContacts
	type outcome struct {
		Pings, Best          int
		Line                 string
		Enough               bool
		Contacts, Candidates []int
	}
	for i, want := range []outcome{
		{5, 3, "L2", true, []int{1, 2}, []int{}},
		{2, 2, "L1", false, []int{3}, []int{}},
		{0, 0, "", false, []int{}, []int{5}},
	} {
		g := got[i]
		if o := (outcome{g.Pings, g.BestPings, g.BestLine, g.ThreePings, g.Contacts, g.Candidates}); !reflect.DeepEqual(o, want) {
			t.Errorf("%s: got %+v, want %+v", g.Name, o, want)
		}
	}
	block := got[0]
	if *block.Contact != 2 || *block.East != 3 || *block.North != -3 {
		t.Errorf("block: got contact %d (%g, %g) off, want 2, (3, -3) off", *block.Contact, *block.East, *block.North)
	}
	if block.Height != 1 || *block.LengthByDesk != 2.5 || block.HeightByDesk != nil {
		t.Errorf("block: got %g m proud, %g m long by the desk, height %v, want 1, 2.5, none without a shadow", block.Height, *block.LengthByDesk, block.HeightByDesk)
	}
	if hulk := got[1]; *hulk.HeightByDesk != 3 || *hulk.Distance != 7 {
		t.Errorf("hulk: got %+v, want its contact 7 m off its bow", hulk)
	}
	if len(falses) != 1 || falses[0].Number != 4 || falses[0].Verdict != "false" || got[2].Contact != nil {
		t.Errorf("false contacts: got %+v, want number 4 alone", falses)
	}
	if k := r.Contacts; k.True != 2 || k.False != 1 || k.Duplicate != 1 || k.Missed != 1 || k.Candidates != 1 || k.Precision != 0.667 || k.Recall != 0.667 {
		t.Errorf("got %+v, want 2 true, 1 false, 1 twice, 1 missed, 1 candidate", k)
	}
}
