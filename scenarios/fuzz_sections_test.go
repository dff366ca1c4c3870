package scenarios

import (
	"math"
	"reflect"
	"slices"
	"testing"

	"dryline/sim"
)

// leaf is a single value that a file may hold: where it stands in the sections,
// and its rule.
type leaf struct {
	path []int // field by field; a list is entered without a step
	rule *rule
}

// leaves are all there are below a rule, and the lists that may be longer or
// shorter.
func leaves(u *rule, path []int) (out []leaf) {
	switch u.form {
	case mapping:
		for i, f := range u.fields {
			out = append(out, leaves(f, append(slices.Clone(path), i))...)
		}
		return out
	case list:
		out = append(out, leaf{path, u})
		return append(out, leaves(u.items, path)...)
	}
	return []leaf{{path, u}}
}

// turned sets one value of a file to one that its rule allows, as a number says:
// its bounds, what lies between them, or a name that is used elsewhere.
func turned(v reflect.Value, l leaf, n uint64) {
	u := rules()
	for _, i := range l.path {
		if v, u = inner(v, u, &n); !v.IsValid() {
			return
		}
		v, u = v.Field(i), u.fields[i]
	}
	if l.rule.form == list {
		most := min(l.rule.most, l.rule.fewest+4) // small worlds
		resize(v, l.rule.fewest+int(n%uint64(most-l.rule.fewest+1)))
		return
	}
	if v, u = inner(v, u, &n); !v.IsValid() {
		return
	}
	number := func() float64 {
		lo, hi := u.lo, u.hi
		if u.above {
			lo = math.Nextafter(lo, hi)
		}
		kind, at := n%8, float64(n/8%1e6)/1e6
		switch kind {
		case 0:
			return lo
		case 1:
			return hi
		case 2:
			return min(lo+at, hi)
		}
		return lo + at*at*(hi-lo) // more often near the lower bound
	}
	switch u.form {
	case pair:
		v.Index(0).SetFloat(number())
		n = n*0x9e3779b97f4a7c15 + 1
		v.Index(1).SetFloat(number())
	case text:
		names := u.enum
		if names == nil {
			names = []string{"L1", "L2", "-L1", "L1-low", "low", "low-low", "2031-05-14T08:30:00Z", "Fenwarra"}
		}
		if name := names[n%uint64(len(names))]; !u.filed || fileName.MatchString(name) {
			v.SetString(name)
		}
	case flag:
		v.SetBool(n%2 == 0)
	case integer:
		v.SetInt(int64(number()))
	default:
		v.SetFloat(number())
	}
}

// inner is the value itself, by way of pointers and of one of a list's items.
func inner(v reflect.Value, u *rule, n *uint64) (reflect.Value, *rule) {
	for {
		switch {
		case v.Kind() == reflect.Pointer:
			if v.IsNil() {
				v.Set(reflect.New(v.Type().Elem()))
			}
			v = v.Elem()
		case v.Kind() == reflect.Slice:
			if v.Len() == 0 {
				return reflect.Value{}, nil
			}
			i := int(*n % uint64(v.Len()))
			*n /= uint64(v.Len())
			v, u = v.Index(i), u.items
		default:
			return v, u
		}
	}
}

// resize makes a list shorter, or longer by copies of its last item.
func resize(v reflect.Value, n int) {
	for v.Kind() == reflect.Pointer {
		v = v.Elem()
	}
	for v.Len() > n {
		v.Set(v.Slice(0, v.Len()-1))
	}
	for v.Len() < n {
		item := reflect.Zero(v.Type().Elem())
		if v.Len() > 0 {
			item = copied(v.Index(v.Len() - 1))
		}
		v.Set(reflect.Append(v, item))
	}
}

// copied is a value that shares nothing with the first.
func copied(v reflect.Value) reflect.Value {
	out := reflect.New(v.Type()).Elem()
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			out.Field(i).Set(copied(v.Field(i)))
		}
	case reflect.Pointer:
		if !v.IsNil() {
			out.Set(reflect.New(v.Type().Elem()))
			out.Elem().Set(copied(v.Elem()))
		}
	case reflect.Slice:
		for i := range v.Len() {
			out = reflect.Append(out, copied(v.Index(i)))
		}
	default:
		out.Set(v)
	}
	return out
}

