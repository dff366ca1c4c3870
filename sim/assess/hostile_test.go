package assess_test

import (
	"bytes"
	"context"
	"io"
	"maps"
	"strings"
	"testing"
	"testing/fstest"

	"dryline/sim/assess"
	"dryline/sim/product"
)

func bytesTo(c []byte) func(io.Writer) error {
	return func(w io.Writer) error { _, err := w.Write(c); return err }
}

// line n of a file, from 1, changed.
func onLine(n int, change func(string) string) func([]byte) []byte {
	return func(data []byte) []byte {
		lines := strings.SplitAfter(string(data), "\n")
		lines[n-1] = change(lines[n-1])
		return []byte(strings.Join(lines, ""))
	}
}

func replaced(old, by string) func(string) string {
	return func(s string) string {
		out := strings.Replace(s, old, by, 1)
		if out == s {
			panic(old + " is not there")
		}
		return out
	}
}

// What was changed is refused in one line that says where.
func TestHostileFolders(t *testing.T) {
	k, files := flown(t, 1)
	_, other := flown(t, 2)
	of := func(name string) func([]byte) []byte { return func([]byte) []byte { return other[name].Data } }
	gone := func([]byte) []byte { return nil }
	cut := func(data []byte) []byte { return data[:len(data)/2] }
	flip := func(data []byte) []byte { data[len(data)-20] ^= 1; return data }
	records := bytes.Count(files[assess.LogFile].Data, []byte("\n"))
	for _, test := range []struct {
		what  string
		name  string
		do    func([]byte) []byte
		fault string
	}{
		{"the header edited", assess.LogFile, onLine(1, replaced("A. Trainee", "B. Trainee")), "line 1: the chain does not hold"},
		{"an order edited", assess.LogFile, onLine(2, replaced("2.1", "2.2")), "line 2: the chain does not hold"},
		{"an hour edited", assess.LogFile, onLine(4, replaced("2031", "2032")), "line 4: the chain does not hold"},
		{"the end edited", assess.LogFile, onLine(records, replaced("finished", "finishes")), "the chain does not hold"},
		{"a record taken out", assess.LogFile, onLine(3, func(string) string { return "" }), "line 3: the chain does not hold"},
		{"a record twice", assess.LogFile, onLine(3, func(s string) string { return s + s }), "line 4: the chain does not hold"},
		{"no HMAC", assess.LogFile, onLine(2, func(s string) string { return s[:strings.Index(s, `,"hmac"`)] + "}\n" }), "line 2: the record has no chain and HMAC"},
		{"the HMAC of the record before", assess.LogFile, onLine(3, func(s string) string {
			before := strings.Split(string(files[assess.LogFile].Data), "\n")[1]
			return s[:strings.Index(s, `"hmac"`)] + before[strings.Index(before, `"hmac"`):] + "\n"
		}), "line 3: its HMAC is not of this session's key"},
		{"the log of another session", assess.LogFile, of(assess.LogFile), "line 1: its HMAC is not of this session's key"},
		{"the end cut off", assess.LogFile, onLine(records, func(string) string { return "" }), "cut short"},
		{"something after the end", assess.LogFile, func(d []byte) []byte { return append(d, `{"a":1}`...) }, "something follows the end"},
		{"an empty log", assess.LogFile, func([]byte) []byte { return []byte{} }, "it is empty"},
		{"a log of 65 MB", assess.LogFile, func([]byte) []byte { return make([]byte, 65<<20) }, "longer than"},
		{"no log", assess.LogFile, gone, "is not there"},
		{"the record key of another", assess.KeyFile, of(assess.KeyFile), "line 1: its HMAC is not of this session's key"},
		{"the record key cut", assess.KeyFile, cut, assess.KeyFile},
		{"the record key flipped", assess.KeyFile, flip, assess.KeyFile},
		{"no record key", assess.KeyFile, gone, "is not there"},
		{"the exercise of another", assess.SecretFile, of(assess.SecretFile), "exercise.age: it was changed, or is of another session"},
		{"the exercise cut", assess.SecretFile, cut, "exercise.age: it was changed"},
		{"the findings of another", assess.FindingsFile, of(assess.FindingsFile), "findings.age: it was changed, or is of another session"},
		{"the findings flipped", assess.FindingsFile, flip, "findings.age: it was changed"},
		{"no findings", assess.FindingsFile, gone, "findings.age"},
	} {
		t.Run(test.what, func(t *testing.T) {
			_, err := assess.Open(with(files, test.name, test.do), k.instructor)
			if err == nil || !strings.Contains(err.Error(), test.fault) || strings.Contains(err.Error(), "\n") {
				t.Errorf("got %v, want one line with %q", err, test.fault)
			}
		})
	}
	for what, by := range map[string]keys{"another instructor": newKeys(t), "the installation": {instructor: k.installation}} {
		if _, err := assess.Open(files, by.instructor); err == nil || !strings.Contains(err.Error(), "not sealed to this key") {
			t.Errorf("%s: got %v", what, err)
		}
	}
	// A product changed in the folder is told of, and takes nothing from the evidence.
	st, _ := k.openAgain(t, with(with(files, "track.csv", flip), "lines.geojson", gone))
	if !st.Holds || len(st.Files) != 2 {
		t.Errorf("products changed: %+v", st)
	}
}

