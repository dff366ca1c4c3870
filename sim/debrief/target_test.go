package debrief

import (
	"reflect"
	"testing"

	"dryline/seabed"
	"dryline/sim"
	"dryline/sim/survey"
)

func TestTargets(t *testing.T) {
	s := start(t, small(t))
	ex := *s.Exercise
	ex.Seabed.Objects = []seabed.Object{
		{Name: "block", Kind: "block", At: seabed.Point{X: 100, Y: 300}, Length: 2, Height: 1.2, Burial: 0.2},
		{Name: "hulk", Kind: "wreck", At: seabed.Point{X: 160, Y: 300}, Length: 30, Height: 4},
		{Name: "tyre", Kind: "tyre", At: seabed.Point{X: 300, Y: 300}, Length: 0.7, Height: 0.2},
	}
	s.Exercise = &ex
	s.Desk.Lines = []*survey.LineRecord{{Name: "L1"}, {Name: "L2"}}
	s.Truth.Seen = [][]sim.Sight{
		{{Number: 1}, {Number: 2}, {Number: 9, Line: 1}, {Number: 10, Line: 1}, {Number: 11, Line: 1}},
		{{Number: 3}, {Number: 3}, {Number: 4}}, // ping 3 by both sides
		nil,
	}
	s.Desk.Contacts = []survey.Contact{
		{Number: 1, X: 107, Y: 300, Length: 3, Height: 1, Shadow: 2}, // 7 m from the block
		{Number: 2, X: 103, Y: 296, Length: 2.5, Height: 9},          // 5 m from it, no shadow
		{Number: 3, X: 160, Y: 329, Length: 12, Height: 3, Shadow: 5, Lines: []string{"L1"}},
		{Number: 4, X: 300, Y: 308.1, Length: 1, Lines: []string{"L2"}}, // 8.1 m from the tyre
	}
	got, falses := makeTargets(s.Session, s.Truth, gather(s.Session, s.Truth))
	type outcome struct {
		Pings, Best int
		Line        string
		Enough      bool
		Contacts    []int
	}
	for i, want := range []outcome{
		{5, 3, "L2", true, []int{1, 2}},
		{2, 2, "L1", false, []int{3}},
		{0, 0, "", false, []int{}},
	} {
		g := got[i]
		if o := (outcome{g.Pings, g.BestPings, g.BestLine, g.ThreePings, g.Contacts}); !reflect.DeepEqual(o, want) {
			t.Errorf("%s: got %+v, want %+v", g.Name, o, want)
		}
	}
	block := got[0]
	if *block.Contact != 2 || *block.Distance != 5 || *block.East != 3 || *block.North != -4 {
		t.Errorf("block: got contact %d, %g m off (%g, %g), want 2, 5 m off (3, -4)", *block.Contact, *block.Distance, *block.East, *block.North)
	}
	if block.Height != 1 || *block.LengthByDesk != 2.5 || block.HeightByDesk != nil {
		t.Errorf("block: got %g m proud, %g m long by the desk, height %v, want 1, 2.5, none without a shadow", block.Height, *block.LengthByDesk, block.HeightByDesk)
	}
	if hulk := got[1]; *hulk.HeightByDesk != 3 || *hulk.Distance != 29 {
		t.Errorf("hulk: got %+v, want its contact within its length", hulk)
	}
	if len(falses) != 1 || falses[0].Number != 4 || got[2].Contact != nil {
		t.Errorf("false contacts: got %+v, want number 4 alone", falses)
	}
}