// FuzzSections checks what the sections make of values that each are allowed by
// themselves: that nothing gets more out of them than faults of one line, and that
// what passes is whole, finite, within the memory there is, and can be begun. It
// goes below YAML and viper, which take most of the time that Parse takes.
func FuzzSections(f *testing.F) {
	all := leaves(rules(), nil)
	var bases []*exerciseFile
	var lines []map[string]int
	for _, source := range []string{small(f), rich(f)} {
		file, r, err := read[exerciseFile]("fuzz.yaml", []byte(source), rules(), "an exercise")
		if err == nil {
			err = r.err()
		}
		if err != nil {
			f.Fatal(err)
		}
		bases, lines = append(bases, file), append(lines, r.lines)
	}
	for i := range all {
		f.Add(uint8(i%2), uint16(i), uint64(i), uint16(7*i), uint64(3*i), uint16(13*i), uint64(1+8*i))
	}
	f.Fuzz(func(t *testing.T, base uint8, a uint16, to1 uint64, b uint16, to2 uint64, d uint16, to3 uint64) {
		from := int(base) % len(bases)
		file := copied(reflect.ValueOf(bases[from])).Interface().(*exerciseFile)
		for _, change := range []struct {
			which uint16
			to    uint64
		}{{a, to1}, {b, to2}, {d, to3}} {
			turned(reflect.ValueOf(file).Elem(), all[int(change.which)%len(all)], change.to)
		}
		c := &checker{reader: &reader{report: report{file: "fuzz.yaml"}, lines: lines[from]}, file: file}
		e := assemble(c)
		if err := c.err(); err != nil {
			readable(t, err.(Faults))
			return
		}
		if at := infinite(reflect.ValueOf(e), "exercise"); at != "" {
			t.Errorf("%s is not finite", at)
		}
		if sim.MemoryOf(e, e.Sonar.RangeScale).Over(e.Plan.TimeLimit) > sim.MostMemory || e.Desk.MosaicChannel >= len(e.Sonar.Channels) || !(e.Plan.Speed > 0) {
			t.Errorf("passed though it should not have: %+v", e)
		}
		for _, run := range e.Plan.Order {
			if run.Line < 0 || run.Line >= len(e.Lines) {
				t.Errorf("the order names line %d of %d", run.Line, len(e.Lines))
			}
		}
		if to1%512 == 0 && e.Seabed.Memory() < 10e6 { // a session takes long to set up
			s, err := sim.New(e, 1)
			if err != nil {
				t.Fatalf("passed and cannot be begun: %v", err)
			}
			s.AttachMate()
			s.Advance(3)
		}
	})
}

// rich is a small world with one of everything.
func rich(t testing.TB) string {
	return edit(t, small(t), "  depth_m: 20", `  depth_m: 20
  relief: { height_m: 1, channels: [{ axis: [[0, 0], [400, 600]], width_m: 50, depth_m: 2 }] }
  bedforms:
    - { kind: waves, height_m: 0.5, wavelength_m: 12 }
    - { kind: scars, height_m: 0.3, count: 4, length_m: 50, width_m: 2 }
  sediment: { patches: [{ class: mud, area: { polygon: [[0, 0], [100, 0], [100, 100]], cover: 0.5 } }] }
  objects: [{ name: block, kind: block, at: [100, 300] }]
  pipelines: [{ name: main, path: [[20, 20], [300, 500]], diameter_m: 0.3, spans: [{ from_m: 20, to_m: 60, height_m: 1 }] }]
  placed: [{ name: stones, fewest: 1, most: 2, kinds: [{ kind: boulder }], heading_deg: 20, size: { law: normal, low: 0.5, high: 2, mean: 1 }, keep_off: [{ line: L1, distance_m: 4 }] }]`,
		"plan:\n", `sea:
  wind_kn: 10
  cast: [{ depth_m: 0, sound_speed_m_s: 1505 }, { depth_m: 9, sound_speed_m_s: 1496 }]
  currents: [{ depth_m: 0, speed_kn: 0.5, set_deg: 10 }, { depth_m: 10, speed_kn: 0.2, set_deg: 40 }]
effects:
  fish_schools: [{ at: [120, 300], depth_m: 9 }]
  gas_seeps: [{ at: [180, 300] }]
  kelp: [{ area: [[0, 0], [50, 0], [50, 50]] }]
instruments:
  gnss: { outages: [{ from_s: 60, to_s: 90 }] }
  beacon: { on: true }
score: { area: [[120, 210], [260, 210], [260, 390], [120, 390]] }
plan:
  order: [L1, -L2, L1]
`)
}

// infinite is where below v a number is not finite, empty if all are.
func infinite(v reflect.Value, at string) string {
	switch v.Kind() {
	case reflect.Float64:
		if math.IsNaN(v.Float()) || math.IsInf(v.Float(), 0) {
			return at
		}
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			return infinite(v.Elem(), at)
		}
	case reflect.Slice, reflect.Array:
		if v.Type().Elem().Kind() == reflect.Uint8 {
			return ""
		}
		for i := range v.Len() {
			if bad := infinite(v.Index(i), at); bad != "" {
				return bad
			}
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if bad := infinite(v.Field(i), at+"."+v.Type().Field(i).Name); bad != "" {
				return bad
			}
		}
	}
	return ""
}
