package house

import (
	"reflect"
	"strings"
	"testing"

	"dryline/seabed"
	"dryline/sim"
	"dryline/sim/coach"
	"dryline/sim/exercise"
	"dryline/sim/passage"
	"dryline/sim/survey"
	"dryline/sonar"
	"dryline/vessel/nav"
)

// truths are types that hold what a trainee may not know.
var truths = []reflect.Type{
	reflect.TypeFor[exercise.Exercise](), reflect.TypeFor[exercise.Seeds](), reflect.TypeFor[exercise.Sea](),
	reflect.TypeFor[seabed.Spec](), reflect.TypeFor[seabed.World](), reflect.TypeFor[seabed.Object](),
	reflect.TypeFor[nav.Spec](), reflect.TypeFor[nav.Truth](), reflect.TypeFor[sonar.Effects](), reflect.TypeFor[sonar.Engine](),
	reflect.TypeFor[passage.Passage](), reflect.TypeFor[sim.Session](), reflect.TypeFor[sim.Witness](),
}

// reaches finds a way from a type to a truth through fields, exported or not,
// elements and keys; empty if there is none.
func reaches(t reflect.Type, seen map[reflect.Type]bool) string {
	for _, truth := range truths {
		if t == truth {
			return t.String()
		}
	}
	if seen[t] {
		return ""
	}
	seen[t] = true
	var through []reflect.Type
	names := map[reflect.Type]string{}
	switch t.Kind() {
	case reflect.Pointer, reflect.Slice, reflect.Array, reflect.Chan:
		through = append(through, t.Elem())
	case reflect.Map:
		through = append(through, t.Key(), t.Elem())
	case reflect.Struct:
		for i := range t.NumField() {
			f := t.Field(i)
			through = append(through, f.Type)
			names[f.Type] = f.Name
		}
	}
	for _, u := range through {
		if way := reaches(u, seen); way != "" {
			return t.String() + "." + names[u] + " -> " + way
		}
	}
	return ""
}

// What the trainee's side holds leads nowhere to the truth. (What a function value
// closes over cannot be seen from here.)
func TestTheTraineesSideDoesNotReachTheTruth(t *testing.T) {
	for _, from := range []reflect.Type{
		reflect.TypeFor[exercise.Brief](), reflect.TypeFor[coach.Coach](), reflect.TypeFor[coach.View](),
		reflect.TypeFor[passage.Bridge](), reflect.TypeFor[survey.Desk](), reflect.TypeFor[survey.Navigator](), reflect.TypeFor[survey.LivePing](),
	} {
		if way := reaches(from, map[reflect.Type]bool{}); way != "" {
			t.Errorf("%s", way)
		}
	}
	// And the walk would find it.
	if way := reaches(reflect.TypeFor[struct{ Deep map[string][]*sim.Session }](), map[reflect.Type]bool{}); !strings.Contains(way, "sim.Session") {
		t.Errorf("a session three steps away is not found: %q", way)
	}
}
