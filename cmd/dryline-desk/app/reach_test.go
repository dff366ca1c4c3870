package app

import (
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"dryline/cmd/dryline-desk/crew"
	"dryline/sim/house"

	"github.com/hajimehoshi/ebiten/v2"
)

// Nothing that a watch holds, shares with its pages or gets from the crew leads to
// the truth by its type. What the crew is, it knows only as [hands]; the crew owns
// the session, and the screen of a duty owns the crew.
func TestTheWatchDoesNotReachTheTruth(t *testing.T) {
	for _, from := range []reflect.Type{
		reflect.TypeFor[Watch](), reflect.TypeFor[Game](), reflect.TypeFor[hands](), reflect.TypeFor[crew.Book](), reflect.TypeFor[crew.View](),
		reflect.TypeFor[topPanel](), reflect.TypeFor[railPanel](), reflect.TypeFor[sidePanel](), reflect.TypeFor[journal](), reflect.TypeFor[action](),
		reflect.TypeFor[Desk](), reflect.TypeFor[clerks](), reflect.TypeFor[recordStation](), reflect.TypeFor[mosaicStation](), reflect.TypeFor[contactStation](), reflect.TypeFor[placingStation](), reflect.TypeFor[holidayStation](), reflect.TypeFor[reportStation](), reflect.TypeFor[standsStation](),
	} {
		if way := house.Reaches(from, append(slices.Clip(house.Truths), reflect.TypeFor[crew.Crew]())); way != "" {
			t.Errorf("%s", way)
		}
	}
	for _, owner := range []reflect.Type{reflect.TypeFor[Duty](), reflect.TypeFor[Debrief]()} { // the walk would find it
		if way := house.Reaches(owner, house.Truths); !strings.Contains(way, "crew.Crew") && !strings.Contains(way, "debrief.Report") {
			t.Errorf("%s: the crew is not found: %q", owner, way)
		}
	}
}

// Of what really stands behind the interfaces of a watch under way, none but the
// crew leads to the truth.
func TestOnlyTheCrewOfAWatchHasTheTruth(t *testing.T) {
	g, d, h := begun(t, newShelf())
	dst := ebiten.NewImage(1280, 720)
	defer dst.Deallocate()
	for tab := range tabCount {
		d.side.tab = tab
		g.Rebuild()
		h.update(t, g, time.Second/60)
		g.Draw(dst)
		var found []string
		behind(reflect.ValueOf(d.Watch), map[uintptr]bool{}, func(at reflect.Type) {
			if house.Reaches(at, house.Truths) != "" && !slices.Contains(found, at.String()) {
				found = append(found, at.String())
			}
		})
		// The journal has the window, and that the screen it shows: the duty itself.
		if slices.Sort(found); !slices.Equal(found, []string{"*app.Duty", "*crew.Crew"}) {
			t.Errorf("page %d: behind the interfaces of a watch the truth is reached through %v, want the crew and its duty alone", tab, found)
		}
	}
}

// behind tells the types that stand behind the interfaces that a value holds, and
// goes no further through those of other packages.
func behind(v reflect.Value, seen map[uintptr]bool, told func(reflect.Type)) {
	switch v.Kind() {
	case reflect.Interface:
		if !v.IsNil() {
			told(v.Elem().Type())
		}
	case reflect.Pointer:
		if v.IsNil() || seen[v.Pointer()] {
			return
		}
		seen[v.Pointer()] = true
		behind(v.Elem(), seen, told)
	case reflect.Slice, reflect.Array:
		for i := range min(v.Len(), 64) {
			behind(v.Index(i), seen, told)
		}
	case reflect.Map:
		for _, k := range v.MapKeys() {
			behind(v.MapIndex(k), seen, told)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			behind(v.Field(i), seen, told)
		}
	}
}
