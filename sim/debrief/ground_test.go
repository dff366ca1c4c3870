package debrief

import (
	"strings"
	"testing"

	"dryline/seabed"
	"dryline/sim/survey"
)

// One mark on a cobble patch, one within reach of it, one beyond, one on a bare
// ledge, one out of the world: each is told by its ground.
func TestGroundOfFalseContacts(t *testing.T) {
	ex := small(t)
	square := func(x0, y0, x1, y1 float64) seabed.Area {
		return seabed.Area{Polygon: []seabed.Point{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}}
	}
	ex.Seabed.Patches = []seabed.Patch{{Class: seabed.Cobble, Area: square(200, 400, 240, 440)}}
	ex.Seabed.Bedforms = []seabed.Bedform{{Kind: seabed.Outcrop, Area: square(300, 100, 380, 180), Height: 2, Wavelength: 12}}
	s := start(t, ex)
	ledge := seabed.Point{X: -1}
	for x := 310.0; x < 370 && ledge.X < 0; x++ {
		if s.World().ClassAt(x, 140) == seabed.Rock {
			ledge = seabed.Point{X: x, Y: 140}
		}
	}
	if ledge.X < 0 {
		t.Fatal("the outcrop has no rock along its middle")
	}
	s.Desk.Contacts = []survey.Contact{
		{Number: 1, X: 220, Y: 420}, {Number: 2, X: 242.5, Y: 420}, {Number: 3, X: 248, Y: 420},
		{Number: 4, X: ledge.X, Y: ledge.Y}, {Number: 5, X: -40, Y: 20}, {Number: 6, X: 131, Y: 301},
	}
	for i := range s.Desk.Contacts {
		s.Desk.Contacts[i].ByHand, s.Desk.Contacts[i].Class = true, "rock"
	}
	s.Desk.Contacts[3].Class = "wreck" // a ledge that is called one
	r := report(s)
	want := []struct {
		ground  string
		natural bool
	}{{"cobble", true}, {"cobble", true}, {"medium_sand", false}, {"rock", false}, {"medium_sand", false}, {"medium_sand", false}}
	if len(r.FalseContacts) != len(want) {
		t.Fatalf("got %+v, want six: the block was called a rock", r.FalseContacts)
	}
	for i, f := range r.FalseContacts {
		if f.Number != i+1 || f.Ground != want[i].ground || f.Natural() != want[i].natural {
			t.Errorf("contact %d: got number %d on %s, natural %v, want %+v", i+1, f.Number, f.Ground, f.Natural(), want[i])
		}
	}
	if k := r.Contacts; k.Natural != 2 || k.False != 4 || k.True != 0 {
		t.Errorf("got %+v, want two natural features named as such, four false, none true", k)
	}
	_, words := parse(t, page(t, r, nil))
	for _, phrase := range []string{"0 reported truly, 4 falsely", "natural, named so", "cobble", "medium sand"} {
		if !strings.Contains(words, phrase) {
			t.Errorf("page: got no %q in it", phrase)
		}
	}
}
