package app

import (
	"errors"
	"strings"
	"testing"

	"dryline/sim/exercise"
)

// In an assessment there is a view from the side only where the exercise allows it.
func TestSideViewInAnAssessment(t *testing.T) {
	for _, test := range []struct {
		help exercise.Help
		want bool
	}{
		{exercise.Help{}, true},
		{exercise.Help{SideView: true}, true},
		{exercise.Help{Assessed: true}, false},
		{exercise.Help{Assessed: true, SideView: true}, true},
	} {
		p := &post{brief: &exercise.Brief{Help: test.help}}
		if got := p.sideView(); got != test.want {
			t.Errorf("%+v: got %v", test.help, got)
		}
	}
}

// The page at the end says where the folder is, or that nothing is lost, and no points.
func TestHandedInSaysNoPoints(t *testing.T) {
	for _, test := range []struct {
		came *handedIn
		want string
	}{
		{nil, "Being handed in"},
		{&handedIn{where: "out/a"}, "out/a"},
		{&handedIn{err: errors.New("disk full")}, "kept under way"},
	} {
		says := strings.Join((&HandedIn{came: test.came}).says(), "\n")
		if !strings.Contains(says, test.want) || strings.Contains(says, "points") {
			t.Errorf("%+v: %q", test.came, says)
		}
	}
}
