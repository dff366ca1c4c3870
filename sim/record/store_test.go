package record

import (
	"errors"
	"math"
	"os"
	"reflect"
	"runtime"
	"slices"
	"testing"

	"dryline/sim/survey"
	"dryline/vessel/nav"
	"dryline/vessel/nav/geodesy"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"
)

// drawn fills a struct with drawn numbers and text, field by field, so that one
// added later is drawn as well.
func drawn(t *rapid.T, v reflect.Value, name string) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			drawn(t, v.Field(i), v.Type().Field(i).Name)
		}
	case reflect.Float64:
		v.SetFloat(rapid.SampledFrom([]float64{0, 1, -1.5, math.Pi, math.Inf(1), math.SmallestNonzeroFloat64, math.MaxFloat64}).Draw(t, name))
	case reflect.String:
		v.SetString(rapid.SampledFrom([]string{"", "no heading", "the beacon has fallen silent"}).Draw(t, name))
	case reflect.Bool:
		v.SetBool(rapid.Bool().Draw(t, name))
	case reflect.Int:
		v.SetInt(int64(rapid.IntRange(-9, 99).Draw(t, name)))
	case reflect.Uint8, reflect.Uint16:
		v.SetUint(uint64(rapid.Uint8().Draw(t, name)))
	default:
		t.Fatalf("%s is a %s, which the store does not keep", name, v.Kind())
	}
}

// plain keeps what a store is given in slices: what it must give back.
type plain struct {
	lines    []Line
	logging  bool
	pings    []Ping
	readings []nav.Reading
}

func (p *plain) between(from, to uint64) (out []Ping) {
	for _, q := range p.pings {
		if q.Number >= from && q.Number <= to {
			out = append(out, q)
		}
	}
	return out
}

var alike = cmpopts.EquateEmpty()

func TestStoreAgainstSlices(t *testing.T) {
	folder := t.TempDir()
	rapid.Check(t, func(t *rapid.T) {
		backing := InMemory()
		if rapid.Bool().Draw(t, "on disk") {
			var err error
			if backing, err = OnDisk(folder); err != nil {
				t.Fatal(err)
			}
		}
		s, want := New(backing), plain{}
		defer s.Close()
		s.blockSize = rapid.IntRange(1, 4000).Draw(t, "block")
		set := survey.Recorder{RangeScale: 50, Samples: 10, Channels: []string{"a"}}
		number, now := uint64(rapid.IntRange(0, 5).Draw(t, "first")), 0.0
		for range rapid.IntRange(0, 60).Draw(t, "steps") {
			switch rapid.IntRange(0, 9).Draw(t, "what") {
			case 0:
				l := Line{Name: rapid.SampledFrom([]string{"L1", "L2"}).Draw(t, "line"), Track: geodesy.Track{BX: rapid.Float64Range(0, 9).Draw(t, "bx")}}
				s.StartLine(l.Name, l.Track)
				want.lines, want.logging = append(want.lines, l), true
			case 1:
				s.EndLine()
				want.logging = false
			case 2:
				set.RangeScale = rapid.SampledFrom([]float64{50, 75}).Draw(t, "range scale")
			case 3, 4:
				var r nav.Reading
				drawn(t, reflect.ValueOf(&r).Elem(), "")
				now += rapid.Float64Range(0.05, 0.2).Draw(t, "dt")
				r.Time = now
				if err := s.Read(&r); err != nil {
					t.Fatal(err)
				}
				want.readings = append(want.readings, r)
			default:
				p := survey.Ping{Number: number}
				number += uint64(rapid.IntRange(1, 3).Draw(t, "more"))
				drawn(t, reflect.ValueOf(&p.Fix).Elem(), "")
				for range rapid.IntRange(0, 3).Draw(t, "channels") {
					p.Port = append(p.Port, rows().Draw(t, "port"))
					p.Starboard = append(p.Starboard, rows().Draw(t, "starboard"))
				}
				if err := s.Append(&p, &set); err != nil {
					t.Fatal(err)
				}
				was := set
				q := Ping{Ping: cloned(&p), Line: -1, Lost: true, Recorder: &was}
				for _, row := range slices.Concat(p.Port, p.Starboard) {
					q.Lost = q.Lost && !slices.ContainsFunc(row, func(v uint16) bool { return v != 0 })
				}
				if want.logging {
					q.Line = len(want.lines) - 1
					l := &want.lines[q.Line]
					if l.Pings == 0 {
						l.First = p.Number
					}
					l.Pings, l.Last = l.Pings+1, p.Number
				}
				want.pings = append(want.pings, q)
			}
		}
		if diff := cmp.Diff(want.lines, s.Lines(), alike); diff != "" {
			t.Errorf("lines: %s", diff)
		}
		collect := func(what string, seq func(func(*Ping, error) bool), want []Ping) {
			var got []Ping
			for p, err := range seq {
				if err != nil {
					t.Fatal(err)
				}
				q := *p
				q.Ping = cloned(&p.Ping)
				got = append(got, q)
			}
			if diff := cmp.Diff(want, got, alike); diff != "" {
				t.Errorf("%s: %s", what, diff)
			}
		}
		collect("all", s.All(), want.pings)
		from, to := rapid.Uint64Range(0, number+2).Draw(t, "from"), rapid.Uint64Range(0, number+2).Draw(t, "to")
		collect("some", s.Pings(from, to), want.between(from, to))
		for i, l := range want.lines {
			var of []Ping
			if l.Pings > 0 {
				of = want.between(l.First, l.Last)
			}
			collect("of a line", s.LinePings(i), of)
		}
		one, err := s.Ping(from)
		if of := want.between(from, from); len(of) == 0 && err == nil || len(of) == 1 && (err != nil || !cmp.Equal(of[0], *one, alike)) {
			t.Errorf("ping %d: got %v, %v; want %v", from, one, err, of)
		}
		first, last := rapid.Float64Range(-1, now+1).Draw(t, "from time"), rapid.Float64Range(-1, now+1).Draw(t, "to time")
		var got, some []nav.Reading
		for r, err := range s.Readings(first, last) {
			if err != nil {
				t.Fatal(err)
			}
			got = append(got, *r)
		}
		for _, r := range want.readings {
			if r.Time >= first && r.Time <= last {
				some = append(some, r)
			}
		}
		if diff := cmp.Diff(some, got, alike); diff != "" {
			t.Errorf("readings from %g to %g s: %s", first, last, diff)
		}
	})
	left, err := os.ReadDir(folder)
	if err != nil || len(left) > 0 {
		t.Errorf("%v is left in the folder, %v", left, err)
	}
}