// A forger who has the installation's key, and with it the state of the log, cannot change
// what was written before.
func TestResumeRefuses(t *testing.T) {
	k := newKeys(t)
	left := func(of uint64) box {
		w, b := newWall(), box{}
		f := assess.Flight{Assessment: k.begin(t, b, w, of), Sink: &product.Memory{}, Wait: w.wait}
		if over, err := f.Fly(context.Background(), orders(), 250); err != nil || over {
			t.Fatal(over, err)
		}
		return b
	}
	one, other := left(20), left(21)
	lastOut := func(b box) {
		lines := bytes.SplitAfter(b[assess.LogFile], []byte("\n"))
		b[assess.LogFile] = bytes.Join(lines[:len(lines)-2], nil)
	}
	for _, test := range []struct {
		what  string
		do    func(b box)
		fault string
	}{
		{"the last record taken out", lastOut, "the last were taken out"},
		{"the log of another", func(b box) { b[assess.LogFile] = other[assess.LogFile] }, "of another session"},
		{"the state of another", func(b box) { b[assess.StateFile] = other[assess.StateFile] }, "of another session"},
		{"the exercise of another", func(b box) { b[assess.SecretFile] = other[assess.SecretFile] }, "of another session"},
		{"the state cut", func(b box) { b[assess.StateFile] = b[assess.StateFile][:90] }, assess.StateFile},
		{"no state", func(b box) { delete(b, assess.StateFile) }, "not exist"},
		{"an order edited", func(b box) { b[assess.LogFile] = bytes.Replace(b[assess.LogFile], []byte("2.1"), []byte("2.2"), 1) }, "the chain does not hold"},
	} {
		b := maps.Clone(one)
		test.do(b)
		_, err := assess.Resume(b, k.installation, parseHidden(t), newWall().now)
		if err == nil || !strings.Contains(err.Error(), test.fault) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: got %v, want one line with %q", test.what, err, test.fault)
		}
	}
	if _, err := assess.Resume(one, newKeys(t).installation, parseHidden(t), newWall().now); err == nil || !strings.Contains(err.Error(), "not begun on this installation") {
		t.Errorf("on another installation: got %v", err)
	}
}

// FuzzOpen puts any bytes in the place of a file: it opens as it was or not at all.
func FuzzOpen(f *testing.F) {
	k := newKeys(f)
	w, b := newWall(), box{}
	flight := assess.Flight{Assessment: k.begin(f, b, w, 30), Sink: &product.Memory{}}
	if _, err := flight.Fly(context.Background(), orders()[:2], 5); err != nil {
		f.Fatal(err)
	}
	names := []string{assess.LogFile, assess.SecretFile, assess.KeyFile, assess.FindingsFile}
	for i, name := range names {
		f.Add(uint8(i), b[name])
		f.Add(uint8(i), []byte("age-encryption.org/v1\n-> X25519 a\nb\n--- c\n"))
	}
	f.Fuzz(func(t *testing.T, which uint8, data []byte) {
		files := fstest.MapFS{}
		for name, c := range b {
			files[name] = &fstest.MapFile{Data: c}
		}
		name := names[int(which)%len(names)]
		same := bytes.Equal(b[name], data)
		files[name] = &fstest.MapFile{Data: data}
		o, err := assess.Open(files, k.instructor)
		whole := name == assess.LogFile && bytes.HasPrefix(b[name], data[:bytes.LastIndexByte(data, '\n')+1]) // cut at a record's end
		if err == nil && !same && !whole {
			t.Errorf("%s of other bytes is opened: %+v", name, o.Log.Head)
		}
	})
}
