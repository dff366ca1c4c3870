package house

import (
	"reflect"

	"dryline/seabed"
	"dryline/sim"
	"dryline/sim/debrief"
	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/passage"
	"dryline/sonar"
	"dryline/vessel/nav"
)

// Truths are types that hold what a trainee may not know.
var Truths = []reflect.Type{
	reflect.TypeFor[exercise.Exercise](), reflect.TypeFor[exercise.Seeds](), reflect.TypeFor[exercise.Sea](),
	reflect.TypeFor[seabed.Spec](), reflect.TypeFor[seabed.World](), reflect.TypeFor[seabed.Object](),
	reflect.TypeFor[nav.Spec](), reflect.TypeFor[nav.Truth](), reflect.TypeFor[sonar.Effects](), reflect.TypeFor[sonar.Engine](),
	reflect.TypeFor[passage.Passage](), reflect.TypeFor[sim.Session](), reflect.TypeFor[sim.Witness](), reflect.TypeFor[debrief.Report](),
	reflect.TypeFor[order.Log](), reflect.TypeFor[order.Head](),
}

// Reaches finds a way from a type to one of others: through fields, exported or not,
// elements and keys, what functions take and return, and the methods of interfaces.
// It returns the way, or nothing if there is none. What stands behind an interface
// or what a function value closes over cannot be seen from a type.
func Reaches(from reflect.Type, to []reflect.Type) string {
	return (&walk{to, map[reflect.Type]bool{}}).from(from)
}

type walk struct {
	to   []reflect.Type
	seen map[reflect.Type]bool
}

// step is a type that another leads to, and by what.
type step struct {
	by string
	to reflect.Type
}

func (w *walk) from(t reflect.Type) string {
	for _, end := range w.to {
		if t == end {
			return t.String()
		}
	}
	if w.seen[t] {
		return ""
	}
	w.seen[t] = true
	for _, s := range steps(t) {
		if way := w.from(s.to); way != "" {
			return t.String() + "." + s.by + " -> " + way
		}
	}
	return ""
}

// steps are the types that a type leads to.
func steps(t reflect.Type) (out []step) {
	switch t.Kind() {
	case reflect.Pointer, reflect.Slice, reflect.Array, reflect.Chan:
		out = append(out, step{"", t.Elem()})
	case reflect.Map:
		out = append(out, step{"", t.Key()}, step{"", t.Elem()})
	case reflect.Struct:
		for i := range t.NumField() {
			out = append(out, step{t.Field(i).Name, t.Field(i).Type})
		}
	case reflect.Interface:
		for i := range t.NumMethod() {
			out = append(out, step{t.Method(i).Name, t.Method(i).Type})
		}
	case reflect.Func:
		for i := range t.NumIn() {
			out = append(out, step{"takes", t.In(i)})
		}
		for i := range t.NumOut() {
			out = append(out, step{"returns", t.Out(i)})
		}
	}
	return out
}
