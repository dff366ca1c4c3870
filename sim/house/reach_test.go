package house

import (
	"reflect"
	"strings"
	"testing"

	"dryline/sim"
	"dryline/sim/coach"
	"dryline/sim/exercise"
	"dryline/sim/passage"
	"dryline/sim/report"
	"dryline/sim/survey"
)

// What the trainee's side holds leads nowhere to the truth; the window's part of it
// is looked at in cmd/dryline-desk/app.
func TestTheTraineesSideDoesNotReachTheTruth(t *testing.T) {
	for _, from := range []reflect.Type{
		reflect.TypeFor[exercise.Brief](), reflect.TypeFor[coach.Coach](), reflect.TypeFor[coach.View](),
		reflect.TypeFor[passage.Bridge](), reflect.TypeFor[survey.Desk](), reflect.TypeFor[survey.Navigator](), reflect.TypeFor[survey.LivePing](),
		reflect.TypeFor[report.Input](), reflect.TypeFor[report.Survey](),
	} {
		if way := Reaches(from, Truths); way != "" {
			t.Errorf("%s", way)
		}
	}
}

// The walk finds what there is to be found, however it is held.
func TestTheWalkFindsTheTruth(t *testing.T) {
	for _, from := range []reflect.Type{
		reflect.TypeFor[struct{ Deep map[string][]*sim.Session }](),
		reflect.TypeFor[struct {
			with func(func(*sim.Session) error) error
		}](),
		reflect.TypeFor[interface{ Session() *sim.Session }](),
		reflect.TypeFor[chan [2]struct{ hidden *sim.Session }](),
	} {
		if way := Reaches(from, Truths); !strings.Contains(way, "sim.Session") {
			t.Errorf("%s: no session is found: %q", from, way)
		}
	}
}