// On a disk that is full the first call to meet it says so, and nothing else does.
// What was kept before is still there; what comes after is missed.
func TestDiskFullIsToldOnce(t *testing.T) {
	s := New(&full{InMemory(), 60_000})
	s.blockSize = 20_000
	made := newSpeckled(2, 2000)
	told, first := 0, uint64(0)
	s.StartLine("L1", geodesy.Track{BY: 100})
	for n := range uint64(40) {
		if err := s.Append(made.next(n), &made.set); err != nil {
			if told++; !errors.Is(err, errNoRoom) {
				t.Errorf("ping %d: %v", n, err)
			}
			first = n + 1
		}
		if err := s.Read(reading(float64(n))); err != nil {
			t.Errorf("reading %d: %v", n, err)
		}
	}
	if told != 1 || !errors.Is(s.Err(), errNoRoom) {
		t.Errorf("told %d times, and at the end %v", told, s.Err())
	}
	if l := s.Lines()[0]; l.Pings != 40 || l.Last != 39 {
		t.Errorf("the line is %+v, want all 40 pings counted", l)
	}
	got, last := uint64(0), error(nil)
	for p, err := range s.LinePings(0) {
		if last = err; err == nil {
			if p.Number != got {
				t.Fatalf("ping %d comes as number %d", p.Number, got)
			}
			got++
		}
	}
	if got != first || got < 6 || !errors.Is(last, ErrNotKept) || !errors.Is(last, errNoRoom) {
		t.Errorf("%d pings and then %v, want %d and that the rest is not kept", got, last, first)
	}
	for _, err := range s.Pings(0, first-1) {
		if err != nil {
			t.Errorf("all of these were kept: %v", err)
		}
	}
	if _, err := s.Ping(first); !errors.Is(err, ErrNotKept) {
		t.Errorf("the first ping after: %v", err)
	}
	if err := s.Close(); err != nil {
		t.Error(err)
	}
}

