package scenarios

import (
	"fmt"
	"maps"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"sync"

	"dryline/seabed"
	"dryline/seabed/grid"
	"dryline/sim/course"
	"dryline/sim/survey"
	"dryline/sonar/acoustics"
	"dryline/sonar/mosaic"
	"dryline/vessel"
)

// form is the form of a value in a file.
type form int

const (
	mapping form = iota
	list
	pair // [east, north]
	number
	integer
	text
	flag
)

// rule holds what the tags of one field say:
//
//	key       name in the file
//	doc       one sentence
//	unit      as people write it
//	min, max  bounds of numbers, of list items' numbers and of coordinates
//	above     bound that is itself out of range
//	enum      name of a list in choices
//	runes     most characters of a text
//	prose     "true" if a text may have several lines
//	filed     "true" if a text becomes part of file names
//	items     fewest and most items of a list
//	required  "true" if it must be there
//	default   value when left out, as in the file
//	presets   a text that names one of the kinds of a section; see preset
//	absent    what leaving it out means, where no fixed value says so
type rule struct {
	key, doc, unit string
	form           form
	min, max       string // as written; empty for none
	lo, hi         float64
	above          bool // lo is out of range
	enum           []string
	runes          int
	prose          bool
	filed          bool
	fewest, most   int
	required       bool
	fallback       any // nil for none
	absent         string
	presets        string // the section whose kinds the value names, empty for none
	format         string
	fields         []*rule // of a mapping
	items          *rule   // of a list
}

// choices are the lists of names that the engine knows.
var choices = map[string]func() []string{
	"sediment":   seabed.SedimentNames,
	"material":   seabed.MaterialNames,
	"object":     objectKinds,
	"bedform":    bedformKinds,
	"mark":       markKinds,
	"soundspeed": func() []string { return namesOf(acoustics.SoundSpeedModels()) },
	"absorption": func() []string { return namesOf(acoustics.AbsorptionModels()) },
	"shading":    func() []string { return []string{"uniform", "hann", "hamming", "cosine"} },
	"windshape":  func() []string { return slices.Sorted(maps.Keys(vessel.WindShapes)) },
	"turn":       func() []string { return namesOf(vessel.Turns()) },
	"focus":      func() []string { return []string{"none", "fixed", "dynamic"} },
	"gnss":       func() []string { return slices.Sorted(maps.Keys(gnssModels)) },
	"depthvalues": func() []string {
		return []string{string(grid.Auto), string(grid.Up), string(grid.Down)}
	},
	"swath":    func() []string { return namesOf(survey.SwathBearings()) },
	"position": func() []string { return namesOf(survey.Positions()) },
	"rules":    ruleSets,
	"coaching": func() []string { return namesOf(course.Coachings()) },
	"law":      laws,
	"event":    eventKinds,
	"beam":     func() []string { return []string{"port", "starboard"} },
	"combine":  func() []string { return namesOf(mosaic.Combines()) },
}

func namesOf[S ~string](list []S) []string {
	names := make([]string, len(list))
	for i, s := range list {
		names[i] = string(s)
	}
	return names
}

// rules is the whole format.
var rules = sync.OnceValue(func() *rule {
	r := &rule{form: mapping, doc: "An exercise: what the sea floor is, what gear is towed over it, and what is asked of the trainee."}
	r.shape(reflect.TypeFor[exerciseFile](), "")
	return r
})

func ruleOf(f reflect.StructField) *rule {
	t := f.Tag
	r := &rule{
		key: t.Get("key"), doc: t.Get("doc"), unit: t.Get("unit"), min: t.Get("min"), max: t.Get("max"),
		required: t.Get("required") == "true", absent: t.Get("absent"), format: t.Get("format"), prose: t.Get("prose") == "true", filed: t.Get("filed") == "true",
		lo: math.Inf(-1), hi: math.Inf(1), most: math.MaxInt,
	}
	if above, ok := t.Lookup("above"); ok {
		r.min, r.above = above, true
	}
	if r.min != "" {
		r.lo = mustNumber(r.min)
	}
	if r.max != "" {
		r.hi = mustNumber(r.max)
	}
	if name := t.Get("enum"); name != "" {
		r.enum = choices[name]()
	}
	if name := t.Get("presets"); name != "" {
		r.presets, r.enum = name, presets()[name].names
	}
	if n := t.Get("runes"); n != "" {
		r.runes = int(mustNumber(n))
	}
	if lo, hi, ok := strings.Cut(t.Get("items"), ","); ok {
		r.fewest, r.most = int(mustNumber(lo)), int(mustNumber(hi))
	}
	r.shape(f.Type, t.Get("default"))
	return r
}

// shape fills in what follows from the Go type.
func (r *rule) shape(t reflect.Type, fallback string) {
	switch t.Kind() {
	case reflect.Pointer:
		r.shape(t.Elem(), fallback)
	case reflect.Struct:
		r.form = mapping
		for i := range t.NumField() {
			r.fields = append(r.fields, ruleOf(t.Field(i)))
		}
	case reflect.Slice:
		r.form = list
		item := *r
		item.fewest, item.most = 0, math.MaxInt
		item.doc = ""
		item.shape(t.Elem(), "")
		r.items = &item
	case reflect.Array:
		r.form = pair
	case reflect.Float64:
		r.form = number
		if fallback != "" {
			r.fallback = mustNumber(fallback)
		}
	case reflect.Int:
		r.form = integer
		if fallback != "" {
			r.fallback = int(mustNumber(fallback))
		}
	case reflect.String:
		r.form = text
		if fallback != "" {
			r.fallback = fallback
		}
	case reflect.Bool:
		r.form = flag
		if fallback != "" {
			r.fallback = fallback == "true"
		}
	default:
		panic("scenarios: type of a field is not provided for")
	}
}

func mustNumber(s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		panic("scenarios: tag is not a number")
	}
	return v
}

// unprintable reports a character that the text may not hold.
func (r *rule) unprintable(c rune) bool {
	return invisible(c) && !(r.prose && (c == '\n' || c == '\t'))
}

// pattern is the same as a regular expression.
func (r *rule) pattern() string {
	switch {
	case r.filed:
		return fileNamePattern
	case r.prose:
		return `^(\t|\n|[^\p{Cc}\p{Cf}\p{Zl}\p{Zp}])*$`
	}
	return `^[^\p{Cc}\p{Cf}\p{Zl}\p{Zp}]*$`
}

// want says in words what the rule allows.
func (r *rule) want() string {
	switch r.form {
	case mapping:
		return "keys with values"
	case list:
		what := "a list"
		if r.items.form == pair {
			what = "a list of points"
		}
		switch {
		case r.most == math.MaxInt:
			return what
		case r.fewest == 0:
			return fmt.Sprintf("%s of at most %d", what, r.most)
		}
		return fmt.Sprintf("%s of %d to %d", what, r.fewest, r.most)
	case pair:
		return fmt.Sprintf("a pair [east, north], each %s", r.span())
	case number:
		return r.span()
	case integer:
		return "a whole number, " + r.span()
	case flag:
		return "true or false"
	}
	if r.enum != nil {
		return "one of " + strings.Join(r.enum, ", ")
	}
	want := fmt.Sprintf("text of 1 to %d characters", r.runes)
	if r.filed {
		want += ", " + fileNameWant
	}
	return want
}

// span is the range of a number.
func (r *rule) span() string {
	s := r.min + " to " + r.max
	if r.above {
		s = "more than " + r.min + ", at most " + r.max
	}
	return strings.TrimSpace(s + " " + r.unit)
}