// With no backing there are lines and counts, and no pings.
func TestNoBackingKeepsTheLines(t *testing.T) {
	s := New(nil)
	made := newSpeckled(1, 100)
	for n := range uint64(10) {
		if n == 3 {
			s.StartLine("L1", geodesy.Track{})
		}
		if err := errors.Join(s.Append(made.next(n), &made.set), s.Read(reading(float64(n)))); err != nil {
			t.Fatal(err)
		}
	}
	if l := s.Lines(); len(l) != 1 || l[0].Pings != 7 || l[0].First != 3 || l[0].Last != 9 {
		t.Errorf("lines are %+v", l)
	}
	if _, err := s.Ping(4); !errors.Is(err, ErrNotKept) {
		t.Errorf("a ping there was: %v", err)
	}
	if _, err := s.Ping(10); err == nil || errors.Is(err, ErrNotKept) {
		t.Errorf("a ping there never was: %v", err)
	}
	for _, err := range s.Readings(2, 5) {
		if !errors.Is(err, ErrNotKept) {
			t.Errorf("readings: %v", err)
		}
	}
	if err := s.Close(); err != nil {
		t.Error(err)
	}
}

// A byte of the file that changed is found, and nothing wrong handed out.
func TestDamageIsFound(t *testing.T) {
	backing := new(memory)
	s := New(backing)
	s.blockSize = 5000
	made := newSpeckled(1, 1000)
	for n := range uint64(10) {
		if err := s.Append(made.next(n), &made.set); err != nil {
			t.Fatal(err)
		}
	}
	backing.bytes[len(backing.bytes)/2] ^= 4
	last := error(nil)
	for _, err := range s.All() {
		last = err
	}
	if !errors.Is(last, errDamaged) {
		t.Errorf("got %v", last)
	}
	backing.bytes = backing.bytes[:len(backing.bytes)/3]
	for _, err := range s.All() {
		last = err
	}
	if last == nil {
		t.Error("a file cut short was read to its end")
	}
}

func TestOrderAndEnd(t *testing.T) {
	s := New(InMemory())
	made := newSpeckled(1, 10)
	if err := errors.Join(s.Append(made.next(5), &made.set), s.Read(reading(1))); err != nil {
		t.Fatal(err)
	}
	if s.Append(made.next(5), &made.set) == nil || s.Read(reading(1)) == nil || s.Read(reading(math.NaN())) == nil {
		t.Error("what comes a second time was taken")
	}
	if err := errors.Join(s.Close(), s.Close()); err != nil {
		t.Error(err)
	}
	if s.Append(made.next(6), &made.set) == nil || s.Read(reading(2)) == nil {
		t.Error("a store that is closed was added to")
	}
	if _, err := s.Ping(5); err == nil {
		t.Error("a store that is closed was read")
	}
}

// The file has no name while it is used, so that a program that is killed leaves
// nothing; where a system does not allow that, it goes with the store.
func TestNothingIsLeftOnDisk(t *testing.T) {
	folder := t.TempDir()
	backing, err := OnDisk(folder)
	if err != nil {
		t.Fatal(err)
	}
	s := New(backing)
	if files, err := os.ReadDir(folder); err != nil || runtime.GOOS != "windows" && len(files) > 0 {
		t.Errorf("%v in the folder, %v", files, err)
	}
	if err := s.Close(); err != nil {
		t.Error(err)
	}
	if files, err := os.ReadDir(folder); err != nil || len(files) > 0 {
		t.Errorf("%v is left in the folder, %v", files, err)
	}
	if _, err := OnDisk(folder + "/none"); err == nil {
		t.Error("a folder that is not there was written to")
	}
}

// It is read while it is added to: whoever goes through it has the pings there were
// when he began.
func TestReadWhileAddedTo(t *testing.T) {
	backing, err := OnDisk(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	s := New(backing)
	defer s.Close()
	s.blockSize = 10_000
	made, read := newSpeckled(1, 500), make(chan error)
	for n := range uint64(100) {
		if err := s.Append(made.next(n), &made.set); err != nil {
			t.Fatal(err)
		}
		go func() {
			next := uint64(0)
			for p, err := range s.All() {
				if err != nil || p.Number != next || len(p.Port[0]) != 500 {
					read <- errors.Join(err, errors.New("out of order"))
					return
				}
				next++
			}
			if next < n+1 {
				read <- errors.New("some are missing")
				return
			}
			read <- nil
		}()
	}
	for range 100 {
		if err := <-read; err != nil {
			t.Fatal(err)
		}
	}
}
